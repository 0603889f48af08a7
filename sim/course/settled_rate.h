// The settled rate of one baby: its baseline with its own slow wander, a rise, her fever and a lasting cause.
// What "baseline" means to a listener; swings, rises and slowings come on top.
#pragma once

#include "sim/course/response.h"
#include "sim/course/variability.h"
#include "sim/patient.h"
#include "sim/random.h"

#include <cstdint>

namespace sim {

class SettledRate {
public:
    SettledRate() = default;
    SettledRate(const Patient& patient, int baby, Seed seed);
    // To the next grid point; 40..260 bpm.
    double step(std::int64_t tick, const Response& response);

private:
    Baby baby_;
    Bpm cause_falls_to_{0};
    Seed seed_;
    int which_ = 0;
    Wander drift_;
};

}  // namespace sim
