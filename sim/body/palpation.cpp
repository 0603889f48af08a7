#include "sim/body/palpation.h"

#include "sim/body/abdomen.h"

#include <algorithm>
#include <cmath>

namespace sim {

namespace {

constexpr double rests_never_mmhg = 25, hard_above_tone_mmhg = 40;

bool within(double x, double y, double cx, double cy, double rx, double ry) {
    const double u = (x - cx) / rx, v = (y - cy) / ry;
    return u * u + v * v <= 1;
}

double back_side(const Baby& baby) {
    switch (baby.back) {
        case Back::left_front:
        case Back::left_side:
        case Back::left_behind: return 1;
        case Back::right_front:
        case Back::right_side:
        case Back::right_behind: return -1;
        case Back::front:
        case Back::behind: break;
    }
    return 0;
}

// How far from the midline the ridge of the back lies: in front near it, behind out of reach.
double usual_back_x(const Baby& baby) {
    switch (baby.back) {
        case Back::left_front:
        case Back::right_front: return 6 * back_side(baby);
        case Back::left_side:
        case Back::right_side: return 9 * back_side(baby);
        case Back::left_behind:
        case Back::right_behind: return 13 * back_side(baby);
        case Back::front:
        case Back::behind: break;
    }
    return 0;
}

// The back lies where the heart is heard through it: where the author put that, or where it was drawn, and
// shifted with the baby.
double back_x(const Baby& baby, double shifted_cm) {
    const double usual = usual_back_x(baby);
    if (usual == 0) return shifted_cm;
    const bool as_given = baby.spot_given && baby.spot_x.value * usual > 0;
    const bool behind = baby.back == Back::left_behind || baby.back == Back::right_behind;
    const double there = as_given          ? baby.spot_x.value + (behind ? 2 * back_side(baby) : 0)
                         : baby.spot_given ? usual
                                           : usual + baby.spot_off_x.value;
    return std::clamp(there + shifted_cm, -13.0, 13.0);
}

Felt across(const Baby& baby, double x, double y) {
    const double head = back_side(baby) == 0 ? 1 : back_side(baby);
    if (within(x, y, 12 * head, 0, 4.5, 5)) return Felt::hard_round_head;
    if (within(x, y, -12 * head, 0, 5, 5.5)) return Felt::broad_soft_breech;
    const bool back_in_front =
        baby.back == Back::left_front || baby.back == Back::right_front || baby.back == Back::front;
    if (within(x, y, 0, 1, 9, 4.5)) return back_in_front ? Felt::smooth_back : Felt::small_knobbly_limbs;
    if (within(x, y, 5 * head, -6, 4, 3)) return Felt::shoulder;
    return Felt::nothing_clear;
}

Felt lengthwise(const Baby& baby, double x, double y, double fundus_y, double come_down, double shifted_x) {
    const bool head_down = baby.presentation == Presentation::head;
    // A head deep in the pelvis is out of reach: at 0 or 1 fifth only the breech end is clear.
    const double above = std::clamp(baby.fifths_above_brim - come_down, 0.0, 5.0), sinks = 5 - above;
    const double lower_y = -13 - 0.7 * sinks, upper_y = fundus_y - 5;
    const bool lower_reached = !head_down || above >= 1.5;
    if (lower_reached && within(x, y, 0, lower_y, 4.5, 4))
        return head_down ? Felt::hard_round_head : Felt::broad_soft_breech;
    if (within(x, y, 0, upper_y, 6, 4.5)) return head_down ? Felt::broad_soft_breech : Felt::hard_round_head;
    if (y < lower_y + 3 || y > upper_y - 2) return Felt::nothing_clear;

    const double ridge = back_x(baby, shifted_x);
    if (baby.back == Back::behind) return std::fabs(x) < 8 ? Felt::small_knobbly_limbs : Felt::nothing_clear;
    if (std::fabs(x - ridge) <= 4 && std::fabs(x) <= 14) return Felt::smooth_back;
    if (baby.back == Back::front) return Felt::nothing_clear;
    const double across_from_back = -x * back_side(baby);
    const bool behind = baby.back == Back::left_behind || baby.back == Back::right_behind;
    if (across_from_back > (behind ? -4 : 2) && across_from_back < 13) return Felt::small_knobbly_limbs;
    return Felt::nothing_clear;
}

}  // namespace

Felt felt_at(const Patient& patient, double x_cm, double y_cm, const CourseTick& now) {
    // A womb as hard as a forehead, or a thick wall, lets nothing through.
    if (firmness(now) == Firmness::hard || patient.mother.fat.value > 6) return Felt::nothing_clear;
    if (patient.babies.size == 0 || std::fabs(x_cm) > 16 || y_cm < -18 || y_cm > 20)
        return Felt::nothing_clear;
    // Top of the womb: about one centimetre a week above the pubic bone, which is 17 cm below the navel.
    const double fundus_y = std::clamp(patient.gestation_weeks - 1.5 - 17, 5.0, 21.0);
    const Baby& first = patient.babies[0];
    if (patient.babies.size == 1)
        return first.presentation == Presentation::across
                   ? across(first, x_cm, y_cm)
                   : lengthwise(first, x_cm, y_cm, fundus_y, now.come_down_fifths[0], now.shifted_x_cm[0]);
    // Twins: each fills the side its heart is on.
    const int nearer = std::fabs(x_cm - heart_spot(patient, 0, now).x_cm) <=
                               std::fabs(x_cm - heart_spot(patient, 1, now).x_cm)
                           ? 0
                           : 1;
    const Baby& baby = patient.babies[nearer];
    const double shift = 4 * (heart_spot(patient, nearer, now).x_cm < 0 ? -1 : 1);
    return baby.presentation == Presentation::across
               ? across(baby, x_cm, y_cm)
               : lengthwise(baby, x_cm - shift, y_cm, fundus_y,
                            now.come_down_fifths[static_cast<std::size_t>(nearer)],
                            now.shifted_x_cm[static_cast<std::size_t>(nearer)]);
}

Firmness firmness(const CourseTick& now) {
    const double tone = now.uc_mmhg - now.uc_above_tone_mmhg;
    if (tone >= rests_never_mmhg || now.uc_above_tone_mmhg > hard_above_tone_mmhg) return Firmness::hard;
    if (now.uc_above_tone_mmhg < felt_above_tone_mmhg && tone < 20) return Firmness::soft;
    return Firmness::firm;
}

double swell(const CourseTick& now) { return std::clamp(now.uc_above_tone_mmhg / 60, 0.0, 1.0); }

}  // namespace sim
