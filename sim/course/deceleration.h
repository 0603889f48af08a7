// What happens to the baby's rate on top of its baseline: rises and slowings, tied to contractions, movement or time.
#pragma once

#include "sim/course/contraction.h"
#include "sim/course/response.h"
#include "sim/patient.h"
#include "sim/random.h"

#include <array>

namespace sim {

// A late slowing follows the pressure above a threshold, after a delay, through two equal lags: its depth is reached
// after the peak and it is back when the author said.
struct LateShape {
    double threshold_mmhg = 20, delay_s = 8, lag_s = 10;
    double peak = 0.75;   // what a usual contraction drives the second lag to: makes the depth the true depth

    // For the usual contraction of this labour: back within 5 bpm of the baseline `back_after_s` after it is no
    // longer felt.
    static LateShape fitted(const ContractionShape& usual, double depth_bpm, double back_after_s);
    // What the usual contraction does to the rate by this shape.
    struct Dip {
        double peak, onset_s, nadir_s, back_s;  // seconds from the contraction's peak; level crossed down, up
    };
    Dip dip(const ContractionShape& usual, double level_share) const;
};

// A rise or fall with fixed times, from its beginning.
struct Bump {
    double from_s = 0;
    double size_bpm = 0;          // positive; the kind says whether up or down
    double down_s = 0, stay_s = 0, up_s = 0;
    double before_bpm = 0, after_bpm = 0;  // shoulders: a small rise just before and after a variable slowing
    bool slow_tail = false;       // prolonged: leaves and returns by a lag
    bool on = false;

    double at(double time_s) const;
    double whole_s() const;
};

// All events of one baby.
class BabyEvents {
public:
    BabyEvents() = default;
    BabyEvents(const Patient& patient, int baby, Seed seed);

    struct Change {
        double rise_bpm = 0, fall_bpm = 0;
        bool moving = false;
    };
    Change step(std::int64_t tick, const Womb& womb, const Response& response, bool well);

private:
    // Things without a fixed cause come at their own random moments: the n-th when the clock passes its threshold.
    struct Happenings {
        double mean_gap_s = 0, least_gap_s = 0;
        double next_s = 1e15;
        std::int64_t number = 0;
    };
    struct Running {
        LateShape late;
        double first_lag = 0, second_lag = 0;
        std::array<Bump, 2> bumps{};
        std::array<bool, Womb::remembered> answered{};  // of the last contractions, by number
        std::int32_t awaits = 0;     // contraction whose coming is awaited
        bool done = false;           // by time: has been
        Happenings own;              // by movement, with a rate of its own
    };
    void start(Running& running, const BabyEvent& event, int which, std::uint64_t thing, double from_s);
    bool answers(const BabyEvent& event, int which, std::int32_t number, double at_s) const;
    double follow(Running& running, const BabyEvent& event, int which, const Womb& womb, double now_s);
    bool due(Happenings& happenings, int which, double now_s);

    Baby baby_;
    Seed seed_;
    int which_ = 0;
    double usual_height_ = 45;
    std::array<Running, FixedList<BabyEvent, 12>::capacity> running_{};
    Happenings movements_, rises_;
    std::array<Bump, 2> own_rises_{};
    double moving_until_s_ = -1;
};

}  // namespace sim
