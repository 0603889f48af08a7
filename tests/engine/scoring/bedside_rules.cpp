// Rules 1 to 15 of a practising midwife's review of how judging must not teach bad habits [practice unless a
// source is named], by their numbers. Those about one count, one decision or one line on the chart have tests
// in the files of those aspects as well.
#include "faultless_listeners.h"
#include "library_row.h"
#include "made_labours.h"

#include "engine/scoring/heard.h"
#include "engine/scoring/situations.h"

using namespace perfect;

namespace {

bool holds(const std::string& text, const char* part) { return text.find(part) != std::string::npos; }
Scenario lasting_fall(double to_bpm, double minutes = 10) {
    Scenario s = plain_labour(minutes);
    s.middle.cause.trouble = sim::Trouble::unknown;
    s.middle.cause.at = sim::Seconds{120};
    s.middle.cause.falls_to = sim::Bpm{to_bpm};
    s.middle.cause.answer = 0;
    return s;
}

}  // namespace

TEST_CASE(
    "Rule 1: ten minutes is a naming rule: 171 for 4 min already asks for pulse, turn, temperature, senior",
    "[rules]") {
    Scenario s = plain_labour(4, 171.3);
    s.middle.mother.position = sim::Position::flat;
    for (const char* id : four_protocols) {
        const Key k = key_of_made(s, id);
        CHECK(asked_by(k, "feel_pulse", 60));
        CHECK(asked_by(k, "off_her_back", 120));
        CHECK(asked_by(k, "take_temperature", 600));
        CHECK(asked_by(k, "inform_senior", 900));
        CHECK(is_unsafe(k, "wait_and_see"));
    }
}

TEST_CASE(
    "Rule 1: a fall not back in 3 min is an emergency: help in 60 s, birth or leaving in the making by 9 min",
    "[rules]") {
    for (const char* id : four_protocols) {
        const Key k = key_of_made(lasting_fall(113.4), id);
        CHECK(has_situation(k, "stays_down"));
        CHECK(asked_by(k, "call_for_help", 60));
        CHECK(asked_by(k, "start_plan", 180));
        CHECK(asked_by(k, "arrange_transfer", 6 * 60));  // 3 min down and 6 from then [NICE, memory]
    }
}

TEST_CASE("Rule 2: help called before the pulse is felt, the pulse within a minute: both in time",
          "[rules]") {
    Listener l("c01-own-minute");
    l.scenario = plain_labour(10, 88.6);
    l.greet()
        .wait(5)
        .take(sim::Instrument::doppler)
        .place_best()
        .wait(8)
        .act("call_for_help")
        .wrist()
        .wait(17);
    l.count().lift().decide(SourceIs::baby, BaselineIs::slow).record("between", "").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    REQUIRE(line_for(sheet, "call_for_help") != nullptr);
    CHECK(line_for(sheet, "call_for_help")->verdict == "in_time");
    REQUIRE(line_for(sheet, "feel_pulse") != nullptr);
    CHECK(line_for(sheet, "feel_pulse")->verdict == "in_time");
}

TEST_CASE("Rule 3: the clock starts when their own listening could first show it", "[rules]") {
    // The heart is fast from the start; they place the Doppler at 300 s and hear a minute by 360 s.
    Scenario s = plain_labour(20, 171.3);
    Listener l("c01-own-minute");
    l.scenario = s;
    l.greet().until(295).take(sim::Instrument::doppler).place_best();
    const double placed = l.t - 1;
    l.wrist().wait(17).report_pulse().count().lift();
    l.record("between", "").act("inform_senior").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    REQUIRE(line_for(sheet, "inform_senior") != nullptr);
    CHECK(line_for(sheet, "inform_senior")->known_from_s == Approx(placed + 60).margin(2.5));
}

TEST_CASE(
    "Rule 3: or from their own earlier decision; what is only ORANGE once it holds counts from when it has",
    "[rules]") {
    Scenario s = plain_labour(20);
    slow_after(s);
    const auto played = untouched(s, {1});
    const double third = played.contractions.at(2).to.seconds() + 30,
                 second = played.contractions.at(1).to.seconds() + 30;
    Listener l = at_made(s);
    l.until(second + 1).decide(SourceIs::not_said, BaselineIs::not_said, Around::slow_after_contraction);
    l.act("off_her_back").until(third + 5).lift().record("after", "yes").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    const ActScore* senior = line_for(sheet, "inform_senior");
    REQUIRE(senior != nullptr);
    CHECK(senior->known_from_s ==
          Approx(third).margin(0.5));  // three listened through, more than half slow after
    CHECK(senior->within_s == 300);
    const ActScore* turned = line_for(sheet, "off_her_back");
    REQUIRE(turned != nullptr);
    CHECK(turned->known_from_s < second);
}

TEST_CASE("Rule 8: \"no slowing\" without a contraction's end heard is right by luck: partly", "[rules]") {
    Scenario s = plain_labour(10);
    s.middle.labour.first_contraction = sim::Seconds{400};
    Listener l = at_made(s);
    l.count().lift().decide(SourceIs::baby, BaselineIs::normal, Around::no_slowing).explain();
    l.record("between", "no").act("continue_routine").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK(verdict(sheet, Aspect::decision) == Verdict::partly);
}

