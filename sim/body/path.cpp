#include "sim/body/path.h"

#include "sim/body/decibels.h"
#include "sim/exact_math.h"

#include <algorithm>
#include <cmath>

namespace sim {

namespace {

constexpr double reference_depth_cm = 7;
constexpr double absorbed_db_per_cm_hz =
    0.005;  // 0.2 dB a centimetre at 40 Hz, 0.5 at 100, rising with it [practice]
// Between the near and the far side of a baby's head 17 dB were met (vibration, sheep); waters and bowel take
// the rest far from the back, limbs some more on their side [practice].
constexpr double in_the_way_db = 20, limbs_db = 6;
constexpr double more_in_the_way =
    0.4;  // of the crisp part: what is short in wave bends less round it [practice]
constexpr double limb_passes_db = 8;  // while the baby moves its limbs before the heart [practice]
// With the beam's own 1.2 cm and a heart 4 to 5 cm wide: how far off the echo is still met [practice].
constexpr double hearts_width_cm = 2.2;
constexpr double echo_db_per_cm_mhz = 0.5;  // one way [memory]

// 0 below `from`, 1 above `to`, smooth between.
double eased(double v, double from, double to) {
    const double t = std::clamp((v - from) / (to - from), 0.0, 1.0);
    return t * t * (3 - 2 * t);
}

double spread_db(double depth_cm, double aside_cm, double reference_cm, double hz) {
    const double d = std::sqrt(depth_cm * depth_cm + aside_cm * aside_cm);
    return -decibels(d / reference_cm) - absorbed_db_per_cm_hz * hz * (d - reference_cm);
}

// Back against the wall 0; to the side 4; limbs in front 8 to 12 [practice].
double turned_away_db(const Baby& baby) {
    switch (baby.back) {
        case Back::left_front:
        case Back::front:
        case Back::right_front: return 0;
        case Back::left_side:
        case Back::right_side: return -4;
        case Back::left_behind:
        case Back::right_behind: return -6;
        case Back::behind: return -10;
    }
    return 0;
}

// Limbs between her wall and the heart.
bool limbs_in_front(const Baby& baby) {
    return baby.back == Back::behind || baby.back == Back::left_behind || baby.back == Back::right_behind;
}

// How much of a placenta lies under a place, 0..1.
double placenta_under(const Patient& patient, double x_cm, double y_cm) {
    switch (patient.mother.placenta) {
        case Placenta::front: return 1;
        case Placenta::left: return eased(x_cm, 2, 8);
        case Placenta::right: return eased(-x_cm, 2, 8);
        case Placenta::low: return eased(-y_cm, 8, 13);
        case Placenta::back: break;
    }
    return 0;
}

struct Place {
    double x_cm, y_cm, depth_cm, own_width_cm, hz;
};

Place place_of(const Surroundings& s, Source source) {
    switch (source) {
        case Source::souffle: return {s.souffle_x.value, s.souffle_y.value, 6, 3.5, 200};
        case Source::cord_souffle: return {s.cord_x.value, s.cord_y.value, 3, 2.5, 250};
        default: return {s.vessel_x.value, s.vessel_y.value, 5, 2.5, 42};
    }
}

// Where the beam is at a depth, from where the probe stands and leans.
struct Beam {
    double x_cm, y_cm, cosine;
};

Beam beam_at(const Hold& hold, double depth_cm) {
    if (hold.tilt_deg == 0) return {hold.x_cm, hold.y_cm, 1};  // what the sines would give, to the last bit
    const double lean = std::min(hold.tilt_deg, 60.0) * pi / 180, towards = hold.tilt_towards_deg * pi / 180;
    const double cosine = exact_cos(lean), shift = depth_cm * exact_sin(lean) / cosine;
    // The probe's head leans towards `towards`, so its face, and the beam, point the other way.
    return {hold.x_cm - shift * exact_cos(towards), hold.y_cm - shift * exact_sin(towards), cosine};
}

// How well the beam meets a heart.
double aim_at(const Spot& heart, const Hold& hold) {
    const Beam beam = beam_at(hold, heart.depth_cm);
    const double dx = beam.x_cm - heart.x_cm, dy = beam.y_cm - heart.y_cm;
    return beam.cosine * exact_exp(-(dx * dx + dy * dy) / (hearts_width_cm * hearts_width_cm));
}

double miss_db(double miss_cm, double width_cm) {
    const double off = miss_cm / width_cm;
    return std::max(-120.0, -8.685889638 * off * off);
}

}  // namespace

double fat_db_per_cm(double hz) { return 0.5 + 0.01 * hz; }

double aside_db(double depth_cm, double aside_cm, double hz) {
    return spread_db(depth_cm, aside_cm, depth_cm, hz);
}

HeartAtSkin heart_at_skin(const Patient& patient, int baby, const CourseTick& now, double x_cm, double y_cm) {
    const Baby& b = patient.babies[baby];
    const Mother& mother = patient.mother;
    const Spot spot = heart_spot(patient, baby, now);
    const double dx = x_cm - spot.x_cm, dy = y_cm - spot.y_cm;
    const double aside = std::sqrt(dx * dx + dy * dy);
    const double way = std::sqrt(aside * aside + spot.depth_cm * spot.depth_cm) - reference_depth_cm;
    // Limbs lie on the side away from the back: the shadow begins nearer there.
    const double towards_limbs = spot.x_cm > 0.5 ? -dx : spot.x_cm < -0.5 ? dx : 0;
    const double in_the_way = in_the_way_db * eased(aside, 2.5, 12) + limbs_db * eased(towards_limbs, 4, 10);
    const double squeezed = eased(now.uc_above_tone_mmhg, 15, 45);
    const double thick = std::max(0.0, mother.fat.value - 1.5);

    double db = spread_db(spot.depth_cm, aside, reference_depth_cm, hum_hz) - in_the_way;
    db += turned_away_db(b) - (limbs_in_front(b) && now.moving ? limb_passes_db : 0);
    db -= fat_db_per_cm(hum_hz) * thick;
    db -= 0.9 * mother.extra_fluid_cm;  // it swims off the wall, besides lying deeper
    db -= 5 * placenta_under(patient, x_cm, y_cm);
    db -= 5 * squeezed;
    // The womb at work blurs what it lets through.
    const double crisp = -absorbed_db_per_cm_hz * (crisp_hz - hum_hz) * way - more_in_the_way * in_the_way -
                         (fat_db_per_cm(crisp_hz) - fat_db_per_cm(hum_hz)) * thick - 4 * squeezed;
    return {{std::max(-120.0, db)}, {std::max(-120.0, crisp)}};
}

Decibels blow_to_skin(const Patient& patient, Source source, double x_cm, double y_cm) {
    const Place p = place_of(patient.surroundings, source);
    const double dx = x_cm - p.x_cm, dy = y_cm - p.y_cm, aside = std::sqrt(dx * dx + dy * dy);
    const double reach = source == Source::cord_souffle ? 6 : 14;  // a cord blow is met over 3 to 5 cm only
    const double in_the_way = source == Source::souffle ? 6 : 12;
    double db = aside_db(p.depth_cm, aside, p.hz) - in_the_way * eased(aside, 2, reach);
    if (source == Source::souffle) {  // a placenta in front blows wherever it lies
        const double under = placenta_under(patient, x_cm, y_cm);
        db = std::max(db, -6 - 60 * (1 - under));
    }
    return {std::max(-120.0, db)};
}

HeartEcho echo_of_heart(const Patient& patient, int baby, const CourseTick& now, const Hold& hold) {
    const Spot spot = heart_spot(patient, baby, now);
    const double aim = aim_at(spot, hold);
    double db = decibels(aim);
    // There and back, against 7 cm at 2 MHz.
    db -=
        2 * echo_db_per_cm_mhz * (spot.depth_cm * patient.surroundings.doppler_mhz - 2 * reference_depth_cm);
    db += -3 * placenta_under(patient, hold.x_cm, hold.y_cm) + turned_away_db(patient.babies[baby]) / 2;
    db -= 3 * eased(now.uc_above_tone_mmhg, 15, 45) + (now.moving ? 4 : 0);
    return {{std::max(-120.0, db)}, aim};
}

Decibels echo_of_blow(const Patient& patient, Source source, const Hold& hold) {
    const Place p = place_of(patient.surroundings, source);
    const Beam beam = beam_at(hold, p.depth_cm);
    const double dx = beam.x_cm - p.x_cm, dy = beam.y_cm - p.y_cm;
    return {std::max(-120.0, miss_db(std::sqrt(dx * dx + dy * dy), p.own_width_cm) + decibels(beam.cosine))};
}

}  // namespace sim
