// What an act is worth: the seven grades, the ten places where guidance differs, and oxygen and drip, which
// neither help nor hurt a verdict for the baby's sake.
#include "faultless_listeners.h"
#include "made_labours.h"

#include <map>

using namespace perfect;

namespace {

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// RED: 88.6 from the start. ORANGE: slow after every contraction.
Scenario red() {
    Scenario s = plain_labour(15, 88.6);
    s.middle.mother.pulse = sim::Bpm{108};
    return s;
}
Scenario orange() {
    Scenario s = plain_labour(20);
    slow_after(s);
    return s;
}
// Everything a good midwife does there, with `more` done first and `last` done at the end.
ScoreSheet handled(const Scenario& s, const std::vector<std::string>& first,
                   const std::vector<std::string>& last) {
    Listener l = at_made(s);
    l.scenario.place.trainee = Licence::licensed;
    const bool slow = s.middle.babies[0].baseline.value < 110;
    l.until(slow ? 75 : l.contraction_end(0) + 31);
    for (const std::string& act : first) l.act(act);
    for (const char* act : {"call_for_help", "off_her_back", "look_for_cord", "check_bleeding", "start_plan",
                            "check_waters", "inform_senior", "prepare_newborn_help", "listen_more_often"})
        l.act(act);
    l.count();
    l.hand(sim::Hand::left, sim::On::belly).until(l.contraction_end(3) + 35).lift();
    l.act("examine_inside").wait(60).act("arrange_transfer").act("go_with_her").referral();
    l.decide(SourceIs::baby, slow ? BaselineIs::slow : BaselineIs::normal,
             slow ? Around::no_slowing : Around::slow_after_contraction);
    for (const std::string& act : last) l.act(act);
    return l.explain().record("after", slow ? "no" : "yes", "as said").finish().sheet();
}

}  // namespace

TEST_CASE("Oxygen and a drip, before or after the rest, in RED and in ORANGE: no verdict and no figure moves",
          "[grades]") {
    struct Row {
        const char* name;
        Scenario s;
    };
    for (const Row& row : {Row{"RED", red()}, Row{"ORANGE", orange()}}) {
        const ScoreSheet plain = handled(row.s, {}, {});
        for (const char* act : {"give_oxygen", "start_drip"})
            for (const bool early : {true, false}) {
                const ScoreSheet with = early ? handled(row.s, {act}, {}) : handled(row.s, {}, {act});
                INFO(row.name << " " << act << (early ? " first\n" : " last\n") << told(plain) << told(with));
                for (std::size_t a = 0; a < plain.aspects.size(); ++a)
                    CHECK(plain.aspects[a].verdict == with.aspects[a].verdict);
                CHECK(aspect(plain, Aspect::action).figures == aspect(with, Aspect::action).figures);
                CHECK(plain.critical_missed == with.critical_missed);
                CHECK(line_for(plain, act) == nullptr);  // nobody is asked for it
                REQUIRE(line_for(with, act) != nullptr);
                CHECK((line_for(with, act)->verdict == "allowed" || line_for(with, act)->verdict == "late"));
            }
    }
}

TEST_CASE(
    "For the baby's sake no protocol expects oxygen; for her own want of it, and a drip when she bleeds or "
    "her "
    "pressure is low",
    "[grades]") {
    for (const char* id : four_protocols) {
        const Protocol p = protocol_named(id);
        for (const Rule& rule : p.rules)
            for (const std::string& act : rule.acts) {
                INFO(id << " " << rule.situation << " " << act);
                if (act == "give_oxygen" && rule.grade == Grade::expected)
                    CHECK(rule.situation == "short_of_oxygen");
                if (act == "start_drip" && rule.grade == Grade::expected)
                    CHECK((rule.situation == "bleeding" || rule.situation == "low_pressure" ||
                           rule.situation == "scar_gives_way"));
                if (act == "give_oxygen" || act == "start_drip") CHECK(rule.grade != Grade::unsafe);
            }
        Scenario s = plain_labour();
        found(s, "take_blood_pressure", "Blue lips, short of breath.", "short_of_oxygen");
        s.place.trainee = Licence::licensed;
        CHECK(asked_by(key_of_made(s, id), "give_oxygen", 300));
        s.place.trainee = Licence::trained;
        CHECK(asked(key_of_made(s, id), "give_oxygen") == nullptr);
    }
}

