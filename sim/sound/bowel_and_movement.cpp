// Sounds without a beat, drawn for each course cell: bowel, the baby moving, crackle of a dry probe.
#include "sim/exact_math.h"
#include "sim/random.h"
#include "sim/sound/ear_sound.h"

#include <algorithm>
#include <cmath>

namespace sim {

// Clusters of 2 to 6 damped sines, 100 to 600 Hz, Q 3 to 8, 15 dB under to 5 dB over a first sound [memory].
void EarSound::draw_bowel(std::int64_t cell) {
    const auto n = static_cast<std::uint64_t>(cell);
    const double chance = patient_.surroundings.bowel_per_min / 60 * 0.25;
    const auto u = [&](std::uint32_t draw) { return uniform(seed_, Stream::bowel, n, draw); };
    if (u(0) >= chance) return;
    const int many = 2 + static_cast<int>(5 * u(1));
    double at = static_cast<double>(cell * course_tick_us) + 20'000 + 200'000 * u(2);
    const double loud = exact_pow10((-15 + 17 * u(3)) / 20), pitch = 120 + 260 * u(4);
    for (int i = 0; i < many; ++i) {
        const auto d = static_cast<std::uint32_t>(8 + 4 * i);
        add_single(Ping{at, pitch * (0.8 + 0.7 * u(d)), 3 + 5 * u(d + 1), loud * (0.5 + 0.5 * u(d + 2))});
        at += 30'000 + 70'000 * u(d + 3);
    }
}

// Thuds of 20 to 60 Hz while the baby moves, 10 dB under to 3 dB over a first sound [memory: 10-80 Hz,
// -6..+12; kept under the upper end, which would hide every beat].
void EarSound::draw_movement(std::int64_t cell) {
    const auto n = static_cast<std::uint64_t>(cell);
    const auto u = [&](std::uint32_t draw) { return uniform(seed_, Stream::movement_sound, n, draw); };
    for (std::uint32_t i = 0; i < 2; ++i) {
        if (u(8 * i) > 0.35) continue;
        const double at = static_cast<double>(cell * course_tick_us) + 100'000 + 240'000 * u(8 * i + 1);
        add_single(Tone{at, 20 + 40 * u(8 * i + 2), 90 + 40 * u(8 * i + 3), 0,
                        exact_pow10((-10 + 13 * u(8 * i + 4)) / 20)});
    }
}

void EarSound::draw_crackle(std::int64_t cell) {
    const auto n = static_cast<std::uint64_t>(cell);
    const auto u = [&](std::uint32_t draw) { return uniform(seed_, Stream::friction, n, draw); };
    const double dry =
        1 / std::max(0.02, chain_.contact);  // single sounds are scaled by the contact a crackle lacks
    for (std::uint32_t i = 0; i < 3; ++i) {
        const double at = static_cast<double>(cell * course_tick_us) + 250'000 * u(24 + 4 * i);
        add_single(Ping{at, 300 + 500 * u(25 + 4 * i), 3, dry * (0.05 + 0.2 * u(26 + 4 * i))});
    }
}

}  // namespace sim
