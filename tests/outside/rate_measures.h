// The measures of fetal heart rate variation, computed from beat times and from the 4 Hz course alone, as
// their authors define them; nothing of the program's own arithmetic is used.
#pragma once

#include "sim/beats/beat_train.h"
#include "sim/course/course.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <cstdint>
#include <vector>

namespace outside {

// Mean interval in ms of each epoch of 3.75 s, sixteen a minute (Dawes and Redman): its length over the beats
// in it, the first and last interval in part.
inline std::vector<double> epochs_ms(const std::vector<sim::Beat>& train, double from_s, int minutes) {
    const auto phase = [&](double t_s) {
        const auto us = static_cast<std::int64_t>(t_s * 1e6);
        const auto next = std::upper_bound(train.begin(), train.end(), us,
                                           [](std::int64_t at, const sim::Beat& b) { return at < b.at_us; });
        const auto last = next - 1;
        return static_cast<double>(last - train.begin()) +
               static_cast<double>(us - last->at_us) / static_cast<double>(next->at_us - last->at_us);
    };
    std::vector<double> epochs;
    for (int e = 0; e < minutes * 16; ++e)
        epochs.push_back(3750 / (phase(from_s + (e + 1) * 3.75) - phase(from_s + e * 3.75)));
    return epochs;
}

struct Variation {
    double short_ms = 0;   // STV: mean step from one epoch to the next
    double long_ms = 0;    // LTV: mean over minutes of the longest less the shortest epoch
    double range_bpm = 0;  // mean over minutes of the highest less the lowest rate (NICHD 2008: bandwidth)
    std::array<double, 4> bands{};  // share of power in 0-0.03, 0.03-0.15, 0.15-0.5, 0.5-1 Hz

    void add(const Variation& one, double weight) {
        short_ms += one.short_ms * weight;
        long_ms += one.long_ms * weight;
        range_bpm += one.range_bpm * weight;
        for (std::size_t i = 0; i < 4; ++i) bands[i] += one.bands[i] * weight;
    }
};

// Power at the frequencies k / 4096 s ... of 4 Hz samples: plain radix-two transform of 16,384 points.
inline std::vector<double> power_of(std::vector<std::complex<double>> x) {
    const std::size_t n = x.size();
    for (std::size_t i = 1, j = 0; i < n; ++i) {
        std::size_t bit = n >> 1;
        for (; j & bit; bit >>= 1) j ^= bit;
        j ^= bit;
        if (i < j) std::swap(x[i], x[j]);
    }
    for (std::size_t length = 2; length <= n; length <<= 1) {
        const double turn = -6.283185307179586 / static_cast<double>(length);
        const std::complex<double> step(std::cos(turn), std::sin(turn));
        for (std::size_t i = 0; i < n; i += length) {
            std::complex<double> w(1);
            for (std::size_t k = 0; k < length / 2; ++k, w *= step) {
                const auto a = x[i + k], b = x[i + k + length / 2] * w;
                x[i + k] = a + b;
                x[i + k + length / 2] = a - b;
            }
        }
    }
    std::vector<double> power;
    for (std::size_t k = 0; k < n / 2; ++k) power.push_back(std::norm(x[k]));
    return power;
}

inline Variation variation_of(const sim::Patient& p, sim::Seed seed, int minutes) {
    const auto course = sim::course_over(p, seed, {}, {minutes * 60.0 + 10});
    const auto train = sim::beats_over(p, seed, sim::Who::fetal, course);
    const auto epochs = epochs_ms(train, 4, minutes);
    Variation v;
    for (std::size_t e = 1; e < epochs.size(); ++e)
        v.short_ms += std::fabs(epochs[e] - epochs[e - 1]) / static_cast<double>(epochs.size() - 1);
    double mean = 0;
    const auto ticks = static_cast<std::size_t>(minutes) * 240;
    for (std::size_t k = 0; k < ticks; ++k) mean += course[k].fhr_bpm[0] / static_cast<double>(ticks);
    for (int m = 0; m < minutes; ++m) {
        const auto [low, high] = std::minmax_element(epochs.begin() + m * 16, epochs.begin() + (m + 1) * 16);
        v.long_ms += (*high - *low) / minutes;
        double least = 1e9, most = 0;
        for (int k = m * 240; k < (m + 1) * 240; ++k) {
            least = std::min(least, course[static_cast<std::size_t>(k)].fhr_bpm[0]);
            most = std::max(most, course[static_cast<std::size_t>(k)].fhr_bpm[0]);
        }
        v.range_bpm += (most - least) / minutes;
    }
    std::vector<std::complex<double>> samples(16384);
    for (std::size_t k = 0; k < std::min<std::size_t>(ticks, 16384); ++k)
        samples[k] = course[k].fhr_bpm[0] - mean;
    const auto power = power_of(std::move(samples));
    double all = 0;
    for (std::size_t k = 1; k < power.size(); ++k) {
        const double hz = static_cast<double>(k) / 4096;
        if (hz > 1) break;
        v.bands[hz < 0.03 ? 0 : hz < 0.15 ? 1 : hz < 0.5 ? 2 : 3] += power[k];
        all += power[k];
    }
    for (double& share : v.bands) share /= all;
    return v;
}

}  // namespace outside