TEST_CASE("Grades: in time, any of, allowed, late before others, not needed, out of scope, unsafe",
          "[grades]") {
    const ScoreSheet red_sheet = handled(red(), {"give_oxygen"}, {"offer_drink"});
    INFO(told(red_sheet));
    CHECK(line_for(red_sheet, "call_for_help")->verdict == "in_time");
    CHECK(line_for(red_sheet, "give_oxygen")->verdict == "late");  // before help was called
    CHECK(line_for(red_sheet, "offer_drink")->verdict == "allowed");
    CHECK(line_for(handled(red(), {}, {"give_oxygen"}), "give_oxygen")->verdict ==
          "allowed");  // after the rest
    const ActScore* either = line_for(red_sheet, "listen_more_often");
    REQUIRE(either != nullptr);
    CHECK(either->verdict == "in_time");
    CHECK(holds(either->act, " or "));  // one of the group is enough
    const auto normal_and = [](const std::string& act, Licence who) {
        Listener l = at_made(plain_labour(10));
        l.scenario.place.trainee = who;
        l.count()
            .lift()
            .decide(SourceIs::baby, BaselineIs::normal)
            .explain()
            .act("continue_routine")
            .act(act);
        return l.record("between", "").finish().sheet();
    };
    const ScoreSheet plan = normal_and("start_plan", Licence::trained),
                     fundus = normal_and("push_on_fundus", Licence::trained),
                     drip = normal_and("start_drip", Licence::any),
                     drink = normal_and("offer_drink", Licence::any);
    CHECK(line_for(plan, "start_plan")->verdict == "not_needed");
    CHECK(verdict(plan, Aspect::action) == Verdict::met);
    CHECK(line_for(drip, "start_drip")->verdict == "out_of_scope");
    CHECK(verdict(drip, Aspect::action) == Verdict::partly);
    CHECK(line_for(drink, "offer_drink")->verdict == "allowed");
    CHECK(verdict(drink, Aspect::action) == Verdict::met);
    CHECK(line_for(fundus, "push_on_fundus")->verdict == "unsafe");
    CHECK(verdict(fundus, Aspect::action) == Verdict::missed);
    CHECK(std::any_of(fundus.critical_missed.begin(), fundus.critical_missed.end(),
                      [](const std::string& c) { return holds(c, "Push on the top of the womb"); }));
}

TEST_CASE("What was critical and missed is told in the words of the bedside, with what was the matter",
          "[grades]") {
    Listener l = at_made(red());
    l.count().lift().decide(SourceIs::baby, BaselineIs::slow).record("between", "").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    REQUIRE_FALSE(sheet.critical_missed.empty());
    for (const std::string& c : sheet.critical_missed) CHECK_FALSE(holds(c, "_"));
    CHECK(std::any_of(sheet.critical_missed.begin(), sheet.critical_missed.end(), [](const std::string& c) {
        return c == "not done: Call out: I need help here now (Too slow, well below the limit)";
    }));
}

TEST_CASE("Ten places where guidance differs: each in every file, and each beside a rule where it matters",
          "[grades]") {
    // A word of the topic's own line, and a word a rule's conflict has.
    const std::map<std::string, std::string> ten = {{"Normal range", "Limits"},
                                                    {"When to listen", "When to listen"},
                                                    {"Oxygen", "mother's own need"},
                                                    {"Fluids", "NICE only if her pressure is low"},
                                                    {"Too many contractions", "More than 5 in 10 min"},
                                                    {"A long fall", "A long fall"},
                                                    {"Examination inside", "never with bleeding"},
                                                    {"Pulse felt in the cord", "Pulse on the cord"},
                                                    {"Drip with a normal heart", "Heart normal: some reduce"},
                                                    {"Pushing", "Pushing: hasten"}};
    for (const char* id : four_protocols) {
        const Protocol p = protocol_named(id);
        REQUIRE(p.conflicts.size() == ten.size());
        for (const auto& conflict : ten) {
            const std::string topic = conflict.first, words = conflict.second;
            INFO(id << " " << topic);
            CHECK(std::any_of(p.conflicts.begin(), p.conflicts.end(),
                              [&](const auto& c) { return c.first == topic; }));
            CHECK(std::any_of(p.rules.begin(), p.rules.end(),
                              [&](const Rule& r) { return holds(r.conflict, words); }));
        }
    }
}

TEST_CASE("A conflict stands beside the act on the sheet: oxygen, the plan, the examination, a normal minute",
          "[grades]") {
    const ScoreSheet sheet = handled(red(), {}, {"give_oxygen"});
    CHECK(holds(line_for(sheet, "give_oxygen")->conflict, "ACOG 2022"));
    CHECK(holds(line_for(sheet, "start_plan")->conflict, "RANZCOG"));
    CHECK(holds(line_for(sheet, "examine_inside")->conflict, "never with bleeding"));
    Listener l = at_made(plain_labour(10));
    l.count()
        .lift()
        .decide(SourceIs::baby, BaselineIs::normal)
        .act("continue_routine")
        .record("between", "")
        .finish();
    CHECK(holds(line_for(l.sheet(), "count_full_minute")->conflict, "straight after"));
}
