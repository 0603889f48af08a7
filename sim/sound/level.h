// The scale of the sound: full scale is 1.
#pragma once

#include "sim/exact_math.h"

namespace sim {

inline constexpr double first_sound_peak = 0.30;   // 0 dB of every level in sim/body, at the ear
inline constexpr double loudest = 0.891250938;     // -1 dBFS
inline constexpr double blow_peak_over_rms_db = 6; // a noise is said to be as loud as a tone of this much over its RMS

inline double amplitude(double db) { return db <= -119 ? 0.0 : exact_pow10(db / 20); }

}  // namespace sim
