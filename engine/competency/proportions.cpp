#include "engine/competency/proportions.h"

#include "engine/competency/distributions.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace engine {
namespace {

const char* const of_nothing = "a share of nothing";

double d(long long n) { return static_cast<double>(n); }

Figure share(long long x, long long n, const char* why) { return n == 0 ? Figure::absent(why) : d(x) / d(n); }

}  // namespace

Interval wilson(long long successes, long long of) {
    assert(successes >= 0 && successes <= of);
    if (of == 0) return Interval::absent(of_nothing);
    const double n = d(of), p = d(successes) / n, z2 = z95 * z95;
    const double middle = p + z2 / (2 * n), below = 1 + z2 / n;
    const double half = z95 * std::sqrt(p * (1 - p) / n + z2 / (4 * n * n));
    return {successes == 0 ? 0.0 : std::clamp((middle - half) / below, 0.0, 1.0),
            successes == of ? 1.0 : std::clamp((middle + half) / below, 0.0, 1.0)};
}

Interval clopper_pearson(long long successes, long long of) {
    assert(successes >= 0 && successes <= of);
    if (of == 0) return Interval::absent(of_nothing);
    const double x = d(successes), n = d(of);
    return {successes == 0 ? 0.0 : beta_quantile(0.025, x, n - x + 1),
            successes == of ? 1.0 : beta_quantile(0.975, x + 1, n - x)};
}

Figure clopper_pearson_at_least(long long successes, long long of) {
    assert(successes >= 0 && successes <= of);
    if (of == 0) return Figure::absent(of_nothing);
    return successes == 0 ? 0.0 : beta_quantile(0.05, d(successes), d(of - successes) + 1);
}

Figure mcnemar_exact(long long only_first, long long only_second) {
    assert(only_first >= 0 && only_second >= 0);
    const long long n = only_first + only_second;
    if (n == 0) return Figure::absent("the two never differed");
    const int more = static_cast<int>(std::max(only_first, only_second));
    return std::min(1.0, 2 * binomial_at_least(more, static_cast<int>(n), 0.5));
}

Difference newcombe(long long successes1, long long of1, long long successes2, long long of2) {
    if (of1 == 0 || of2 == 0) return {Figure::absent(of_nothing), Interval::absent(of_nothing)};
    const double p1 = d(successes1) / d(of1), p2 = d(successes2) / d(of2), difference = p1 - p2;
    const Interval w1 = wilson(successes1, of1), w2 = wilson(successes2, of2);
    return {difference,
            {difference - std::hypot(p1 - *w1.low, *w2.high - p2),
             difference + std::hypot(*w1.high - p1, p2 - *w2.low)}};
}

CallFigures call_figures(const Calls& c) {
    const long long abnormal = c.abnormal_called + c.abnormal_missed,
                    normal = c.normal_called + c.normal_passed;
    const char* const no_abnormal = "no abnormal item in the form";
    const char* const no_normal = "no normal item in the form";
    const Figure sensitivity = share(c.abnormal_called, abnormal, no_abnormal);
    const Figure specificity = share(c.normal_passed, normal, no_normal);
    return {sensitivity,
            specificity,
            !sensitivity   ? sensitivity
            : !specificity ? specificity
                           : Figure(*sensitivity + *specificity - 1),
            abnormal == 0 ? Interval::absent(no_abnormal) : wilson(c.abnormal_called, abnormal),
            normal == 0 ? Interval::absent(no_normal) : wilson(c.normal_passed, normal),
            abnormal,
            normal};
}

Predictive predictive_at(const CallFigures& f, double prevalence) {
    assert(prevalence >= 0 && prevalence <= 1);
    if (!f.sensitivity) return {f.sensitivity, f.sensitivity};
    if (!f.specificity) return {f.specificity, f.specificity};
    const double hit = *f.sensitivity * prevalence, false_call = (1 - *f.specificity) * (1 - prevalence);
    const double passed = *f.specificity * (1 - prevalence), missed = (1 - *f.sensitivity) * prevalence;
    return {
        hit + false_call > 0 ? Figure(hit / (hit + false_call)) : Figure::absent("nothing is ever called"),
        passed + missed > 0 ? Figure(passed / (passed + missed)) : Figure::absent("all is always called")};
}

}  // namespace engine
