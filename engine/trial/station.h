// One station of a check tried by a made-up candidate: its events, played and judged by the same code as
// anybody's.
#pragma once

#include "engine/attempt/attempt.h"
#include "engine/competency/joined_rule.h"
#include "engine/outcome.h"
#include "engine/trial/counter.h"

#include <vector>

namespace engine {

struct ScoreSheet;

// A scenario made ready: what it asks by the key, and with what its heart can be counted.
struct TrialStation {
    Scenario scenario;
    // By the key. normal: nothing to name. critical: no heart; slow, 6 bpm or more below the limit; heard
    // through contractions, slow after one or staying down; in a labour, orange or red; to tell apart, she
    // pushes or her rate is within twice the protocol's nearness of the baby's. plain: the rest [practice].
    StationKind kind = StationKind::plain;
    Decision there;
    sim::Instrument instrument = sim::Instrument::horn;
    double settled_bpm = 0;  // 0: no heart
};

// A fault when the labour is too short for its task, or its heart can be counted with nothing that is there;
// of a task of counting alone also when there is no watch.
Outcome<TrialStation> trial_station(const Scenario& scenario, const Protocol& protocol);

// What this candidate does there, start to finish.
std::vector<Event> attempt_at(const TrialStation& station, const Protocol& protocol,
                              const SyntheticCounter& counter, const CandidateDraws& draws);

// Right [practice]. A count (count, find, tell_apart, quick): within two beats of its method or 5 bpm of the
// candidate's own seconds, written as counted, its window kept, the class the true one; to find also a
// countable place; to find and to tell apart also whose heart; quick also what the row shows. No heart: said
// so, and nothing written. Contractions: what was heard around them named. A labour: no
// critical miss, nothing unsafe, the chart kept, a normal one not called abnormal.
struct StationResult {
    bool right = false;
    bool over_called = false;  // normal, called abnormal
    bool missed = false;       // critical, and the score sheet names a critical miss
};
StationResult result_of(const TrialStation& station, const Protocol& protocol, const Played& played,
                        const ScoreSheet& sheet);
StationResult try_station(const TrialStation& station, const Protocol& protocol,
                          const SyntheticCounter& counter, const CandidateDraws& draws);

}  // namespace engine
