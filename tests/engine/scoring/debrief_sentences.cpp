// What the debrief says in all: at most five sentences, each fault named as what it was. Rules: the project's
// own rules of judging [practice]; published ranges as the protocols carry them.
#include "library_listeners.h"
#include "made_labours.h"

#include "engine/scoring/taps.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <functional>

using namespace perfect;

namespace {

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }
std::size_t sentences(const std::string& says) {
    std::size_t n = 0;
    for (std::size_t i = 0; i < says.size(); ++i)
        n += (says[i] == '.' || says[i] == '!' || says[i] == '?') &&
             (i + 1 == says.size() || says[i + 1] == ' ' || says[i + 1] == '"');
    return n;
}
std::size_t advised(const ScoreSheet& sheet, const std::string& part) {
    return static_cast<std::size_t>(std::count_if(sheet.next_time.begin(), sheet.next_time.end(),
                                                  [&](const NextTime& n) { return holds(n.says, part); }));
}
Listener heard(const char* id, Instrument with, const std::string& protocol = "who-2018") {
    Listener l(library_stem(id), protocol_named(protocol));
    l.greet().wait(5).take(with).place_best().wrist().wait(16).report_pulse();
    return l;
}

void five_at_most(const ScoreSheet& sheet) {
    std::size_t in_all = critical_told_apart(sheet).empty() ? 0 : 1;
    for (const NextTime& n : sheet.next_time) {
        CAPTURE(n.says);
        CHECK(sentences(n.says) == 1);
        CHECK(n.says.back() == '.');
        CHECK(n.says.size() < 260);
        CHECK_FALSE(holds(n.says, "Unsafe here"));
        in_all += sentences(n.says);
    }
    CHECK(in_all <= 5);
    const Protocol protocol = protocol_named("who-2018");
    for (const ActScore& act : sheet.acts) {
        if (act.verdict != "unsafe") continue;
        const ActWords* words = protocol.act(act.act);
        if (words) CHECK(advised(sheet, "\"" + words->words + "\"") <= 1);
    }
}

using Spoil = std::function<void(Listener&)>;
void without(Listener& l, Do what) {
    std::erase_if(l.events, [&](const Event& e) { return e.what == what; });
}
void each(Listener& l, Do what, const std::function<void(Event&)>& change) {
    for (Event& e : l.events)
        if (e.what == what) change(e);
}
void before_the_end(Listener& l, std::initializer_list<const char*> acts) {
    const Event finish = l.events.back();
    l.events.pop_back();
    for (const char* act : acts) {
        Event e;
        e.t = finish.t;
        e.what = Do::act;
        e.act = act;
        l.events.push_back(e);
    }
    l.events.push_back(finish);
}

const std::vector<Spoil>& ways_to_fail() {
    static const std::vector<Spoil> all = {
        [](Listener& l) { without(l, Do::act); },
        [](Listener& l) { without(l, Do::decide); },
        [](Listener& l) { without(l, Do::record); },
        [](Listener& l) { without(l, Do::hand); },
        [](Listener& l) { without(l, Do::gel); },
        [](Listener& l) { without(l, Do::handover); },
        [](Listener& l) {
            before_the_end(l, {"push_on_fundus", "send_alone", "lay_flat", "raise_oxytocin"});
        },
        [](Listener& l) {
            before_the_end(l, {"continue_routine", "wait_and_see", "push_cord_back"});
        },
        [](Listener& l) {
            each(l, Do::decide, [](Event& e) {
                e.decision.baseline = BaselineIs::normal;
                e.decision.around = Around::no_slowing;
            });
            before_the_end(l, {"continue_routine"});
        },
        [](Listener& l) {
            each(l, Do::decide, [](Event& e) { e.decision.unsure = true; });
            before_the_end(l, {"continue_routine"});
        },
        [](Listener& l) {
            each(l, Do::report, [](Event& e) {
                if (e.beats) e.beats = *e.beats * 2;
            });
            each(l, Do::record, [](Event& e) {
                if (e.bpm) e.bpm = *e.bpm + 9;
                e.when.clear();
            });
            without(l, Do::hand);
        },
        [](Listener& l) {
            each(l, Do::report, [](Event& e) { e.bpm = 140; });
            each(l, Do::decide, [](Event& e) { e.decision.source = SourceIs::mother; });
            without(l, Do::act);
            before_the_end(l, {"send_alone", "say_baby_has_died"});
        }};
    return all;
}

}  // namespace

