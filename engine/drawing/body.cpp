// Her body and her labour: place, lie, contractions, sounds, a calm heart, and what else is the matter.
#include "engine/drawing/draft.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace engine {

double rate_between(Dice& dice, double from, double to) {
    for (int again = 0; again < 1000; ++again) {
        const double r = dice.tenths(from, to);
        if (r == std::floor(r) || std::fmod(std::round(r), 10) == 0 || r < from || r > to) continue;
        return r;
    }
    assert(false && "no rate between these ends");
    return from;
}

// Her pulse well away from the baby's: at rest and at the height of a contraction.
void pulse_apart(Draft& d, double from, double to) {
    Woman& w = d.w;
    for (int again = 0; again < 400; ++again) {
        w.pulse_bpm = rate_between(d.dice, from, to);
        const double up = w.pulse_bpm + w.with_contraction_bpm + (w.pushing ? w.with_push_bpm : 0);
        const double b = w.baby.baseline_bpm;
        if (b < w.pulse_bpm - 13 || b > up + 13) return;
    }
    assert(false && "no pulse away from the baby's");
}

void on_her_back(Draft& d) {
    d.w.position = "flat";
    d.w.told.on_her_back = true;
}

void call(Draft& d, std::string kind, int at_s, std::string says) {
    d.w.calls.push_back({std::move(kind), std::move(says), at_s});
}

