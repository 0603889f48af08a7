// What one source adds to a sound: the same labour rendered with and without it. Every draw is a pure
// function of seed and index, so all else is the same in both and falls out of the difference.
#pragma once

#include "sim/exact_math.h"
#include "tests/sim/scene.h"

#include <memory>
#include <vector>

namespace scene {

inline constexpr int thin = 8;  // every eighth sample: 6 kHz, and nothing lies above 2.5
inline constexpr double thin_rate = sim::sample_rate / static_cast<double>(thin);

using Controls = void (*)(sim::Listening&);

// Horn at the usual spot (or as `controls` say), every eighth sample.
inline std::vector<double> thinned(const sim::Patient& p, double seconds, Controls controls = nullptr,
                                   sim::OutputMode mode = sim::OutputMode::true_sound, float press = 6) {
    auto l = std::make_unique<sim::Listening>(p, sim::Seed{5}, mode);
    place(*l, sim::Instrument::horn, 6, -7, 0, press);
    if (controls != nullptr) controls(*l);
    std::vector<float> second(sim::sample_rate);
    std::vector<double> out;
    for (int s = 0; s < static_cast<int>(seconds); ++s) {
        l->render(second);
        for (std::size_t i = 0; i < second.size(); i += thin) out.push_back(static_cast<double>(second[i]));
    }
    return out;
}

inline std::vector<double> added(const sim::Patient& with, const sim::Patient& without, double seconds) {
    std::vector<double> a = thinned(with, seconds);
    const std::vector<double> b = thinned(without, seconds);
    for (std::size_t i = 0; i < a.size(); ++i) a[i] -= b[i];
    return a;
}

struct Burst {
    double from_s, to_s, peak, hz;  // hz: zero crossings
};

// Spells above `least`, at most `gap_s` of quiet within one.
inline std::vector<Burst> bursts(const std::vector<double>& x, double least, double gap_s) {
    std::vector<Burst> found;
    for (std::size_t i = 0; i < x.size(); ++i) {
        if (std::fabs(x[i]) < least) continue;
        const double t = static_cast<double>(i) / thin_rate;
        if (found.empty() || t - found.back().to_s > gap_s) found.push_back({t, t, 0, 0});
        found.back().to_s = t;
        found.back().peak = std::max(found.back().peak, std::fabs(x[i]));
    }
    for (Burst& b : found) {
        int crossings = 0;
        const auto first = static_cast<std::size_t>(b.from_s * thin_rate),
                   last = static_cast<std::size_t>(b.to_s * thin_rate);
        for (std::size_t i = first + 1; i <= last; ++i) crossings += (x[i] > 0) != (x[i - 1] > 0);
        b.hz = last > first ? crossings / 2.0 / (b.to_s - b.from_s) : 0;
    }
    return found;
}

inline double rms_of(const std::vector<double>& x, double from_s = 0, double to_s = 1e9) {
    double power = 0;
    std::size_t many = 0;
    for (auto i = static_cast<std::size_t>(from_s * thin_rate);
         i < x.size() && static_cast<double>(i) < to_s * thin_rate; ++i, ++many)
        power += x[i] * x[i];
    return std::sqrt(power / static_cast<double>(many));
}

// RMS of what lies between two frequencies, by Goertzel's sums over pieces of a quarter second.
inline double band_rms_of(const std::vector<double>& x, double from_hz, double to_hz) {
    constexpr auto piece = static_cast<std::size_t>(thin_rate / 4);
    double power = 0;
    std::size_t pieces = 0;
    for (std::size_t at = 0; at + piece <= x.size(); at += piece, ++pieces)
        for (double hz = from_hz; hz < to_hz; hz += 4) {
            const double turn = 2 * std::cos(2 * sim::pi * hz / thin_rate);
            double one = 0, two = 0;
            for (std::size_t n = 0; n < piece; ++n) {
                const double now = x[at + n] + turn * one - two;
                two = one;
                one = now;
            }
            power += 2 * (one * one + two * two - turn * one * two) / piece / piece;
        }
    return std::sqrt(power / static_cast<double>(pieces));
}

}  // namespace scene