TEST_CASE("Twenty-six listeners of the library, each good and failing in twelve ways: five sentences at most",
          "[next][sentences]") {
    std::size_t sheets = 0;
    for (const Listener& good :
         {faultless_c01(), faultless_q01(), faultless_f03(), faultless_t04(), faultless_p02(),
          faultless_p03(), faultless_l03(), faultless_l05(), faultless_l06(), faultless_f10(),
          listener_p01(),  listener_p04(),  listener_p05(),  listener_p07(),  listener_p08(),
          listener_p09(),  listener_p10(),  listener_l01(),  listener_l02(),  listener_l04(),
          listener_l07(),  listener_l08(),  listener_l09(),  listener_l10(),  listener_l11(),
          listener_l12()}) {
        five_at_most(good.sheet());
        for (std::size_t way = 0; way < ways_to_fail().size(); ++way) {
            Listener l = good;
            ways_to_fail()[way](l);
            const ScoreSheet sheet = judge(l.scenario, l.protocol, l.played());
            CAPTURE(l.scenario.id, way);
            INFO(told(sheet));
            five_at_most(sheet);
            ++sheets;
        }
    }
    CHECK(sheets == 26 * 12);
}

TEST_CASE("Two unsafe critical acts: both named, each once, at its own moment", "[next][sentences]") {
    Listener l = heard("c01", Instrument::doppler);
    l.count().lift().decide(SourceIs::baby, BaselineIs::normal).explain().record("between", "");
    l.act("continue_routine").place_best().wait(60);
    const double flat_s = l.t;
    l.act("lay_flat").wait(120);
    const double alone_s = l.t;
    l.act("send_alone").wait(5).lift().finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    five_at_most(sheet);
    REQUIRE(sheet.next_time.size() >= 2);
    CHECK(sheet.next_time[0].says == "Never here: \"Lay her flat on her back\".");
    CHECK(sheet.next_time[1].says == "Never here: \"Send her on alone\".");
    CHECK(sheet.next_time[0].at_s == Approx(flat_s - 20).margin(0.5));
    CHECK(sheet.next_time[1].at_s == Approx(alone_s - 20).margin(0.5));
    CHECK(critical_told_apart(sheet).empty());
}

TEST_CASE("p03: the drip turned up with the heart still slow: once, and why", "[next][sentences]") {
    Listener l = faultless_p03();
    before_the_end(l, {"raise_oxytocin"});
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK(sheet.next_time.at(0).says ==
          "Never here: \"Turn the drip up\" (still slow after the contraction).");
    CHECK(advised(sheet, "Turn the drip up") == 1);
}

TEST_CASE("p03: a swap in the referral note and a missing note are advised as such", "[next][sentences]") {
    const auto sent = [](const std::function<void(Event&)>& note) {
        Listener l = faultless_p03();
        if (std::none_of(l.events.begin(), l.events.end(),
                         [](const Event& e) { return e.act == "arrange_transfer"; }))
            before_the_end(l, {"arrange_transfer"});
        each(l, Do::handover, note);
        std::erase_if(l.events, [](const Event& e) { return e.what == Do::handover && e.situation == "-"; });
        return l.sheet();
    };
    const int pulse = faultless_p03().pulse_bpm, bpm = faultless_p03().bpm;
    const ScoreSheet swap = sent([&](Event& e) {
        e.situation = "Baby's heart " + std::to_string(pulse) + ", her pulse " + std::to_string(bpm) + ".";
    });
    INFO(told(swap));
    REQUIRE_FALSE(swap.next_time.empty());
    CHECK(swap.next_time[0].says == "The referral note gives her pulse, " + std::to_string(pulse) +
                                        ", as the baby's heart: write beside each number whose it is.");
    const ScoreSheet none = sent([](Event& e) { e.situation = "-"; });
    INFO(told(none));
    CHECK(advised(none, "She went without a referral note") == 1);
    const ScoreSheet other = sent([&](Event& e) {
        e.situation =
            "Baby's heart " + std::to_string(bpm - 21) + ", her pulse " + std::to_string(pulse) + ".";
    });
    INFO(told(other));
    CHECK(advised(other, "gives " + std::to_string(bpm - 21) + " where you counted " + std::to_string(bpm)) ==
          1);
}

