// Attempts as a doubtful teacher would try them, and what the sheet must and must not say. Rules: the
// project's own rules of judging: one fault one cause, safe steps never punished, only what the listening
// could show [practice].
#include "library_listeners.h"

using namespace perfect;

namespace {

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

Listener at_heart_of(const char* id, Instrument with) {
    Listener l(library_stem(id));
    l.greet().wait(5).take(with).place_best().wrist().wait(16).report_pulse();
    return l;
}
// Sentences without double, leading or trailing spaces; a cause that is itself a fault; advice for every
// fault.
ScoreSheet read(const Listener& l) {
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    bool fault = false;
    for (const AspectScore& a : sheet.aspects) {
        CHECK_FALSE(holds(a.why, "  "));
        CHECK((a.why.empty() || (a.why.front() != ' ' && a.why.back() != ' ')));
        const bool faulty = a.verdict == Verdict::partly || a.verdict == Verdict::missed;
        fault = fault || (faulty && a.aspect != Aspect::care);
        if (!a.follows_from) continue;
        const Verdict cause = verdict(sheet, *a.follows_from);
        CHECK((cause == Verdict::partly || cause == Verdict::missed));
    }
    CHECK(sheet.primary.has_value() == fault);
    if (fault) CHECK_FALSE(sheet.next_time.empty());
    return sheet;
}
bool advised(const ScoreSheet& sheet, const char* part) {
    return std::any_of(sheet.next_time.begin(), sheet.next_time.end(),
                       [&](const NextTime& n) { return holds(n.says, part); });
}
const ActScore* act_line(const ScoreSheet& sheet, const char* act, const char* situation) {
    for (const ActScore& a : sheet.acts)
        if (a.act == act && a.situation == situation) return &a;
    return nullptr;
}

}  // namespace

TEST_CASE(
    "c01: 47 s taken for a minute: the watch alone; counted well, decided by their own number, written so",
    "[teacher]") {
    Listener l = at_heart_of("c01", Instrument::doppler);
    l.count(60, {47, 0, -1, false}).lift().decide(SourceIs::baby, BaselineIs::normal).explain();
    l.record("between", "").act("continue_routine").finish();
    const ScoreSheet sheet = read(l);
    CHECK(sheet.primary == std::optional<Aspect>(Aspect::window));
    for (Aspect a :
         {Aspect::site, Aspect::whose, Aspect::count, Aspect::arithmetic, Aspect::decision, Aspect::record})
        CHECK(verdict(sheet, a) == Verdict::met);
}

TEST_CASE("f08: the same heart counted twice and called two: named as that, with a cause and an advice",
          "[teacher]") {
    Listener l = at_heart_of("f08", Instrument::doppler);
    l.count()
        .lift()
        .place_best()
        .wait(2)
        .count()
        .lift()
        .decide(SourceIs::two_babies, BaselineIs::normal)
        .explain();
    l.act("inform_senior").act("get_scan_or_monitor").record("between", "").finish();
    const ScoreSheet sheet = read(l);
    INFO(told(sheet));
    CHECK(verdict(sheet, Aspect::decision) == Verdict::missed);
    CHECK_FALSE(aspect(sheet, Aspect::decision).follows_from.has_value());
    CHECK(holds(aspect(sheet, Aspect::decision).why, "the same one at each place"));
    CHECK_FALSE(holds(aspect(sheet, Aspect::whose).why, "the heart you named"));
    CHECK(advised(sheet, "Two babies, two places, two rates"));
}

TEST_CASE(
    "t06: 106 copied from the display where 211 beat: half of the beats, by name, and the display covered "
    "next",
    "[teacher]") {
    Listener l = at_heart_of("t06", Instrument::doppler);
    l.add(Do::start_window).plan_s = 60;
    l.wait(60);
    l.add(Do::stop_window);
    l.wait(1);
    l.add(Do::report).bpm = l.bpm = 106;
    l.wait(1).act("write_display_number").lift().decide(SourceIs::baby, BaselineIs::slow).explain();
    l.record("between", "").act("inform_senior").finish();
    const ScoreSheet sheet = read(l);
    INFO(told(sheet));
    CHECK(sheet.windows.at(0).pattern == "half the beats");
    CHECK(holds(aspect(sheet, Aspect::count).why, "a display can halve"));
    CHECK(advised(sheet, "Cover it, count by ear"));
    CHECK(advised(sheet, "Never here: \"Write the number on the display\""));
}