namespace {

void place_and_instruments(Draft& d) {
    Woman& w = d.w;
    w.level = d.c[Axis::level] + 1;
    w.told.task = d.task();
    w.told.place = d.c[Axis::place];
    w.told.instrument = d.c[Axis::instrument];
    switch (d.c[Axis::instrument]) {
        case instrument::horn: w.instruments = {"horn"}; break;
        case instrument::stethoscope: w.instruments = {"bell", "diaphragm"}; break;
        case instrument::doppler: w.instruments = {"doppler"}; break;
        default: w.instruments = {"horn", "doppler"};
    }
    constexpr int minutes[] = {6, 5, 10, 10, 15, 30};
    w.told.length_min = minutes[d.c[Axis::task]];
    w.length_s = 60 * w.told.length_min;
    w.told.hour = d.dice.below(24);
    w.told.births_before = d.dice.one_of({0, 0, 1, 1, 2, 3, 4});
    w.gestation_days = d.dice.whole(262, 288);  // 37 wk 3 d to 41 wk 1 d
    w.fat_cm = d.dice.tenths(1.4, w.level >= 3 ? 3.8 : 2.6);
    w.breaths_per_min = d.dice.whole(14, 19);
    w.temperature_c = d.dice.tenths(36.5, 37.2);
    w.placenta = d.dice.one_of<std::string_view>({"back", "back", "left", "right"});
    if (w.level >= 3 && d.dice.chance(0.3)) w.placenta = "front";
}

void lie(Draft& d) {
    using Words = std::vector<std::string>;
    static const Words front{"LOA", "LOA", "ROA", "OA"}, side{"LOT", "ROT"}, behind{"LOP", "ROP", "OP"},
        breech{"LSA", "RSA", "LST", "RST", "RSP"}, across{"across head left", "across head right"};
    const int p = d.c[Axis::position];
    d.w.baby.position = d.dice.one_of(p == position::back_front    ? front
                                      : p == position::back_side   ? side
                                      : p == position::back_behind ? behind
                                      : p == position::breech      ? breech
                                                                   : across);
    d.w.baby.fifths = p >= position::breech ? 5 : d.dice.whole(2, 4);
    d.w.baby.depth_cm = p == position::back_behind ? d.dice.tenths(7.5, 8.6) : d.dice.tenths(6, 7.8);
    d.w.baby.movements_per_10min = d.dice.whole(3, 10);
}

void labour(Draft& d) {
    Woman& w = d.w;
    w.open_cm = d.dice.whole(4, 7);
    w.contractions_per_10min = d.dice.tenths(2.6, 3.8);
    w.contraction_length_s = d.dice.whole(50, 65);
    w.strength_mmhg = d.dice.whole(38, 55);
    w.first_contraction_s = d.dice.whole(70, 160);
    if (d.dice.chance(0.45)) {
        w.waters = "clear";
        w.waters_gone_h = d.dice.whole(1, 6);
    }
    // Fever and medicine of hers belong to a labour that has gone on.
    const bool long_already = d.caused_by(cause::fever) || d.caused_by(cause::medicine);
    if (d.task() == Task::find && !long_already && d.dice.chance(0.4)) {
        w.stage = "latent";
        w.told.latent = true;
        w.open_cm = 3;
        w.contractions_per_10min = d.dice.tenths(2, 2.6);
        w.contraction_length_s = d.dice.whole(40, 48);
    }
    const bool may_push = d.c[Axis::position] <= position::back_side && d.task() == Task::labour &&
                          w.level >= 2 && d.c[Axis::variant] == variant::none &&
                          d.c[Axis::calm] == calm::no_slowing;
    if (may_push && d.dice.chance(0.35)) {
        w.stage = "second";
        w.told.second_stage = true;
        w.open_cm = 10;
        w.baby.fifths = 1;
        w.pushing = true;
        w.pushing_for_min = d.dice.whole(3, 20);
        w.waters = "clear";
        w.waters_gone_h = d.dice.whole(1, 5);
    }
}

void sounds(Draft& d) {
    Woman& w = d.w;
    w.ladder = w.level == 1   ? "easy"
               : w.level == 2 ? d.dice.one_of<std::string_view>({"easy", "normal"})
               : w.level <= 4 ? "normal"
                              : "hard";
    w.ward_db = w.level == 1 ? -60 : d.dice.whole(-48, -30);
    const bool rivals = d.task() == Task::tell_apart || d.task() == Task::find || w.level >= 4;
    w.vessel_db = rivals ? d.dice.whole(-9, -4) : d.dice.whole(-12, -9);
    w.souffle_db = rivals ? d.dice.whole(-12, -8) : d.dice.whole(-16, -12);
    // On the side of the limbs, where the search begins on the wrong side; in the middle on either.
    const bool back_right = w.baby.position.front() == 'R' || w.baby.position.ends_with("right") ||
                            (w.baby.position.size() == 2 && d.dice.chance(0.5));
    const double side = back_right ? 1 : -1;
    w.souffle_x_cm = side * d.dice.tenths(7.5, 10);
    w.souffle_y_cm = d.dice.tenths(-11, -8.5);
    w.vessel_x_cm = side * d.dice.tenths(4, 6.5);
    w.vessel_y_cm = d.dice.tenths(-14, -12.5);
}

void calm_heart(Draft& d) {
    Woman& w = d.w;
    const bool slows = d.c[Axis::calm] == calm::early;
    w.baby.baseline_bpm =
        d.rate_of_band(slows || w.pushing ? 132 : d.bands.normal_from, std::min(d.bands.normal_to, 156.0));
    if (slows) {
        w.open_cm = d.dice.whole(8, 9);
        w.baby.fifths = d.dice.whole(1, 2);
        w.contraction_length_s = d.dice.whole(60, 70);
        w.baby.events.push_back({.kind = "early", .depth_bpm = d.dice.whole(21, 27)});
        // its own swing at a contraction's end must not read as a slowing after it
        w.baby.variability = "quiet";
    } else if (w.level >= 2 && !w.pushing && d.dice.chance(0.35) && w.baby.baseline_bpm < 146) {
        w.baby.variability = "active";
    }
    pulse_apart(d, 68, w.pushing ? 84 : 98);
    // Not everyone on her back is in trouble.
    if (!w.pushing && !slows && d.c[Axis::variant] != variant::in_water && d.dice.chance(0.12))
        on_her_back(d);
}

void on_a_limit(Draft& d) {
    Woman& w = d.w;
    w.boundary = true;
    if (d.task() == Task::tell_apart) {  // mother and baby beat nearly alike
        w.baby.baseline_bpm = rate_between(d.dice, 123, 128);
        w.pulse_bpm = w.baby.baseline_bpm - d.dice.tenths(2.1, 3.9);
        w.with_contraction_bpm = 2;
        // Steady both: they come into step as often as their difference says, not only on average.
        w.restless_percent = 20;
        w.baby.variability = "minimal";
        return;
    }
    const int which = d.dice.below(3);
    w.baby.baseline_bpm = which == 0   ? rate_between(d.dice, 107.1, 112.9)
                          : which == 1 ? rate_between(d.dice, 113.1, 118.9)
                                       : rate_between(d.dice, 158.1, 163.9);
    pulse_apart(d, 68, 90);
}

void what_else(Draft& d) {
    Woman& w = d.w;
    switch (d.c[Axis::variant]) {
        case variant::high_pressure: w.told.headache = true; break;
        case variant::preterm: w.gestation_days = d.dice.whole(7 * 34 + 5, 7 * 35 + 5); break;
        case variant::thin_green:
            w.waters = "thin_green";
            w.waters_gone_h = d.dice.whole(1, 4);
            break;
        case variant::generator:
            w.told.generator = true;
            w.ward_db = d.dice.whole(-16, -10);
            break;
        case variant::in_water: w.told.in_water = true; break;
        case variant::interrupted:
            w.told.interrupted = true;
            w.knocks_per_min = d.dice.whole(3, 6);
            call(d, "interrupted", d.dice.whole(60, 140),
                 d.dice.one_of<std::string>(
                     {"The door opens: \"Sister, where are the clean cloths?\" You have to look up.",
                      "A knock. \"Somebody has come with a child. Where shall they sit?\" You turn round and "
                      "answer.",
                      "Her mother touches your arm and asks whether she may bring the tea in now."}));
            break;
        case variant::second_twin:
            w.told.first_twin_born = true;
            w.told.births_before = std::max(1, w.told.births_before + 1);
            w.gestation_days = d.dice.whole(260, 266);
            w.stage = "second";
            w.told.latent = false;
            w.open_cm = 10;
            w.waters = "whole";
            w.waters_gone_h = 0;
            w.contractions_per_10min = d.dice.tenths(2, 2.8);
            if (d.c[Axis::position] < position::breech) w.baby.fifths = d.dice.whole(4, 5);
            break;
        default: break;
    }
    w.told.weeks = w.gestation_days / 7;
}

void stand_out_more(Draft& d) {
    Woman& w = d.w;
    for (DrawnBaby* baby : {&w.baby, &w.second})
        baby->depth_cm = std::max(6.0, baby->depth_cm - 0.2 * d.again);
    w.fat_cm = std::max(1.2, w.fat_cm - 0.2 * d.again);
    w.vessel_db -= d.again;
    w.souffle_db -= d.again;
    w.ward_db = std::max(-60, w.ward_db - 3 * d.again);
    if (w.ladder == "hard" && d.again > 2) w.ladder = "normal";
    if (w.ladder == "normal" && d.again > 5) w.ladder = "easy";
}

// The usual: waters that break and nothing follows, sickness that passes.
void nothing_follows(Draft& d) {
    if (d.task() != Task::labour || !d.w.calls.empty()) return;
    Woman& w = d.w;
    if (w.waters == "whole" && d.c[Axis::variant] != variant::second_twin && !w.told.first_twin_born &&
        d.dice.chance(0.4))
        call(d, "waters_break", d.dice.whole(200, 900), "\"Oh! It is all wet.\" A gush of clear waters.");
    else if (d.dice.chance(0.25))
        call(d, "feels_unwell", d.dice.whole(200, 900), "She is sick into the bowl and asks for water.");
}

void earlier_lines(Draft& d) {
    Woman& w = d.w;
    const bool normal_start = w.heart && !d.is(trouble::fast) && !d.is(trouble::slow) &&
                              !d.is(trouble::rising) && !d.is(trouble::twins) &&
                              d.c[Axis::boundary] == boundary::no && !w.told.first_twin_born;
    const bool followed = d.task() == Task::pattern || d.task() == Task::labour;
    if (!normal_start || (!followed && d.dice.chance(0.5))) return;
    const auto line = [&](int ago) {
        const int rate = static_cast<int>(std::round(w.baby.baseline_bpm)) + d.dice.whole(-2, 2);
        w.chart.push_back({ago, rate, static_cast<int>(std::round(w.pulse_bpm)) + d.dice.whole(-3, 2),
                           followed ? "between contractions" : ""});
    };
    if (followed) line(60);
    line(30);
}

}  // namespace

double Draft::rate_of_band(double from_bpm, double to_bpm) {
    if (rate.asked()) {  // inside its ends: a labour settles near its rate, not at it
        const double low = std::max(from_bpm, rate.from_bpm + 1), high = std::min(to_bpm, rate.to_bpm - 1);
        if (high - low >= 1) return rate_between(dice, low, high);
    }
    return rate_between(dice, from_bpm, to_bpm);
}

Woman woman_of(const AskedShare& asked, const Protocol& protocol, Dice& body, int again) {
    Draft d{asked.what, asked.answers, Bands(protocol), body, again, asked.rate};
    place_and_instruments(d);
    lie(d);
    labour(d);
    sounds(d);
    if (!asked.what.is_normal())
        add_trouble(d);
    else if (asked.what[Axis::boundary] == boundary::yes)
        on_a_limit(d);
    else
        calm_heart(d);
    what_else(d);
    if (again > 0) stand_out_more(d);
    nothing_follows(d);
    earlier_lines(d);
    return d.w;
}

}  // namespace engine
