#include "sim/course/contraction.h"

#include "sim/course/course.h"
#include "sim/course/variability.h"
#include "sim/exact_math.h"

#include <algorithm>
#include <cmath>

namespace sim {

namespace {

constexpr double steepness = 2.2;
constexpr double rise_part = 20.0 / 48.0;  // width before the peak : after = 20 : 28 [computed]
constexpr double first_trace_mmhg = 0.1;
constexpr double urge_mmhg = 15.0;  // she bears down above this [practice]
constexpr double never_s = 1e15;
constexpr double traces_widths = 2.8;  // beyond so many widths a ten-thousandth of the height is left: none

// exp(-x^2.2) for 0 <= x <= 2.8, worked out when compiled: a course asks for it ten times a second and more.
// Straight between its points it is within 3e-6 of the curve.
struct Hump {
    static constexpr int steps = 1024;
    std::array<double, steps + 1> height{};

    constexpr Hump() {
        for (int i = 0; i <= steps; ++i) {
            const double x = traces_widths * i / steps;
            double fifth_root = 1.3;
            for (int n = 0; n < 20; ++n) {
                const double square = fifth_root * fifth_root;
                fifth_root -= (fifth_root * square * square - x) / (5.0 * square * square);
            }
            // The 64th part of the exponent by its series, then squared six times.
            const double part = -x * x * fifth_root / 64.0;
            double sum = 1.0, term = 1.0;
            for (int n = 1; n < 12; ++n) sum += term *= part / n;
            for (int n = 0; n < 6; ++n) sum *= sum;
            height[static_cast<std::size_t>(i)] = sum;
        }
        height[0] = 1.0;
    }
    double at(double x) const {
        const double place = x * (steps / traces_widths);
        const int i = std::min(static_cast<int>(place), steps - 1);
        const double low = height[static_cast<std::size_t>(i)];
        return low + (place - i) * (height[static_cast<std::size_t>(i) + 1] - low);
    }
};
constexpr Hump hump;

double power(double x, double exponent) { return x <= 0 ? 0 : exact_exp(exponent * exact_log(x)); }

double widths_to(double height, double level) {
    return height <= level ? 0 : power(exact_log(height / level), 1.0 / steepness);
}

}  // namespace

double ContractionShape::at(double from_peak_s) const {
    const double x = from_peak_s < 0 ? -from_peak_s / rise_s : from_peak_s / fall_s;
    if (x > traces_widths) return 0;
    return height_mmhg * hump.at(x);
}

double ContractionShape::before_peak(double mmhg) const { return rise_s * widths_to(height_mmhg, mmhg); }
double ContractionShape::after_peak(double mmhg) const { return fall_s * widths_to(height_mmhg, mmhg); }

ContractionShape ContractionShape::lasting(double height_mmhg, double felt_s) {
    const double widths = felt_s / std::max(0.5, widths_to(height_mmhg, felt_above_tone_mmhg));
    return {height_mmhg, widths * rise_part, widths * (1.0 - rise_part)};
}

double Contraction::at(double time_s) const {
    const double x = time_s - peak_at_s;
    if (time_s < from_s || time_s > over_s) return 0;
    double p = shape.at(x);
    if (second_share > 0) p += second_share * shape.at(x - second_after_s);
    return p;
}

Womb::Womb(const Labour& labour, Seed seed) : labour_(labour), seed_(seed) {
    usual_ = ContractionShape::lasting(labour.strength.value, labour.contraction_length.value);
    begins_before_peak_s_ = usual_.before_peak(first_trace_mmhg) * 1.05;
    next_peak_clock_s_ = labour.contractions_per_10min > 0 ? labour.first_contraction.value : never_s;
}

// Gamma distributed about the mean (Wilson and Hilferty 1931), spread as the author gave it. Never under half
// the mean: the womb needs its rest.
double Womb::gap_s(std::int32_t number) const {
    const double mean = 600.0 / labour_.contractions_per_10min;
    if (labour_.irregular <= 0) return mean;
    const double z = gaussian(seed_, Stream::contraction, static_cast<std::uint64_t>(number), 0);
    const double ninth = labour_.irregular * labour_.irregular / 9.0;
    const double root = 1.0 - ninth + z * std::sqrt(ninth);
    return mean * std::clamp(root * root * root, 0.5, 2.5);
}

Contraction Womb::made(std::int32_t number, double peak_at_s, double strength) const {
    const auto n = static_cast<std::uint64_t>(number);
    Contraction c;
    c.number = number;
    c.peak_at_s = peak_at_s;
    c.shape = usual_;
    const double spread = std::clamp(gaussian(seed_, Stream::contraction, n, 1), -2.0, 2.0);
    c.shape.height_mmhg =
        usual_.height_mmhg * strength * (1.0 + std::min(0.5 * labour_.irregular, 0.075) * spread);
    if (uniform(seed_, Stream::contraction, n, 2) < labour_.double_peaks) {
        c.second_after_s = 1.1 * (c.shape.rise_s + c.shape.fall_s);
        c.second_share = 0.65 + 0.2 * uniform(seed_, Stream::contraction, n, 3);
    }
    // 3 to 5 pushes of 5 to 7 s and 30 to 50 mmHg [practice].
    c.pushes = 3 + static_cast<std::int32_t>(3.0 * uniform(seed_, Stream::contraction, n, 4));
    c.push_each_s = 5.0 + 2.0 * uniform(seed_, Stream::contraction, n, 5);
    c.push_rest_s = 2.0 + uniform(seed_, Stream::contraction, n, 6);
    c.push_mmhg = 30.0 + 20.0 * uniform(seed_, Stream::contraction, n, 7);
    c.push_from_s = peak_at_s - c.shape.before_peak(urge_mmhg);
    c.push_to_s = std::min(peak_at_s + c.shape.after_peak(urge_mmhg),
                           c.push_from_s + c.pushes * (c.push_each_s + c.push_rest_s) - c.push_rest_s);
    // A microsecond more than the shape's own limits, so that their rounding cannot matter.
    c.from_s = peak_at_s - traces_widths * c.shape.rise_s - 1e-6;
    c.over_s = peak_at_s + c.second_after_s + traces_widths * c.shape.fall_s + 1e-6;
    return c;
}

double Womb::pressure_of(const Contraction& c, double time_s) const {
    const double p = c.at(time_s);
    if (p == 0) return 0;
    const double over = time_s - labour_.contractions_stop.value;
    return over > 0 ? p * exact_exp(-std::min(over, 200.0) / 6.0) : p;
}

double Womb::until_felt(std::int32_t number, double now_s) const {
    if (const Contraction* c = recent(number)) return c->felt_from_s() - now_s;
    if (number != next_ || next_peak_clock_s_ >= never_s || pace_ <= 0) return never_s;
    const double begins_s = (next_peak_clock_s_ - begins_before_peak_s_ - clock_s_) / pace_;
    const double felt_s = begins_s + begins_before_peak_s_ - usual_.before_peak(felt_above_tone_mmhg);
    return now_s + felt_s < labour_.contractions_stop.value ? felt_s : never_s;
}

void Womb::step(std::int64_t tick, const WombOrders& orders) {
    const double now_s = static_cast<double>(tick) * course_step_s;
    pace_ = orders.pace;
    if (tick > 0) clock_s_ += course_step_s * orders.pace;
    while (next_peak_clock_s_ - clock_s_ <= begins_before_peak_s_) {
        // Once begun, a contraction runs its course in its own time.
        const double peak_at_s = now_s + (next_peak_clock_s_ - clock_s_);
        Contraction c = made(next_, peak_at_s, orders.strength);
        if (now_s >= labour_.contractions_stop.value) c.shape.height_mmhg = 0;
        last_[static_cast<std::size_t>(next_) % remembered] = c;
        ++next_;
        next_peak_clock_s_ += gap_s(next_);
    }

    pressure_ = 0;
    push_ = 0;
    push_spell_ = false;
    not_over_ = std::max(not_over_, oldest());
    while (not_over_ < next_ && now_s > recent(not_over_)->over_s) ++not_over_;
    for (std::int32_t n = not_over_; n < next_; ++n) {
        const Contraction& c = *recent(n);
        if (now_s > c.over_s) continue;
        const double p = pressure_of(c, now_s);
        pressure_ += p;
        if (n > running_ && p > felt_above_tone_mmhg) running_ = n;
        if (!orders.pushing || p < 0.5 * urge_mmhg || now_s < c.push_from_s || now_s >= c.push_to_s) continue;
        push_spell_ = true;
        const double each = c.push_each_s + c.push_rest_s;
        const double into = now_s - c.push_from_s;
        const double x = (into - std::floor(into / each) * each) / c.push_each_s;
        if (x < 1.0) push_ = std::max(push_, c.push_mmhg * (0.5 - 0.5 * exact_cos(2.0 * pi * x)));
    }
}

}  // namespace sim
