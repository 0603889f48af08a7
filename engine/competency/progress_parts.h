// The parts progress.cpp is put together from.
#pragma once

#include "engine/competency/progress.h"

#include <cstddef>
#include <vector>

namespace engine {

inline double truth_bpm(const CountColumns& c, std::size_t row) { return c.true_mbpm[row] / 1000.0; }
inline double reading_bpm(const CountColumns& c, std::size_t row) { return reading_mbpm(c, row) / 1000.0; }

int band_of(double truth_bpm);  // 0..rate_bands - 1
// A count without a number is not right.
bool count_is_right(const CountColumns& c, std::size_t row);
// Oldest attempt first; those of unknown date before all others.
std::vector<std::size_t> rows_in_time(const CountColumns& c);

LearningSoFar learning_of(const CountColumns& c, const std::vector<std::size_t>& in_time, int mode,
                          const ProgressAsked& asked);
std::vector<Weakness> weaknesses_of(const Progress& p, const CountColumns& c);

}  // namespace engine
