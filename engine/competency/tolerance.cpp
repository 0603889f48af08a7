#include "engine/competency/tolerance.h"

#include "engine/competency/distributions.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace engine {
namespace {

constexpr double dust = 1e-9;  // bpm: a reading on the edge is inside

// Chance of c when floor(x + U) is counted, x normal, U even over one beat.
double chance_at(double mean, double sd, double c) {
    if (sd <= 0) return std::max(0.0, 1 - std::fabs(mean - c));
    const auto g = [&](double a) {
        const double z = (a - mean) / sd;
        return (a - mean) * normal_cdf(z) + sd * normal_density(z);
    };
    return std::max(0.0, g(c + 1) - 2 * g(c) + g(c - 1));
}

struct Spread {
    double mean, sd;
    int from, to;  // counts that can be: 10 sd and a beat either way
};

Spread spread(const CountingMethod& m, double rate) {
    const double mean = rate * m.window_s / 60, sd = rate * m.watch_sd_s / 60;
    return {mean, sd, static_cast<int>(std::floor(mean - 10 * sd - 1)),
            static_cast<int>(std::ceil(mean + 10 * sd + 1))};
}

template <typename Wanted>
double chance_where(const CountingMethod& m, double rate, Wanted wanted) {
    const Spread s = spread(m, rate);
    double sum = 0;
    for (int c = s.from; c <= s.to; ++c)
        if (wanted(c * m.factor())) sum += chance_at(s.mean, s.sd, c);
    return std::min(sum, 1.0);
}

}  // namespace

const char* refused(const CountingMethod& m, double rate_bpm) {
    return rate_bpm * m.window_s / 60 < 1 ? "less than one beat in the window" : "";
}

double chance_of_count(const CountingMethod& m, double rate_bpm, int beats) {
    const Spread s = spread(m, rate_bpm);
    return chance_at(s.mean, s.sd, beats);
}

double chance_within(const CountingMethod& m, double rate_bpm, double within_bpm) {
    return chance_where(m, rate_bpm, [&](double r) { return std::fabs(r - rate_bpm) <= within_bpm + dust; });
}

double reading_sd_bpm(const CountingMethod& m, double rate_bpm) {
    const Spread s = spread(m, rate_bpm);
    double mean = 0, square = 0;
    for (int c = s.from; c <= s.to; ++c) {
        const double p = chance_at(s.mean, s.sd, c), off = c - s.mean;
        mean += p * off;
        square += p * off * off;
    }
    return m.factor() * std::sqrt(std::max(0.0, square - mean * mean));
}

Figure holds(const CountingMethod& m, double rate_bpm, double chance) {
    if (const char* why = refused(m, rate_bpm); *why) return Figure::absent(why);
    const Spread s = spread(m, rate_bpm);
    struct Step {
        double away, chance;
    };
    std::vector<Step> steps;
    for (int c = s.from; c <= s.to; ++c)
        steps.push_back({std::fabs(c * m.factor() - rate_bpm), chance_at(s.mean, s.sd, c)});
    std::sort(steps.begin(), steps.end(), [](const Step& a, const Step& b) { return a.away < b.away; });
    double sum = 0;
    for (const Step& step : steps) {
        sum += step.chance;
        if (sum >= chance - 1e-12) return step.away;
    }
    return steps.back().away;
}

Worst worst_between(const CountingMethod& m, double from_bpm, double to_bpm, double chance) {
    Worst worst;
    const auto steps = static_cast<int>(std::lround((to_bpm - from_bpm) * 10));
    for (int i = 0; i <= steps; ++i) {
        const double rate = from_bpm + i / 10.0;
        if (const Figure held = holds(m, rate, chance))
            worst.distance_bpm = std::max(worst.distance_bpm, *held);
        worst.reading_sd_bpm = std::max(worst.reading_sd_bpm, reading_sd_bpm(m, rate));
    }
    return worst;
}

double allowed_bpm(const CountingMethod& m) { return 2 * m.factor(); }

double chance_same_window(const CountingMethod& m, double rate_bpm, int beats) {
    double sum = 0;
    for (int c = -beats; c <= beats; ++c) sum += chance_at(0, rate_bpm * m.watch_sd_s / 60, c);
    return std::min(sum, 1.0);
}

double chance_wrong_side(const CountingMethod& m, double rate_bpm, double low_bpm, double high_bpm) {
    const auto normal = [&](double rate) { return rate >= low_bpm - dust && rate <= high_bpm + dust; };
    const bool truly = normal(rate_bpm);
    return chance_where(m, rate_bpm, [&](double reading) { return normal(reading) != truly; });
}

}  // namespace engine
