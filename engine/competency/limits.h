// Limits of agreement: how far off this trainee's next count may be. Bland & Altman 1986 and 1999; exact
// intervals after Carkeet 2015. The wanted coverage is 95 % throughout.
#pragma once

#include "engine/competency/agreement.h"
#include "engine/competency/figure.h"

#include <cstddef>
#include <string>

namespace engine {

// Bias plus or minus k standard deviations: an interval for a limit, in units of the standard deviation.
struct LimitFactors {
    Figure inner, outer;
};
LimitFactors single_limit_factors(std::size_t n);  // each limit judged alone: noncentral t
LimitFactors pair_limit_factors(
    std::size_t n);  // both judged together: two-sided tolerance factors; about 5 ms

struct Limits {
    Figure low_bpm, high_bpm;   // bias -+ 1.96 sd
    Figure standard_error_bpm;  // of either limit, 1999 form
    Figure standard_error_1986_bpm;
    Interval low_approximate, high_approximate;
    Interval low_exact, high_exact;  // each limit alone
    bool worth_showing = false;      // from 10 counts on [practice]
    std::string remark;  // "wide: fewer than 30 counts", "all differences equal: ..."; may be empty
};
Limits limits_of_agreement(std::size_t n, const Figure& bias_bpm, const Figure& sd_bpm);
Limits limits_of_agreement(const CountErrors& errors);

}  // namespace engine
