// The slowing that comes after a contraction: its shape, fitted to what an author says of it.
#pragma once

#include "sim/course/contraction.h"

#include <algorithm>

namespace sim {

// A late slowing follows the pressure above a threshold, after a delay, through two equal lags: its depth is
// reached after the peak and it is back when the author said.
struct LateShape {
    double threshold_mmhg = 20, delay_s = 8, lag_s = 10;
    double peak = 0.75;  // what a usual contraction drives the second lag to: makes the depth the true depth

    // For the usual contraction of this labour: back within 5 bpm of the baseline `back_after_s` after it is
    // no longer felt.
    static LateShape fitted(const ContractionShape& usual, double depth_bpm, double back_after_s);
    // What the usual contraction does to the rate by this shape.
    struct Dip {
        double peak, onset_s, nadir_s, back_s;  // seconds from the contraction's peak; level crossed down, up
    };
    Dip dip(const ContractionShape& usual, double level_share) const;
    // What drives the lags at a pressure over tone, 0..1, of a contraction of this height.
    double drive(double mmhg, double height_mmhg) const {
        return std::max(mmhg - threshold_mmhg, 0.0) / std::max(height_mmhg - threshold_mmhg, 1.0);
    }
};

}  // namespace sim
