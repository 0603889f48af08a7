// Which scenarios a quota asks for: every share met in whole numbers, everything in one scenario going
// together.
#pragma once

#include "engine/drawing/quota.h"
#include "sim/patient.h"

#include <vector>

namespace engine {

struct AskedShare {
    Case what;
    bool answers = true;  // a trouble that moves the rate answers to the right measures, or to nothing
    RateRange rate{};     // where it is to settle
    friend bool operator==(const AskedShare&, const AskedShare&) = default;
};

// Does the trouble of this case move the rate, so that measures could bring it back?
bool moves_the_rate(const Case& what);

// Is there a measure that could bring back what its cause does?
bool has_a_measure(const Case& what);

// What a value of the axis of causes is in the body.
sim::Trouble trouble_of(int cause_value);

// A fault when the quota cannot be met: the shares that do not fit, and why.
Outcome<std::vector<AskedShare>> plan_of(const Quota& quota, sim::Seed seed);

}  // namespace engine
