// The dice. Every draw is a pure function of (seed, stream, index, draw): nothing is "next", so an act, a
// block size or a thread changes which draws are used, never what they are. Philox 4x32-10: Salmon, Moraes,
// Dror, Shaw, "Parallel random numbers: as easy as 1, 2, 3", SC 2011.
#pragma once

#include "sim/units.h"

#include <array>
#include <cstdint>

namespace sim {

// Fixed for ever: never renumbered, never reused. A second baby's stream is the first one's plus
// `second_baby`.
enum class Stream : std::uint32_t {
    scenario = 1,     // ranges in the scenario file, index = the quantity's number
    fetal_slow = 10,  // variability, index = course tick
    fetal_low = 11,
    fetal_middle = 12,
    fetal_high = 13,
    fetal_state = 14,
    acceleration = 15,  // index = number of the thing
    deceleration = 16,
    rhythm = 17,  // index = beat number
    baseline_drift = 18,
    maternal_slow = 20,
    maternal_low = 21,
    maternal_breath = 22,
    contraction = 30,  // index = contraction number
    movement = 31,
    heart_tone = 40,  // index = beat number
    doppler_tone = 41,
    souffle = 42,
    cord = 43,
    vessel = 44,
    bowel = 45,
    movement_sound = 46,
    breath_sound = 47,
    friction = 48,  // noise streams: index = sample / 8
    room = 49,
    ward = 50,
    aim = 51,
    dropout = 52,
    dither = 60,
    events = 61,
};
inline constexpr std::uint32_t second_baby = 4096;

constexpr Stream for_baby(Stream s, int baby) {
    return static_cast<Stream>(static_cast<std::uint32_t>(s) + (baby == 0 ? 0u : second_baby));
}

// The bare generator: counter and key in, four words out.
std::array<std::uint32_t, 4> philox(std::array<std::uint32_t, 4> counter, std::array<std::uint32_t, 2> key);

// Four words for one (seed, stream, index, draw). Counter = {index low, index high, stream, draw}, key =
// seed.
std::array<std::uint32_t, 4> words(Seed seed, Stream stream, std::uint64_t index, std::uint32_t draw = 0);

// Uniform in [0, 1), 53 bits.
double uniform(Seed seed, Stream stream, std::uint64_t index, std::uint32_t draw = 0);

// Standard normal, by the inverse distribution (AS 241, tabled: within 0.001 of it).
double gaussian(Seed seed, Stream stream, std::uint64_t index, std::uint32_t draw = 0);

// Four standard normals of one (seed, stream, index), 32 bits each (no further out than 6.3): what a grid
// that needs several every tick can afford.
std::array<double, 4> four_gaussians(Seed seed, Stream stream, std::uint64_t index);

// The same for this index and the three after it, side by side in the processor's lanes: two thirds of what
// four by themselves cost. For what steps through its indices one by one.
std::array<std::array<double, 4>, 4> four_gaussians_in_a_row(Seed seed, Stream stream, std::uint64_t first);

// Whole number 0..n-1, without bias; n at least 1.
std::uint32_t whole_below(std::uint32_t n, Seed seed, Stream stream, std::uint64_t index);

// The standard normal quantile, 0 < p < 1 (AS 241: Wichura 1988, Appl. Statist. 37:477), exact_math only.
double normal_quantile(double p);

}  // namespace sim
