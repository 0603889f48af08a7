// Falls of the baby's rate below its settled rate, and how each sits against a contraction. By ear only two
// kinds can be claimed: over when the contraction ends, or still there after it [practice; ACNM 2007 on what
// ears can tell].
#pragma once

#include "engine/attempt/attempt.h"
#include "engine/protocol/protocol.h"

#include <vector>

namespace engine {

struct Slowing {
    sim::LabourTime from, to;    // below the settled rate by more than a third of `slowing_depth`
    sim::LabourTime deep_until;  // last moment at least `slowing_depth` below
    double depth_bpm = 0;        // deepest, step 0.001
    int contraction = -1;        // index into Played::contractions; -1: not tied to one
    bool after = false;          // still `slowing_depth` below once that contraction has ended
};

// All falls at least `slowing_depth` deep and `slowing_length` long, of a rate smoothed over 10 s.
std::vector<Slowing> slowings(const Protocol& protocol, const Played& played, int baby);

// A lasting fall of the settled rate by its cause: how far below the rate it started from, bpm; 0 when not
// fallen.
double lasting_fall_bpm(const Played& played, int baby, sim::LabourTime t);

// Fallen at t: a lasting fall or a slowing at least `slowing_depth` deep.
bool fallen_at(const Protocol&, const Played&, const std::vector<Slowing>&, int baby, sim::LabourTime t);

}  // namespace engine
