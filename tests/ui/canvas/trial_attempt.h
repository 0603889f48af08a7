// A judged attempt made by hand: curves and figures chosen here, so that what a page shows can be known
// beforehand.
#pragma once

#include "engine/scoring/replay.h"

#include <cmath>

namespace trial {

inline sim::LabourTime at(double s) { return sim::labour_time(sim::Seconds{s}); }

// Ten minutes: the baby at 140, falling 30 after each of three contractions; the mother at 84; from 300 s to
// 320 s no heart is heard of (0), so that a curve has a gap.
inline std::vector<sim::CourseTick> course(double length_s, bool gap) {
    std::vector<sim::CourseTick> ticks;
    for (int k = 0; k * 0.25 <= length_s; ++k) {
        const double s = k * 0.25;
        sim::CourseTick tick;
        const double since = std::fmod(s, 200.0);
        const double womb = std::exp(-std::pow((since - 80) / 22, 2));
        const double fall = std::exp(-std::pow((since - 112) / 20, 2));
        tick.fhr_bpm[0] = 141 - 32 * fall + 2.5 * std::sin(s * 0.31) + 1.5 * std::sin(s * 1.7 + 1);
        if (gap && s >= 300 && s < 320) tick.fhr_bpm[0] = 0;
        tick.fhr_base_bpm[0] = 141;
        tick.mhr_bpm = 84 + 3 * std::sin(s * 0.05);
        tick.uc_mmhg = 10 + 48 * womb;
        tick.uc_above_tone_mmhg = 48 * womb;
        tick.in_contraction = tick.uc_above_tone_mmhg > 10;
        ticks.push_back(tick);
    }
    return ticks;
}

inline engine::ActWords act(const char* id, const char* words) {
    engine::ActWords made;
    made.id = id;
    made.words = words;
    return made;
}

inline engine::AspectScore aspect(engine::Aspect which, engine::Verdict verdict, const char* why) {
    engine::AspectScore made;
    made.aspect = which;
    made.verdict = verdict;
    made.why = why;
    return made;
}

inline engine::JudgedAttempt judged(bool long_words = false) {
    engine::JudgedAttempt j;
    j.attempt.header.id = "0123456789abcdef0123456789abcdef";
    j.attempt.header.person = "A-014";
    j.attempt.header.scenario_id = "d04-still-slow-after";
    j.attempt.header.program = "0.1.0";
    j.scenario.id = "d04-still-slow-after";
    j.scenario.title =
        long_words ? "A-name-without-any-blank-in-it-that-goes-on-for-longer-than-one-line-of-a-page-can-"
                     "hold-in-any-type-that-a-person-can-read"
                   : "Bed 3, ten past two: slow after the contraction";
    j.scenario.story =
        "Second baby, 39 weeks 4 days. Waters clear. Four contractions in ten minutes, strong.";
    j.scenario.teaching = {
        "Listen through three contractions after a low count, and count again straight after each."};
    j.scenario.place.instruments = {sim::Instrument::horn};
    j.scenario.length = {600};
    j.protocol.id = "who-2018";
    j.protocol.title = "WHO 2018";
    j.protocol.origin =
        "WHO recommendations: intrapartum care for a positive childbirth experience, 2018, and the "
        "labour care guide, 2020";
    j.protocol.from_memory = true;
    j.protocol.low = {{110}, true};
    j.protocol.high = {{160}, true};
    j.protocol.cautions = {"Published ranges differ; this page uses the one named above.",
                           "A normal count does not prove that a baby is well.",
                           "Any real concern: call for help now, refer."};
    j.protocol.acts.push_back(act("off_her_back", "Turn her off her back"));
    j.protocol.acts.push_back(act("call_help", "Call for help"));
    j.protocol.acts.push_back(act("tell_her", "Tell her what you heard"));
    j.played.patient.babies.add({});
    j.played.course = course(600, true);
    j.played.end = at(600);
    j.played.finished = true;
    sim::Hold hold;
    hold.instrument = sim::Instrument::horn;
    hold.placed = true;
    engine::Spell first{at(30), at(230), sim::Instrument::horn, {}};
    for (const auto& [from, to, x, y] : std::vector<std::array<double, 4>>{
             {30, 50, -6, -3}, {50, 70, -1, -5.5}, {70, 90, 3, -5}, {90, 230, 6, -7}}) {
        hold.x_cm = x;
        hold.y_cm = y;
        first.pieces.push_back({at(from), at(to), hold});
    }
    engine::Spell second{at(330), at(480), sim::Instrument::horn, {{at(330), at(480), hold}}};
    j.played.spells = {first, second};
    j.played.acts = {{"off_her_back", at(486), at(491), false}, {"tell_her", at(495), at(500), false}};

    engine::WindowScore one;
    one.from_s = 150;
    one.to_s = 210;
    one.plan_s = 60;
    one.true_beats = 140;
    one.counted = 139;
    one.true_bpm = 140.2;
    one.reported_bpm = 139;
    one.followed = "baby";
    one.terms = {.true_bpm = 140.2,
                 .source = 0,
                 .method = -0.2,
                 .watch = 0,
                 .ear = -1,
                 .arithmetic = 0,
                 .unexplained = 0,
                 .reported_bpm = 139,
                 .slip = ""};
    engine::WindowScore two = one;
    two.from_s = 335;
    two.to_s = 350;
    two.plan_s = 15;
    two.true_beats = 31;
    two.counted = 30;
    two.true_bpm = 124;
    two.reported_bpm = 90;
    two.terms = {.true_bpm = 124.3,
                 .source = 0,
                 .method = -0.3,
                 .watch = -2,
                 .ear = -2,
                 .arithmetic = -30,
                 .unexplained = 0,
                 .reported_bpm = 90,
                 .slip = "wrong factor"};
    j.sheet.windows = {one, two};
    using engine::Aspect;
    using engine::Verdict;
    j.sheet.aspects = {
        aspect(Aspect::site, Verdict::met, "The baby was 11 dB louder than anything else with a rhythm."),
        aspect(Aspect::whose, Verdict::met,
               "You felt her pulse for 22 s while you listened: 84 against 140."),
        aspect(Aspect::window, Verdict::partly,
               "The second window was 15 s; this protocol asks for a full minute."),
        aspect(Aspect::count, Verdict::met, "139 counted, 140 true; 30 counted, 31 true."),
        aspect(Aspect::arithmetic, Verdict::missed, "30 in 15 s is 120 a minute; you wrote 90."),
        aspect(Aspect::decision, Verdict::missed,
               "The heart was slow after the contraction at 1:52 and again at 5:12; you said "
               "no slowing."),
        aspect(Aspect::action, Verdict::partly, "She was turned off her back in time. Help was not called."),
        aspect(Aspect::record, Verdict::met, "Rate, time against the contraction and her pulse are written."),
        aspect(Aspect::care, Verdict::not_asked, "")};
    j.sheet.acts = {{"off_her_back",
                     "slow_after_contraction",
                     {"slow_after_contraction"},
                     "in_time",
                     false,
                     330,
                     486,
                     300,
                     "WHO 2018",
                     ""},
                    {"call_help",
                     "slow_after_contraction",
                     {"slow_after_contraction"},
                     "not_done",
                     true,
                     330,
                     -1,
                     300,
                     "WHO 2018",
                     "Some guidance asks for three contractions in a row first."},
                    {"tell_her", "normal", {"normal"}, "allowed", false, 0, 495, 0, "common practice", ""}};
    j.sheet.next_time = {
        {"You counted well: 139 against 140 true beats.", 150},
        {"At 5:12 the heart slowed after the contraction had ended. A 15 s count averages that away.", 305},
        {"After a low count, listen through three contractions and count again straight after each.", 335},
        {"You turned her to her left side: right. Help was not called.", 486}};
    if (long_words)
        for (auto& next : j.sheet.next_time) next.says += " " + next.says + " " + next.says;
    return j;
}

}  // namespace trial
