// Everything that reaches the ear for a hold, as levels: the one place they are worked out, for the judge,
// the map and the sound alike.
#pragma once

#include "sim/body/abdomen.h"
#include "sim/instrument/chain.h"

#include <array>

namespace sim {

inline constexpr int source_count = 5;  // as listed in Source

struct EarLevels {
    std::array<double, source_count> into_db{};    // by Source: into the instrument, before its filters
    std::array<double, source_count> at_ear_db{};  // by Source: at the ear
    double body_noise_db = -120;                   // at the ear, RMS, 20 to 150 Hz: the ladder's noise
    double body_noise_into_db = -120;              // into the instrument
    double ward_db = -120, ward_into_db = -120;    // what the seal lets in, RMS
    Chain chain;                                   // the instrument as held
    double heart_through = 1;  // amplitude its filters, held well, let through of a first sound
    std::array<double, 2>
        crisp_db{};  // by baby: its high, crisp part against the rest, from place and squeeze
    double aim = 1;  // Doppler: how well the beam meets the nearer heart, 0..1
    double without_rhythm_db = -120;  // at the ear: body and ward together
};

// The parts that do not depend on the place: make one for a sweep over many places.
struct Ear {
    Chain chain;
    double contact_db = -120;
    double heart_through = 1;
    // Figures of a patient are meant at the ear through a horn held well, against a first sound. By Source:
    // what the horn's filters make of it (taken back on the way in), and what this instrument as held makes
    // of it beyond that.
    std::array<double, source_count> horn_db{}, against_db{};
    double noise_horn_db = 0, noise_against_db = 0, ward_horn_db = 0, ward_against_db = 0;
    double noise_source_db = -120;  // the ladder, against the best place of this patient at rest
};

Ear ear_for(const Patient& patient, const Hold& hold);
EarLevels levels_through(const Ear& ear, const Patient& patient, const CourseTick& now, const Hold& hold);

// The same in two steps, for many moments of one hold: only the hearts change while nothing is moved.
EarLevels levels_without_hearts(const Ear& ear, const Patient& patient, const Hold& hold);
void hear_hearts(EarLevels& levels, const Ear& ear, const Patient& patient, const CourseTick& now,
                 const Hold& hold);
PlaceLevels place_levels(const EarLevels& levels);

}  // namespace sim
