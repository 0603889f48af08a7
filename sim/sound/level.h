// The scale of the sound: full scale is 1.
#pragma once

#include "sim/exact_math.h"
#include "sim/patient.h"

namespace sim {

// 0 dB of every level in sim/body, at the ear: lower where the noise is to stand above it.
inline double first_sound_peak(Ladder ladder) {
    switch (ladder) {
        case Ladder::easy: return 0.30;
        case Ladder::normal: return 0.30;
        case Ladder::hard: return 0.26;
        case Ladder::very_hard: return 0.22;
    }
    return 0.30;
}

inline constexpr double loudest = 0.891250938;  // -1 dBFS

inline double amplitude(double db) { return db <= -119 ? 0.0 : exact_pow10(db / 20); }

}  // namespace sim
