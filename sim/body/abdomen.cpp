#include "sim/body/abdomen.h"

#include "sim/body/ear.h"
#include "sim/instrument/chain.h"

#include <algorithm>
#include <cassert>

namespace sim {

namespace {

struct Xy {
    double x_cm, y_cm;
};

double side_of(Back back) {
    switch (back) {
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

// Head-down and free in the brim, breech, across: through the back, below the navel head-down, above it
// breech (open midwifery texts); centimetres [practice].
Xy table_spot(const Baby& baby) {
    const double side = side_of(baby.back);
    if (baby.presentation == Presentation::across) return {side == 0 ? 6 : 6 * side, -1};
    const bool head = baby.presentation == Presentation::head;
    switch (baby.back) {
        case Back::left_front:
        case Back::right_front: return head ? Xy{6 * side, -7} : Xy{4 * side, 5};
        case Back::left_side:
        case Back::right_side: return head ? Xy{9 * side, -7} : Xy{7 * side, 4};
        case Back::left_behind:
        case Back::right_behind: return head ? Xy{11 * side, -8} : Xy{9 * side, 3};
        case Back::front: return head ? Xy{1, -8} : Xy{1, 5};
        case Back::behind: return head ? Xy{2, -9} : Xy{2, 4};
    }
    return {6, -7};
}

// How far the part that comes first has gone in, 0 free .. 1 in the pelvis: at most 3 cm down, and to six
// tenths of the way from the midline, about 1 cm a station [practice].
double gone_in(const Baby& baby, double come_down_fifths) {
    if (baby.presentation == Presentation::across) return 0;
    return std::clamp((4 - baby.fifths_above_brim + come_down_fifths) / 4, 0.0, 1.0);
}

double midline_share(double in) { return 1 - 0.4 * in; }

}  // namespace

Spot heart_spot(const Patient& patient, int baby, const CourseTick& now) {
    const Baby& b = patient.babies[baby];
    const auto i = static_cast<std::size_t>(baby);
    const double at_first = gone_in(b, 0), in = gone_in(b, now.come_down_fifths[i]);
    Spot spot;
    spot.depth_cm = b.depth.value + patient.mother.fat.value + patient.mother.extra_fluid_cm;
    if (b.spot_given) {
        spot.x_cm = b.spot_x.value;
        spot.y_cm = b.spot_y.value;
    } else {
        const Xy free = table_spot(b);
        const double deep = b.presentation == Presentation::head ? at_first : 0;
        spot.x_cm = free.x_cm * midline_share(deep) + b.spot_off_x.value;
        spot.y_cm = free.y_cm - 3 * deep + b.spot_off_y.value;
    }
    spot.x_cm = spot.x_cm * midline_share(in) / midline_share(at_first) + now.shifted_x_cm[i];
    spot.y_cm += -3 * (in - at_first) + now.shifted_y_cm[i];
    return spot;
}

Decibels level_at_ear(const Patient& patient, const CourseTick& now, const Hold& hold, Source source) {
    const EarLevels levels = levels_through(ear_for(patient, hold), patient, now, hold);
    return {levels.at_ear_db[static_cast<std::size_t>(source)]};
}

PlaceLevels levels_at(const Patient& patient, const CourseTick& now, const Hold& hold) {
    return place_levels(levels_through(ear_for(patient, hold), patient, now, hold));
}

Countable countable(const PlaceLevels& levels) {
    const Decibels over_rival = levels.baby - levels.rival, over_noise = levels.baby - levels.noise;
    if (levels.baby.value <= -120) return Countable::not_countable;
    if (over_rival >= countable_over_rival && over_noise >= audible_over_noise) return Countable::countable;
    // Within 6 dB of the limit an experienced ear may still follow it [practice].
    if (over_rival.value >= 0 && over_noise >= audible_over_noise - Decibels{4}) return Countable::doubtful;
    return Countable::not_countable;
}

BestSpot best_spot(const Patient& patient, const CourseTick& now, Instrument instrument, int baby) {
    assert(baby >= 0 && baby < patient.babies.size);
    if (!patient.babies[baby].heart_beats) {  // where it would be heard: nothing is loud anywhere
        Patient beating = patient;
        beating.babies[baby].heart_beats = true;
        BestSpot there = best_spot(beating, now, instrument, baby);
        there.levels = levels_at(patient, now, held_well(instrument, there.x_cm, there.y_cm));
        return there;
    }
    const Source wanted = baby == 0 ? Source::baby : Source::baby2;
    Hold hold = held_well(instrument, 0, 0);
    const Ear ear = ear_for(patient, hold);
    BestSpot best;
    double best_db = -1000;
    constexpr int columns = static_cast<int>((map_x_to - map_x_from) / map_step);
    constexpr int rows = static_cast<int>((map_y_to - map_y_from) / map_step);
    for (int row = rows; row >= 0; --row) {
        for (int column = 0; column <= columns; ++column) {
            hold.x_cm = map_x_from + column * map_step;
            hold.y_cm = map_y_from + row * map_step;
            const EarLevels levels = levels_through(ear, patient, now, hold);
            const double db = levels.at_ear_db[static_cast<std::size_t>(wanted)];
            if (db <= best_db) continue;
            best_db = db;
            best = {hold.x_cm, hold.y_cm, place_levels(levels)};
        }
    }
    return best;
}

}  // namespace sim
