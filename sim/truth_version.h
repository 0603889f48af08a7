// Which truth this program computes: part of every attempt's header, so that an attempt of another truth is
// not judged by this one.
#pragma once

namespace sim {

// Raised whenever any course, beat, sample or score of the same input changes.
inline constexpr int truth_version = 7;

}  // namespace sim
