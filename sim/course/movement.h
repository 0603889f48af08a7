// The baby's movements: bursts at random moments, and what they put its heart off its place.
#pragma once

#include "sim/patient.h"
#include "sim/random.h"

#include <cstdint>

namespace sim {

// Things without a fixed cause come at their own random moments: the n-th when the clock passes its
// threshold. The clock counts things expected, so that it may run faster and slower.
struct Happenings {
    double least = 0;  // gap that is always kept, part of the mean gap, 0..1
    double expected = 0, next = 0;
    std::int64_t number = -2;  // of the last one; -2 before the first look

    // On by so many expected things. True when one happens, at most once a step; draws of (seed, stream, base
    // + 16 n).
    bool due(double by, Seed seed, Stream stream, std::uint64_t base) {
        if (number != -2) expected += by;
        return expected >= next && one_happens(seed, stream, base);
    }

private:
    bool one_happens(Seed seed, Stream stream, std::uint64_t base);
};

class Movements {
public:
    Movements() = default;
    Movements(const Baby& baby, int which, Seed seed);

    // To the next grid point; `moves`: how lively against the author's number. True when a burst begins.
    bool step(double now_s, double moves);
    // A movement that belongs to a rise.
    void also_until(double until_s);
    bool moving(double now_s) const { return now_s < until_s_; }
    std::int64_t number() const { return bursts_.number; }  // of the last burst

    // Where movement has put the heart, off the place it had at the start; at most 3 cm in all.
    double x_cm() const { return x_cm_; }
    double y_cm() const { return y_cm_; }

private:
    void shift(double now_s);

    Seed seed_;
    int which_ = 0;
    bool lively_ = false;
    double per_tick_ = 0;
    Happenings bursts_;
    double until_s_ = -1;
    double shift_from_s_ = 0, shift_over_s_ = 0;  // 0 = at rest
    double from_x_cm_ = 0, from_y_cm_ = 0, to_x_cm_ = 0, to_y_cm_ = 0, x_cm_ = 0, y_cm_ = 0;
};

}  // namespace sim
