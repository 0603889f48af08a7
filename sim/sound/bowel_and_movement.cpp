// Sounds of the two bodies without a beat, drawn for each course cell.
#include "sim/exact_math.h"
#include "sim/random.h"
#include "sim/sound/ear_sound.h"

#include <algorithm>
#include <cmath>

namespace sim {

namespace {

constexpr double draws_per_word = 4294967296.0;
constexpr int longest_cluster = 24;  // cells from its first train to its last

// The first train of a cluster in this cell, if one starts here.
bool cluster_starts(Seed seed, std::int64_t cell, double chance) {
    if (cell < 0) return false;
    const auto four = words(seed, Stream::bowel, static_cast<std::uint64_t>(cell) / 4, 99);
    return static_cast<double>(four[static_cast<std::size_t>(cell % 4)]) < chance * draws_per_word;
}

}  // namespace

double EarSound::height(double over_first_sound, double hz) const {
    return std::min(over_first_sound, 2.0) / std::max(1.0, amplitude_at(chain_, hz));
}

// Trains of 2 to 6 damped sines of 10 to 60 ms, 100 to 600 Hz, Q 3 to 8, 15 dB under to 5 dB over a first
// sound; single trains by chance, three in ten of them with one to three more within 6 s [memory].
void EarSound::draw_bowel(std::int64_t cell) {
    if (patient_.surroundings.bowel_per_min <= 0) return;
    constexpr double trains_a_cluster = 1.6;
    const double chance = patient_.surroundings.bowel_per_min / 60 * 0.25 / trains_a_cluster;
    for (int back = 0; back <= longest_cluster; ++back) {
        const std::int64_t first = cell - back;
        if (!cluster_starts(seed_, first, chance)) continue;
        const auto n = static_cast<std::uint64_t>(first);
        const auto u = [&](std::uint32_t draw) { return uniform(seed_, Stream::bowel, n, draw); };
        const int more = u(100) < 0.3 ? 1 + static_cast<int>(3 * u(101)) : 0;
        int starts = 0;
        for (int train = 0; train <= more; ++train) {
            const auto d = static_cast<std::uint32_t>(104 + 32 * train);
            if (train > 0) starts += 3 + static_cast<int>(5 * u(d));
            if (starts != back) continue;
            const int many = 2 + static_cast<int>(5 * u(d + 1));
            double at = static_cast<double>(cell * course_tick_us) + 20'000 + 200'000 * u(d + 2);
            const double loud = exact_pow10((-15 + 20 * u(d + 3)) / 20), pitch = 130 + 300 * u(d + 4);
            for (int i = 0; i < many; ++i) {
                const auto e = d + 5 + 4 * static_cast<std::uint32_t>(i);
                const double hz = std::clamp(pitch * (0.8 + 0.6 * u(e)), 100.0, 600.0);
                const double q = std::clamp(3 + 5 * u(e + 1), hz / 75, 8.0);  // 10 ms at least
                add_single(Ping{at, hz, q, height(loud * (0.5 + 0.5 * u(e + 2)), hz)});
                at += 30'000 + 70'000 * u(e + 3);
            }
        }
    }
}

// Thuds of 10 to 80 Hz while the baby moves, 6 dB under a first sound to 6 dB over it, irregular [memory: to
// +12; held at +6 for the listener's ears].
void EarSound::draw_movement(std::int64_t cell) {
    const auto n = static_cast<std::uint64_t>(cell);
    const auto u = [&](std::uint32_t draw) { return uniform(seed_, Stream::movement_sound, n, draw); };
    for (std::uint32_t i = 0; i < 2; ++i) {
        if (u(8 * i) > 0.35) continue;
        const double at = static_cast<double>(cell * course_tick_us) + 100'000 + 240'000 * u(8 * i + 1);
        const double hz = (10 + 70 * u(8 * i + 2)) * (mode_ == OutputMode::shifted ? raised_times : 1);
        add_single(
            Tone{at, hz, 90 + 40 * u(8 * i + 3), 0, height(exact_pow10((-6 + 18 * u(8 * i + 4)) / 20), hz)});
    }
}

}  // namespace sim
