#include "engine/competency/refresher.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace engine {

double Forgetting::share_right(double months) const {
    return untrained + (after_training - untrained) * std::exp2(-months / half_life_months);
}

Figure Forgetting::due_months(double target) const {
    if (target <= untrained) return Figure::absent("never: the target is not above what the untrained reach");
    if (target >= after_training) return 0.0;
    return half_life_months * std::log2((after_training - untrained) / (target - untrained));
}

double next_half_life(double half_life_months, bool passed) {
    return passed ? std::max(half_life_months, std::min(12.0, 1.8 * half_life_months))
                  : std::max(0.5, half_life_months / 2);
}

namespace {

constexpr double least = -3.0, most = 6.0;  // ln months: 0.05 to 400

// The highest point of a function of ln H: a grid, then golden section.
template <typename Height>
double highest(Height height) {
    constexpr int cells = 180;
    double best = least, top = height(least);
    for (int i = 1; i <= cells; ++i) {
        const double x = least + (most - least) * i / cells;
        if (const double h = height(x); h > top) top = h, best = x;
    }
    const double step = (most - least) / cells;
    double low = std::max(least, best - step), high = std::min(most, best + step);
    constexpr double golden = 0.6180339887498949;
    for (int i = 0; i < 80; ++i) {
        const double a = high - golden * (high - low), b = low + golden * (high - low);
        if (height(a) > height(b))
            high = b;
        else
            low = a;
    }
    return (low + high) / 2;
}

}  // namespace

HalfLife half_life(const Forgetting& curve, std::span<const LaterCheck> checks) {
    assert(curve.untrained > 0 && curve.after_training < 1 && curve.untrained < curve.after_training);
    const auto likelihood = [&](double ln_h) {
        Forgetting at = curve;
        at.half_life_months = std::exp(ln_h);
        double sum = 0;
        for (const LaterCheck& c : checks) {
            assert(c.right >= 0 && c.right <= c.items && c.months >= 0);
            const double p = at.share_right(c.months);
            sum += c.right * std::log(p) + (c.items - c.right) * std::log1p(-p);
        }
        return sum;
    };
    const double alone = highest(likelihood);
    const double with_prior = highest([&](double ln_h) {
        const double off = (ln_h - std::log(6.5)) / 0.7;
        return likelihood(ln_h) - off * off / 2;
    });
    HalfLife found{std::exp(alone), std::exp(with_prior),
                   checks.size() < 5 ? "estimate mostly assumption" : ""};
    if (checks.empty())
        found.from_checks_alone = Figure::absent("no checks");
    else if (std::none_of(checks.begin(), checks.end(), [](const LaterCheck& c) { return c.months > 0; }))
        found.from_checks_alone = Figure::absent("no time had passed at any check");
    else if (likelihood(alone) - likelihood(least) < 1e-6)
        found.from_checks_alone = Figure::absent("the checks show no skill left at any time");
    else if (alone > most - 0.01)
        found.from_checks_alone = Figure::absent("the checks show no forgetting");
    return found;
}

std::vector<double> schedule(Forgetting curve, double target, int refreshers) {
    std::vector<double> gaps;
    for (int i = 0; i < refreshers; ++i) {
        const Figure due = curve.due_months(target);
        if (!due) break;
        gaps.push_back(*due);
        curve.half_life_months = next_half_life(curve.half_life_months, true);
    }
    return gaps;
}

}  // namespace engine
