// What window, count and arithmetic say alike.
#pragma once

#include "engine/scoring/evidence.h"

#include <fmt/core.h>

#include <cstdlib>
#include <string>

namespace engine {

inline double own_s(const CountedWindow& w) { return w.score.to_s - w.score.from_s; }
inline std::string signed_bpm(double v) { return fmt::format("{:+.1f}", v); }
inline std::string beats_off(int beats) {
    if (beats == 0) return "not one beat off";
    return fmt::format("{} beat{} {}", std::abs(beats), std::abs(beats) == 1 ? "" : "s",
                       beats > 0 ? "extra" : "missed");
}

}  // namespace engine
