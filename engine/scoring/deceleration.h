// Definitions for checking a course: what a tracing would call a fall or a rise of the rate. Never asked of
// an ear, which can only tell whether a slowing is over when the contraction ends [practice].
#pragma once

#include "sim/units.h"

#include <cstdint>
#include <optional>
#include <string_view>

namespace engine {

// One fall. Times from the start of its contraction; a fall without one counts from anywhere.
struct DecelerationShape {
    sim::Seconds onset, nadir, back;  // leaves the baseline, is deepest, is back
    sim::Bpm depth;                   // below the baseline at its deepest
};

// When its contraction is at its height and over, from the contraction's start.
struct ContractionShape {
    sim::Seconds peak, end;
};

enum class DecelerationKind : std::uint8_t {
    none,
    baseline_change,
    prolonged,
    variable,
    early,
    late,
    unclassified
};
std::string_view name_of(DecelerationKind);

// Where the definitions differ: from when a fall is a prolonged one.
struct ProlongedRule {
    sim::Seconds length;
    bool length_itself;  // exactly this long is prolonged
};
inline constexpr ProlongedRule prolonged_nichd_2008{{120}, true};  // 2 min and more [second-hand]
inline constexpr ProlongedRule prolonged_figo_2015{{180}, false};  // more than 3 min [second-hand]

// In this order, the first that holds: under 15 bpm or under 15 s none; 10 min a change of baseline;
// prolonged; deepest within 30 s variable; deepest at the contraction's peak (within 5 s [practice]) and back
// by its end early; deepest after the peak and back after the end late; else unclassified. NICHD 2008 but for
// `rule`.
DecelerationKind deceleration_kind(const DecelerationShape&, const std::optional<ContractionShape>&,
                                   const ProlongedRule& rule = prolonged_nichd_2008);

// FIGO 2015 [second-hand]: begins more than 20 s after the contraction, takes more than 30 s to its deepest,
// which lies after the contraction's height, and more than 30 s back.
bool late_by_figo_2015(const DecelerationShape&, const ContractionShape&);

// A rise: NICHD 2008 [second-hand], from 32 weeks on 15 bpm for 15 s, before that 10 bpm for 10 s; under 2
// min.
bool is_acceleration(sim::Bpm above, sim::Seconds length, double gestation_weeks);

}  // namespace engine
