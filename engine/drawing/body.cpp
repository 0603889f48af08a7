// Her body and her labour: what the heart does, and a cause with it that fits.
#include "engine/drawing/woman.h"

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

namespace {

// The limits of today's protocol and of the older practice: class is sure this far inside.
struct Bands {
    double normal_from, normal_to, fast_from, slow_to, steady_from, steady_to;
    explicit Bands(const Protocol& p)
        : normal_from(std::max(p.low.bpm.value, 120.0) + 2.1),  // 120: older community practice
          normal_to(p.high.bpm.value - 4),
          fast_from(p.high.bpm.value + 5),
          slow_to(p.red_below.value - 3),
          steady_from(p.red_below.value + 3),
          steady_to(p.low.bpm.value - 2.5) {}
};

struct Draft {
    const Case& c;
    bool answers;
    Bands bands;
    Dice& dice;
    Woman w{};
    bool is(int trouble_wanted) const { return c[Axis::trouble] == trouble_wanted; }
    Task task() const { return static_cast<Task>(c[Axis::task]); }
};

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
    if (d.task() == Task::find && d.dice.chance(0.4)) {
        w.stage = "latent";
        w.told.latent = true;
        w.open_cm = 3;
        w.contractions_per_10min = d.dice.tenths(2, 2.6);
        w.contraction_length_s = d.dice.whole(40, 48);
    }
    const bool may_push = d.c[Axis::position] <= position::back_side && d.task() == Task::labour && w.level >= 2 &&
                          d.c[Axis::variant] == variant::none && d.c[Axis::calm] == calm::no_slowing;
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
    w.vessel_db = rivals ? d.dice.whole(-6, -2) : d.dice.whole(-12, -9);
    w.souffle_db = rivals ? d.dice.whole(-10, -6) : d.dice.whole(-16, -12);
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

void calm_heart(Draft& d) {
    Woman& w = d.w;
    const bool slows = d.c[Axis::calm] == calm::early;
    w.baby.baseline_bpm =
        rate_between(d.dice, slows || w.pushing ? 132 : d.bands.normal_from, std::min(d.bands.normal_to, 156.0));
    if (slows) {
        w.open_cm = d.dice.whole(8, 9);
        w.baby.fifths = d.dice.whole(1, 2);
        w.contraction_length_s = d.dice.whole(60, 70);
        w.baby.events.push_back({.kind = "early", .depth_bpm = d.dice.whole(21, 27)});
    } else if (w.level >= 2 && !w.pushing && d.dice.chance(0.35) && w.baby.baseline_bpm < 146) {
        w.baby.variability = "active";
    }
    pulse_apart(d, 68, w.pushing ? 84 : 98);
    // Not everyone on her back is in trouble.
    if (!w.pushing && d.c[Axis::variant] != variant::in_water && d.dice.chance(0.12)) on_her_back(d);
}

void on_a_limit(Draft& d) {
    Woman& w = d.w;
    w.boundary = true;
    if (d.task() == Task::tell_apart) {  // mother and baby beat nearly alike
        w.baby.baseline_bpm = rate_between(d.dice, 123, 128);
        w.pulse_bpm = w.baby.baseline_bpm - d.dice.tenths(2.1, 3.9);
        w.with_contraction_bpm = 2;
        return;
    }
    const int which = d.dice.below(3);
    w.baby.baseline_bpm = which == 0   ? rate_between(d.dice, 107.1, 112.9)
                          : which == 1 ? rate_between(d.dice, 113.1, 118.9)
                                       : rate_between(d.dice, 158.1, 163.9);
    pulse_apart(d, 68, 90);
}

void cause(Draft& d, std::string_view trouble_word, int at_s) {
    d.w.trouble = trouble_word;
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
    const bool may_drip = d.c[Axis::place] != place::post && d.c[Axis::variant] != variant::in_water;
    const bool given = d.c[Axis::variant] == variant::injection;
    if (given || (d.task() == Task::labour && may_drip && d.c[Axis::variant] == variant::none && d.dice.chance(0.4))) {
        too_many(d);
        w.drip = !given;
        cause(d, "too_many_contractions", 0);
        w.baby.events.push_back(
            {.kind = "late", .depth_bpm = d.dice.whole(26, 32), .back_after_s = d.dice.whole(24, 30)});
    } else {
        w.contractions_per_10min = d.dice.tenths(2.8, 3.5);
        const bool flat = d.answers && d.c[Axis::variant] != variant::in_water;
        if (flat) on_her_back(d);
        cause(d, flat ? "lying_flat" : "unknown", 0);
        if (!flat) w.answers = d.answers;
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
    cause(d, "cord_pressure", 0);
    w.baby.events.push_back({.kind = "variable",
                             .depth_bpm = d.dice.whole(38, 55),
                             .length_s = d.dice.whole(80, 100),
                             .share_percent = d.dice.whole(70, 95),
                             .shoulders_bpm = d.dice.whole(0, 8)});
    pulse_apart(d, 70, 80);
}

void call(Draft& d, std::string kind, int at_s, std::string says) {
    d.w.calls.push_back({std::move(kind), std::move(says), at_s});
}

void falls_and_stays(Draft& d) {
    Woman& w = d.w;
    w.baby.baseline_bpm = rate_between(d.dice, 128, 152);
    pulse_apart(d, 78, 98);
    const int at = d.dice.whole(150, 300);
    if (d.c[Axis::variant] == variant::high_pressure) {  // a fit: down for minutes, then back by itself
        call(d, "feels_unwell", at - 20,
             "Her eyes roll up, her arms and legs jerk. After a minute she breathes loudly and does not answer.");
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
    std::vector<std::string_view> causes{"unknown"};
    const int p = d.c[Axis::position];
    if (d.task() == Task::labour) {
        if (d.c[Axis::variant] != variant::thin_green) causes.push_back("cord_prolapse");
        if (p != position::across && d.c[Axis::variant] != variant::second_twin) {
            causes.push_back("lying_flat");
            causes.push_back("bleeding");
            if (w.told.births_before > 0 && w.level >= 4) causes.push_back("scar_gives_way");
        }
    } else {
        causes.push_back("lying_flat");
    }
    const std::string_view chosen = d.dice.one_of(causes);
    cause(d, chosen, at);
    w.falls_over_s = d.dice.whole(40, 110);
    w.falls_to_bpm = rate_between(d.dice, 76, 94);
    if (chosen == "lying_flat") {
        on_her_back(d);
        call(d, "feels_unwell", at + 90, "\"I feel sick, and the room is turning.\"");
    } else if (chosen == "cord_prolapse") {
        w.waters = "whole";
        w.waters_gone_h = 0;
        w.baby.fifths = 5;
        call(d, "waters_break", at - 10, "\"Oh! It is all wet.\" A gush of clear waters.");
    } else if (chosen == "bleeding") {
        w.tone_mmhg = 28;
        w.pulse_to_bpm = rate_between(d.dice, 118, 132);
        w.falls_to_bpm = rate_between(d.dice, 84, 97);
        call(d, "bleeding", at + 30, "\"Something warm.\" Dark blood on the cloth, more than a show.");
    } else if (chosen == "scar_gives_way") {
        w.told.scar_known = true;
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
    w.baby.baseline_bpm = rate_between(d.dice, d.bands.fast_from, w.level <= 2 ? 182 : 196);
    const bool young_labour = w.told.latent || w.level == 1 || d.c[Axis::variant] == variant::in_water;
    const int why = young_labour ? 2 : d.dice.below(3);
    if (why == 0) {
        w.trouble = "fever";
        w.temperature_c = d.dice.tenths(38.2, 39.2);
        w.breaths_per_min = d.dice.whole(20, 24);
        if (d.c[Axis::variant] != variant::second_twin && d.c[Axis::variant] != variant::thin_green) {
            w.waters = "foul";
            w.waters_gone_h = d.dice.whole(16, 30);
        }
        pulse_apart(d, 104, 122);
    } else if (why == 1 && w.level >= 3) {
        w.trouble = "mothers_medicine";
        pulse_apart(d, 108, 126);
    } else {
        pulse_apart(d, 84, 104);
    }
}

void too_slow(Draft& d) {
    Woman& w = d.w;
    w.with_contraction_bpm = 3;
    if (d.dice.chance(0.3)) {
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
        case 2: w.baby.drop_every = d.dice.whole(5, 9); break;
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
    w.second.position = left ? d.dice.one_of<std::string>({"RSA", "ROA"}) : d.dice.one_of<std::string>({"LSA", "LOA"});
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
    w.content_note = "In this scenario the baby's heart may not be found. You can leave it out, or stop at any time, "
                     "without giving a reason.";
    if (d.task() == Task::labour && d.dice.chance(0.5)) {
        w.trouble = "bleeding";
        w.tone_mmhg = 29;
        w.pulse_bpm = rate_between(d.dice, 114, 128);
    }
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
            call(d, "pain_changes", d.dice.whole(60, 140),
                 "\"Wait!\" A cramp in her leg: she pulls the knee up. After a moment she lies back.");
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
    const bool normal_start = w.heart && !d.is(trouble::fast) && !d.is(trouble::slow) && !d.is(trouble::rising) &&
                              !d.is(trouble::twins) && d.c[Axis::boundary] == boundary::no && !w.told.first_twin_born;
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

Woman woman_of(const Asked& asked, const Protocol& protocol, Dice& body) {
    Draft d{asked.what, asked.answers, Bands(protocol), body};
    place_and_instruments(d);
    lie(d);
    labour(d);
    sounds(d);
    switch (asked.what[Axis::trouble]) {
        case trouble::late: slow_after(d); break;
        case trouble::variable: cord_pressed(d); break;
        case trouble::prolonged: falls_and_stays(d); break;
        case trouble::rising: risen(d); break;
        case trouble::fast: too_fast(d); break;
        case trouble::slow: too_slow(d); break;
        case trouble::irregular: out_of_rhythm(d); break;
        case trouble::twins: two_babies(d); break;
        case trouble::absent: nobody_there(d); break;
        default:
            if (asked.what[Axis::boundary] == boundary::yes)
                on_a_limit(d);
            else
                calm_heart(d);
    }
    what_else(d);
    nothing_follows(d);
    earlier_lines(d);
    return d.w;
}

}  // namespace engine
