// A pass rule tried on made-up candidates before a person is: every station played and judged by the real
// code.
#pragma once

#include "engine/competency/figure.h"
#include "engine/trial/station.h"

#include <span>
#include <vector>

namespace engine {

struct StationTally {
    int tried = 0, right = 0, over_called = 0, missed = 0;
};

// What one kind of counter did at a check of these stations.
struct TrialLevel {
    SyntheticCounter counter;
    int candidates = 0;
    std::vector<StationTally> stations;
    int redrawn = 0, missed_again = 0;  // stations drawn after a critical miss
    int enough_right = 0, passed = 0;   // candidates: by the mark alone, by the joined rule
    Figure share_right;                 // of all stations

    Interval enough_right_interval() const;  // Wilson
    Interval passed_interval() const;
    // What the rules' own arithmetic says from what the stations showed:
    Figure binomial(const JoinedRule& rule) const;  // the mark alone, every station alike
    std::vector<StationChances> chances(std::span<const TrialStation> form) const;
};

// Candidates 0, 1, ... each through every station, each with a labour of their own. After a critical miss the
// next critical station of the form is tried with a new labour. Same input, same result.
TrialLevel try_rule(std::span<const TrialStation> form, const Protocol& protocol, const JoinedRule& rule,
                    const SyntheticCounter& counter, int candidates, sim::Seed seed);

}  // namespace engine
