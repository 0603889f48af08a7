// What was written of the contractions. Limits: more than 5 in ten minutes NICHD 2008 and WHO labour care
// guide [second-hand], 5 and more NICE 2022; 2 or fewer, under 20 s, over 60 s the labour care guide
// [second-hand]. Right within one in ten minutes: our own [practice].
#include "made_labours.h"

using namespace perfect;

namespace {

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// A quiet labour whose womb keeps time; a hand on it for ten minutes, the rest done well.
Scenario keeps_time(double per_10min, double length_s = 50) {
    Scenario s = plain_labour(20);
    s.middle.labour.contractions_per_10min = per_10min;
    s.middle.labour.contraction_length = sim::Seconds{length_s};
    return s;
}
ScoreSheet wrote(const Scenario& s, int per_10min, int length_s, const char* protocol = "who-2018",
                 bool hand = true, const char* rests = "soft") {
    Listener l = at_made(s, protocol);
    l.count().lift();
    if (hand) l.belly();
    l.until(700);
    Event& e = l.add(Do::report_contractions);
    e.per_10min = per_10min;
    e.length_s = length_s;
    e.rests = rests;
    l.wait(1).decide(SourceIs::baby, BaselineIs::normal, Around::not_listened).explain();
    l.record("between", "not listened").act("continue_routine").finish();
    return l.sheet();
}

}  // namespace

TEST_CASE("5 in ten minutes written where 5 came: nothing of it by WHO 2018, too many by NICE 2022",
          "[womb]") {
    const Scenario s = keeps_time(5);
    const ScoreSheet who = wrote(s, 5, 50), nice = wrote(s, 5, 50, "nice-2022");
    INFO(told(who) << told(nice));
    CHECK(aspect(who, Aspect::record).figures.at("contractions_per_10min") == 5);
    CHECK_FALSE(holds(aspect(who, Aspect::record).why, "contractions"));
    CHECK(holds(aspect(nice, Aspect::record).why,
                "5 contractions in ten minutes: 5 and more are too many in this protocol"));
    // It was written rightly; only what was done about it is missing on the chart under NICE.
    CHECK(holds(aspect(nice, Aspect::record).why, "what was done is missing"));
    CHECK(verdict(who, Aspect::record) == Verdict::met);
    CHECK(line_for(who, "inform_senior") == nullptr);
    CHECK(line_for(nice, "inform_senior") != nullptr);
}

TEST_CASE("3 written where 6 came: partly, with both numbers, and what 6 would have meant", "[womb]") {
    const ScoreSheet sheet = wrote(keeps_time(6), 3, 50);
    INFO(told(sheet));
    CHECK(verdict(sheet, Aspect::record) == Verdict::partly);
    CHECK(holds(aspect(sheet, Aspect::record).why,
                "You wrote 3 contractions in ten minutes; 6 came, more than the 5 this protocol allows"));
    CHECK(std::any_of(sheet.next_time.begin(), sheet.next_time.end(),
                      [](const NextTime& n) { return holds(n.says, "Lay a hand on the womb"); }));
}

TEST_CASE("One off is right, but not where it hides too many: 5 for 6 is wrong, 4 for 3 is not", "[womb]") {
    CHECK(verdict(wrote(keeps_time(6), 5, 50), Aspect::record) == Verdict::partly);
    CHECK(verdict(wrote(keeps_time(3), 4, 50), Aspect::record) == Verdict::met);
    CHECK(verdict(wrote(keeps_time(3), 3, 50), Aspect::record) == Verdict::met);
    CHECK(verdict(wrote(keeps_time(3), 6, 50), Aspect::record) == Verdict::partly);
}

TEST_CASE("2 in ten minutes and 70 s are alerts of the labour guide alone: said, and nobody's fault",
          "[womb]") {
    const ScoreSheet few = wrote(keeps_time(2), 2, 50), lasting = wrote(keeps_time(3, 70), 3, 70);
    INFO(told(few) << told(lasting));
    CHECK(holds(aspect(few, Aspect::record).why, "2 contractions in ten minutes are few: an alert"));
    CHECK(holds(aspect(lasting, Aspect::record).why, "70 s is longer than 60 s: an alert"));
    CHECK(verdict(few, Aspect::record) == Verdict::met);
    CHECK(verdict(lasting, Aspect::record) == Verdict::met);
    CHECK_FALSE(holds(aspect(wrote(keeps_time(2), 2, 50, "figo-2015"), Aspect::record).why, "alert"));
}

TEST_CASE("90 s written for 50, a womb that stays hard written as soft, no hand on it: each is told",
          "[womb]") {
    CHECK(holds(aspect(wrote(keeps_time(3), 3, 90), Aspect::record).why, "You wrote 90 s long"));
    Scenario hard = keeps_time(3);
    hard.middle.labour.tone = sim::Millimetres_Hg{30};  // hard from 25 on at rest [memory]
    const ScoreSheet soft = wrote(hard, 3, 50);
    INFO(told(soft));
    CHECK(holds(aspect(soft, Aspect::record).why, "it stayed hard"));
    CHECK_FALSE(
        holds(aspect(wrote(hard, 3, 50, "who-2018", true, "stays_hard"), Aspect::record).why, "hard"));
    const ScoreSheet unfelt = wrote(keeps_time(3), 3, 50, "who-2018", false);
    CHECK(holds(aspect(unfelt, Aspect::record).why, "no hand had lain on the womb"));
    CHECK(verdict(unfelt, Aspect::record) == Verdict::partly);
}

TEST_CASE("6 written, and nothing done about it: the fault is the action's own, not the decision's",
          "[womb]") {
    const ScoreSheet sheet = wrote(keeps_time(6), 6, 50);
    INFO(told(sheet));
    CHECK(holds(aspect(sheet, Aspect::record).why, "more than the 5 this protocol allows"));
    REQUIRE(line_for(sheet, "inform_senior") != nullptr);
    CHECK(line_for(sheet, "inform_senior")->situation == "too_many_contractions");
    CHECK_FALSE(aspect(sheet, Aspect::action).follows_from.has_value());
}
