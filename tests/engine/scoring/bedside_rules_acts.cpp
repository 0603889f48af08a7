// Rules 16 to 33 of a practising midwife's review of how judging must not teach bad habits [practice unless a
// source is named], by their numbers. Those about one count, one decision or one line on the chart have tests
// in the files of those aspects as well.
#include "faultless_listeners.h"
#include "library_row.h"
#include "made_labours.h"

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

TEST_CASE("Rule 16: her pulse is asked for at once when the rate is outside, and as a finding of its own",
          "[rules]") {
    for (const char* id : four_protocols) {
        CHECK(asked_by(key_of_made(plain_labour(4, 171.3), id), "feel_pulse", 60));
        CHECK(asked_by(key_of_made(plain_labour(4, 97.6), id), "feel_pulse", 60));
        Scenario s = plain_labour(10);
        s.middle.mother.pulse = sim::Bpm{127};
        const Key k = key_of_made(s, id);
        CHECK(has_situation(k, "her_pulse_fast"));
        CHECK(asked_by(k, "take_temperature", 600));
        CHECK(asked_by(k, "take_blood_pressure", 600));
        CHECK(asked_by(k, "check_bleeding", 600));
        CHECK(k.decision.baseline == BaselineIs::normal);  // the baby is none the worse for it
    }
}

TEST_CASE("Rule 17: 2 apart for a minute is doubtful; 40 apart for 15 s in the same listening settles it",
          "[rules]") {
    Scenario near = plain_labour(6, 118.4);
    near.middle.mother.pulse = sim::Bpm{117};
    near.middle.mother.with_contraction = sim::Bpm{0};
    CHECK(key_of_made(near).decision.source == SourceIs::doubtful);
    near.middle.mother.pulse = sim::Bpm{78};
    CHECK(key_of_made(near).decision.source == SourceIs::baby);
    // Within 5 while she pushes, far below between: no riddle.
    Scenario pushes = plain_labour(8, 128.4);
    pushes.middle.mother.pulse = sim::Bpm{91};
    pushes.middle.mother.with_push = sim::Bpm{37};
    pushes.middle.labour.pushing = true;
    CHECK(key_of_made(pushes).decision.source == SourceIs::baby);
}

TEST_CASE(
    "Rule 18: turned and back within 2 min is no closed case: the senior told, every contraction listened to",
    "[rules]") {
    Listener l = first_touch("l03-a-long-night", sim::Instrument::doppler);
    l.place_best().wrist().wait(16).report_pulse().until(390).act("off_her_back").until(560).count().lift();
    l.decide(SourceIs::baby, BaselineIs::normal)
        .explain()
        .record("between", "yes")
        .act("continue_routine")
        .finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    REQUIRE(line_for(sheet, "inform_senior") != nullptr);
    CHECK(line_for(sheet, "inform_senior")->verdict == "not_done");
    REQUIRE(line_for(sheet, "listen_more_often") != nullptr);
    CHECK(line_for(sheet, "listen_more_often")->verdict == "not_done");
    REQUIRE(line_for(sheet, "continue_routine") != nullptr);
    CHECK(line_for(sheet, "continue_routine")->verdict == "unsafe");
}

TEST_CASE("Rule 18: the drip is not turned up again after a slowing", "[rules]") {
    for (const char* stem : {"l04"}) {
        const Key k = key_of(scenario_named(library_stem(stem)), protocol_named("who-2018"), sim::Seed{1});
        CHECK(is_unsafe(k, "raise_oxytocin"));
    }
}

TEST_CASE("Rule 19: three minutes without return start the plan while measures go on", "[rules]") {
    Listener l = at_made(lasting_fall(84.6, 15));
    l.until(200).act("call_for_help").act("off_her_back").act("look_for_cord").until(330).act("start_plan");
    l.until(420).count().lift().decide(SourceIs::baby, BaselineIs::slow, Around::stays_down);
    l.record("between", "yes").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    REQUIRE(line_for(sheet, "start_plan") != nullptr);
    CHECK(line_for(sheet, "start_plan")->verdict == "in_time");
}

