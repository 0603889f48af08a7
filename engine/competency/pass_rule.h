// Pass rules with their error rates known before anyone is tested: fixed length (the default for a yearly
// check) and sequential (Wald 1947; for unlimited practice checks). Shares are of items right.
#pragma once

#include "engine/competency/figure.h"

#include <span>
#include <string>
#include <vector>

namespace engine {

// The two levels a rule must tell apart: must_fail < must_pass, both inside 0..1.
struct AbilityLevels {
    double must_fail = 0.70, must_pass = 0.90;
};
std::string fault_of(const AbilityLevels& levels);  // empty when they can be used

struct FixedRule {
    int items = 25, mark = 21;  // pass with `mark` or more right

    double passes(double ability) const;  // the operating curve
    // Two tries' consistency of one person: both pass or both fail.
    double same_twice(double ability) const;
};

struct DesignedRule {
    FixedRule rule;
    double false_pass = 0, false_fail = 0;  // what it really has at the two levels
};
inline constexpr int most_items = 2000;
// The shortest rule with chances of passing <= false_pass at must_fail and of failing <= false_fail at
// must_pass. Absent, with the reason, when it would take more than most_items.
struct Design {
    Figure items;       // as rule.rule.items
    DesignedRule rule;  // only when `items` is known
};
Design design_fixed(const AbilityLevels& levels, double false_pass = 0.10, double false_fail = 0.10);

// Chance of all k critical items right: a must-pass rule multiplies false fails.
double all_critical_right(double ability, int critical_items);

enum class PassDecision { go_on, pass, fail };

struct SequentialRule {
    AbilityLevels levels;
    double false_pass = 0.05, false_fail = 0.10;  // as asked of Wald's bounds
    int least = 0, most = 0;  // no verdict before `least`; at `most`, pass if the sum >= 0; 0 = no limit

    double upper() const;  // pass at or above
    double lower() const;  // fail at or below
    double on_right() const;
    double on_wrong() const;
};

struct SequentialWalk {
    std::vector<double> sum;                     // after each item, to the verdict
    PassDecision verdict = PassDecision::go_on;  // go_on when items ran out: "not decided", never "fail"
};
SequentialWalk walk(const SequentialRule& rule, const std::vector<bool>& right);

struct Operating {
    double passes = 0, items = 0;  // chance of passing; mean number of items
};
Operating wald_approximation(const SequentialRule& rule,
                             double ability);                 // understates items by up to a fifth
Operating exact(const SequentialRule& rule, double ability);  // the figures to print

}  // namespace engine
