// Figures are kept in stated steps, so that a score written, read and computed again is equal to the last
// digit.
#pragma once

#include <cmath>
#include <cstdint>

namespace engine {

// Whole thousandths of a bpm: the breakdown is summed in these and therefore sums exactly.
inline std::int64_t in_thousandths(double bpm) {
    return static_cast<std::int64_t>(std::floor(bpm * 1000.0 + 0.5));
}

// Nearest k/1000, k/100, k/10: each the double that prints as that short decimal.
inline double to_thousandth(double v) { return std::floor(v * 1000.0 + 0.5) / 1000.0; }
inline double to_hundredth(double v) { return std::floor(v * 100.0 + 0.5) / 100.0; }
inline double to_tenth(double v) { return std::floor(v * 10.0 + 0.5) / 10.0; }

}  // namespace engine
