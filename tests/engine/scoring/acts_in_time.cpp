// An act answers a trouble that has begun and was listened for; alarm for a sound heart is over-calling.
// Times
// are the protocols' [practice]: an act before there was anything to know is a guess, not an answer.
#include "faultless_listeners.h"
#include "made_labours.h"

#include "engine/scoring/evidence.h"

#include <filesystem>

using namespace perfect;

namespace {

bool holds(const std::string& text, const char* part) { return text.find(part) != std::string::npos; }
std::string graded(const ScoreSheet& sheet, const std::string& act) {
    const ActScore* line = line_for(sheet, act);
    return line ? line->verdict : "no line";
}
Listener at_the_door(const std::string& stem, const std::vector<std::string>& acts) {
    Listener l(stem);
    l.greet();
    for (const std::string& act : acts) l.act(act);
    return l;
}
Listener listens(Listener l, Instrument with) {
    l.take(with).place_best().wrist().wait(16).report_pulse();
    return l;
}

}  // namespace

TEST_CASE("c04: help, look and plan clicked before the horn is on answer nothing; she still lies on her side",
          "[acts-in-time]") {
    Listener l = listens(at_the_door("c04-past-the-day", {"call_for_help", "off_her_back", "look_for_cord",
                                                          "check_bleeding", "start_plan", "examine_inside"}),
                         Instrument::horn);
    l.count().lift().decide(SourceIs::baby, BaselineIs::slow).explain().record("between", "").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    for (const char* act : {"call_for_help", "look_for_cord", "check_bleeding", "start_plan"})
        CHECK(graded(sheet, act) == "not_done");
    CHECK(graded(sheet, "off_her_back") == "in_time");
    CHECK(verdict(sheet, Aspect::action) == Verdict::missed);
    CHECK(holds(aspect(sheet, Aspect::action).why, "which answers nothing: \"Call out"));
    CHECK(std::any_of(sheet.acts.begin(), sheet.acts.end(),
                      [](const ActScore& a) { return a.act == "call_for_help" && a.verdict == "too_soon"; }));
}

TEST_CASE("l07: the heart falls from 100 s: help called at 104 s stands, at 50 s it does not",
          "[acts-in-time]") {
    for (const double at : {104.0, 50.0}) {
        Listener l = listens(Listener("l07-nearly-there"), Instrument::doppler);
        l.until(at).act("call_for_help").until(300).lift();
        l.decide(SourceIs::baby, BaselineIs::slow, Around::stays_down).record("between", "yes").finish();
        const ScoreSheet sheet = l.sheet();
        INFO(told(sheet));
        CHECK(graded(sheet, "call_for_help") == (at > 100 ? "in_time" : "not_done"));
    }
}

TEST_CASE(
    "p03: senior and transfer before the first listening are no answer; the waters looked at then stand",
    "[acts-in-time]") {
    Listener l = listens(at_the_door("p03-after-the-end",
                                     {"off_her_back", "inform_senior", "check_waters", "arrange_transfer"}),
                         Instrument::doppler);
    l.until(l.contraction_end(0) + 40).belly().until(l.contraction_end(3) + 35).lift();
    l.decide(SourceIs::baby, BaselineIs::normal, Around::slow_after_contraction).explain();
    l.record("after", "yes").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK(graded(sheet, "inform_senior") == "not_done");
    CHECK(graded(sheet, "arrange_transfer") == "not_done");
    CHECK(graded(sheet, "check_waters") == "in_time");
    CHECK(graded(sheet, "off_her_back") == "in_time");
}

TEST_CASE("171 bpm: a temperature taken on arrival stands, the senior told on arrival was told of nothing",
          "[acts-in-time]") {
    Listener l("c01-own-minute");
    l.scenario = plain_labour(10, 171.3);
    l.greet().act("take_temperature").wait(60).act("inform_senior");
    l = listens(std::move(l), Instrument::doppler);
    l.count().lift().decide(SourceIs::baby, BaselineIs::fast).record("between", "").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK(graded(sheet, "take_temperature") == "in_time");
    CHECK(graded(sheet, "inform_senior") == "not_done");
}

