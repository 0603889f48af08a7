// Which habit of fence, watch or ear many counts without taps show; from one count nobody can tell them
// apart.
#pragma once

#include "engine/competency/line_fit.h"

#include <span>
#include <string>

namespace engine {

// One count without taps: tally minus the beats of the nominal window.
struct UntappedCount {
    double rate_bpm = 0, window_s = 0, surplus_beats = 0;
};

// Surplus = fencepost + late-by x rate/60 + miss x rate window/60. Needs two rates and two windows, and 9
// counts.
struct Habits {
    Coefficient fencepost_beats, window_late_s, missed_share;
    Figure residual_sd_beats;
    // Empty, or "not separable": the interval spans 0, so the trainee must not be told of this habit.
    std::string fencepost_remark, window_remark, missed_remark;
};
Habits habits_of(std::span<const UntappedCount> counts);

}  // namespace engine
