#include "ui/paper/map_page.h"

#include "ui/canvas/surface.h"

namespace ui {

engine::Outcome<engine::Done> write_map_png(const std::vector<std::array<double, 4>>& rows, const std::string& path) {
    if (rows.empty()) return engine::Fault{path, 0, "map", "no rows", "at least one place"};
    Picture picture(800, 900);
    picture.canvas().fill({0, 0, 800, 900}, light_palette.page);
    return write_png(picture, path);
}

}  // namespace ui
