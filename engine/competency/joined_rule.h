// The yearly check's rule of three parts, its error rates known before anyone is tested: enough stations
// right, no confirmed critical miss, and not too many normal labours called abnormal. Exact for stations that
// are independent given the candidate; the simulated candidates of engine/trial try the same rule on real
// attempts.
#pragma once

#include "engine/competency/figure.h"

#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace engine {

// What a station can cost beside its own point.
enum class StationKind : std::uint8_t {
    plain,     // nothing
    normal,    // a normal labour: may be called abnormal
    critical,  // one that must not be missed
};

// One station and one candidate.
struct StationChances {
    StationKind kind = StationKind::plain;
    double right = 0.9;
    double over_called = 0;   // normal: wrong by calling it abnormal; at most 1 - right
    double missed = 0;        // critical: wrong by a critical miss; at most 1 - right
    double missed_again = 0;  // critical: the station drawn after a miss is missed too
};

// 21 of 25, 11 of 14 normals not over-called [practice]; a critical miss draws one other station of its kind
// and only a second miss is confirmed [practice]. The first miss stays a wrong station either way.
struct JoinedRule {
    int mark = 21;
    int least_normals_passed = 11;
    bool redraw = true;  // false: one critical miss fails
};

struct JoinedPass {
    double passes = 0;                                                          // all three
    double enough_right = 0, no_confirmed_miss = 0, enough_normals_passed = 0;  // each part alone
};

// Empty, or why the rule cannot be applied to these stations.
std::string fault_of(const JoinedRule& rule, std::span<const StationChances> stations);
JoinedPass passes(const JoinedRule& rule, std::span<const StationChances> stations);

// How a wrong answer of the yearly check goes wrong. 1 and 1 is the harshest reading: every wrong normal is
// an over-call, every wrong critical station a critical miss.
struct WrongShares {
    double over_called = 1, missed = 1;
};
// `ability` right at every station alike, on the redrawn ones too.
std::vector<StationChances> alike_stations(double ability, int normal, int critical, int plain,
                                           const WrongShares& wrong = {});

}  // namespace engine
