// Her pulse under the fingers while the beat is heard: how long both were there together, and the judgement
// by ear alone (`compare`). It settles whose heart it is, never that the rate is normal.
#pragma once

#include "engine/scoring/evidence.h"

#include <string>
#include <vector>

namespace engine {

// Seconds in [from, to) with her pulse felt.
double pulse_felt_s(const Played&, sim::LabourTime from, sim::LabourTime to);
// The same, only while an instrument lay on her.
double pulse_felt_listening_s(const Played&, sim::LabourTime from, sim::LabourTime to);

// Seconds of both together that tell two rates apart: the protocol's time, or one slip past each other when
// they are `near_pulse` bpm or less apart: 60 / difference seconds [arithmetic], at most a minute.
double pulse_needed_s(const Protocol&, double apart_bpm);

// One `compare`, judged for what it can tell.
struct BesideHerPulse {
    double at_s = 0;
    ToPulse said = ToPulse::same;
    HeardWhat heard = HeardWhat::nothing;
    double heard_bpm = 0, her_bpm = 0;    // over the seconds both were there; 0: nothing was to be heard
    double together_s = 0, needed_s = 0;  // heard with her pulse felt; asked for
    bool fits = false;                    // the word is true of the two rates
    bool supported() const { return together_s + 0.5 >= needed_s; }
    double ratio() const { return her_bpm > 0 ? heard_bpm / her_bpm : 0; }
    Verdict verdict = Verdict::not_asked;
    std::string why;  // one sentence with the figures
};

// The last one of each spell: listening on and saying it anew is never a fault.
std::vector<BesideHerPulse> compared(const Evidence&);

}  // namespace engine
