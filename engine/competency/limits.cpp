#include "engine/competency/limits.h"

#include "engine/competency/distributions.h"

#include <array>
#include <cmath>

namespace engine {
namespace {

const char* const too_few = "limits need 2 counts";

// Half-width around `off_centre` that holds 95 % of a standard normal.
double half_width(double off_centre) {
    double r = z95 + 0.5 * z95 * off_centre * off_centre;
    if (off_centre > 1) r = off_centre + 1.6448536269514722;
    for (int i = 0; i < 60; ++i) {
        const double held = normal_cdf(off_centre + r) - normal_cdf(off_centre - r);
        const double step = (held - 0.95) / (normal_density(off_centre + r) + normal_density(off_centre - r));
        r -= step;
        if (std::fabs(step) < 1e-14 * r) break;
    }
    return r;
}

constexpr int nodes = 48;
constexpr double reach = 9;  // in standard errors of the mean

// P(bias -+ k sd holds at least 95 % of the counts), by the trapezium rule over the mean (even: half of it).
double chance_of_holding(double k, double n, const std::array<double, nodes + 1>& r) {
    double sum = 0;
    for (int i = 0; i <= nodes; ++i) {
        const double u = reach * i / nodes;
        const double scaled = r[static_cast<std::size_t>(i)] / k;
        const double weight = (i == 0 ? 1.0 : 2.0) * normal_density(u) * reach / nodes;
        sum += weight * chi_squared_at_least((n - 1) * scaled * scaled, n - 1);
    }
    return sum;
}

double pair_factor(double wanted, double n, const std::array<double, nodes + 1>& r) {
    // Howe's approximation, then a bracket about it, then the false position (Illinois).
    const double guess = z95 * std::sqrt((1 + 1 / n) * (n - 1) / chi_squared_quantile(1 - wanted, n - 1));
    const auto off = [&](double k) { return chance_of_holding(k, n, r) - wanted; };
    double low = guess * 0.99, high = guess * 1.01, f_low = off(low), f_high = off(high);
    while (f_low > 0) high = low, f_high = f_low, f_low = off(low *= 0.95);
    while (f_high < 0) low = high, f_low = f_high, f_high = off(high *= 1.05);
    int same_side = 0;
    for (int i = 0; i < 200 && high - low > 1e-12 * high; ++i) {
        const double k = (low * f_high - high * f_low) / (f_high - f_low), f = off(k);
        if (std::fabs(f) < 1e-14) return k;
        if (f < 0) {
            low = k, f_low = f;
            if (same_side == -1) f_high /= 2;
            same_side = -1;
        } else {
            high = k, f_high = f;
            if (same_side == 1) f_low /= 2;
            same_side = 1;
        }
    }
    return low + (high - low) / 2;
}

}  // namespace

LimitFactors single_limit_factors(std::size_t n) {
    if (n < 2) return {Figure::absent(too_few), Figure::absent(too_few)};
    const double count = static_cast<double>(n), root = std::sqrt(count);
    return {noncentral_t_quantile(0.025, count - 1, z95 * root) / root,
            noncentral_t_quantile(0.975, count - 1, z95 * root) / root};
}

LimitFactors pair_limit_factors(std::size_t n) {
    if (n < 2) return {Figure::absent(too_few), Figure::absent(too_few)};
    const double count = static_cast<double>(n);
    std::array<double, nodes + 1> r;
    for (int i = 0; i <= nodes; ++i)
        r[static_cast<std::size_t>(i)] = half_width(reach * i / nodes / std::sqrt(count));
    return {pair_factor(0.025, count, r), pair_factor(0.975, count, r)};
}

Limits limits_of_agreement(std::size_t n, const Figure& bias_bpm, const Figure& sd_bpm) {
    if (n < 2 || !bias_bpm || !sd_bpm) {
        const std::string why = n < 2 ? too_few : !bias_bpm ? bias_bpm.why() : sd_bpm.why();
        const Figure none = Figure::absent(why);
        const Interval nothing = Interval::absent(why);
        return {none, none, none, none, nothing, nothing, nothing, nothing, false, why};
    }
    const double count = static_cast<double>(n), bias = *bias_bpm, sd = *sd_bpm;
    const double low = bias - z95 * sd, high = bias + z95 * sd;
    const double error = sd * std::sqrt(1 / count + z95 * z95 / (2 * (count - 1)));
    double half = 0, inner = 0, outer = 0;
    if (sd > 0) {
        const LimitFactors factors = single_limit_factors(n);
        half = t_quantile(0.975, count - 1) * error;
        inner = *factors.inner * sd;
        outer = *factors.outer * sd;
    }
    std::string remark;
    if (sd == 0)
        remark = "all differences equal: counts come in whole beats, the true spread is not 0";
    else if (n < 10)
        remark = "fewer than 10 counts";
    else if (n < 30)
        remark = "wide: fewer than 30 counts";
    return {low,
            high,
            error,
            sd * std::sqrt(3 / count),
            {low - half, low + half},
            {high - half, high + half},
            {bias - outer, bias - inner},
            {bias + inner, bias + outer},
            n >= 10,
            remark};
}

Limits limits_of_agreement(const CountErrors& errors) {
    return limits_of_agreement(errors.n(), errors.bias_bpm(), errors.sd_bpm());
}

}  // namespace engine
