// Eight sources side by side in one machine word: each keeps its own filter, none waits for another.
// Passed by reference only: by value the calling convention differs between builds with and without AVX.
#pragma once

#include <cstdint>

namespace sim {

inline constexpr int lane_count = 8;

using Lanes = float __attribute__((vector_size(32)));
using LaneWords = std::uint32_t __attribute__((vector_size(32)));
using LaneInts = std::int32_t __attribute__((vector_size(32)));

}  // namespace sim
