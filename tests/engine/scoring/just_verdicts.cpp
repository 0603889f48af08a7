// Verdicts that a midwife reading the sheet would call unjust or untrue, each as it should be. Rules: the
// project's own rules of judging (safe steps never punished, one fault one cause, critical only where the
// protocol says) [practice].
#include "faultless_listeners.h"

#include "engine/scoring/key.h"

#include <algorithm>
#include <set>

using namespace perfect;

namespace {

Listener counted_at_best(const std::string& stem, Instrument with = Instrument::doppler) {
    Listener l = first_touch(stem, with);
    l.place_best().wrist().wait(16).report_pulse();
    return l;
}
const ActScore* line_of(const ScoreSheet& sheet, const std::string& act) {
    for (const ActScore& a : sheet.acts)
        if (a.act == act) return &a;
    return nullptr;
}
bool holds(const std::string& text, const char* part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("Keys name each act once in all ten labours under both protocols, with every situation that asks",
          "[just]") {
    for (const char* protocol : {"who-2018", "community-120-160"})
        for (const char* stem : {"c01-own-minute", "q01-six-seconds", "f03-feel-first", "t04-whose-heart",
                                 "p02-through-two", "p03-after-the-end", "l03-a-long-night",
                                 "l05-ninety-minutes-out", "l06-when-waters-break", "f10-two-instruments"}) {
            CAPTURE(protocol, stem);
            const Key k = key_of(scenario_named(stem), protocol_named(protocol), sim::Seed{1});
            std::set<std::vector<std::string>> seen;
            for (const ExpectedAct& act : k.expected) {
                CHECK(seen.insert(act.any_of).second);
                CHECK_FALSE(act.situations.empty());
                // Nothing both asked for and unsafe.
                for (const std::string& id : act.any_of)
                    CHECK(std::find(k.unsafe.begin(), k.unsafe.end(), id) == k.unsafe.end());
            }
        }
}

TEST_CASE("l03: help is asked for once, for slow and for stays down, within 60 s, and critical", "[just]") {
    const Key k = key_of(scenario_named("l03-a-long-night"), protocol_named("who-2018"), sim::Seed{1});
    int times = 0;
    for (const ExpectedAct& act : k.expected) {
        if (act.any_of != std::vector<std::string>{"call_for_help"}) continue;
        ++times;
        CHECK(act.within_s == 60);
        CHECK(act.critical);
        CHECK(act.situations == std::vector<std::string>{"slow", "stays_down"});
    }
    CHECK(times == 1);
}

TEST_CASE("l03 and l06: mothers at 106 and 101 beside falling babies: the key says baby", "[just]") {
    for (const char* stem : {"l03-a-long-night", "l06-when-waters-break"})
        for (const char* protocol : {"who-2018", "community-120-160"})
            CHECK(key_of(scenario_named(stem), protocol_named(protocol), sim::Seed{1}).decision.source ==
                  SourceIs::baby);
}

TEST_CASE("l05: she sits half up: turning her off her back is not asked", "[just]") {
    const Key k = key_of(scenario_named("l05-ninety-minutes-out"), protocol_named("who-2018"), sim::Seed{1});
    for (const ExpectedAct& act : k.expected) CHECK(act.any_of.front() != "off_her_back");
}

TEST_CASE("l06: the cord seen, its own acts are asked, not to look for it again or turn her left", "[just]") {
    const Key k = key_of(scenario_named("l06-when-waters-break"), protocol_named("who-2018"), sim::Seed{1});
    for (const ExpectedAct& act : k.expected)
        for (const char* not_asked : {"off_her_back", "look_for_cord", "examine_inside"})
            CHECK(act.any_of.front() != not_asked);
}

TEST_CASE("p02: slowing that is over when the contraction ends is told in the key's reasons", "[just]") {
    const Key k = key_of(scenario_named("p02-through-two"), protocol_named("who-2018"), sim::Seed{1});
    CHECK(k.level == Level::green);
    CHECK(std::any_of(k.why.begin(), k.why.end(),
                      [](const std::string& w) { return holds(w, "back when they ended"); }));
    for (const std::string& w : k.why) CHECK_FALSE(holds(w, "nothing else"));
}

TEST_CASE("Unsure with a second listener at a normal heart: carrying on is not asked as well", "[just]") {
    Listener l = counted_at_best("c01-own-minute");
    l.count().lift().decide(SourceIs::baby, BaselineIs::not_said, Around::not_said, RhythmIs::not_said, true);
    l.act("second_listener").explain().record("between", "").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK_FALSE(sheet.primary.has_value());
}

TEST_CASE("p03: left before a contraction ended, acted on a suspicion: not blamed for not carrying on",
          "[just]") {
    Listener l = counted_at_best("p03-after-the-end");
    l.count().until(l.contraction_end(0) + 40).lift();
    l.decide(SourceIs::baby, BaselineIs::normal, Around::slow_after_contraction)
        .explain()
        .act("off_her_back");
    l.act("inform_senior").act("check_waters").act("look_for_cord").record("after", "yes").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK(line_of(sheet, "continue_routine") == nullptr);
}

TEST_CASE("p03: heard only between contractions and said so: partly, a contraction's end was to be heard",
          "[just]") {
    Listener l = counted_at_best("p03-after-the-end");
    l.count().lift().decide(SourceIs::baby, BaselineIs::normal, Around::not_listened).explain();
    l.record("between", "not listened").finish();
    CHECK(verdict(l.sheet(), Aspect::decision) == Verdict::partly);
}

TEST_CASE("l05: fast said at once, contractions later: the first decision is not blamed for what came second",
          "[just]") {
    Listener l = faultless_l05();
    for (Event& e : l.events)
        if (e.what == Do::decide && e.decision.around == Around::not_listened)
            e.decision.around = Around::not_said;
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK(verdict(sheet, Aspect::decision) == Verdict::met);
}

TEST_CASE("40 x 4 written 14 too low, where 15 s is too short for the record: arithmetic is named first",
          "[just]") {
    Listener probe = counted_at_best("c01-own-minute");
    probe.wait(30).count(15);
    Listener l = counted_at_best("c01-own-minute");
    l.wait(30).count(15, {0, 0, probe.bpm - 14, false}).lift();
    l.decide(SourceIs::baby, BaselineIs::normal)
        .explain()
        .record("between", "")
        .act("continue_routine")
        .finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    REQUIRE(sheet.primary.has_value());
    CHECK(*sheet.primary == Aspect::arithmetic);
}

TEST_CASE("A 15 s count by an exact watch: the advice is a whole minute, not the second hand", "[just]") {
    Listener l = counted_at_best("c01-own-minute");
    l.wait(30).count(15).lift().decide(SourceIs::baby, BaselineIs::normal).explain().record("between", "");
    const ScoreSheet sheet = l.act("continue_routine").finish().sheet();
    REQUIRE_FALSE(sheet.next_time.empty());
    CHECK(holds(sheet.next_time[0].says, "whole minute"));
    CHECK_FALSE(holds(sheet.next_time[0].says, "second hand"));
}

TEST_CASE("A minute planned, stopped at 31 s and doubled: a count of 30 s, its arithmetic right", "[just]") {
    const auto stopped_at = [](double own_s, int factor, double plan_s) {
        Listener probe = counted_at_best("c01-own-minute");
        probe.wait(30).count(plan_s, {own_s, 0, -1, false});
        Listener l = counted_at_best("c01-own-minute");
        l.wait(30).count(plan_s, {own_s, 0, factor * probe.beats, false}).lift();
        return l.decide(SourceIs::baby, BaselineIs::normal).explain().record("between", "").finish().sheet();
    };
    const ScoreSheet doubled = stopped_at(31, 2, 60);
    INFO(told(doubled));
    CHECK(doubled.windows.at(0).plan_s == 30);
    CHECK(verdict(doubled, Aspect::arithmetic) == Verdict::met);
    CHECK(doubled.windows.at(0).terms.arithmetic == 0);
    CHECK(doubled.windows.at(0).terms.ear == 0);
    CHECK(stopped_at(14.5, 4, 60).windows.at(0).plan_s == 15);
    // The length stays where the number does not follow the seconds: a minute not multiplied, a minute by a
    // hasty watch doubled, 15 s by 2.
    CHECK(stopped_at(31, 1, 60).windows.at(0).plan_s == 60);
    CHECK(stopped_at(58, 2, 60).windows.at(0).plan_s == 60);
    CHECK(verdict(stopped_at(58, 2, 60), Aspect::arithmetic) == Verdict::missed);
    CHECK(stopped_at(15, 2, 15).windows.at(0).plan_s == 15);
    CHECK(verdict(stopped_at(15, 2, 15), Aspect::arithmetic) == Verdict::missed);
}

TEST_CASE("A look of 6 s written as the record outside a quick task: one cause, the window", "[just]") {
    Listener l = counted_at_best("c01-own-minute");
    l.wait(45).count(6).lift().decide(SourceIs::baby, BaselineIs::normal).explain().record("between", "");
    const ScoreSheet sheet = l.act("continue_routine").finish().sheet();
    INFO(told(sheet));
    CHECK(verdict(sheet, Aspect::record) == Verdict::missed);
    CHECK(aspect(sheet, Aspect::record).follows_from == Aspect::window);
}

TEST_CASE("A number counted where the baby was not to be heard does not make a complete line", "[just]") {
    Listener l = first_touch("f03-feel-first", Instrument::doppler);
    l.place(6, -8).wrist().wait(16).report_pulse().count(60, {0, -8, -1, false}).lift();
    l.decide(SourceIs::baby, BaselineIs::normal).explain().record("between", "").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK(verdict(sheet, Aspect::record) == Verdict::partly);
    CHECK(aspect(sheet, Aspect::record).follows_from == Aspect::site);
    CHECK_FALSE(holds(aspect(sheet, Aspect::site).why, "-"));  // no "-96 dB over the noise"
}

TEST_CASE(
    "Unsafe acts are critical only where the protocol says: the display's number is a fault, not critical",
    "[just]") {
    for (const char* act : {"write_display_number", "lay_flat"}) {
        Listener l = faultless_c01();
        l.events.pop_back();
        l.act(act).finish();
        const ScoreSheet sheet = l.sheet();
        INFO(told(sheet));
        CHECK(verdict(sheet, Aspect::action) == Verdict::missed);
        CHECK(sheet.critical_missed.empty() == (std::string(act) == "write_display_number"));
    }
}

TEST_CASE("Over-calling is named in the action's reason, without a fault: a plan for a normal heart",
          "[just]") {
    Listener l = faultless_c01();
    l.events.pop_back();
    l.act("start_plan").finish();
    const ScoreSheet sheet = l.sheet();
    CHECK(verdict(sheet, Aspect::action) == Verdict::met);
    CHECK(holds(aspect(sheet, Aspect::action).why, "Not needed here"));
}

TEST_CASE("l03 with nothing done: at most three acts a heading, one line an act, advice of one breath",
          "[just]") {
    Listener l = counted_at_best("l03-a-long-night");
    l.until(180).count().until(700).lift();
    l.decide(SourceIs::baby, BaselineIs::slow, Around::stays_down).record("between", "yes", "").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK(verdict(sheet, Aspect::action) == Verdict::missed);
    CHECK(aspect(sheet, Aspect::action).why.size() < 420);
    std::set<std::string> seen;
    for (const ActScore& a : sheet.acts)
        if (a.verdict == "not_done") CHECK(seen.insert(a.act).second);
    for (const NextTime& n : sheet.next_time) CHECK(n.says.size() < 320);
}

TEST_CASE("Fast undercounted and called normal: the chart's missing acts are not a second fault", "[just]") {
    Listener l = counted_at_best("l05-ninety-minutes-out", Instrument::horn);
    l.count(60, {0, -18, -1, false})
        .lift()
        .decide(SourceIs::baby, BaselineIs::normal, Around::not_listened)
        .explain();
    l.record("between", "not listened").act("continue_routine").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    REQUIRE(sheet.primary.has_value());
    CHECK(*sheet.primary == Aspect::count);
    CHECK(verdict(sheet, Aspect::record) == Verdict::met);
    CHECK_FALSE(sheet.critical_missed.empty());
}

TEST_CASE("Nothing counted: a number on the chart and a class have one cause, that no minute was counted",
          "[just]") {
    Listener l = counted_at_best("c01-own-minute");
    l.wait(70).lift().decide(SourceIs::baby, BaselineIs::normal).explain();
    l.bpm = 138;
    l.record("between", "").act("continue_routine").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    REQUIRE(sheet.primary.has_value());
    CHECK(*sheet.primary == Aspect::window);
    CHECK(aspect(sheet, Aspect::record).follows_from == Aspect::window);
    CHECK(aspect(sheet, Aspect::decision).follows_from == Aspect::window);
    CHECK(sheet.next_time.size() == 1);
}

TEST_CASE("l03: called normal with the heart down at 94: critical, 16 below the limit", "[just]") {
    Listener l = counted_at_best("l03-a-long-night");
    l.until(420).count().lift().decide(SourceIs::baby, BaselineIs::normal, Around::no_slowing).explain();
    l.record("between", "no").act("continue_routine").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK(std::any_of(sheet.critical_missed.begin(), sheet.critical_missed.end(),
                      [](const std::string& c) { return holds(c, "called normal"); }));
}

TEST_CASE("f10: her pulse taken for the baby's: the advice is to say so and call, not to go on searching",
          "[just]") {
    Listener l = first_touch("f10-two-instruments", Instrument::doppler);
    l.place(-4, -13).wrist().wait(16).report_pulse().count(60, {0, 0, -1, true}).lift();
    l.decide(SourceIs::baby, BaselineIs::normal)
        .explain()
        .record("between", "")
        .act("continue_routine")
        .finish();
    const ScoreSheet sheet = l.sheet();
    REQUIRE_FALSE(sheet.next_time.empty());
    CHECK(holds(sheet.next_time[0].says, "ask for a scan"));
}

TEST_CASE("Reasons use the words of the bedside, never an id with an underscore", "[just]") {
    Listener l = counted_at_best("p03-after-the-end");
    l.until(l.contraction_end(0) + 40).count().until(l.contraction_end(3) + 35).lift();
    l.decide(SourceIs::baby, BaselineIs::fast, Around::no_slowing)
        .record("after", "no")
        .act("continue_routine")
        .finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    for (const AspectScore& a : sheet.aspects) CHECK_FALSE(holds(a.why, "_"));
    for (const NextTime& n : sheet.next_time) CHECK_FALSE(holds(n.says, "_"));
    CHECK(holds(aspect(sheet, Aspect::decision).why, "still slow after the contraction"));
}

TEST_CASE("f03: our plan started, which calls the senior: the senior is not asked for again", "[just]") {
    Listener l = faultless_f03();
    for (Event& e : l.events)
        if (e.what == Do::act && e.act == "inform_senior") e.act = "start_plan";
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    REQUIRE(line_of(sheet, "inform_senior") != nullptr);
    CHECK(line_of(sheet, "inform_senior")->verdict == "in_time");
    CHECK(verdict(sheet, Aspect::action) == Verdict::met);
}

TEST_CASE("f10: no heart named, none was there: the sheet does not speak of the heart you named", "[just]") {
    const ScoreSheet sheet = faultless_f10().sheet();
    CHECK(holds(aspect(sheet, Aspect::whose).why, "no heart but hers"));
}

TEST_CASE("l05: the key's reasons name both findings of the fever: 38.6 degrees and the foul waters",
          "[just]") {
    const Key k = key_of(scenario_named("l05-ninety-minutes-out"), protocol_named("who-2018"), sim::Seed{1});
    for (const char* part : {"38.6", "foul"})
        CHECK(std::any_of(k.why.begin(), k.why.end(), [&](const std::string& w) { return holds(w, part); }));
}
