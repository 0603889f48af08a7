// What lies between a source and the instrument: distance, tissue, wall, womb, back or limbs; for the
// Doppler, the beam. Decibels added to the source's own level (zero or less) [practice throughout; shape of
// the law and sizes per part as taught in acoustics of tissue: spreading, absorption rising with frequency,
// layers].
#pragma once

#include "sim/body/abdomen.h"

namespace sim {

// Where most of a first sound lies, and where its edge does: the one reaches far, the other guides the
// search.
inline constexpr double hum_hz = 40, crisp_hz = 110;

// What distance alone takes of a sound from straight above a source to a place aside, 0 or less.
double aside_db(double depth_cm, double aside_cm, double hz);

// What a centimetre of her wall beyond 1.5 takes: 1 dB at 50 Hz, 2 at 150.
double fat_db_per_cm(double hz);

// Sound through tissue from a baby's heart to a place on the skin: the hum, 0 dB = 7 cm deep, straight above,
// no wall, and how much more of the crisp part is lost on the way.
struct HeartAtSkin {
    Decibels hum, crisp_more;
};
HeartAtSkin heart_at_skin(const Patient& patient, int baby, const CourseTick& now, double x_cm, double y_cm);

// Sound of a blow or a vessel, 0 dB at its own best place.
Decibels blow_to_skin(const Patient& patient, Source source, double x_cm, double y_cm);

// The Doppler's echo, there and back along the beam as held; 0 dB = aimed square at a heart 7 cm deep, no
// wall.
struct HeartEcho {
    Decibels level;
    double aim = 0;  // how well the beam meets the heart, 1 = square and in the middle
};
HeartEcho echo_of_heart(const Patient& patient, int baby, const CourseTick& now, const Hold& hold);
Decibels echo_of_blow(const Patient& patient, Source source, const Hold& hold);

}  // namespace sim
