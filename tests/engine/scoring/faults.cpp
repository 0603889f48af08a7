// One fault put in: the primary aspect names its cause, and no other aspect claims a cause of its own.
#include "faultless_listeners.h"

#include <algorithm>

using namespace perfect;

namespace {

void one_cause(const ScoreSheet& sheet, Aspect cause, Verdict at_least = Verdict::partly) {
    INFO(told(sheet));
    REQUIRE(sheet.primary.has_value());
    CHECK(name_of(*sheet.primary) == name_of(cause));
    CHECK(verdict(sheet, cause) >= at_least);
    CHECK(verdict(sheet, cause) != Verdict::not_asked);
    for (const AspectScore& a : sheet.aspects) {
        if (a.aspect == cause || a.aspect == Aspect::care) continue;
        if (a.verdict != Verdict::partly && a.verdict != Verdict::missed) continue;
        CAPTURE(name_of(a.aspect));
        CHECK(a.follows_from.has_value());
    }
    REQUIRE_FALSE(sheet.next_time.empty());
    CHECK(sheet.next_time.size() <= 5);
}

Protocol with_15_s() {
    Protocol p = protocol_named("who-2018");
    p.record_lengths.push_back(sim::Seconds{15});
    return p;
}

// c01 with one count as told.
ScoreSheet c01(double plan, Listener::Slip slip, Protocol p = protocol_named("who-2018")) {
    Listener l("c01-own-minute", std::move(p));
    l.greet().wait(10).take(sim::Instrument::doppler).place_best().wrist().wait(16).report_pulse().wait(30);
    l.count(plan, slip).wait(2).lift();
    const BaselineIs by_number =
        classify(l.protocol, sim::Bpm{static_cast<double>(l.bpm)}) == BaselineClass::normal
            ? BaselineIs::normal
        : l.bpm < 130 ? BaselineIs::slow
                      : BaselineIs::fast;
    l.decide(SourceIs::baby, by_number).explain().record("between", "");
    if (by_number == BaselineIs::normal) l.act("continue_routine");
    return l.finish().sheet();
}

}  // namespace

TEST_CASE("Fault: counted where the baby cannot be heard: site", "[faults]") {
    Listener l("c01-own-minute");
    l.greet().wait(10).take(sim::Instrument::doppler).place(-11, 14).wrist().wait(16).report_pulse();
    l.count(60, {0, -12, -1, false}).lift();
    l.decide(SourceIs::baby, BaselineIs::normal)
        .explain()
        .record("between", "")
        .act("continue_routine")
        .finish();
    const ScoreSheet sheet = l.sheet();
    one_cause(sheet, Aspect::site, Verdict::missed);
    CHECK(sheet.windows.at(0).terms.ear == -12);
}

TEST_CASE(
    "Rule 32: several aspects move, one names the cause: the mother's pulse written as the baby's is whose",
    "[faults]") {
    Listener l("t04-whose-heart");
    l.greet().wait(10).take(sim::Instrument::horn).place(-3, -12).wrist().wait(16).report_pulse();
    l.count(60, {0, 0, -1, true}).lift();
    l.decide(SourceIs::baby, BaselineIs::slow).explain().act("inform_senior").record("between", "").finish();
    const ScoreSheet sheet = l.sheet();
    one_cause(sheet, Aspect::whose, Verdict::missed);
    CHECK(sheet.windows.at(0).followed == "mother");
    CHECK(sheet.windows.at(0).terms.ear == 0);
    CHECK(sheet.windows.at(0).terms.source < -30);
    CHECK(verdict(sheet, Aspect::count) == Verdict::met);
    CHECK(std::count(sheet.critical_missed.begin(), sheet.critical_missed.end(),
                     "the mother's pulse written as the baby's") == 1);
}

TEST_CASE("Fault: the window started 2 s late and ran 58 s for 60: window", "[faults]") {
    const ScoreSheet sheet = c01(60, {58, 0, -1, false});
    one_cause(sheet, Aspect::window);
    CHECK(sheet.windows.at(0).terms.watch <= -4);
    CHECK(sheet.windows.at(0).terms.ear == 0);
    CHECK(verdict(sheet, Aspect::count) == Verdict::met);
}