TEST_CASE("l06: while the cord is down nobody is told to count a minute first", "[next][sentences]") {
    Listener l = faultless_l06();
    std::erase_if(l.events, [](const Event& e) {
        const bool count = e.what == Do::start_window || e.what == Do::stop_window || e.what == Do::report;
        return (count && e.t.seconds() > 320) || e.act == "prepare_newborn_help";
    });
    const ScoreSheet sheet = judge(l.scenario, l.protocol, l.played());
    INFO(told(sheet));
    const ActScore* minute = line_for(sheet, "count_full_minute");
    REQUIRE(minute != nullptr);
    REQUIRE(minute->verdict == "not_done");
    for (const NextTime& n : sheet.next_time)
        if (holds(n.says, "As soon as you know")) CHECK_FALSE(holds(n.says, "Count a whole minute"));
    CHECK(advised(sheet, "As soon as you know") == 1);
}

TEST_CASE(
    "c03: every beat tapped and ten lost in the number: a slip of keeping count; taps at random are none",
    "[next][sentences][taps]") {
    const auto tapped = [](bool on_beats) {
        Listener l = heard("c03", Instrument::doppler);
        const double from = l.t;
        Listener ahead = l;
        ahead.wait(70).finish();
        const Played played = ahead.played();
        l.add(Do::start_window).plan_s = 60;
        int taps = 0;
        std::vector<double> at;
        if (on_beats)
            for (std::int64_t us :
                 beats_within(played.fetal, sim::labour_time({from}), sim::labour_time({from + 60})))
                at.push_back(static_cast<double>(us) / 1e6 + 0.02);
        else
            for (double s = from + 0.1; s < from + 60; s += 0.4) at.push_back(s);
        for (double s : at) {
            if (s >= from + 60) continue;
            l.t = s;
            l.add(Do::tap);
            ++taps;
        }
        l.t = from + 60;
        l.add(Do::stop_window);
        l.wait(2);
        Event& report = l.add(Do::report);
        report.beats = report.bpm = l.bpm = on_beats ? taps - 10 : taps;
        l.wait(2).lift().decide(SourceIs::baby, BaselineIs::fast).explain().record("between", "").finish();
        return l.sheet();
    };
    const ScoreSheet slip = tapped(true), metronome = tapped(false);
    INFO(told(slip) << told(metronome));
    CHECK(advised(slip, "the slip is in keeping count") == 1);
    CHECK(advised(slip, "long number words") == 0);
    REQUIRE(metronome.windows.at(0).taps);
    REQUIRE(metronome.windows.at(0).taps->follows == "unclear");
    CHECK(holds(aspect(metronome, Aspect::count).why, "taps kept step with no heart"));
    CHECK_FALSE(holds(aspect(metronome, Aspect::count).why, "caught"));
    CHECK(advised(metronome, "kept step with no heart") == 1);
}

TEST_CASE("Unsure and carried on as usual: among the advice, whatever made it hard to hear",
          "[next][sentences]") {
    Listener l(library_stem("p01"));
    l.wait(12);
    l.add(Do::take).instrument = Instrument::doppler;  // no gel, far from the heart
    l.wait(2).place(9, -5).count(15, {18, 2, 150, true}).wait(200).lift();
    l.decide(SourceIs::baby, BaselineIs::normal, Around::not_listened, RhythmIs::not_said, true);
    l.bpm = 140;
    l.record("", "").act("continue_routine").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    five_at_most(sheet);
    CHECK(holds(aspect(sheet, Aspect::decision).why, "unsure and carried on"));
    CHECK(advised(sheet, "When you are unsure") == 1);
}

TEST_CASE(
    "p01 left before a contraction was over: a minute by NICE and 120 to 160, half a minute by WHO and FIGO",
    "[next][sentences]") {
    const auto left = [](const char* protocol) {
        Listener l = heard("p01", Instrument::doppler, protocol);
        l.count().lift().decide(SourceIs::baby, BaselineIs::normal, Around::no_slowing).explain();
        l.record("between", "no").act("continue_routine").finish();
        return l.sheet();
    };
    for (const char* protocol : {"nice-2022", "community-120-160"}) {
        CAPTURE(protocol);
        CHECK(advised(left(protocol), "until a minute after the contraction") == 1);
    }
    for (const char* protocol : {"who-2018", "figo-2015"}) {
        CAPTURE(protocol);
        CHECK(advised(left(protocol), "until half a minute after the contraction") == 1);
    }
}

