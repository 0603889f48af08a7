// One rise or slowing with times of its own: accelerations, variable and prolonged slowings.
#pragma once

#include "sim/patient.h"

namespace sim {

// A rise or fall with fixed times, from its beginning.
struct Bump {
    double from_s = 0;
    double size_bpm = 0;  // positive; the kind says whether up or down
    double down_s = 0, stay_s = 0, up_s = 0;
    double shoulder_bpm = 0, shoulder_s = 15;  // a small rise just before and after a variable slowing
    bool slow_tail = false;                    // prolonged: leaves and returns by a lag
    bool on = false;

    double at(double time_s) const;
    // How far it holds the rate at its furthest, 0..1.
    double held(double time_s) const;
    double whole_s() const;
};

// What chance decides of one bump, each 0..1.
struct BumpChance {
    double fall = 0.5, back = 0.5, shoulder = 0.5;
};

// The bump of an event that begins at `from_s`. Shapes [practice], limits NICHD 2008.
Bump bump_of(const BabyEvent& event, double from_s, const BumpChance& chance);

inline constexpr double longest_shoulder_s = 20;  // 10 to 20 s [practice]
inline constexpr double gradual_s = 32;  // onset to nadir of a gradual slowing: 30 s or more (NICHD 2008)
inline constexpr double back_within_bpm = 5;

}  // namespace sim
