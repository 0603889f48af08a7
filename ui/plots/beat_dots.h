// Every beat as a dot: the rate from one beat to the next over time. What a count goes by, beat by beat; a
// missing or an early beat stands out at once.
#pragma once

#include "sim/beats/beat_train.h"
#include "ui/canvas/canvas.h"

#include <span>
#include <vector>

namespace ui {

struct BeatDot {
    double at_s = 0;
    double bpm = 0;  // 60 / time since the beat before
};
// Beats that happened and have one before them, in [from, to).
std::vector<BeatDot> beat_dots(std::span<const sim::Beat> train, double from_s, double to_s);

struct BeatDots {
    std::vector<BeatDot> baby, second_baby, mother;
    double from_s = 0, to_s = 60;
    double normal_from_bpm = 110, normal_to_bpm = 160;
};
void draw_beat_dots(Canvas& canvas, Box box, const BeatDots& dots, const Theme& theme);

}  // namespace ui
