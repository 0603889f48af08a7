#include "sim/course/bump.h"

#include "sim/exact_math.h"

#include <algorithm>

namespace sim {

namespace {

double ease(double x) { return x <= 0 ? 0 : x >= 1 ? 1 : 0.5 - 0.5 * exact_cos(pi * x); }

// Up and down again over 0..1.
double hump(double x) { return x <= 0 || x >= 1 ? 0 : 0.5 - 0.5 * exact_cos(2 * pi * x); }

// Approach by two equal lags: starts level, so that the rate has no corner.
double by_two_lags(double age_s, double lag_s) {
    if (age_s <= 0) return 0;
    const double x = age_s / lag_s;
    return x > 60 ? 1 : 1 - (1 + x) * exact_exp(-x);
}

// Two equal lags are 63 % of the way after so many of one, as one lag is after its time constant.
constexpr double constant_of_two_lags = 2.1462;

// Time, in lags, after which two equal lags have left this share.
double lags_until(double share) {
    double low = 0, high = 20;
    for (int i = 0; i < 40; ++i) {
        const double x = 0.5 * (low + high);
        ((1 + x) * exact_exp(-x) > share ? low : high) = x;
    }
    return high;
}

}  // namespace

double Bump::whole_s() const { return slow_tail ? down_s + stay_s + 12 * up_s : down_s + stay_s + up_s; }

double Bump::at(double time_s) const {
    if (!on) return 0;
    const double age = time_s - from_s;
    if (slow_tail) return size_bpm * by_two_lags(age, down_s) * (1 - by_two_lags(age - stay_s, up_s));
    double value = size_bpm * held(time_s);
    if (shoulder_bpm > 0) {
        value -= shoulder_bpm * hump(1 + age / shoulder_s);
        value -= shoulder_bpm * hump((age - whole_s()) / shoulder_s);
    }
    return value;
}

double Bump::held(double time_s) const {
    const double age = time_s - from_s;
    return on ? ease(age / down_s) * (1 - ease((age - down_s - stay_s) / up_s)) : 0;
}

Bump bump_of(const BabyEvent& event, double from_s, const BumpChance& chance) {
    Bump bump;
    bump.on = true;
    bump.from_s = from_s;
    bump.size_bpm = event.depth.value;
    const double length_s = std::max(event.length.value, 10.0);
    switch (event.kind) {
        case BabyEvent::Kind::acceleration:
            // Up in 0.3, stays 0.2, down in 0.5 of its length [practice]; up in under 30 s (NICHD 2008).
            bump.down_s = std::min(0.3 * length_s, 25.0);
            bump.up_s = std::min(0.5 * length_s, 40.0);
            break;
        case BabyEvent::Kind::variable:
            // Abrupt: onset to nadir under 30 s (NICHD 2008). Down in 5 to 20 s, back in 5 to 20 [practice];
            // a short one is quicker.
            bump.down_s = std::min(5.0 + 15.0 * chance.fall, 0.35 * length_s);
            bump.up_s = std::min(5.0 + 15.0 * chance.back, 0.4 * length_s);
            bump.shoulder_bpm = event.shoulders.value;
            bump.shoulder_s = 10.0 + (longest_shoulder_s - 10.0) * chance.shoulder;
            break;
        case BabyEvent::Kind::early:
        case BabyEvent::Kind::late:
            bump.down_s = std::max(gradual_s, 0.4 * length_s);
            bump.up_s = std::max(gradual_s, 0.4 * length_s);
            break;
        case BabyEvent::Kind::prolonged: {
            bump.slow_tail = true;
            // Time constants of 10 to 20 s down and 30 to 60 s back [practice], each as two equal lags, so
            // that the rate has no corner; a short one is quicker.
            bump.down_s = std::min((10.0 + 10.0 * chance.fall) / constant_of_two_lags, 0.06 * length_s);
            bump.up_s = std::min((30.0 + 30.0 * chance.back) / constant_of_two_lags, 0.14 * length_s);
            const double share = std::min(0.9, back_within_bpm / bump.size_bpm);
            bump.stay_s = std::max(0.0, length_s - bump.up_s * lags_until(share));
            break;
        }
    }
    if (!bump.slow_tail) bump.stay_s = std::max(0.0, length_s - bump.down_s - bump.up_s);
    return bump;
}

}  // namespace sim
