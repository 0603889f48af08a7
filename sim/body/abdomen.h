// The abdomen: where each heart and each blow is loud. Centimetres, origin at the navel, +x her left, +y her
// head.
#pragma once

#include "sim/course/course.h"
#include "sim/hold.h"
#include "sim/patient.h"
#include "sim/units.h"

namespace sim {

// Where each thing lies below the skin at a moment.
struct Spot {
    double x_cm = 0, y_cm = 0;  // on the skin, where it is loudest
    double depth_cm = 7;        // skin to source, her wall included
};

Spot heart_spot(const Patient& patient, int baby, const CourseTick& now);

// What an ear gets of one source through the instrument as held, peak level of its first sound, dB relative
// to a baby's first sound at the best place through the same instrument at 6 N with no wall in the way. -120
// = nothing.
enum class Source : std::uint8_t { baby, baby2, souffle, vessel, cord_souffle };
Decibels level_at_ear(const Patient& patient, const CourseTick& now, const Hold& hold, Source source);

// What a trainee's place gives: the louder baby's rhythm against the loudest rhythm that is not a baby's
// heart beat in rate (souffle, vessel). cord_souffle beats at the baby's rate and counts for neither side.
struct PlaceLevels {
    Decibels baby{-120};
    int which_baby = 0;
    Decibels rival{-120};
    Source rival_source = Source::souffle;
    Decibels noise{-120};  // everything without a rhythm
};
PlaceLevels levels_at(const Patient& patient, const CourseTick& now, const Hold& hold);

// Countable: the baby at least this much over every rhythmic rival [practice], and above the noise of the
// ladder.
inline constexpr Decibels countable_over_rival{6};
inline constexpr Decibels audible_over_noise{
    4.7};  // first sound's peak; 3 dB under the hardest step of the ladder
enum class Countable : std::uint8_t { countable, doubtful, not_countable };
Countable countable(const PlaceLevels& levels);

// The best place for an instrument at 6 N: grid of 0.5 cm, x -16..16, y -18..20; ties to higher y, then
// smaller x.
struct BestSpot {
    double x_cm = 0, y_cm = 0;
    PlaceLevels levels;
};
BestSpot best_spot(const Patient& patient, const CourseTick& now, Instrument instrument, int baby = 0);

inline constexpr double map_x_from = -16, map_x_to = 16, map_y_from = -18, map_y_to = 20, map_step = 0.5;

}  // namespace sim