TEST_CASE("Fault: two beats extra in 15 s x 4 are 8 bpm: count", "[faults]") {
    const ScoreSheet sheet = c01(15, {0, 2, -1, false}, with_15_s());
    one_cause(sheet, Aspect::count);
    CHECK(sheet.windows.at(0).terms.ear == 8);
    CHECK(verdict(sheet, Aspect::count) == Verdict::partly);
    CHECK(aspect(sheet, Aspect::count).why.find("2 beats extra") != std::string::npos);
}

TEST_CASE("15 s window: one beat too many reads 4 bpm high, is named, and is no bad ear", "[faults]") {
    const ScoreSheet sheet = c01(15, {0, 1, -1, false}, with_15_s());
    INFO(told(sheet));
    CHECK(sheet.windows.at(0).terms.ear == 4);
    CHECK(verdict(sheet, Aspect::count) == Verdict::met);
    CHECK(aspect(sheet, Aspect::count).why.find("1 beat extra") != std::string::npos);
    CHECK_FALSE(sheet.primary.has_value());
}

TEST_CASE("One beat extra in a whole minute is met, and still named: 1 beat extra, 1 bpm", "[faults]") {
    const ScoreSheet sheet = c01(60, {0, 1, -1, false});
    INFO(told(sheet));
    CHECK(sheet.windows.at(0).terms.ear == 1);
    CHECK(verdict(sheet, Aspect::count) == Verdict::met);
    CHECK(aspect(sheet, Aspect::count).why.find("1 beat extra") != std::string::npos);
    CHECK_FALSE(sheet.primary.has_value());
    CHECK_FALSE(sheet.next_time.empty());
}

TEST_CASE("Fault: the product written 10 too high, as 34 x 4 written 146: arithmetic", "[faults]") {
    Listener probe("c01-own-minute", with_15_s());
    probe.greet()
        .wait(10)
        .take(sim::Instrument::doppler)
        .place_best()
        .wrist()
        .wait(16)
        .report_pulse()
        .wait(30)
        .count(15);
    const ScoreSheet sheet = c01(15, {0, 0, probe.bpm + 10, false}, with_15_s());
    one_cause(sheet, Aspect::arithmetic, Verdict::missed);
    CHECK(sheet.windows.at(0).terms.arithmetic == 10);
    CHECK(sheet.windows.at(0).terms.ear == 0);
    CHECK(sheet.windows.at(0).terms.slip == "other");
}

TEST_CASE("Fault: a normal heart, rightly counted, called fast: decision", "[faults]") {
    Listener l("c01-own-minute");
    l.greet()
        .wait(10)
        .take(sim::Instrument::doppler)
        .place_best()
        .wrist()
        .wait(16)
        .report_pulse()
        .count()
        .lift();
    l.decide(SourceIs::baby, BaselineIs::fast)
        .explain()
        .act("continue_routine")
        .record("between", "")
        .finish();
    one_cause(l.sheet(), Aspect::decision, Verdict::missed);
}

TEST_CASE("Fault: slow after the contraction named without having listened past its end: decision, partly",
          "[faults]") {
    Listener l("p03-after-the-end");
    l.greet().wait(10).take(sim::Instrument::doppler).place_best().wrist().wait(16).report_pulse().count();
    l.until(l.contraction_end(0) - 8).lift();
    l.decide(SourceIs::baby, BaselineIs::normal, Around::slow_after_contraction).explain();
    l.act("off_her_back").act("inform_senior").record("between", "yes").finish();
    const ScoreSheet sheet = l.sheet();
    one_cause(sheet, Aspect::decision);
    CHECK(verdict(sheet, Aspect::decision) == Verdict::partly);
}

