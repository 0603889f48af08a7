// A pass rule as a plan shows it before anyone is tested: its length and mark, what passes at each ability,
// and what made-up candidates did under it.
#pragma once

#include "engine/competency/pass_rule.h"
#include "engine/competency/report.h"
#include "engine/outcome.h"
#include "engine/trial/trial.h"

#include <span>

namespace engine {

// 0 for a number of stations or a mark: by default. Stations: the fewest that tell the levels apart; of them
// normal and critical in the yearly check's proportion, 14 and 8 of 25 [practice]; of the normals 3 in 14 may
// be over-called.
struct RuleAsked {
    AbilityLevels levels;
    double false_pass = 0.10, false_fail = 0.10;
    int items = 0, mark = 0;  // both or neither
    int normals = -1, critical = -1, least_normals_passed = -1;
    bool redraw = true;
    WrongShares wrong;
};

struct PlannedRule {
    FixedRule fixed;
    int normals = 0, critical = 0;
    JoinedRule joined;

    std::vector<StationChances> stations(double ability, const WrongShares& wrong) const;
};

// Faults carry the option's name and no file.
Outcome<PlannedRule> planned_rule(const RuleAsked& asked);
Report rule_report(const RuleAsked& asked, const PlannedRule& rule);

// One row a kind of counter.
Report trial_report(const PlannedRule& rule, std::span<const TrialStation> form,
                    std::span<const TrialLevel> levels);

}  // namespace engine
