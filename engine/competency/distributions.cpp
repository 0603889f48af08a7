#include "engine/competency/distributions.h"

#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace engine {
namespace bm = boost::math;

double normal_density(double z) { return std::exp(-0.5 * z * z) / std::sqrt(2 * std::numbers::pi); }
double normal_cdf(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }
double normal_quantile(double p) { return bm::quantile(bm::normal(), p); }

double t_quantile(double p, double degrees) { return bm::quantile(bm::students_t(degrees), p); }
double f_quantile(double p, double above, double below) {
    return bm::quantile(bm::fisher_f(above, below), p);
}
double chi_squared_at_least(double x, double degrees) {
    using Fast =
        bm::policies::policy<bm::policies::promote_double<false>>;  // asked for hundreds of times a figure
    return bm::cdf(bm::complement(bm::chi_squared_distribution<double, Fast>(degrees), x));
}
double chi_squared_quantile(double p, double degrees) { return bm::quantile(bm::chi_squared(degrees), p); }
double beta_quantile(double p, double a, double b) { return bm::quantile(bm::beta_distribution<>(a, b), p); }

double log_gamma(double x) { return bm::lgamma(x); }
double log_choose(double n, double k) { return log_gamma(n + 1) - log_gamma(k + 1) - log_gamma(n - k + 1); }
double log_beta(double a, double b) { return log_gamma(a) + log_gamma(b) - log_gamma(a + b); }

double binomial_exactly(int successes, int trials, double p) {
    if (successes < 0 || successes > trials) return 0;
    return bm::pdf(bm::binomial(trials, p), successes);
}

double binomial_at_least(int successes, int trials, double p) {
    if (successes <= 0) return 1;
    if (successes > trials) return 0;
    return bm::cdf(bm::complement(bm::binomial(trials, p), successes - 1));
}

double hypergeometric_at_least(int common, int drawn, int marked, int all) {
    assert(drawn >= 0 && marked >= 0 && drawn <= all && marked <= all);
    double sum = 0;
    for (int k = std::max({common, 0, drawn + marked - all}); k <= std::min(drawn, marked); ++k)
        sum += std::exp(log_choose(marked, k) + log_choose(all - marked, drawn - k) - log_choose(all, drawn));
    return std::min(sum, 1.0);
}

namespace {

// P(T <= t) with T = (Z + delta) / W, W the root of a chi-squared over its degrees: the mean of Phi(t W -
// delta).
double noncentral_t_cdf(double t, double degrees, double delta) {
    constexpr int nodes = 400;
    const double reach = 10 / std::sqrt(2 * degrees);
    const auto log_density = [&](double w) { return (degrees - 1) * std::log(w) - degrees * w * w / 2; };
    const double at_one = log_density(1);
    double sum = 0, weights = 0;
    for (int i = 0; i <= nodes; ++i) {
        const double w = 1 + reach * (2.0 * i / nodes - 1);
        const double weight = std::exp(log_density(w) - at_one);
        sum += weight * normal_cdf(t * w - delta);
        weights += weight;
    }
    return sum / weights;
}

}  // namespace

double noncentral_t_quantile(double p, double degrees, double delta) {
    if (degrees <= 300) return bm::quantile(bm::non_central_t(degrees, delta), p);
    const double spread = 12 * std::sqrt(1 + delta * delta / (2 * degrees));
    double low = delta - spread, high = delta + spread;
    while (high - low > 1e-11 * std::max(1.0, std::fabs(low))) {
        const double middle = low + (high - low) / 2;
        if (middle <= low || middle >= high) break;
        (noncentral_t_cdf(middle, degrees, delta) < p ? low : high) = middle;
    }
    return low + (high - low) / 2;
}

}  // namespace engine
