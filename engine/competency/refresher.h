// When to practise again: a suggested date from a borrowed forgetting curve. AN ESTIMATE, not evidence about
// any one person: no source was found for counting by ear. Half-life of the accuracy gain about 6.5 months:
// Tatel & Ackerman, procedural skills. Once a year alone meets a decayed skill; short refreshers every 2 to 4
// months do not.
#pragma once

#include "engine/competency/figure.h"

#include <span>
#include <string>
#include <vector>

namespace engine {

struct Forgetting {
    double after_training = 0.95, untrained = 0.5;  // shares right
    double half_life_months = 6.5;

    double share_right(double months) const;
    // Months until the share falls to the target: 0 = now; absent = never (the target is not above the
    // untrained).
    Figure due_months(double target) const;
};

// After a refresher: x 1.8 up to 12 months when passed (longer already: as it is), halved down to 0.5 when
// not [practice].
double next_half_life(double half_life_months, bool passed);

struct LaterCheck {
    double months = 0;  // since training
    int right = 0, items = 0;
};
struct HalfLife {
    Figure from_checks_alone;  // maximum likelihood; absent when the checks point beyond what is searched
    Figure months;             // with the prior ln H ~ N(ln 6.5, 0.7^2) [practice]
    std::string remark;        // "estimate mostly assumption" below 5 checks
};
HalfLife half_life(const Forgetting& curve,
                   std::span<const LaterCheck> checks);  // curve.half_life_months unused

// Gaps in months between refreshers, each passed.
std::vector<double> schedule(Forgetting curve, double target, int refreshers);

}  // namespace engine
