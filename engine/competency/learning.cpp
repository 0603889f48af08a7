#include "engine/competency/learning.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

namespace engine {
namespace {

constexpr double dust = 1e-10;  // states nearer than this are one state

// A chart that moves by `with` at a chance of p and by `against` otherwise, never below 0, and stops at h.
struct Walk {
    double with, against, p, h;
};

std::vector<double> signal_chances(const Walk& walk, int attempts) {
    assert(attempts >= 1 && attempts <= most_chart_attempts);
    using State = std::pair<double, double>;  // where, how likely
    std::vector<State> now{{0, 1}}, next;
    std::vector<double> chances;
    double signalled = 0;
    for (int i = 0; i < attempts; ++i) {
        next.clear();
        for (const auto& [s, chance] : now)
            for (const auto& [step, likely] : {State{walk.with, walk.p}, State{walk.against, 1 - walk.p}}) {
                if (likely == 0) continue;
                const double to = std::max(0.0, s + step);
                if (to >= walk.h - 1e-12)
                    signalled += chance * likely;
                else
                    next.push_back({to, chance * likely});
            }
        std::sort(next.begin(), next.end());
        now.clear();
        for (const State& state : next)
            if (!now.empty() && state.first - now.back().first < dust)
                now.back().second += state.second;
            else
                now.push_back(state);
        chances.push_back(std::min(signalled, 1.0));
    }
    return chances;
}

Chart chart_of(double on_right, double on_wrong, double h, const std::vector<bool>& right) {
    Chart chart;
    double s = 0;
    for (bool r : right) {
        s = std::max(0.0, s + (r ? on_right : on_wrong));
        chart.s.push_back(s);
        if (chart.signal_at == 0 && s >= h - 1e-12) chart.signal_at = static_cast<int>(chart.s.size());
    }
    return chart;
}

}  // namespace

std::string fault_of(const FailureRates& rates) {
    if (!(rates.acceptable > 0 && rates.unacceptable < 1)) return "both shares must lie inside 0 to 1";
    if (!(rates.acceptable < rates.unacceptable))
        return "the acceptable share must be below the unacceptable one";
    return "";
}

double success_step(const FailureRates& r) {
    assert(fault_of(r).empty());
    return std::log((1 - r.acceptable) / (1 - r.unacceptable));
}

double failure_step(const FailureRates& r) {
    assert(fault_of(r).empty());
    return std::log(r.acceptable / r.unacceptable);
}

Chart learning_chart(const FailureRates& rates, double h, const std::vector<bool>& right) {
    return chart_of(success_step(rates), failure_step(rates), h, right);
}

Chart monitoring_chart(const FailureRates& rates, double h, const std::vector<bool>& right) {
    return chart_of(-success_step(rates), -failure_step(rates), h, right);
}

std::vector<double> learning_signal(const FailureRates& rates, double h, double failing, int attempts) {
    return signal_chances({success_step(rates), failure_step(rates), 1 - failing, h}, attempts);
}

std::vector<double> monitoring_signal(const FailureRates& rates, double h, double failing, int attempts) {
    return signal_chances({-failure_step(rates), -success_step(rates), failing, h}, attempts);
}

Figure median_attempts(const std::vector<double>& signal) {
    const auto half = std::find_if(signal.begin(), signal.end(), [](double c) { return c >= 0.5; });
    if (half == signal.end()) return Figure::absent("fewer than half signal within these attempts");
    return static_cast<double>(half - signal.begin() + 1);
}

Figure threshold_for(const FailureRates& rates, int attempts, double false_signal) {
    if (const std::string fault = fault_of(rates); !fault.empty()) return Figure::absent(fault);
    if (attempts < 1 || attempts > most_chart_attempts)
        return Figure::absent("attempts must be 1 to " + std::to_string(most_chart_attempts));
    if (!(false_signal > 0 && false_signal < 1))
        return Figure::absent("the false-signal chance must lie inside 0 to 1");
    const auto too_often = [&](int hundredths) {
        return learning_signal(rates, hundredths / 100.0, rates.unacceptable, attempts).back() > false_signal;
    };
    int low = 0, high = 1 + static_cast<int>(100 * success_step(rates) * attempts) + 1;  // out of reach
    while (high - low > 1) {
        const int middle = low + (high - low) / 2;
        (too_often(middle) ? low : high) = middle;
    }
    return high / 100.0;
}

SequentialChart sequential_chart(const FailureRates& rates, double alpha, double beta) {
    assert(alpha > 0 && beta > 0 && alpha + beta < 1);
    const double p = -failure_step(rates), q = success_step(rates), down = q / (p + q);
    return {1 - down, down, std::log((1 - alpha) / beta) / (p + q), std::log((1 - beta) / alpha) / (p + q)};
}

}  // namespace engine
