// What the heart does when it is not calm, each with a cause and signs that fit.
#include "engine/drawing/draft.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace engine {
namespace {

// The cause asked, in the word of the file; nothing found = unknown.
void has_cause(Draft& d, int at_s) {
    d.w.trouble = d.caused_by(cause::none_found) ? "unknown" : d.c.word(Axis::cause);
    d.w.trouble_at_s = at_s;
    d.w.recovers_over_s = d.dice.whole(80, 140);
    d.w.answers = d.answers;
}

void too_many(Draft& d) {
    Woman& w = d.w;
    w.contractions_per_10min = d.dice.tenths(5.8, 6.4);
    w.contraction_length_s = d.dice.whole(40, 45);
    w.without_drip_per_10min = d.dice.tenths(3, 3.8);
    w.first_contraction_s = d.dice.whole(50, 80);
}

void slow_after(Draft& d) {
    Woman& w = d.w;
    w.baby.baseline_bpm = rate_between(d.dice, 128, 153);
    has_cause(d, 0);
    if (d.caused_by(cause::too_many)) {
        too_many(d);
        w.drip = w.told.drip = d.c[Axis::place] != place::post && d.c[Axis::variant] != variant::injection;
        w.baby.events.push_back(
            {.kind = "late", .depth_bpm = d.dice.whole(26, 32), .back_after_s = d.dice.whole(24, 30)});
    } else {
        w.contractions_per_10min = d.dice.tenths(2.8, 3.5);
        if (d.caused_by(cause::lying_flat)) on_her_back(d);
        w.baby.events.push_back(
            {.kind = "late", .depth_bpm = d.dice.whole(24, 34), .back_after_s = d.dice.whole(42, 62)});
    }
    pulse_apart(d, 72, 96);
}

void cord_pressed(Draft& d) {
    Woman& w = d.w;
    w.baby.baseline_bpm = rate_between(d.dice, 132, 152);
    w.waters = "clear";
    w.waters_gone_h = d.dice.whole(1, 3);
    w.contractions_per_10min = d.dice.tenths(2.8, 3.4);
    has_cause(d, 0);
    w.baby.events.push_back({.kind = "variable",
                             .depth_bpm = d.dice.whole(38, 55),
                             .length_s = d.dice.whole(80, 100),
                             .share_percent = d.dice.whole(70, 95),
                             .shoulders_bpm = d.dice.whole(0, 8)});
    pulse_apart(d, 70, 80);
}

// Fully open, the head seen with each push.
void birth_close(Draft& d) {
    Woman& w = d.w;
    w.stage = "second";
    w.told.second_stage = true;
    w.open_cm = 10;
    w.baby.fifths = 0;
    w.head_visible = true;
    w.pushing = true;
    w.with_push_bpm = 15;
    w.pushing_for_min = d.dice.whole(10, 40);
    w.waters = "clear";
    w.waters_gone_h = d.dice.whole(1, 5);
    w.baby.baseline_bpm = rate_between(d.dice, 134, 152);
    pulse_apart(d, 70, 84);
}

void falls_and_stays(Draft& d) {
    Woman& w = d.w;
    w.baby.baseline_bpm = rate_between(d.dice, 128, 152);
    pulse_apart(d, 78, 98);
    const int at = d.dice.whole(150, 300);
    if (d.c[Axis::variant] == variant::high_pressure) {  // a fit: down for minutes, then back by itself
        call(d, "feels_unwell", at - 20,
             "Her eyes roll up, her arms and legs jerk. After a minute she breathes loudly and does not "
             "answer.");
        w.trouble = "unknown";
        w.trouble_at_s = 0;
        w.answers = d.answers;
        w.baby.events.push_back({.kind = "prolonged",
                                 .depth_bpm = d.dice.whole(45, 60),
                                 .length_s = d.dice.whole(400, 560),
                                 .at_s = at});
        w.with_contraction_bpm = 4;
        return;
    }
    has_cause(d, at);
    w.falls_over_s = d.dice.whole(40, 110);
    w.falls_to_bpm = rate_between(d.dice, 76, 94);
    const bool may_be_close = d.caused_by(cause::none_found) && d.task() == Task::labour && w.level >= 3 &&
                              d.c[Axis::position] <= position::back_side &&
                              d.c[Axis::variant] == variant::none;
    if (may_be_close && d.dice.chance(0.6)) birth_close(d);
    if (d.caused_by(cause::lying_flat)) {
        on_her_back(d);
        call(d, "feels_unwell", at + 90, "\"I feel sick, and the room is turning.\"");
    } else if (d.caused_by(cause::cord_prolapse)) {
        w.waters = "whole";
        w.waters_gone_h = 0;
        w.baby.fifths = 5;
        call(d, "waters_break", at - 10, "\"Oh! It is all wet.\" A gush of clear waters.");
    } else if (d.caused_by(cause::bleeding)) {
        w.tone_mmhg = 28;
        w.pulse_to_bpm = rate_between(d.dice, 118, 132);
        w.falls_to_bpm = rate_between(d.dice, 84, 97);
        call(d, "bleeding", at + 30, "\"Something warm.\" Dark blood on the cloth, more than a show.");
    } else if (d.caused_by(cause::scar)) {
        w.told.scar_known = true;
        w.told.births_before = std::max(1, w.told.births_before);
        w.contractions_stop_s = at + 30;
        w.falls_to_bpm = rate_between(d.dice, 58, 72);
        w.pulse_to_bpm = rate_between(d.dice, 121, 134);
        call(d, "pain_changes", at, "She cries out and holds her belly: \"That was not like the others.\"");
    }
}

void risen(Draft& d) {
    Woman& w = d.w;
    const int start = d.dice.one_of({121, 122, 123, 124, 126, 127});
    w.baby.baseline_bpm = rate_between(d.dice, start + 24.1, std::min(d.bands.normal_to, start + 31.0));
    w.chart.push_back({d.dice.one_of({180, 240}), start, d.dice.whole(76, 88), ""});
    w.chart.push_back({90, start + d.dice.whole(3, 6), d.dice.whole(80, 92), ""});
    w.temperature_c = d.dice.tenths(37.1, 37.5);
    pulse_apart(d, 88, 104);
}

void too_fast(Draft& d) {
    Woman& w = d.w;
    w.baby.baseline_bpm = d.rate_of_band(d.bands.fast_from, w.level <= 2 ? 182 : 196);
    if (d.caused_by(cause::fever)) {
        w.trouble = "fever";
        w.temperature_c = d.dice.tenths(38.2, 39.2);
        w.breaths_per_min = d.dice.whole(20, 24);
        if (d.c[Axis::variant] != variant::second_twin && d.c[Axis::variant] != variant::thin_green) {
            w.waters = "foul";
            w.waters_gone_h = d.dice.whole(16, 30);
        }
        pulse_apart(d, 104, 122);
    } else if (d.caused_by(cause::medicine)) {
        w.trouble = "mothers_medicine";
        pulse_apart(d, 108, 126);
    } else {
        pulse_apart(d, 84, 104);
    }
}

void too_slow(Draft& d) {
    Woman& w = d.w;
    w.with_contraction_bpm = 3;
    if (d.rate.asked()) {
        w.baby.baseline_bpm = d.rate_of_band(72, d.bands.steady_to);
        const bool near_the_limit = w.baby.baseline_bpm > d.bands.slow_to;
        pulse_apart(d, near_the_limit ? 66 : 58, near_the_limit ? 84 : 120);
    } else if (d.dice.chance(0.3)) {
        w.baby.baseline_bpm = rate_between(d.dice, d.bands.steady_from, d.bands.steady_to);
        pulse_apart(d, 66, 84);
    } else {
        w.baby.baseline_bpm = rate_between(d.dice, 72, d.bands.slow_to);
        pulse_apart(d, 58, 120);
    }
    w.trouble = "unknown";
}

void out_of_rhythm(Draft& d) {
    Woman& w = d.w;
    w.baby.baseline_bpm = rate_between(d.dice, 128, 152);
    switch (d.dice.below(4)) {
        case 0: w.baby.early_beat_percent = d.dice.whole(4, 8); break;
        case 1: w.baby.dropped_beat_percent = d.dice.whole(4, 8); break;
        case 2:  // what is left of the beats is still a normal rate
            w.baby.baseline_bpm = rate_between(d.dice, 140, 154);
            w.baby.drop_every = d.dice.whole(7, 10);
            break;
        default: w.baby.early_every = d.dice.whole(5, 9);
    }
    pulse_apart(d, 70, 92);
}

void two_babies(Draft& d) {
    Woman& w = d.w;
    w.told.twins_known = true;
    w.gestation_days = d.dice.whole(260, 266);
    w.baby.baseline_bpm = rate_between(d.dice, 124, 134);
    w.second = w.baby;
    w.second.baseline_bpm =
        d.dice.chance(0.35) ? rate_between(d.dice, d.bands.fast_from, 182) : rate_between(d.dice, 146, 155);
    const bool left = w.baby.position.front() == 'L' || w.baby.position == "OA";
    if (w.baby.position == "OA") w.baby.position = "LOA";
    w.second.position =
        left ? d.dice.one_of<std::string>({"RSA", "ROA"}) : d.dice.one_of<std::string>({"LSA", "LOA"});
    w.second.fifths = 5;
    pulse_apart(d, 76, 96);
}

void nobody_there(Draft& d) {
    Woman& w = d.w;
    w.heart = false;
    w.baby.movements_per_10min = 0;
    w.pulse_bpm = rate_between(d.dice, 96, 116);
    w.ladder = "normal";
    w.vessel_db = d.dice.whole(-7, -4);
    w.souffle_db = d.dice.whole(-6, -3);
    w.content_note =
        "In this scenario the baby's heart may not be found. You can leave it out, or stop at any time, "
        "without giving a reason.";
    if (d.caused_by(cause::bleeding)) {
        w.trouble = "bleeding";
        w.tone_mmhg = 29;
        w.pulse_bpm = rate_between(d.dice, 114, 128);
    }
}

}  // namespace

void add_trouble(Draft& draft) {
    switch (draft.c[Axis::trouble]) {
        case trouble::late: slow_after(draft); break;
        case trouble::variable: cord_pressed(draft); break;
        case trouble::prolonged: falls_and_stays(draft); break;
        case trouble::rising: risen(draft); break;
        case trouble::fast: too_fast(draft); break;
        case trouble::slow: too_slow(draft); break;
        case trouble::irregular: out_of_rhythm(draft); break;
        case trouble::twins: two_babies(draft); break;
        case trouble::absent: nobody_there(draft); break;
        default: assert(false && "no trouble asked");
    }
}

}  // namespace engine
