// The computed answer of the first ten labours and of single spells. Expected readings: the table of
// scenarios they were written from; limits and slowing: WHO 2018, NICHD 2008 (15 bpm, 15 s; open copies),
// three minutes FIGO 2015 and NICE [memory].
#include "perfect_listener.h"

#include "engine/scoring/key.h"
#include "engine/scoring/slowing.h"

#include <nlohmann/json.hpp>

#include <algorithm>

using namespace perfect;

namespace {

Key key(const std::string& stem, const std::string& protocol = "who-2018") {
    return key_of(scenario_named(stem), protocol_named(protocol), sim::Seed{1});
}
bool has(const std::vector<std::string>& list, const std::string& word) {
    return std::find(list.begin(), list.end(), word) != list.end();
}
const ExpectedAct* expected(const Key& k, const std::string& act) {
    for (const ExpectedAct& e : k.expected)
        if (has(e.any_of, act)) return &e;
    return nullptr;
}

}  // namespace

TEST_CASE("Keys of the normal five: baby, normal, and nothing red or orange", "[key]") {
    struct Row {
        const char* stem;
        double bpm;
    };
    for (const Row& row :
         {Row{"c01-own-minute", 138.4}, Row{"q01-six-seconds", 136.3}, Row{"f03-feel-first", 144.6},
          Row{"t04-whose-heart", 139.8}, Row{"p02-through-two", 138.2}}) {
        CAPTURE(row.stem);
        const Key k = key(row.stem);
        CHECK(k.baseline_bpm == Approx(row.bpm).margin(1.5));  // the last minute: it wanders by 1.5
        CHECK(k.decision.source == SourceIs::baby);
        CHECK(k.decision.baseline == BaselineIs::normal);
        CHECK(k.decision.rhythm == RhythmIs::regular);
        CHECK(k.level <= Level::yellow);
        CHECK(has(k.situations, "normal"));
        CHECK_FALSE(k.why.empty());
    }
    CHECK(key("c01-own-minute").level == Level::green);
    CHECK(key("p02-through-two").level == Level::green);
    CHECK(expected(key("c01-own-minute"), "continue_routine") != nullptr);
    CHECK(expected(key("f03-feel-first"), "inform_senior") != nullptr);
}

TEST_CASE("p02: 20 down at the peak and back at the end slows in the contraction", "[key]") {
    CHECK(key("p02-through-two").decision.around == Around::slows_in_contraction);
}

TEST_CASE("p03: 28 down and back 50 s after the end, every time: slow after, orange", "[key]") {
    const Key k = key("p03-after-the-end");
    CHECK(k.baseline_bpm == Approx(142.4).margin(1.0));
    CHECK(k.decision.baseline == BaselineIs::normal);
    CHECK(k.decision.around == Around::slow_after_contraction);
    CHECK(k.level == Level::orange);
    CHECK(has(k.situations, "slow_after_contraction"));
    REQUIRE(expected(k, "off_her_back") != nullptr);
    CHECK(expected(k, "off_her_back")->critical);
    CHECK(expected(k, "stop_oxytocin") == nullptr);  // no drip runs
    CHECK(has(k.unsafe, "continue_routine"));
}

TEST_CASE("l03: 137 to 94 and not back with nothing done: stays down, slow, red, off her back within 60 s",
          "[key]") {
    const Key k = key("l03-a-long-night");
    CHECK(k.decision.around == Around::stays_down);
    CHECK(k.decision.baseline == BaselineIs::slow);
    CHECK(k.level == Level::red);
    CHECK(has(k.situations, "lying_flat"));
    REQUIRE(expected(k, "off_her_back") != nullptr);
    CHECK(expected(k, "off_her_back")->within_s == 60);
}

TEST_CASE("l05: 173.2 with 38.6 degrees is fast with fever: orange", "[key]") {
    const Key k = key("l05-ninety-minutes-out");
    CHECK(k.baseline_bpm == Approx(173.2).margin(1.0));
    CHECK(k.decision.baseline == BaselineIs::fast);
    CHECK(k.level == Level::orange);
    CHECK(has(k.situations, "fever"));
    CHECK(expected(k, "give_antibiotics_by_protocol") == nullptr);  // not hers to give
}

TEST_CASE("l06: cord after the waters broke: red, part lifted and help within 60 s, never pushed back",
          "[key]") {
    const Key k = key("l06-when-waters-break");
    CHECK(k.level == Level::red);
    CHECK(has(k.situations, "cord_prolapse"));
    REQUIRE(expected(k, "lift_the_part") != nullptr);
    CHECK(expected(k, "lift_the_part")->within_s == 60);
    CHECK(has(k.unsafe, "push_cord_back"));
}

