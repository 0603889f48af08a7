#include "ui/plots/places_to_hear.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace ui {

std::vector<PlaceToHear> places_to_hear(const std::vector<engine::NextTime>& next_time,
                                        const StripFrame& frame, double scale) {
    const double radius = std::min(9.0 * scale, frame.listened.h / 2 + 1);
    std::vector<PlaceToHear> places;
    for (std::size_t i = 0; i < next_time.size(); ++i) {
        const double s = next_time[i].at_s;
        if (s < frame.view.from_s || s > frame.view.to_s) continue;
        const double x =
            std::clamp(frame.x_of(s), frame.listened.x + radius, frame.listened.right() - radius);
        places.push_back({static_cast<int>(i) + 1, s, {x, frame.listened.centre().y}, radius});
    }
    std::vector<PlaceToHear*> by_x;
    for (PlaceToHear& p : places) by_x.push_back(&p);
    std::stable_sort(by_x.begin(), by_x.end(),
                     [](const auto* a, const auto* b) { return a->at.x < b->at.x; });
    const double apart = 2 * radius + 1;
    for (std::size_t i = 1; i < by_x.size(); ++i)
        by_x[i]->at.x = std::max(by_x[i]->at.x, by_x[i - 1]->at.x + apart);
    double most = frame.listened.right() - radius;
    for (std::size_t i = by_x.size(); i-- > 0; most -= apart) by_x[i]->at.x = std::min(by_x[i]->at.x, most);
    return places;
}

void draw_places_to_hear(Canvas& canvas, const std::vector<PlaceToHear>& places, const Theme& theme) {
    for (const PlaceToHear& p : places) {
        canvas.disc(p.at, p.radius + 1, theme.colour.card);
        canvas.disc(p.at, p.radius, theme.colour.ink);  // acts have their own, in the colour of acts
        canvas.text(
            {p.at.x, p.at.y + p.radius * 0.48}, fmt::format("{}", p.number),
            {.size = p.radius * 1.4, .colour = theme.colour.card, .bold = true, .align = Align::centre});
    }
}

}  // namespace ui