TEST_CASE("Rule 10: the key of a listening knows only what was there then: normal, fallen, each by itself",
          "[rules]") {
    const Scenario s = lasting_fall(104.6, 20);
    for (const char* id : four_protocols) {
        const Protocol p = protocol_named(id);
        const Key before = key_of_spell(s, p, sim::Seed{1}, {0}, {115'000'000});
        const Key after = key_of_spell(s, p, sim::Seed{1}, {900'000'000}, {1'000'000'000});
        CHECK(before.decision.baseline == BaselineIs::normal);
        CHECK(before.level == Level::green);
        CHECK(after.decision.baseline == BaselineIs::slow);
        CHECK(after.level >= Level::yellow);
    }
}

TEST_CASE("Rule 10: three listenings in one labour are judged one by one: normal, normal, then slow after",
          "[rules]") {
    Scenario s = plain_labour(60);
    sim::BabyEvent event;
    event.kind = sim::BabyEvent::Kind::late;
    event.depth = sim::Bpm{30};
    event.back_after = sim::Seconds{50};
    event.from = sim::Seconds{30 * 60};
    s.middle.babies[0].events.add(event);
    const auto listening = [&](Listener& l, double from, Around around) {
        l.until(from).place_best().wrist().wait(17).report_pulse();
        const auto played = untouched(s, {1});
        for (const Contraction& c : played.contractions)
            if (c.from.seconds() > l.t) {
                l.until(c.to.seconds() + 35);
                break;
            }
        l.count().lift().decide(SourceIs::baby, BaselineIs::normal, around).explain().record("after", "no");
    };
    Listener right("c01-own-minute"), wrong("c01-own-minute");
    for (Listener* l : {&right, &wrong}) {
        l->scenario = s;
        l->greet().take(sim::Instrument::doppler);
        listening(*l, 20, Around::no_slowing);
        l->act("continue_routine");
        listening(*l, 20 * 60, Around::no_slowing);
        listening(*l, 40 * 60, l == &right ? Around::slow_after_contraction : Around::no_slowing);
        l->finish();
    }
    INFO(told(right.sheet()) << told(wrong.sheet()));
    CHECK(verdict(right.sheet(), Aspect::decision) == Verdict::met);
    CHECK(verdict(wrong.sheet(), Aspect::decision) == Verdict::missed);
    CHECK_FALSE(wrong.sheet().critical_missed.empty());
}

TEST_CASE("Rule 12: without a watch a heart at exactly twice her pulse is the baby's, and fast all the same",
          "[rules]") {
    const Key k = key_of(scenario_named(library_stem("q08")), protocol_named("who-2018"), sim::Seed{1});
    CHECK(k.decision.source == SourceIs::baby);
    CHECK(k.decision.baseline == BaselineIs::fast);
    CHECK(is_unsafe(k, "continue_routine"));
}

TEST_CASE("Rule 13: in practice 4 beats off at 60 s is met, 8 partly, 9 missed", "[rules]") {
    const auto off = [](int beats) {
        Listener l = at_made(plain_labour(10));
        l.count(60, {0, beats, -1, false}).lift();
        return verdict(l.decide(SourceIs::baby, BaselineIs::normal).record("between", "").finish().sheet(),
                       Aspect::count);
    };
    CHECK(off(-4) == Verdict::met);
    CHECK(off(5) == Verdict::partly);
    CHECK(off(-8) == Verdict::partly);
    CHECK(off(-9) == Verdict::missed);
}

TEST_CASE(
    "Rule 14: one minute laid over a fall sums to a normal number; called no slowing it is missed, critical",
    "[rules]") {
    Scenario s = plain_labour(12);
    slow_after(s, 1e6, 45, 45);
    Listener l = at_made(s);
    const double end = l.contraction_end(0);
    l.until(end - 5).count().lift();
    const int written = l.bpm;
    l.decide(SourceIs::baby, BaselineIs::normal, Around::no_slowing).record("after", "no").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(written << "\n" << told(sheet));
    CHECK(written >= 110);  // inside the limits: the number alone hides it
    CHECK(written < 138);
    CHECK(verdict(sheet, Aspect::decision) == Verdict::missed);
    CHECK(std::any_of(sheet.critical_missed.begin(), sheet.critical_missed.end(), [](const std::string& c) {
        return holds(c, "slowing after contractions called normal");
    }));
}

TEST_CASE("Rule 15: from the end of the contraction on is enough; a minute later it is not", "[rules]") {
    Scenario s = plain_labour(12);
    slow_after(s);
    const double end = untouched(s, {1}).contractions.at(0).to.seconds();
    for (const char* id : four_protocols) {
        const auto around = [&](double from) {
            return key_of_spell(s, protocol_named(id), sim::Seed{1}, sim::labour_time({end + from}),
                                sim::labour_time({end + 65}))
                .decision.around;
        };
        CHECK(around(0) == Around::slow_after_contraction);
        CHECK(around(20) == Around::not_listened);
    }
}

// Swapping the two changes nobody's danger. Under three minutes, so that neither stays down.
TEST_CASE(
    "Of twins who fall at 200 s and at 700 s the earlier fall is when she is known to lie flat, whoever fell",
    "[rules][twins]") {
    double known[2] = {0, 0};
    for (int early : {0, 1}) {
        Scenario s = plain_labour(20);
        s.middle.mother.position = sim::Position::flat;
        s.middle.babies.add(s.middle.babies[0]);
        for (int twin : {0, 1}) {
            sim::BabyEvent event;
            event.kind = sim::BabyEvent::Kind::prolonged;
            event.by = sim::BabyEvent::Brought_on_by::time;
            event.at = sim::Seconds{twin == early ? 200.0 : 700.0};
            event.depth = sim::Bpm{35};
            event.length = sim::Seconds{150};
            s.middle.babies[twin].events.add(event);
        }
        const Played run = untouched(s, sim::Seed{1});
        const Picture seen =
            picture_of(s, protocol_named("who-2018"), run, everything(s, run), {0}, {run.end.us + 1});
        REQUIRE(seen.has("lying_flat"));
        known[early] = seen.find("lying_flat")->from.seconds();
    }
    CHECK(known[0] == Approx(known[1]).margin(5));
    CHECK(known[0] > 200);
    CHECK(known[0] < 350);
}
