// When her pulse matters: at the first listening, when the rate is outside the limits or near hers, after a
// change of place, and through pushing (NICE 2022 from memory); not at every listening.
#pragma once

#include "engine/scoring/evidence.h"

#include <vector>

namespace engine {

// One listening that a number, or a decision that there is a baby, rests on: why her pulse is asked for in it
// (the gravest reason), and how long it was felt there.
struct PulseAsked {
    enum Reason { nothing, first, another_place, pushing, outside, near } reason = nothing;
    double from_s = 0, apart_bpm = 0, need_s = 0, felt_s = 0;
    bool enough() const { return felt_s + 0.5 >= need_s; }
};

std::vector<PulseAsked> pulse_asked(const Evidence&);

// Of her pulse over any 15 s of the minute before it was written, the rate nearest to what was written; and
// whether that is further off than two beats of such a count.
double pulse_nearest_bpm(const Evidence&, const PulseReport&);
bool pulse_misread(const Evidence&, const PulseReport&);

}  // namespace engine