TEST_CASE(
    "Rule 20: examined inside with bleeding is unsafe and critical; untrained, out of scope; not a reflex",
    "[rules]") {
    Scenario bleeds = plain_labour();
    found(bleeds, "check_bleeding", "Bright blood.", "bleeding");
    for (const char* id : four_protocols) {
        const Key k = key_of_made(bleeds, id);
        CHECK(is_unsafe(k, "examine_inside"));
        CHECK(asked(k, "examine_inside") == nullptr);
        CHECK(asked_by(k, "check_bleeding", 180));
        for (double bpm : {138.4, 171.3, 104.6})
            CHECK(asked(key_of_made(plain_labour(6, bpm), id), "examine_inside") == nullptr);
        CHECK(asked_by(key_of_made(plain_labour(6, 88.6), id), "examine_inside",
                       300));  // the one trained, no blood
        // Looking at the vulva comes first and is everybody's.
        CHECK(asked_by(key_of_made(plain_labour(6, 88.6), id), "look_for_cord", 120));
    }
    Listener l = at_made(bleeds);
    l.act("check_bleeding").wait(30).act("examine_inside").wait(90).lift().record("between", "").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    REQUIRE(line_for(sheet, "examine_inside") != nullptr);
    CHECK(line_for(sheet, "examine_inside")->verdict == "unsafe");
    CHECK(line_for(sheet, "examine_inside")->critical);
    Listener alone = at_made(plain_labour(10));
    alone.scenario.place.trainee = Licence::any;
    alone.act("examine_inside").lift().record("between", "").finish();
    CHECK(line_for(alone.sheet(), "examine_inside")->verdict == "out_of_scope");
}

TEST_CASE(
    "Rule 21: the cord is never put back, no death is told by ear alone; what its pulse proves is in dispute",
    "[rules]") {
    Scenario s = plain_labour();
    found(s, "look_for_cord", "A loop of cord, no pulse in it.", "cord_prolapse");
    for (const char* id : four_protocols) {
        const Key k = key_of_made(s, id);
        CHECK(is_unsafe(k, "push_cord_back"));
        CHECK(is_unsafe(k, "say_baby_has_died"));
        REQUIRE(asked(k, "lift_the_part") != nullptr);
        CHECK(holds(asked(k, "lift_the_part")->conflict, "proves nothing"));
    }
}

TEST_CASE("Rule 23: a drink and a drip are two acts; no act is called fluids", "[rules]") {
    for (const char* id : four_protocols) {
        const Protocol p = protocol_named(id);
        REQUIRE(p.act("offer_drink") != nullptr);
        REQUIRE(p.act("start_drip") != nullptr);
        CHECK(p.act("offer_drink")->who == Licence::any);
        CHECK(p.act("start_drip")->who == Licence::licensed);
        for (const ActWords& act : p.acts) CHECK_FALSE(holds(act.id, "fluids"));
    }
}

TEST_CASE("Rule 24: the right side, hands and knees, upright: off her back is off her back", "[rules]") {
    Scenario s = plain_labour(15);
    slow_after(s);
    s.middle.mother.position = sim::Position::flat;
    const auto turned = [&](auto how) {
        Listener l = at_made(s);
        l.until(l.contraction_end(0) + 35);
        how(l);
        l.until(l.contraction_end(3) + 35)
            .lift()
            .decide(SourceIs::baby, BaselineIs::not_said, Around::slow_after_contraction);
        l.record("after", "yes").finish();
        const ScoreSheet sheet = l.sheet();
        INFO(told(sheet));
        const ActScore* line = line_for(sheet, "off_her_back");
        REQUIRE(line != nullptr);
        return line->verdict;
    };
    for (const sim::Position p :
         {sim::Position::right_side, sim::Position::hands_and_knees, sim::Position::half_sitting})
        CHECK(turned([&](Listener& l) {
                  l.add(Do::position).position = p;
                  l.wait(2);
              }) == "in_time");
    CHECK(turned([](Listener& l) { l.act("upright_to_push"); }) == "in_time");
    CHECK(turned([](Listener&) {}) == "not_done");
}

TEST_CASE(
    "Rule 25: pushing, slow in each push and back at its end is GREEN; lingering and climbing it is not",
    "[rules]") {
    for (const char* id : four_protocols) {
        CHECK(key_of(scenario_named(library_stem("l02")), protocol_named(id), sim::Seed{1}).level ==
              Level::green);
        CHECK(key_of(scenario_named(library_stem("p10")), protocol_named(id), sim::Seed{1}).level >=
              Level::orange);
        CHECK(protocol_named(id).rule_for(Stage::second).every_most.value == 300);
    }
}

