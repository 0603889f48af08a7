// The mother's heart rate: her pulse at rest, breathing, pain, pushing.
#pragma once

#include "sim/course/variability.h"
#include "sim/patient.h"
#include "sim/random.h"

namespace sim {

class MaternalRate {
public:
    MaternalRate() = default;
    MaternalRate(const Mother& mother, Seed seed);
    // `squeeze`: womb pressure over its usual peak, 0..1. `warmer_c`: against the temperature she came with.
    double step(std::int64_t tick, double squeeze, bool push_spell, double warmer_c);
    double push_share() const { return push_; }

private:
    Mother mother_;
    Seed seed_;
    Wander slow_;
    Swing low_, breath_;
    double pain_ = 0, push_ = 0;
};

}  // namespace sim