TEST_CASE("c02: half its rate written with a horn on her is no display's doing", "[teacher]") {
    Listener l = at_heart_of("c02", Instrument::horn);
    l.add(Do::start_window).plan_s = 60;
    l.wait(60);
    l.add(Do::stop_window);
    l.wait(1);
    l.add(Do::report).bpm = l.bpm = 63;
    l.lift().decide(SourceIs::baby, BaselineIs::slow).record("between", "").finish();
    const ScoreSheet sheet = read(l);
    INFO(told(sheet));
    CHECK(sheet.windows.at(0).pattern.empty());
    CHECK_FALSE(holds(aspect(sheet, Aspect::count).why, "display"));
}

TEST_CASE("p02: slowing in contractions called none: told where it slows, never that nothing did",
          "[teacher]") {
    Listener l = at_heart_of("p02", Instrument::doppler);
    through(l);
    l.count();
    through(l);
    l.lift().decide(SourceIs::baby, BaselineIs::normal, Around::no_slowing).explain();
    l.record("between", "no").act("continue_routine").finish();
    const ScoreSheet sheet = read(l);
    INFO(told(sheet));
    CHECK(verdict(sheet, Aspect::decision) == Verdict::partly);
    CHECK(advised(sheet, "it slows while the womb is hard"));
    CHECK_FALSE(advised(sheet, "Nothing slowed"));
}

TEST_CASE(
    "c03: unsure at 171, a second listener asked and the senior told: the safe step is named, and no fault",
    "[teacher]") {
    Listener l = at_heart_of("c03", Instrument::doppler);
    l.count().lift();
    l.decide(SourceIs::baby, BaselineIs::not_checked, Around::not_said, RhythmIs::not_said, true);
    l.act("second_listener").act("inform_senior").explain().record("between", "").finish();
    const ScoreSheet sheet = read(l);
    CHECK(verdict(sheet, Aspect::decision) == Verdict::met);
    CHECK(holds(aspect(sheet, Aspect::decision).why, "took a safe step"));
}

TEST_CASE("q07: about twice her pulse, so normal: the reason is the comparison, not the seconds",
          "[teacher]") {
    Listener l(library_stem("q07"));
    l.greet().wait(5).take(Instrument::horn).place_best().wrist().wait(40);
    l.add(Do::compare).to_pulse = ToPulse::about_twice;
    l.wait(2).lift().decide(SourceIs::baby, BaselineIs::normal).explain().record("between", "").finish();
    const ScoreSheet sheet = read(l);
    CHECK(verdict(sheet, Aspect::decision) == Verdict::partly);
    CHECK(holds(aspect(sheet, Aspect::decision).why, "never whether it is normal"));
}

TEST_CASE("l03: a minute counted long before the fall is no counting again", "[teacher]") {
    const auto left = [](bool again) {
        Listener l = at_heart_of("l03", Instrument::doppler);
        l.until(150).count().lift().decide(SourceIs::baby, BaselineIs::normal, Around::not_listened);
        l.record("between", "").explain().until(800).place_best();
        if (again) l.count();
        l.until(900).lift().decide(SourceIs::baby, BaselineIs::slow, Around::not_listened);
        l.act("off_her_back").act("call_for_help").record("between", "").finish();
        return read(l);
    };
    const ScoreSheet once = left(false), twice = left(true);
    INFO(told(once) << told(twice));
    REQUIRE(act_line(once, "count_full_minute", "slow") != nullptr);
    CHECK(act_line(once, "count_full_minute", "slow")->verdict == "not_done");
    REQUIRE(act_line(twice, "count_full_minute", "slow") != nullptr);
    CHECK(act_line(twice, "count_full_minute", "slow")->verdict == "in_time");
}

TEST_CASE("c08: help called out where a second midwife is there: the senior need not be asked as well",
          "[teacher]") {
    Listener l = at_heart_of("c08", Instrument::horn);
    l.count().lift().decide(SourceIs::baby, BaselineIs::fast).act("call_for_help").explain();
    l.record("between", "").finish();
    const ScoreSheet sheet = read(l);
    INFO(told(sheet));
    bool senior = false;
    for (const ActScore& a : sheet.acts)
        if (a.act == "inform_senior") {
            senior = true;
            CHECK(a.verdict == "in_time");
            CHECK(a.by == "call_for_help");
        }
    CHECK(senior);
    Listener alone = at_heart_of("l05", Instrument::horn);  // a post with nobody else
    REQUIRE(alone.scenario.place.helpers == 0);
    alone.count()
        .lift()
        .decide(SourceIs::baby, BaselineIs::fast)
        .act("call_for_help")
        .record("between", "")
        .until(1300);
    alone.finish();
    for (const ActScore& a : alone.sheet().acts)
        if (a.act == "inform_senior") CHECK(a.verdict != "in_time");
}

