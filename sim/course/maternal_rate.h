// The mother's heart rate: her pulse at rest, breathing, pain, pushing.
#pragma once

#include "sim/course/response.h"
#include "sim/course/variability.h"
#include "sim/patient.h"
#include "sim/random.h"

namespace sim {

class MaternalRate {
public:
    MaternalRate() = default;
    MaternalRate(const Mother& mother, Seed seed);
    // To the next grid point, every one from 0 on; 35..220 bpm. `squeeze`: womb pressure over its usual peak,
    // 0..1. `push_spell`: between the first and the last push of a contraction. Of `response`: how warm she
    // is, what the trouble does to her.
    double step(std::int64_t tick, double squeeze, bool push_spell, const Response& response);
    double push_share() const { return push_; }

private:
    Mother mother_;
    void sway_on(std::uint64_t first);

    Seed seed_;
    std::array<double, ticks_in_a_row> own_bpm_{};  // her pulse's own wander and swings
    Wander slow_;
    Swing low_, breath_;
    double push_rise_s_ = 4, push_fall_s_ = 20;
    double pain_ = 0, push_ = 0;
};

}  // namespace sim
