// What happens to the baby's rate on top of its baseline: rises and slowings, tied to contractions, movement
// or time.
#pragma once

#include "sim/course/bump.h"
#include "sim/course/contraction.h"
#include "sim/course/late_slowing.h"
#include "sim/course/movement.h"
#include "sim/course/response.h"
#include "sim/course/variability.h"
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
        double held = 0;  // how far a variable slowing holds the rate down, 0..1
    };
    // `set`: how lively it is now, `moves`: against the author's number. `well`: a baby in trouble makes no
    // rises.
    Change step(std::int64_t tick, const Womb& womb, const Response& response, const VariabilitySet& set,
                double moves, bool well);
    const Movements& movements() const { return movements_; }

private:
    struct Running {
        LateShape late;
        double first_lag = 0, second_lag = 0;
        std::array<Bump, 2> bumps{};
        std::array<bool, Womb::remembered> answered{};      // of the last contractions, by number
        std::array<double, Womb::remembered> early_by_s{};  // how far an early slowing trails each of them
        std::int32_t awaits = 0;                            // contraction whose coming is awaited
        std::int32_t follows = 0;                           // the oldest one that still matters
        bool done = false;                                  // by time: has been
        double own_per_tick = 0;                            // by movement, with a rate of its own
        Happenings own;
    };
    double draw(int which, std::uint64_t thing, std::uint32_t purpose) const;
    void start(Running& running, const BabyEvent& event, int which, std::uint64_t thing, double from_s);
    bool answers(const BabyEvent& event, int which, std::int64_t number, double at_s) const;
    void look_for_starts(Running& running, const BabyEvent& event, int which, const Womb& womb, double now_s,
                         bool movement);
    double follow(Running& running, const BabyEvent& event, int which, const Womb& womb, double now_s);
    double rises_of_the_set(const VariabilitySet& set, double now_s, bool well);

    Baby baby_;
    Seed seed_;
    int which_ = 0;
    std::array<Running, FixedList<BabyEvent, 12>::capacity> running_{};
    Movements movements_;
    Happenings rises_;
    std::array<Bump, 6> own_rises_{};
    int own_rises_on_ = 0;  // how many of them
};

}  // namespace sim
