// Taps laid on beats: which beat each tap was for, which beats got none, which taps had none. The metric of
// Victor and Purpura (J. Neurophysiol. 1996) by dynamic programming, in whole microseconds: the same pairs on
// every machine. Plain time warping would lay two taps on one beat for nothing and so hide the extra ones;
// here each costs a gap.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace engine {

struct TapOnBeat {
    std::size_t beat = 0, tap = 0;  // indices into what was given
};

// caught + missed = beats, caught + extra = taps.
struct TapAlignment {
    std::vector<TapOnBeat> caught;
    std::vector<std::size_t> missed;  // beats
    std::vector<std::size_t> extra;   // taps
    std::int64_t shift_us = 0;        // taken off every tap before pairing
    std::int64_t reach_us = 0;        // a tap farther than this from a beat is never its
    std::int64_t cost_us = 0;         // a gap costs the reach, a pair twice its distance
    // Victor-Purpura with gap 1 and k = 2 / reach: 0 = every beat tapped exactly, beats + taps = none of
    // them.
    double distance() const { return static_cast<double>(cost_us) / static_cast<double>(reach_us); }
};

// Both lists ascending without doubles (asserted), reach at least 1 us. Where pairings cost the same, from
// the end: a pair before a missed beat before an extra tap.
TapAlignment align_taps(std::span<const std::int64_t> beats_us, std::span<const std::int64_t> taps_us,
                        std::int64_t shift_us, std::int64_t reach_us);

// Hands lag behind ears: the shift from -0.15 to 0.20 s, and within 0.45 of the middle gap between beats, in
// steps of 5 ms, at which taps and beats agree best; of two as good the smaller, of two as small the late
// one. In a regular rhythm it is known only up to a whole beat.
TapAlignment align_taps(std::span<const std::int64_t> beats_us, std::span<const std::int64_t> taps_us,
                        std::int64_t reach_us);

// 0.45 of the middle gap between beats, at most 0.25 s: our own default. Under two beats: 0.25 s.
std::int64_t tap_reach_us(std::span<const std::int64_t> beats_us);

// A second tap under 60 ms after one that stands is the switch bouncing, or the same press twice: dropped.
// Never descending (asserted).
std::vector<std::int64_t> without_bounce(std::span<const std::int64_t> taps_us);

}  // namespace engine
