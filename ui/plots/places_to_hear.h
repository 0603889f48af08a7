// The numbers of "what to do next time" on a strip, each at the moment it can be heard again. On screen and
// paper.
#pragma once

#include "engine/scoring/score_sheet.h"
#include "ui/plots/strip.h"

#include <vector>

namespace ui {

struct PlaceToHear {
    int number = 1;  // as in the list of words
    double at_s = 0;
    Point at;  // middle of its disc, in the strip's own box
    double radius = 8;
};

// Those inside the view, in the lane of what was heard; one that would lie on another stands beside it.
std::vector<PlaceToHear> places_to_hear(const std::vector<engine::NextTime>& next_time,
                                        const StripFrame& frame, double scale);
void draw_places_to_hear(Canvas& canvas, const std::vector<PlaceToHear>& places, const Theme& theme);

}  // namespace ui
