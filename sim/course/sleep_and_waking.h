// How lively the baby is at this moment: one variability set for good, or sleeping and waking by itself.
#pragma once

#include "sim/course/variability.h"
#include "sim/patient.h"
#include "sim/random.h"

#include <cstdint>

namespace sim {

// Quiet sleep (1F), active sleep (2F) and awake (4F) follow one another in spells of random length with a
// change-over of one to two minutes. Spell lengths [practice]: gamma of mean 22 min (at most 45), 40 min and
// 8 min; shares of all time near 30, 58 and 9 % (Pillai and James 1990).
class SleepAndWaking {
public:
    enum class State : std::uint8_t { quiet, active, awake };

    SleepAndWaking() = default;
    SleepAndWaking(const Baby& baby, double gestation_weeks, int which, Seed seed);
    // To the next grid point.
    void step(std::int64_t tick) {
        if (by_state_) step_by_state(tick);
    }

    // The set that holds now, mixed while one state gives way to the next.
    const VariabilitySet& set() const { return set_; }
    // How much it moves against what the author said; 1 over all states.
    double moves() const { return moves_; }
    State state() const { return state_; }

private:
    void step_by_state(std::int64_t tick);
    void next_spell();

    double weeks_ = 40;
    Seed seed_;
    int which_ = 0;
    bool by_state_ = false;
    bool mixing_ = false;
    State state_ = State::active, before_ = State::active;
    std::uint64_t spell_ = 0;
    double from_s_ = 0, until_s_ = 0, fade_s_ = 0;
    VariabilitySet set_ = variability_set(Variability::labour);
    double moves_ = 1;
};

}  // namespace sim
