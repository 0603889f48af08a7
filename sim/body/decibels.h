// Amplitudes and powers as decibels, as the body's levels use them.
#pragma once

#include "sim/exact_math.h"

namespace sim {

inline constexpr double log2_of_10 = 3.321928094887362;  // exact_log2(10), to the last bit

// 0 and below a millionth: -120.
inline double decibels(double amplitude) {
    return amplitude > 1e-6 ? 20 * exact_log2(amplitude) / log2_of_10 : -120;
}

// Two sounds together, by power.
inline double sum_db(double a_db, double b_db) {
    return 10 * exact_log2(exact_pow10(a_db / 10) + exact_pow10(b_db / 10)) / log2_of_10;
}

}  // namespace sim