TEST_CASE("c09 is a boundary case at 114: tagged, and the sheet says which limits say what", "[sentences]") {
    const auto counted = [](const char* id, const char* protocol) {
        Listener l(library_stem(id), protocol_named(protocol));
        l.greet().wait(5).take(id[2] == '9' ? Instrument::diaphragm : Instrument::doppler);
        l.place_best().wrist().wait(16).report_pulse();
        l.count().lift().decide(SourceIs::baby, BaselineIs::normal).explain().record("between", "").finish();
        return l.sheet();
    };
    const ScoreSheet who = counted("c09", "who-2018"), old = counted("c09", "community-120-160"),
                     plain = counted("c01", "who-2018");
    INFO(told(who) << told(old));
    CHECK(who.boundary);
    CHECK_FALSE(plain.boundary);
    CHECK(nlohmann::json::parse(to_json(who))["boundary"] == true);
    CHECK(nlohmann::json::parse(to_json(plain))["boundary"] == false);
    CHECK(holds(
        aspect(who, Aspect::decision).why,
        "Guidance differs at 114: normal by 110 to 160, the limits in force here; too slow by 120 to 160 "
        "(older community practice)."));
    CHECK(holds(
        aspect(old, Aspect::decision).why,
        "Guidance differs at 114: too slow by 120 to 160, the limits in force here; normal by 110 to 160 "
        "(WHO 2018, NICE 2022 and FIGO 2015), normal by 100 to 180"));
    CHECK_FALSE(holds(aspect(plain, Aspect::decision).why, "Guidance differs"));
    const ActScore* senior = line_for(old, "inform_senior");
    REQUIRE(senior != nullptr);
    CHECK(holds(senior->conflict, "110 to 119 is normal in WHO 2018"));
}

TEST_CASE("l06: of a rate in a fall no range is asked: nothing is said of limits elsewhere", "[sentences]") {
    const ScoreSheet sheet = faultless_l06().sheet();
    INFO(told(sheet));
    CHECK_FALSE(holds(aspect(sheet, Aspect::decision).why, "Guidance differs"));
}

TEST_CASE(
    "Counts told as they were: double is no matter of ends, 45 s is no minute, two counts of 15 s are both",
    "[sentences]") {
    Listener twice = heard("c01", Instrument::doppler);
    twice.count(60, {60, 130, -1, false}).lift().decide(SourceIs::baby, BaselineIs::fast).finish();
    CHECK_FALSE(holds(aspect(twice.sheet(), Aspect::count).why, "first or last"));
    Listener one = heard("c01", Instrument::doppler);
    one.count(60, {60, 1, -1, false}).lift().decide(SourceIs::baby, BaselineIs::normal).finish();
    CHECK(holds(aspect(one.sheet(), Aspect::count).why, "first or last beat"));
    Listener early = heard("c01", Instrument::doppler);
    early.count(60, {45, 0, -1, false}).lift().decide(SourceIs::baby, BaselineIs::slow).finish();
    INFO(told(early.sheet()));
    CHECK(holds(aspect(early.sheet(), Aspect::arithmetic).why, "counted in 45 s for a minute"));
    Listener two = heard("c01", Instrument::doppler);
    two.count(15).count(15).lift().decide(SourceIs::baby, BaselineIs::normal).explain();
    two.record("between", "").act("continue_routine").finish();
    INFO(told(two.sheet()));
    CHECK(advised(two.sheet(), "the 2 counts of 15 s are too short for the record") == 1);
    CHECK(holds(aspect(two.sheet(), Aspect::window).why, "shorter than the 60 s this protocol counts for"));
}

TEST_CASE("Neither pulse felt nor baby heard: nobody says that it was the baby", "[sentences]") {
    Listener l(library_stem("p01"));
    l.wait(12);
    l.add(Do::take).instrument = Instrument::doppler;
    l.wait(2).place(-2, -14);
    l.add(Do::start_window).plan_s = 6;
    l.wait(10);
    l.add(Do::stop_window);
    l.wait(2);
    Event& e = l.add(Do::report);
    e.beats = 20;
    e.bpm = 120;
    l.wait(60).lift().decide(SourceIs::baby, BaselineIs::normal).finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    REQUIRE(sheet.windows.at(0).followed == "nobody");
    CHECK_FALSE(holds(aspect(sheet, Aspect::whose).why, "It was the baby"));
    CHECK(holds(aspect(sheet, Aspect::whose).why, "the baby was not to be heard"));
}