namespace {
Listener p03_turned_after(double seconds) {
    Listener l("p03-after-the-end");
    l.greet().wait(10).take(sim::Instrument::doppler).place_best().wrist().wait(16).report_pulse();
    const double known = l.contraction_end(0) + 30;
    l.until(known + 3).act("inform_senior").act("check_waters").act("look_for_cord").belly();
    l.until(known + 30).count();
    l.until(known + seconds).act("off_her_back");
    l.until(l.contraction_end(3) + 35).lift();
    l.decide(SourceIs::baby, BaselineIs::normal, Around::slow_after_contraction).explain();
    l.act("arrange_transfer").referral().record("after", "yes", "turned, senior told").finish();
    return l;
}
}  // namespace

TEST_CASE("Fault: she is turned 200 s after it could be known, 120 s is the time: action", "[faults]") {
    const ScoreSheet sheet = p03_turned_after(200).sheet();
    one_cause(sheet, Aspect::action);
    CHECK(verdict(sheet, Aspect::action) == Verdict::partly);
}

TEST_CASE("Fault: the cord pushed back: action, and critical", "[faults]") {
    Listener l = faultless_l06();
    l.events.pop_back();
    l.act("push_cord_back").finish();
    const ScoreSheet sheet = l.sheet();
    one_cause(sheet, Aspect::action, Verdict::missed);
    CHECK_FALSE(sheet.critical_missed.empty());
}

// --- Rules that keep judging fair and safe
// ---------------------------------------------------------------------------

TEST_CASE("Rule 3: how soon counts from the contraction's end + 30 s that they heard, not from the truth",
          "[rules]") {
    const Listener l = faultless_p03();
    const ScoreSheet sheet = l.sheet();
    const double end = l.contraction_end(0);
    bool found = false;
    for (const ActScore& a : sheet.acts)
        if (a.act == "off_her_back" && a.situation == "slow_after_contraction") {
            found = true;
            CHECK(a.known_from_s == Approx(end + 30).margin(0.01));
        }
    CHECK(found);
}

TEST_CASE("Rule 4: turned after 10 s or after 100 s of 120 is the same", "[rules]") {
    const ScoreSheet soon = p03_turned_after(10).sheet(), later = p03_turned_after(100).sheet();
    INFO(told(soon) << told(later));
    CHECK(verdict(soon, Aspect::action) == Verdict::met);
    CHECK(verdict(later, Aspect::action) == Verdict::met);
}

TEST_CASE("Rule 5: the verdict knows the sound there, no distance and no time", "[rules]") {
    const ScoreSheet sheet = faultless_c01().sheet();
    for (const auto& [name, value] : aspect(sheet, Aspect::site).figures)
        CHECK((name == "over_rival_db" || name == "over_noise_db"));
}

TEST_CASE("Rule 6: 9 beats short, counted again and right: the last stands, nothing is held against it",
          "[rules]") {
    Listener l("c01-own-minute");
    l.greet().wait(10).take(sim::Instrument::doppler).place_best().wrist().wait(16).report_pulse();
    l.count(60, {0, -9, -1, false}).count().lift();
    l.decide(SourceIs::baby, BaselineIs::normal)
        .explain()
        .record("between", "")
        .act("continue_routine")
        .finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK_FALSE(sheet.windows.at(0).judged);
    CHECK(sheet.windows.at(1).judged);
    CHECK_FALSE(sheet.primary.has_value());
}

namespace {
ScoreSheet unsure_then(const std::string& act) {
    Listener l("c01-own-minute");
    l.greet()
        .wait(10)
        .take(sim::Instrument::doppler)
        .place_best()
        .wrist()
        .wait(16)
        .report_pulse()
        .count()
        .lift();
    l.decide(SourceIs::doubtful, BaselineIs::not_said, Around::not_said, RhythmIs::not_said, true).explain();
    return l.act(act).record("between", "").finish().sheet();
}
}  // namespace

TEST_CASE("Rule 7: with a second listener at least partly, carrying on as usual missed", "[rules]") {
    const Verdict safe = verdict(unsure_then("second_listener"), Aspect::decision);
    CHECK((safe == Verdict::partly || safe == Verdict::met));
    CHECK(verdict(unsure_then("continue_routine"), Aspect::decision) == Verdict::missed);
}

