// Shares with their intervals, two shares compared, and a normal / abnormal call against the truth.
// Sources: Wilson 1927; Clopper & Pearson 1934; Newcombe 1998; McNemar 1947.
#pragma once

#include "engine/competency/figure.h"

namespace engine {

Interval wilson(long long successes, long long of);  // exactly 0 at none, 1 at all
Interval clopper_pearson(long long successes, long long of);
Figure clopper_pearson_at_least(long long successes,
                                long long of);  // one-sided: 95 % sure the share is above it

// Same items, two trainees: only-first right, only-second right. Exact two-sided binomial.
Figure mcnemar_exact(long long only_first, long long only_second);

struct Difference {
    Figure value;
    Interval interval;
};
// Different items: first share minus second, from their Wilson limits.
Difference newcombe(long long successes1, long long of1, long long successes2, long long of2);

// "Positive" = truly abnormal, and called so.
struct Calls {
    long long abnormal_called = 0, abnormal_missed = 0, normal_called = 0, normal_passed = 0;
};
struct CallFigures {
    Figure sensitivity, specificity, youden;
    Interval sensitivity_interval, specificity_interval;  // Wilson
    long long abnormal_n = 0, normal_n = 0;               // what they are shares of
};
CallFigures call_figures(const Calls& calls);

// Given how common abnormal is: never the share in a form, which the instructor chose.
struct Predictive {
    Figure positive, negative;
};
Predictive predictive_at(const CallFigures& figures, double prevalence);

}  // namespace engine