TEST_CASE("c02: 140 on the chart for a count of 131: the advice has both numbers", "[teacher]") {
    Listener l = at_heart_of("c02", Instrument::horn);
    l.count().lift();
    const int counted = l.bpm;
    l.bpm = counted + 9;
    l.decide(SourceIs::baby, BaselineIs::normal)
        .explain()
        .record("between", "")
        .act("continue_routine")
        .finish();
    const ScoreSheet sheet = read(l);
    CHECK(sheet.primary == std::optional<Aspect>(Aspect::record));
    CHECK(advised(
        sheet,
        ("You counted " + std::to_string(counted) + " and wrote " + std::to_string(counted + 9)).c_str()));
}

TEST_CASE("l01: ended after one listening of three: said, with when the next was due, and no fault",
          "[teacher]") {
    Listener l = at_heart_of("l01", Instrument::doppler);
    l.count().lift().decide(SourceIs::baby, BaselineIs::normal, Around::not_listened);
    l.record("between", "not listened").explain().act("continue_routine").finish();
    const ScoreSheet sheet = read(l);
    INFO(told(sheet));
    CHECK(verdict(sheet, Aspect::action) == Verdict::met);
    CHECK(holds(aspect(sheet, Aspect::action).why, "this labour goes on to 50:00"));
}

TEST_CASE("Eight more, each read through: one cause, sentences whole, an advice for every fault",
          "[teacher]") {
    Listener wrong_heart(library_stem("t04"));
    wrong_heart.greet()
        .wait(5)
        .take(Instrument::horn)
        .place(-3, -12)
        .wait(20)
        .count(60, {0, 0, -1, true})
        .lift();
    wrong_heart.decide(SourceIs::baby, BaselineIs::slow)
        .explain()
        .record("between", "")
        .act("call_for_help")
        .finish();
    CHECK(read(wrong_heart).primary == std::optional<Aspect>(Aspect::whose));
    Listener unsupported = at_heart_of("p03", Instrument::doppler);
    unsupported.count(30)
        .lift()
        .decide(SourceIs::baby, BaselineIs::normal, Around::slow_after_contraction)
        .explain();
    unsupported.act("off_her_back").act("inform_senior").record("after", "yes", "turned").finish();
    CHECK(verdict(read(unsupported), Aspect::decision) == Verdict::partly);
    Listener over = at_heart_of("c01", Instrument::doppler);
    over.count()
        .lift()
        .decide(SourceIs::baby, BaselineIs::fast)
        .act("start_plan")
        .explain()
        .record("between", "")
        .finish();
    CHECK(read(over).primary == std::optional<Aspect>(Aspect::decision));
    Listener place(library_stem("f02"));
    place.greet().wait(5).take(Instrument::horn).place(5, -3).wrist().wait(16).report_pulse();
    place.count(60, {0, -60, -1, false}).lift().decide(SourceIs::baby, BaselineIs::slow).explain();
    place.record("between", "").finish();
    CHECK(read(place).primary == std::optional<Aspect>(Aspect::site));
    CHECK_FALSE(holds(aspect(read(place), Aspect::whose).why, "the heart you named"));
    Listener half = at_heart_of("c08", Instrument::horn);
    half.count(60, {0, -92, -1, false}).lift().decide(SourceIs::baby, BaselineIs::slow).explain();
    half.record("between", "").finish();
    CHECK(read(half).primary == std::optional<Aspect>(Aspect::count));
    Listener look = at_heart_of("q01", Instrument::doppler);
    look.count(6).lift().decide(SourceIs::baby, BaselineIs::normal).explain().record("between", "").finish();
    CHECK(verdict(read(look), Aspect::record) == Verdict::missed);
    Listener lively = at_heart_of("c05", Instrument::doppler);
    lively.count()
        .lift()
        .decide(SourceIs::baby, BaselineIs::normal, Around::not_said, RhythmIs::regular)
        .explain();
    lively.record("between", "").act("continue_routine").finish();
    CHECK_FALSE(read(lively).primary.has_value());
    Listener died(library_stem("f10"));
    died.greet().wait(5).take(Instrument::doppler).place(0, -8).wrist().wait(16).report_pulse().lift();
    died.decide(SourceIs::not_found).act("say_baby_has_died").explain().record("", "").finish();
    CHECK(read(died).next_time.at(0).says == "Never here: \"Tell her the baby has died\".");
}