TEST_CASE("l03: her pulse at 15 s does not answer a fall that begins at 240 s; a hand left there does",
          "[acts-in-time]") {
    for (const bool left : {false, true}) {
        Listener l = listens(Listener("l03-a-long-night"), Instrument::doppler);
        l.until(200);
        if (!left) l.hand(sim::Hand::left, sim::On::none);
        l.until(430).act("off_her_back").act("call_for_help").until(560).lift();
        l.decide(SourceIs::baby, BaselineIs::slow).record("between", "yes").finish();
        const ScoreSheet sheet = l.sheet();
        INFO(told(sheet));
        CHECK(graded(sheet, "feel_pulse") == (left ? "in_time" : "not_done"));
    }
}

TEST_CASE("Her pulse felt for 20 s with the horn in the bag is not her pulse while you listen",
          "[acts-in-time]") {
    Listener l("c04-past-the-day");
    l.greet().wrist().wait(22).hand(sim::Hand::left, sim::On::none).take(Instrument::horn).place_best();
    l.count().act("call_for_help").lift().decide(SourceIs::baby, BaselineIs::slow).record("between", "");
    const ScoreSheet sheet = l.finish().sheet();
    INFO(told(sheet));
    CHECK(graded(sheet, "feel_pulse") == "not_done");
}

TEST_CASE("Contractions typed without a hand on the womb were not counted; 2 cm is no other place, 3 cm is",
          "[acts-in-time]") {
    Listener l = listens(Listener("c01-own-minute"), Instrument::doppler);
    Event& e = l.add(Do::report_contractions);
    e.per_10min = 3;
    l.wait(2).place(5, -7).wait(5).place(6, -6).wait(5);
    const Played near = l.played();
    CHECK(Evidence(l.scenario, l.protocol, near).done_at("count_contractions").us == -1);
    Listener far = listens(Listener("c01-own-minute"), Instrument::doppler);
    far.place(-5, -7).wait(5);
    const auto moves = [](const Listener& who) {
        const Played played = who.played();
        return Evidence(who.scenario, who.protocol, played).doings("move_and_search").size();
    };
    const std::size_t before = moves(far);
    far.place(-4, -6).wait(5);
    CHECK(moves(far) == before);
    far.place(-2, -7).wait(5);
    CHECK(moves(far) == before + 1);
}

TEST_CASE(
    "A normal heart, help, plan, transfer and examination: 4 acts over-called before or after the count",
    "[acts-in-time]") {
    const std::vector<std::string> alarms = {"call_for_help", "start_plan", "arrange_transfer",
                                             "examine_inside"};
    for (const bool before : {true, false}) {
        Listener l = listens(at_the_door("c01-own-minute", before ? alarms : std::vector<std::string>()),
                             Instrument::doppler);
        l.count();
        if (!before)
            for (const std::string& act : alarms) l.act(act);
        l.lift().decide(SourceIs::baby, BaselineIs::normal).explain().record("between", "");
        const ScoreSheet sheet = l.act("continue_routine").finish().sheet();
        INFO(told(sheet));
        for (const std::string& act : alarms) CHECK(graded(sheet, act) == "not_needed");
        CHECK(aspect(sheet, Aspect::action).figures.at("over_called") == 4);
        CHECK(aspect(sheet, Aspect::decision).figures.at("over_called") == 1);
        CHECK(aspect(sheet, Aspect::decision).figures.at("normal_hearts") == 1);
        CHECK(holds(aspect(sheet, Aspect::action).why, "Not needed here: \"Call out"));
        CHECK(verdict(sheet, Aspect::action) == Verdict::met);
        CHECK(sheet.critical_missed.empty());
    }
}

TEST_CASE("Not sure and help called at a normal heart, or the senior asked: a safe step, no over-call",
          "[acts-in-time]") {
    Listener l = listens(Listener("c01-own-minute"), Instrument::doppler);
    l.count().lift();
    l.decide(SourceIs::baby, BaselineIs::not_said, Around::not_said, RhythmIs::not_said, true);
    l.act("call_for_help").act("inform_senior").explain().record("between", "").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK(aspect(sheet, Aspect::action).figures.at("over_called") == 0);
    CHECK(aspect(sheet, Aspect::decision).figures.at("over_called") == 0);
}

