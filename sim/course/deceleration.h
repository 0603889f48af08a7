// What happens to the baby's rate on top of its baseline: rises and slowings, tied to contractions, movement
// or time.
#pragma once

#include "sim/course/bump.h"
#include "sim/course/contraction.h"
#include "sim/course/late_slowing.h"
#include "sim/course/response.h"
#include "sim/patient.h"
#include "sim/random.h"

#include <array>

namespace sim {

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
    // Things without a fixed cause come at their own random moments: the n-th when the clock passes its
    // threshold.
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
        std::int32_t awaits = 0;                        // contraction whose coming is awaited
        bool done = false;                              // by time: has been
        Happenings own;                                 // by movement, with a rate of its own
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
