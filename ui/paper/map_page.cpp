#include "ui/paper/map_page.h"

#include "ui/canvas/surface.h"
#include "ui/plots/abdomen_map.h"

#include <fmt/format.h>

namespace ui {

engine::Outcome<engine::Done> write_map_png(const std::vector<std::array<double, 4>>& rows,
                                            const std::string& path) {
    if (rows.empty()) return engine::Fault{path, 0, "map", "no rows", "at least one place"};
    constexpr int w = 900, h = 1080;
    const Theme theme;
    MapContent content;
    content.loudness = loudness_of(rows);
    content.heart = content.loudness.best_db > -100;
    Picture picture(w, h);
    Canvas& canvas = picture.canvas();
    canvas.fill({0, 0, w, h}, theme.colour.page);
    draw_abdomen_map(canvas, content, abdomen_close_in({20, 20, w - 40, h - 110}), theme);
    const std::string says =
        content.heart
            ? fmt::format(
                  "Loudest: x {:.1f} cm, y {:.1f} cm from the navel (+x her left, +y her head), {:.1f} dB. "
                  "Lines: 3, 6 and 12 dB quieter.",
                  content.loudness.best_x, content.loudness.best_y, content.loudness.best_db)
            : std::string("No heart to be found.");
    canvas.block({24, h - 80, w - 48, 60}, says, {.size = TypeScale::text, .colour = theme.colour.ink});
    return write_png(picture, path);
}

}  // namespace ui
