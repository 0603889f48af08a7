// One counting station tried by a made-up counter: its events, played and judged by the same code as anybody's.
#pragma once

#include "engine/attempt/attempt.h"
#include "engine/competency/joined_rule.h"
#include "engine/outcome.h"
#include "engine/trial/counter.h"

#include <vector>

namespace engine {

// A scenario of task `count` made ready: what it asks by the key, and with what its heart can be counted.
struct CountStation {
    Scenario scenario;
    StationKind kind = StationKind::plain;     // normal; critical: 6 bpm or more below the limit; plain: the rest
    BaselineIs baseline = BaselineIs::normal;  // by the key
    sim::Instrument instrument = sim::Instrument::horn;
};

// A fault when the scenario is not a count by the watch of a heart that beats, or is shorter than 2 min.
Outcome<CountStation> count_station(const Scenario& scenario, const Protocol& protocol);

// Greets, feels her pulse, counts one minute where the heart lies, decides by the counter's own number and the protocol's
// limits, writes it down; who calls it slow also calls for help, turns her and starts the plan.
std::vector<Event> counted_minute(const CountStation& station, const Protocol& protocol,
                                  const SyntheticCounter& counter, const CandidateDraws& draws);

// A station is right when the count is within two beats or 5 bpm of the trainee's own minute, the rate written is that
// count, the window ran its minute, and the class of rate is the true one [practice].
struct StationResult {
    bool right = false;
    bool over_called = false;  // normal, called fast or slow
    bool missed = false;       // critical, and the score sheet names a critical miss
};
StationResult try_station(const CountStation& station, const Protocol& protocol, const SyntheticCounter& counter,
                          const CandidateDraws& draws);

}  // namespace engine
