#include "sim/instrument/rate_display.h"

#include "sim/sound/lanes.h"

#include <algorithm>
#include <cmath>

namespace sim {

namespace {

constexpr float turn = 0.011781f;            // 2 pi 15 Hz at 8 kHz
constexpr std::int64_t measured_each = 125;  // ticks: 0.25 s
constexpr std::int64_t held_ticks = 1000;    // 2 s
constexpr float quiet = 1e-15f;              // keeps the memories out of the denormal range
constexpr double no_rhythm = 0.25;

// Mean product at a lag, eight sums side by side, added as a fixed tree.
float at_lag(std::span<const float> x, std::size_t lag) {
    Lanes sum{};
    const std::size_t n = x.size() - lag;
    std::size_t i = 0;
    for (; i + lane_count <= n; i += lane_count)
        for (std::size_t l = 0; l < lane_count; ++l) sum[l] += x[i + l] * x[i + l + lag];
    float rest = 0;
    for (; i < n; ++i) rest += x[i] * x[i + lag];
    const float all =
        ((sum[0] + sum[4]) + (sum[2] + sum[6])) + ((sum[1] + sum[5]) + (sum[3] + sum[7])) + rest;
    return all / static_cast<float>(n);
}

}  // namespace

void RateDisplay::reset() { *this = RateDisplay(earliest_share_); }

void RateDisplay::hear(std::span<const float> samples, std::int64_t tick) {
    for (float s : samples) {
        // y'' = w^2 (x - y) - sqrt(2) w y': Butterworth's low pass of the second order.
        slope_ += turn * (std::fabs(s) + quiet - level_ - 1.41421356f * slope_);
        level_ += turn * slope_;
    }
    if (tick % 2 == 0) envelope_[static_cast<std::size_t>(count_++ & 1023)] = level_;
    if (tick % measured_each == 0 && count_ >= window) measure(tick);
}

void RateDisplay::measure(std::int64_t tick) {
    std::array<float, window> recent;
    for (int i = 0; i < window; ++i)
        recent[static_cast<std::size_t>(i)] =
            envelope_[static_cast<std::size_t>((count_ - window + i) & 1023)];
    const double bpm = rate_in_envelope(recent, earliest_share_);
    if (bpm <= 0) return;
    last_[static_cast<std::size_t>(found_ % 3)] = bpm;
    if (tick - found_at_ > held_ticks) {  // after dashes the first number stands alone
        last_.fill(bpm);
        found_ = 0;
    }
    ++found_;
    found_at_ = tick;
    std::array<double, 3> sorted = last_;
    std::sort(sorted.begin(), sorted.end());
    shown_ = sorted[1];
}

int RateDisplay::shown_bpm(std::int64_t tick) const {
    return tick - found_at_ > held_ticks || shown_ <= 0 ? 0 : static_cast<int>(shown_ + 0.5);
}

double rate_in_envelope(std::span<const float> envelope, double earliest_share) {
    constexpr std::size_t shortest = 62, longest = 301, most = 1024;
    std::array<float, most> x{};
    const std::size_t n = std::min(envelope.size(), most);
    float mean = 0;
    for (std::size_t i = 0; i < n; ++i) mean += envelope[i];
    mean /= static_cast<float>(n);
    for (std::size_t i = 0; i < n; ++i) x[i] = envelope[i] - mean;
    const std::span<const float> centred(x.data(), n);
    const float zero = at_lag(centred, 0);
    if (zero <= 1e-16f) return 0;

    std::array<float, longest + 2> r{};
    float highest = 0;
    for (std::size_t lag = shortest - 1; lag <= longest; ++lag) {
        r[lag] = at_lag(centred, lag) / zero;
        if (lag >= shortest && lag < longest) highest = std::max(highest, r[lag]);
    }
    if (static_cast<double>(highest) < no_rhythm) return 0;
    for (std::size_t lag = shortest; lag < longest; ++lag) {
        if (r[lag] < static_cast<float>(earliest_share) * highest || r[lag] < r[lag - 1] ||
            r[lag] < r[lag + 1])
            continue;
        const double below = static_cast<double>(r[lag - 1]), here = static_cast<double>(r[lag]),
                     above = static_cast<double>(r[lag + 1]);
        const double bend = below - 2 * here + above;
        const double shift = bend < 0 ? 0.5 * (below - above) / bend : 0;
        return 60.0 * 250 / (static_cast<double>(lag) + shift);
    }
    return 0;
}

}  // namespace sim
