// Striking a tone: a sine under a bell-shaped window, written into a ring that is read and emptied tick by
// tick.
#pragma once

#include "sim/sound/filters.h"

#include <array>
#include <cstdint>

namespace sim {

// 256 ms, long enough for any tone and the tick it starts in. Sample n of labour time lies at n mod its
// length.
struct ToneRing {
    static constexpr int length = 2048;
    alignas(32) std::array<float, length> samples{};
};

// One bell-shaped tone. `length_ms` between the -20 dB points; sounds from -3 to +3 standard deviations of
// the window, which is 0.7 of `length_ms` to either side. The sine is at its top in the middle, or `turns` of
// a turn further.
struct Tone {
    double middle_us = 0;
    double hz = 40;
    double length_ms = 85;
    double sweep_hz = 0;  // pitch rises by this over `length_ms`
    double peak = 1;
    double turns = 0;
};

inline constexpr double tone_half_width = 0.7;  // of length_ms
std::int64_t starts_us(const Tone& tone);
std::int64_t ends_us(const Tone& tone);

// Adds the tone. The ring must be read up to the tone's start and no further; tones up to 200 ms long.
void strike(ToneRing& ring, const Tone& tone);

// A tone that starts at once and dies away: bowel, crackle. Its envelope reaches `peak` and falls to 1/e in q
// / pi cycles.
struct Ping {
    double start_us = 0;
    double hz = 300;
    double q = 5;
    double peak = 1;
};
void strike(ToneRing& ring, const Ping& ping);

}  // namespace sim