TEST_CASE("No key of the library expects an act that it calls unsafe, under any of four protocols",
          "[acts-in-time]") {
    for (const char* id : four_protocols) {
        const Protocol protocol = protocol_named(id);
        for (const auto& file :
             std::filesystem::directory_iterator(std::string(FULLMINUTE_SOURCE_DIR) + "/scenarios/library")) {
            const std::string stem = file.path().stem().string();
            CAPTURE(id, stem);
            const Key k = key_of(scenario_named(stem), protocol, sim::Seed{1});
            for (const ExpectedAct& act : k.expected)
                for (const std::string& one : act.any_of) CHECK_FALSE(in_list(k.unsafe, one));
        }
    }
}

TEST_CASE(
    "l07: driving away with the head visible is unsafe and critical at 50 s, 110 s and 300 s, never asked",
    "[acts-in-time]") {
    for (const double at : {50.0, 110.0, 300.0}) {
        Listener l = listens(Listener("l07-nearly-there"), Instrument::doppler);
        l.until(at).act("arrange_transfer").until(400).lift();
        l.decide(SourceIs::baby, BaselineIs::slow, Around::stays_down).record("between", "yes").finish();
        const ScoreSheet sheet = l.sheet();
        INFO(told(sheet));
        int lines = 0;
        for (const ActScore& a : sheet.acts)
            if (holds(a.act, "arrange_transfer")) {
                ++lines;
                CHECK(a.verdict == "unsafe");
                CHECK(a.critical);
            }
        CHECK(lines == 1);
    }
}

TEST_CASE(
    "l03: turned 50 s after placing and back within 3 min: no plan, bag or road asked, end when she may",
    "[acts-in-time]") {
    for (const double end : {700.0, 1790.0}) {
        Listener l = listens(Listener("l03-a-long-night"), Instrument::doppler);
        l.until(200).lift().decide(SourceIs::baby, BaselineIs::normal, Around::no_slowing);
        l.until(380).place_best().until(430);
        l.act("off_her_back").act("call_for_help").act("look_for_cord").act("check_bleeding");
        l.until(560).count().until(630).lift().decide(SourceIs::baby, BaselineIs::normal);
        l.record("between", "yes").explain().act("listen_more_often").until(end).finish();
        const ScoreSheet sheet = l.sheet();
        INFO(told(sheet));
        for (const char* act :
             {"start_plan", "prepare_newborn_help", "go_with_her", "write_referral_note", "examine_inside"})
            CHECK(graded(sheet, act) == "no line");
        CHECK(sheet.critical_missed.empty());
    }
}

TEST_CASE(
    "t05: ended with 100 s left for the plan: not reached where help was called, not done where nobody was",
    "[acts-in-time]") {
    for (const bool called : {true, false}) {
        Listener l = listens(Listener("t05-the-number-says"), Instrument::doppler);
        l.count();
        if (called) l.act("call_for_help");
        l.act("off_her_back").act("look_for_cord").act("check_bleeding").lift();
        l.decide(SourceIs::baby, BaselineIs::slow).record("between", "").finish();
        const ScoreSheet sheet = l.sheet();
        INFO(told(sheet));
        CHECK(graded(sheet, "start_plan") == (called ? "not_reached" : "not_done"));
        CHECK(sheet.critical_missed.empty() == called);
    }
}

TEST_CASE("q08, no watch: rate not checked, the senior told: the causes of a fast heart are not asked for",
          "[acts-in-time]") {
    Listener l = listens(Listener("q08-lent-to-the-driver"), Instrument::horn);
    l.wait(60).lift().decide(SourceIs::baby, BaselineIs::not_checked).explain().act("inform_senior");
    const ScoreSheet sheet = l.record("between", "").finish().sheet();
    INFO(told(sheet));
    CHECK(graded(sheet, "take_temperature") == "no line");
    CHECK(graded(sheet, "inform_senior") == "in_time");
    CHECK(verdict(sheet, Aspect::action) == Verdict::met);
}

TEST_CASE("l09: examined inside before looking for the blood that is there is unsafe", "[acts-in-time]") {
    Listener l = listens(Listener("l09-since-the-milking"), Instrument::doppler);
    l.until(106).act("examine_inside").wait(70).act("check_bleeding").until(300).lift();
    l.decide(SourceIs::baby, BaselineIs::slow).record("between", "").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK(graded(sheet, "examine_inside") == "unsafe");
}
