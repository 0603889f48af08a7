#include "sim/body/ear.h"

#include "sim/body/decibels.h"
#include "sim/body/path.h"
#include "sim/exact_math.h"
#include "sim/sound/heart_pitch.h"
#include "sim/sound/noise_shapes.h"

#include <algorithm>
#include <cmath>

namespace sim {

namespace {

// A noise as the mix makes it: frequencies, and the share of its power near each.
struct Spectrum {
    static constexpr std::size_t points = 24;
    std::array<double, points> hz{}, share{};
};

Spectrum spectrum_of(Noise noise) {
    const auto filters = acoustic_noises(OutputMode::true_sound).filters[static_cast<std::size_t>(noise)];
    Spectrum s;
    double all = 0;
    for (std::size_t i = 0; i < Spectrum::points; ++i) {
        s.hz[i] = 16 * exact_exp2((static_cast<double>(i) + 0.5) * 7 / Spectrum::points);  // 16 Hz to 2 kHz
        s.share[i] = s.hz[i] * power_at(filters[0], s.hz[i]) * power_at(filters[1], s.hz[i]);
        all += s.share[i];
    }
    for (double& share : s.share) share /= all;
    return s;
}

struct Spectra {
    Spectrum blow = spectrum_of(Noise::souffle), body = spectrum_of(Noise::body),
             ward = spectrum_of(Noise::ward);
};

// Made at the first use, which is in the constructor of a Listening: never on the audio thread.
const Spectra& spectra() {
    static const Spectra made;
    return made;
}

double through(const Chain& chain, const Spectrum& noise, double up_to_hz = 4'000) {
    double power = 0;
    for (std::size_t i = 0; i < Spectrum::points && noise.hz[i] < up_to_hz; ++i) {
        double here = noise.share[i];
        for (const FilterShape& stage : chain.stages) here *= power_at(stage, noise.hz[i]);
        power += here;
    }
    return std::sqrt(power);
}

constexpr double sealed_ward_db = -22;        // a good seal keeps this much of the room out [practice]
constexpr double ears_plugged_db = -6;        // both ears closed by the stethoscope [practice]
constexpr double echo_of_vessel_gain_db = 8;  // flowing blood is a strong echo for its sound [practice]

// Peak of a first sound: the parts that meet at its top, each through the chain (both valves, snap). Shares
// fitted to the peaks of the sound itself, filtered by SciPy, through 14 ways of holding at three ages:
// within 1 dB.
double first_sound_through(const Chain& chain, double hz) {
    const double main = 0.25 * amplitude_at(chain, hz - 9) + 0.5 * amplitude_at(chain, hz) +
                        0.25 * amplitude_at(chain, hz + 9);
    return 0.64 * main + 0.14 * amplitude_at(chain, 2.8 * hz);
}

// A first sound's peak over the power of a whole beat: two sounds of 85 and 58 ms (to -20 dB), the second 1.7
// times weaker, every 0.4 s, give 0.0542 of the peak squared.
constexpr double peak_over_beat_db = 12.7;

constexpr double ladder_up_to_hz = 150;

// A first sound's peak against the noise. The ladder itself is power against power, +12, +6, 0 and -5 dB in
// 20-150 Hz: at -5 an envelope detector begins to fail, which is what the ladder is measured by [practice].
double ladder_db(Ladder ladder) {
    switch (ladder) {
        case Ladder::easy: return 12 + peak_over_beat_db;
        case Ladder::normal: return 6 + peak_over_beat_db;
        case Ladder::hard: return 0 + peak_over_beat_db;
        case Ladder::very_hard: return -5 + peak_over_beat_db;
    }
    return 12 + peak_over_beat_db;
}

// The louder heart at its own best place, at rest, held well: what the ladder is measured against.
double best_at_rest_db(const Patient& patient, Instrument instrument) {
    const CourseTick rest{};
    double best = -120;
    for (int baby = 0; baby < patient.babies.size; ++baby) {
        const Spot spot = heart_spot(patient, baby, rest);
        // A Doppler's hiss is its own: a carrier that reaches less deep than 2 MHz leaves it where it is.
        const double reaches = (patient.surroundings.doppler_mhz - 2) * spot.depth_cm;
        const double db =
            instrument == Instrument::doppler
                ? echo_of_heart(patient, baby, rest, held_well(instrument, spot.x_cm, spot.y_cm))
                          .level.value +
                      reaches
                : heart_at_skin(patient, baby, rest, spot.x_cm, spot.y_cm).hum.value;
        best = std::max(best, db);
    }
    return patient.babies.size == 0 ? -6 : best;
}

std::size_t at(Source source) { return static_cast<std::size_t>(source); }

}  // namespace

Ear ear_for(const Patient& patient, const Hold& hold) {
    Ear ear;
    ear.chain = chain_of(hold);
    ear.contact_db = hold.placed && hold.instrument != Instrument::none ? decibels(ear.chain.contact) : -120;
    if (hold.instrument == Instrument::none) return ear;

    ear.noise_source_db = best_at_rest_db(patient, hold.instrument) - ladder_db(patient.surroundings.ladder);
    if (hold.instrument == Instrument::doppler) {  // a made-up sound: its pitch is not the heart's
        ear.heart_through = 1;
        return ear;
    }
    const Chain well = chain_of(held_well(hold.instrument, 0, 0));
    const Chain measure = chain_of(held_well(Instrument::horn, 0, 0));
    const double first_hz = heart_pitch(patient.gestation_weeks).first_hz * first_valve_over_centre;
    ear.heart_through = first_sound_through(well, first_hz);
    const double heart_through_horn = first_sound_through(measure, first_hz);
    // `lets` gives what a chain lets through of one source.
    const auto put = [&](const auto& lets, double& horn_db, double& against_db) {
        horn_db = decibels(lets(measure) / heart_through_horn);
        against_db = decibels(lets(ear.chain) / ear.heart_through) - horn_db;
    };
    const auto tone = [](double hz) { return [hz](const Chain& chain) { return amplitude_at(chain, hz); }; };
    const auto noise = [](const Spectrum& s) {
        return [&s](const Chain& chain) { return through(chain, s); };
    };
    const auto put_source = [&](Source source, const auto& lets) {
        put(lets, ear.horn_db[at(source)], ear.against_db[at(source)]);
    };
    const Spectra& known = spectra();
    put_source(Source::baby, [&](const Chain& chain) { return first_sound_through(chain, first_hz); });
    put_source(Source::vessel, tone(vessel_hz));
    put_source(Source::souffle, noise(known.blow));
    for (auto* db : {&ear.horn_db, &ear.against_db}) {
        (*db)[at(Source::baby2)] = (*db)[at(Source::baby)];
        (*db)[at(Source::cord_souffle)] = (*db)[at(Source::souffle)];
    }
    put([&](const Chain& chain) { return through(chain, known.body, ladder_up_to_hz); }, ear.noise_horn_db,
        ear.noise_against_db);
    put(noise(known.ward), ear.ward_horn_db, ear.ward_against_db);
    return ear;
}

namespace {

// One source, by what reaches the skin of it.
void put_level(EarLevels& levels, const Ear& ear, Source source, double skin_db) {
    const double held_db = skin_db + ear.contact_db;
    levels.at_ear_db[at(source)] = std::max(-120.0, held_db + ear.against_db[at(source)]);
    levels.into_db[at(source)] = std::max(-120.0, held_db - ear.horn_db[at(source)]);
}

void put_blows(EarLevels& levels, const Ear& ear, const Patient& patient, const Hold& hold) {
    const Surroundings& s = patient.surroundings;
    const bool beam = hold.instrument == Instrument::doppler;
    const auto blow = [&](Source source, Decibels own) {
        if (own.value <= -60) return;
        put_level(levels, ear, source,
                  own.value + (beam ? echo_of_blow(patient, source, hold).value + echo_of_vessel_gain_db
                                    : blow_to_skin(patient, source, hold.x_cm, hold.y_cm).value));
    };
    blow(Source::souffle, s.souffle);
    blow(Source::vessel, s.vessel);
    if (patient.babies.size > 0 && patient.babies[0].heart_beats) blow(Source::cord_souffle, s.cord_souffle);
}

void put_noises(EarLevels& levels, const Ear& ear, const Surroundings& s, Instrument instrument) {
    if (instrument == Instrument::doppler) {  // hiss of the receiver: it does not care what it is pressed to
        levels.body_noise_db = levels.body_noise_into_db = ear.noise_source_db;
        return;
    }
    const double noise_held_db = ear.noise_source_db + ear.contact_db;
    levels.body_noise_db = noise_held_db + ear.noise_against_db;
    levels.body_noise_into_db = noise_held_db - ear.noise_horn_db;
    if (s.ward.value > -60) {
        const double let_in_db = s.ward.value + sealed_ward_db * (1 - ear.chain.leak) +
                                 (instrument == Instrument::horn ? 0 : ears_plugged_db);
        levels.ward_db = let_in_db + ear.ward_against_db;
        levels.ward_into_db = let_in_db - ear.ward_horn_db;
    }
}

}  // namespace

EarLevels levels_without_hearts(const Ear& ear, const Patient& patient, const Hold& hold) {
    EarLevels out;
    out.chain = ear.chain;
    out.heart_through = ear.heart_through;
    out.into_db.fill(-120);
    out.at_ear_db.fill(-120);
    if (ear.contact_db > -120) {
        put_blows(out, ear, patient, hold);
        put_noises(out, ear, patient.surroundings, hold.instrument);
    }
    out.without_rhythm_db = sum_db(out.body_noise_db, out.ward_db);
    return out;
}

void hear_hearts(EarLevels& levels, const Ear& ear, const Patient& patient, const CourseTick& now,
                 const Hold& hold) {
    if (ear.contact_db <= -120) return;
    bool any_in_beam = false;
    for (int baby = 0; baby < patient.babies.size; ++baby) {
        if (!patient.babies[baby].heart_beats) continue;
        const Source source = baby == 0 ? Source::baby : Source::baby2;
        if (hold.instrument == Instrument::doppler) {
            const HeartEcho echo = echo_of_heart(patient, baby, now, hold);
            levels.aim = any_in_beam ? std::max(levels.aim, echo.aim) : echo.aim;
            any_in_beam = true;
            put_level(levels, ear, source, echo.level.value);
        } else {
            const HeartAtSkin skin = heart_at_skin(patient, baby, now, hold.x_cm, hold.y_cm);
            put_level(levels, ear, source, skin.hum.value);
            levels.crisp_db[static_cast<std::size_t>(baby)] = skin.crisp_more.value;
        }
    }
}

EarLevels levels_through(const Ear& ear, const Patient& patient, const CourseTick& now, const Hold& hold) {
    EarLevels out = levels_without_hearts(ear, patient, hold);
    hear_hearts(out, ear, patient, now, hold);
    return out;
}

PlaceLevels place_levels(const EarLevels& levels) {
    PlaceLevels out;
    const auto ear = [&](Source source) { return levels.at_ear_db[at(source)]; };
    out.which_baby = ear(Source::baby2) > ear(Source::baby) ? 1 : 0;
    out.baby = {std::max(ear(Source::baby), ear(Source::baby2))};
    out.rival_source = ear(Source::vessel) > ear(Source::souffle) ? Source::vessel : Source::souffle;
    out.rival = {std::max(ear(Source::souffle), ear(Source::vessel))};
    out.noise = {levels.without_rhythm_db};
    return out;
}

}  // namespace sim
