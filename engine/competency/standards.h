// Where the pass mark comes from, how consistent a decision is, and what retests do to the error rates.
// Angoff 1971 (modified); borderline regression; Huynh 1976.
#pragma once

#include "engine/competency/figure.h"
#include "engine/competency/line_fit.h"
#include "engine/competency/pass_rule.h"

#include <span>
#include <string>
#include <vector>

namespace engine {

// One row a judge, one column an item: the chance that a minimally competent person succeeds. No judge is
// dropped.
struct AngoffCut {
    std::vector<double> judge_cuts;  // each judge's sum over items
    Figure cut, share;               // mean of the judges, and over the number of items
    Figure sd, standard_error;
    Interval interval;   // by t
    int mark = 0;        // rounded up to the next whole item [practice]
    std::string remark;  // "fewer than 5 judges"
};
AngoffCut angoff(const std::vector<std::vector<double>>& judges);

int rounded_up(double cut);  // the next whole item; a whole number stays, dust of 1e-9 forgiven

// Checklist score against the examiner's global rating: the cut is the score the line gives a borderline
// performance. Absent when all ratings are equal, the slope is not above 0, or fewer than 10 were examined.
struct BorderlineCut {
    Figure cut, standard_error, jackknife_error;
    Interval interval;  // by t
    LineFit line;
    Figure group_mean;   // of those rated borderline, for comparison
    std::string remark;  // "the ratings explain less than 40 % of the scores"
};
BorderlineCut borderline_regression(std::span<const double> ratings, std::span<const double> scores,
                                    double borderline);

// Would the same decision fall on a second form? From one form's mean, variance (over n) and length; beta-
// binomial.
struct Consistency {
    Figure kr21, alpha, beta;
    Figure passes;  // share expected at or above the mark
    Figure same_decision, kappa;
};
Consistency decision_consistency(double mean, double variance_over_n, const FixedRule& rule);

double passes_within(double one_try, int tries);    // 1 - (1 - p)^tries
double false_pass_a_try(double in_all, int tries);  // spend a total false-pass chance over the tries

}  // namespace engine