TEST_CASE("f10: no heart: not found, no rate, red, help within 300 s", "[key]") {
    const Key k = key("f10-two-instruments");
    CHECK(k.baseline_bpm == 0);
    CHECK(k.decision.source == SourceIs::not_found);
    CHECK(k.decision.baseline == BaselineIs::not_checked);
    CHECK(k.level == Level::red);
    REQUIRE(expected(k, "call_for_help") != nullptr);
    CHECK(expected(k, "call_for_help")->within_s == 300);
    CHECK(has(k.unsafe, "say_baby_has_died"));
}

TEST_CASE(
    "Key of a spell: 30 s give no baseline, 60 s do; without a contraction's end nothing is said around it",
    "[key]") {
    const Scenario s = scenario_named("c01-own-minute");
    const Protocol p = protocol_named("who-2018");
    const Key half = key_of_spell(s, p, sim::Seed{1}, {10'000'000}, {40'000'000});
    CHECK(half.decision.baseline == BaselineIs::not_checked);
    CHECK(half.decision.around == Around::not_listened);
    const Key whole = key_of_spell(s, p, sim::Seed{1}, {10'000'000}, {75'000'000});
    CHECK(whole.decision.baseline == BaselineIs::normal);
    CHECK(whole.baseline_bpm == Approx(138.4).margin(1.5));
}

TEST_CASE("Key of a spell before the fall of l03 is normal, during it slow", "[key]") {
    const Scenario s = scenario_named("l03-a-long-night");
    const Protocol p = protocol_named("who-2018");
    CHECK(key_of_spell(s, p, sim::Seed{1}, {60'000'000}, {200'000'000}).decision.baseline ==
          BaselineIs::normal);
    const Key low = key_of_spell(s, p, sim::Seed{1}, {600'000'000}, {720'000'000});
    CHECK(low.decision.baseline == BaselineIs::slow);
    CHECK(low.level == Level::red);
}

TEST_CASE("W54: stopped 20 s after the contraction's end does not count as listened through, 31 s does",
          "[key]") {
    const Scenario s = scenario_named("p03-after-the-end");
    const Protocol p = protocol_named("who-2018");
    Listener l("p03-after-the-end");
    const double end = l.contraction_end(0);
    const auto around = [&](double after) {
        return key_of_spell(s, p, sim::Seed{1}, {0}, sim::labour_time(sim::Seconds{end + after}))
            .decision.around;
    };
    CHECK(around(20) == Around::not_listened);
    CHECK(around(31) == Around::slow_after_contraction);
}

TEST_CASE("Key as JSON has the parts of the format page", "[key]") {
    const auto json = nlohmann::json::parse(to_json(key("p03-after-the-end")));
    for (const char* name : {"baseline_bpm", "decision", "level", "situations", "expected", "unsafe", "why"})
        CHECK(json.contains(name));
    for (const char* part : {"source", "baseline", "around", "rhythm"})
        CHECK(json["decision"].contains(part));
    CHECK(json["level"] == "orange");
}

namespace {

// A heart of 138 with one dip of `depth` for `length` seconds, its deepest in the middle, from `start`;
// contraction 30 to 90 s.
Played dipping(double start, double length, double depth) {
    Played played;
    sim::Baby baby;
    sim::BabyEvent event;
    event.kind = sim::BabyEvent::Kind::variable;
    baby.events.add(event);
    played.patient.babies.add(baby);
    for (int k = 0; k <= 4 * 240; ++k) {
        const double t = k * 0.25;
        sim::CourseTick tick;
        tick.fhr_base_bpm[0] = 138;
        tick.fhr_bpm[0] = t >= start && t < start + length ? 138 - depth : 138;
        tick.in_contraction = t >= 30 && t < 90;
        played.course.push_back(tick);
    }
    played.contractions.push_back({{30'000'000}, {60'000'000}, {90'000'000}, true});
    played.end = {240'000'000};
    return played;
}

}  // namespace

TEST_CASE("W32 and W33: 12 down for 40 s is no slowing, 20 down for 8 s neither; 20 down for 30 s is",
          "[key]") {
    const Protocol p = protocol_named("who-2018");
    CHECK(slowings(p, dipping(60, 40, 12), 0).empty());
    CHECK(slowings(p, dipping(60, 8, 20), 0).empty());
    REQUIRE(slowings(p, dipping(50, 30, 20), 0).size() == 1);
    CHECK_FALSE(slowings(p, dipping(50, 30, 20), 0).at(0).after);
}

TEST_CASE("W36 and W37: back at the contraction's end is in it, 30 down 20 s after its end is after it",
          "[key]") {
    const Protocol p = protocol_named("who-2018");
    CHECK_FALSE(slowings(p, dipping(40, 48, 20), 0).at(0).after);
    CHECK(slowings(p, dipping(60, 54, 30), 0).at(0).after);
}