TEST_CASE(
    "Rule 26: vacuum, drip, medicine and antibiotics are asked of those who may, of others the one who may",
    "[rules]") {
    Scenario s = plain_labour();
    s.labour.open_cm = 10;
    s.labour.head_visible = true;
    s.middle.babies[0].baseline = sim::Bpm{88.6};
    for (const char* id : four_protocols) {
        s.place.trainee = Licence::any;
        const Key untrained = key_of_made(s, id);
        CHECK(asked(untrained, "assist_birth_now") == nullptr);
        CHECK(asked_by(untrained, "call_for_help", 60));
        s.place.trainee = Licence::trained;
        CHECK(asked(key_of_made(s, id), "assist_birth_now") != nullptr);
        Scenario bleeds = plain_labour();
        found(bleeds, "check_bleeding", "Bright blood.", "bleeding");
        CHECK(asked(key_of_made(bleeds, id), "start_drip") == nullptr);
        bleeds.place.trainee = Licence::licensed;
        bleeds.place.drip_stand = true;
        CHECK(asked_by(key_of_made(bleeds, id), "start_drip", 600));
    }
}

TEST_CASE(
    "Rule 27: before 37 weeks, past 41 weeks 3 days, scar, drip, green waters, pressure: not by ear alone",
    "[rules]") {
    const auto alone = [](auto change) {
        Scenario s = plain_labour(10);
        change(s);
        return has_situation(key_of_made(s), "listening_alone_not_enough");
    };
    CHECK(alone([](Scenario& s) { s.middle.gestation_weeks = 36.0 + 6.0 / 7; }));
    CHECK_FALSE(alone([](Scenario& s) { s.middle.gestation_weeks = 37; }));
    CHECK_FALSE(alone([](Scenario& s) { s.middle.gestation_weeks = 41.0 + 3.0 / 7; }));
    CHECK(alone([](Scenario& s) { s.middle.gestation_weeks = 41.0 + 4.0 / 7; }));
    CHECK(alone([](Scenario& s) { s.labour.scar = true; }));
    CHECK(alone([](Scenario& s) { s.middle.labour.oxytocin_drip = true; }));
    CHECK(alone([](Scenario& s) { s.labour.waters = Waters::thick_green; }));
    CHECK(alone([](Scenario& s) { found(s, "take_blood_pressure", "168 over 112.", "high_pressure"); }));
    CHECK(alone([](Scenario& s) { found(s, "check_bleeding", "Blood.", "bleeding"); }));
    CHECK(alone([](Scenario& s) { found(s, "take_temperature", "38.4", "fever"); }));
    CHECK_FALSE(alone([](Scenario&) {}));
}

TEST_CASE("Rule 28: a wave of the rate no ear can name is not asked for: normal rate, no slowing, GREEN",
          "[rules]") {
    Scenario s = plain_labour(10);
    s.middle.babies[0].sinusoid = sim::Bpm{10};
    for (const char* id : four_protocols) {
        const Key k = key_of_made(s, id);
        INFO(to_json(k));
        CHECK(k.decision.baseline == BaselineIs::normal);
        CHECK(k.decision.around == Around::no_slowing);
        CHECK(k.decision.rhythm == RhythmIs::regular);
        CHECK(k.level == Level::green);
    }
}

TEST_CASE("Rule 29: 160 itself is in the normal range and an alert: two fields, both said", "[rules]") {
    Scenario s = plain_labour(6, 160);
    const Key who = key_of_made(s);
    CHECK(who.decision.baseline == BaselineIs::normal);
    CHECK(std::any_of(who.why.begin(), who.why.end(),
                      [](const std::string& w) { return holds(w, "an alert"); }));
    for (const char* id : {"nice-2022", "figo-2015", "community-120-160"}) {
        const Key k = key_of_made(s, id);
        CHECK(k.decision.baseline == BaselineIs::normal);
        CHECK(std::none_of(k.why.begin(), k.why.end(),
                           [](const std::string& w) { return holds(w, "an alert"); }));
    }
}

TEST_CASE("Rule 31: the display's number written is a fault, right or not", "[rules]") {
    for (const char* id : four_protocols)
        CHECK(is_unsafe(key_of_made(plain_labour(), id), "write_display_number"));
}

TEST_CASE("Rule 33: no figure of an act ranks a person: two in-time acts differ in nothing but when",
          "[rules]") {
    const auto told_senior_after = [](double s) {
        Listener l = at_made(plain_labour(20, 171.3));
        l.count().lift().decide(SourceIs::baby, BaselineIs::fast).wait(s).act("inform_senior");
        return l.record("between", "").finish().sheet();
    };
    const ScoreSheet soon = told_senior_after(5), later = told_senior_after(500);
    CHECK(aspect(soon, Aspect::action).verdict == aspect(later, Aspect::action).verdict);
    CHECK(aspect(soon, Aspect::action).figures == aspect(later, Aspect::action).figures);
    CHECK(soon.critical_missed == later.critical_missed);
}