TEST_CASE("Rule 9: 33 beats short and called slow: the decision fits the number, the count is the fault",
          "[rules]") {
    const ScoreSheet sheet = c01(60, {0, -33, -1, false});
    one_cause(sheet, Aspect::count, Verdict::missed);
    CHECK(verdict(sheet, Aspect::decision) == Verdict::met);
}

TEST_CASE("Rule 11: a look of 6 s is never the record and gives no class", "[rules]") {
    Listener l("q01-six-seconds");
    l.greet()
        .wait(10)
        .take(sim::Instrument::doppler)
        .place_best()
        .wrist()
        .wait(16)
        .report_pulse()
        .wait(40)
        .count(6)
        .lift();
    l.decide(SourceIs::baby, BaselineIs::normal)
        .explain()
        .record("between", "")
        .act("continue_routine")
        .finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK(verdict(sheet, Aspect::record) == Verdict::missed);
    CHECK(verdict(sheet, Aspect::decision) == Verdict::partly);
}

TEST_CASE("Rule 7, over-calling: a plan started for a normal heart is shown as not needed", "[rules]") {
    Listener l = faultless_c01();
    l.events.pop_back();
    l.act("start_plan").finish();
    const ScoreSheet sheet = l.sheet();
    bool shown = false;
    for (const ActScore& a : sheet.acts)
        shown = shown || (a.act == "start_plan" && a.verdict == "not_needed");
    CHECK(shown);
    CHECK(verdict(sheet, Aspect::action) == Verdict::met);
}

TEST_CASE("Rule 22: given after the urgent acts it is neither credit nor fault, and the conflict is shown",
          "[rules]") {
    Listener l = faultless_l06();
    l.scenario.place.trainee = Licence::licensed;
    l.events.pop_back();
    l.act("give_oxygen").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    bool shown = false;
    for (const ActScore& a : sheet.acts)
        if (a.act == "give_oxygen") {
            shown = true;
            CHECK(a.verdict == "allowed");
            CHECK(a.conflict.find("ACOG") != std::string::npos);
        }
    CHECK(shown);
    CHECK(verdict(sheet, Aspect::action) == verdict(faultless_l06().sheet(), Aspect::action));
}

TEST_CASE("Rule 26: oxygen given by one who may not is out of scope", "[rules]") {
    Listener l = faultless_l06();
    l.events.pop_back();
    l.act("give_oxygen").finish();
    bool shown = false;
    for (const ActScore& a : l.sheet().acts)
        shown = shown || (a.act == "give_oxygen" && a.verdict == "out_of_scope");
    CHECK(shown);
}

TEST_CASE("Rule 2: help called before the pulse is felt is no fault", "[rules]") {
    Listener l("f10-two-instruments");
    l.greet()
        .wait(10)
        .take(sim::Instrument::doppler)
        .place(6, -7)
        .wait(20)
        .act("call_for_help")
        .wrist()
        .wait(16);
    l.report_pulse().place(-6, -7).wait(10).lift().take(sim::Instrument::horn).place(0, 5).wait(10).lift();
    l.decide(SourceIs::not_found).act("get_scan_or_monitor").explain().record("", "", "called").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK(verdict(sheet, Aspect::action) == Verdict::met);
}

TEST_CASE("Rule, absent heart: her pulse written as a rate is missed and critical", "[rules]") {
    Listener l("f10-two-instruments");
    l.greet().wait(10).take(sim::Instrument::doppler).place(-4, -13).wrist().wait(16).report_pulse();
    l.count(60, {0, 0, -1, true}).lift();
    l.decide(SourceIs::baby, BaselineIs::normal)
        .explain()
        .record("between", "")
        .act("continue_routine")
        .finish();
    const ScoreSheet sheet = l.sheet();
    one_cause(sheet, Aspect::whose, Verdict::missed);
    CHECK_FALSE(sheet.critical_missed.empty());
}
