#include <catch2/catch.hpp>

#include "engine/attempt/played_hands.h"
#include "small_labour.h"

using namespace engine;

namespace {

Played played(const std::string& json, const Scenario& s = small::labour(), std::uint64_t seed = 1) {
    const auto events = small::events(json);
    const auto fault = check_order(s, small::protocol(), events, "e.json");
    if (fault) FAIL(in_one_line(*fault));
    return play(s, small::protocol(), {seed}, events);
}

const std::string horn_on =
    R"([{"t": 1, "do": "take", "what": "horn"}, {"t": 2, "do": "place", "x": 6, "y": -7},)";
constexpr std::int64_t s = 1'000'000;

}  // namespace

TEST_CASE("one spell from placing to lifting, in pieces of unchanged hold", "[play]") {
    const Played p = played(
        horn_on +
        R"({"t": 10, "do": "move", "x": 7, "y": -7}, {"t": 12, "do": "hand", "hand": "left", "on": "wrist"},
        {"t": 20, "do": "place", "x": 2, "y": -7, "press_n": 9}, {"t": 20, "do": "press", "press_n": 10}, {"t": 30, "do": "lift"},
        {"t": 40, "do": "place", "x": 1, "y": 1}, {"t": 50, "do": "finish"}])");
    REQUIRE(p.spells.size() == 2);
    CHECK(p.spells[0].from.us == 2 * s);
    CHECK(p.spells[0].to.us == 30 * s);
    CHECK(p.spells[0].instrument == sim::Instrument::horn);
    REQUIRE(p.spells[0].pieces.size() == 4);
    CHECK(p.spells[0].pieces[0].to.us == 10 * s);
    CHECK(p.spells[0].pieces[1].hold.x_cm == 7.0);
    CHECK(p.spells[0].pieces[2].hold.left == sim::On::wrist);
    CHECK(p.spells[0].pieces[3].from.us == 20 * s);
    CHECK(p.spells[0].pieces[3].hold.press_n == 10.0);
    CHECK(p.spells[0].pieces[3].to.us == 30 * s);
    CHECK(p.spells[1].to.us == 50 * s);
    CHECK(p.end.us == 50 * s);
    CHECK(p.finished);
}

TEST_CASE("a file without finish is judged as far as it goes", "[play]") {
    const Played p = played(horn_on + R"({"t": 10, "do": "start_window"}, {"t": 25, "do": "tap"}])");
    CHECK_FALSE(p.finished);
    CHECK(p.end.us == 25 * s);
    REQUIRE(p.windows.size() == 1);
    CHECK(p.windows[0].to.us == 25 * s);
    CHECK(p.windows[0].cut);
    CHECK(p.spells[0].to.us == 25 * s);
    const Played nothing = play(small::labour(), small::protocol(), {1}, {});
    CHECK(nothing.end.us == 0);
    CHECK(nothing.spells.empty());
}

TEST_CASE("the length meant is the nearest of 60, 30, 15, 10, 6 s within 15 % of the own length", "[play]") {
    // Worked by hand: 60/52.2 = 1.149, 30/26.1 = 1.149; 52.1 s is 15.2 % short of 60.
    CHECK(plan_meant(60) == 60.0);
    CHECK(plan_meant(52.2) == 60.0);
    CHECK_FALSE(plan_meant(52.1));
    CHECK(plan_meant(70) == 60.0);
    CHECK_FALSE(plan_meant(71));
    CHECK(plan_meant(27) == 30.0);
    CHECK(plan_meant(16) == 15.0);
    CHECK(plan_meant(9) == 10.0);
    CHECK(plan_meant(6.4) == 6.0);
    CHECK_FALSE(plan_meant(8));
    CHECK_FALSE(plan_meant(20));
    CHECK_FALSE(plan_meant(0));
}

TEST_CASE("a count keeps the plan given, infers it, or takes its own length", "[play]") {
    const Played p =
        played(horn_on + R"({"t": 10, "do": "start_window", "plan_s": 30}, {"t": 25, "do": "stop_window"},
        {"t": 30, "do": "start_window"}, {"t": 44, "do": "stop_window"}, {"t": 50, "do": "start_window"},
        {"t": 70, "do": "stop_window"}, {"t": 80, "do": "start_window"}, {"t": 91, "do": "lift"}])");
    REQUIRE(p.windows.size() == 4);
    CHECK(p.windows[0].plan_s == 30.0);
    CHECK_FALSE(p.windows[0].plan_inferred);
    CHECK(p.windows[1].plan_s == 15.0);
    CHECK(p.windows[1].plan_inferred);
    CHECK(p.windows[2].plan_s == 20.0);
    CHECK_FALSE(p.windows[2].plan_inferred);
    CHECK_FALSE(p.windows[2].cut);
    CHECK(p.windows[3].cut);
    CHECK(p.windows[3].to.us == 91 * s);
    CHECK(p.windows[3].plan_s == 10.0);
}

TEST_CASE("a later report replaces the earlier one and shows it as corrected", "[play]") {
    const Played p =
        played(horn_on + R"({"t": 10, "do": "start_window"}, {"t": 11, "do": "tap"}, {"t": 11.5, "do": "tap"},
        {"t": 70, "do": "stop_window"}, {"t": 71, "do": "report", "beats": 139}, {"t": 72, "do": "report", "beats": 141, "bpm": 141}])");
    const Window& w = p.windows.at(0);
    CHECK(w.taps.size() == 2);
    CHECK(w.spell == 0);
    CHECK(w.beats == 141);
    CHECK(w.bpm == 141);
    REQUIRE(w.corrected.size() == 1);
    CHECK(w.corrected[0].first == 139);
    CHECK_FALSE(w.corrected[0].second);
    CHECK(w.reported_at.us == 72 * s);
}

TEST_CASE("a pulse felt is cut where listening begins and ends", "[play]") {
    const Played p = played(
        R"([{"t": 1, "do": "hand", "hand": "left", "on": "wrist"}, {"t": 5, "do": "take", "what": "horn"},
        {"t": 10, "do": "place", "x": 6, "y": -7}, {"t": 40, "do": "lift"}, {"t": 45, "do": "hand", "hand": "left", "on": "none"},
        {"t": 50, "do": "report_pulse", "bpm": 84}])");
    REQUIRE(p.pulses.size() == 3);
    CHECK(p.pulses[0].to.us == 10 * s);
    CHECK_FALSE(p.pulses[0].while_listening);
    CHECK(p.pulses[1].while_listening);
    CHECK(p.pulses[1].to.us == 40 * s);
    CHECK(p.pulses[2].to.us == 45 * s);
    CHECK(p.pulse_reports.at(0).bpm == 84);
}

TEST_CASE("what an act finds shows when the act is done and only if it is there then", "[play]") {
    Scenario scenario = small::labour();
    Finding hot{"take_temperature", "38.6 degrees", "fever", {100}, {200}};
    scenario.findings = {hot};
    // Takes 60 s: done at 70 (too early), 130 (there), 259 (gone), 280 (gone).
    const Played p = played(
        R"([{"t": 10, "do": "act", "what": "take_temperature"}, {"t": 70, "do": "act", "what": "take_temperature"},
        {"t": 199, "do": "act", "what": "take_temperature"}, {"t": 300, "do": "act", "what": "take_temperature"}, {"t": 310, "do": "finish"}])",
        scenario);
    REQUIRE(p.acts.size() == 4);
    CHECK(p.acts[1].done_at.us == 130 * s);
    REQUIRE(p.revealed.size() == 3);  // the last act is not done when the attempt ends
    CHECK(p.revealed[0].says.empty());
    CHECK(p.revealed[1].says == "38.6 degrees");
    CHECK(p.revealed[1].situation == "fever");
    CHECK(p.revealed[1].at.us == 130 * s);
    CHECK(p.revealed[2].says.empty());
}

TEST_CASE("decisions, chart lines, notes, comparisons are kept with their times", "[play]") {
    const Played p = played(
        R"([{"t": 1, "do": "decide", "source": "baby", "baseline": "fast"}, {"t": 2, "do": "record", "bpm": 171},
        {"t": 3, "do": "note", "text": "warm hands"}, {"t": 4, "do": "compare", "to_pulse": "about_twice"},
        {"t": 5, "do": "mark_contraction", "edge": "start"}, {"t": 6, "do": "report_contractions", "per_10min": 4},
        {"t": 7, "do": "handover", "request": "come"}])");
    CHECK(p.decisions.at(0).decision.baseline == BaselineIs::fast);
    CHECK(p.records.at(0).event.bpm == 171);
    CHECK(p.notes.size() == 5);
}

TEST_CASE("course and beats reach 2 s beyond the end and beyond a minute that was only begun", "[play]") {
    const Played p =
        played(horn_on + R"({"t": 10, "do": "start_window", "plan_s": 60}, {"t": 15, "do": "finish"}])");
    CHECK((p.course.size() - 1) * 250'000 >= 72 * 1'000'000u);
    CHECK(p.fetal.back().at_us > 71 * s);
    CHECK(p.maternal.back().at_us > 70 * s);
    CHECK(p.fetal2.empty());
}

TEST_CASE("the same attempt played twice is the same to the last beat; another seed is not", "[play]") {
    const std::string json =
        horn_on + R"({"t": 100, "do": "act", "what": "off_her_back"}, {"t": 600, "do": "finish"}])";
    const Played a = played(json), b = played(json), c = played(json, small::labour(), 2);
    REQUIRE(a.fetal.size() == b.fetal.size());
    for (std::size_t i = 0; i < a.fetal.size(); ++i) REQUIRE(a.fetal[i].at_us == b.fetal[i].at_us);
    CHECK(a.fetal[500].at_us != c.fetal[500].at_us);
}

TEST_CASE("events without a body, 300 taps and notes, move no beat", "[play]") {
    std::string more = horn_on + R"({"t": 10, "do": "start_window"})";
    for (int i = 0; i < 300; ++i) more += R"(, {"t": )" + std::to_string(11 + i / 10) + R"(, "do": "tap"})";
    const Played a = played(more + R"(, {"t": 300, "do": "finish"}])"),
                 b = played(R"([{"t": 300, "do": "finish"}])");
    REQUIRE(a.fetal.size() >= b.fetal.size());
    for (std::size_t i = 0; i < b.fetal.size(); ++i) REQUIRE(a.fetal[i].at_us == b.fetal[i].at_us);
}

TEST_CASE("contractions as felt: over 10 mmHg above tone, two peaks of one are one, two that touch are two",
          "[play]") {
    // [memory: a hand feels it above 10 mmHg over tone.] Pressures made up for this test.
    std::vector<sim::CourseTick> course(400);
    const auto fill = [&](int from, int to, int number, double mmhg) {
        for (int k = from; k < to; ++k) {
            auto& t = course[static_cast<std::size_t>(k)];
            t.contraction = number;
            t.uc_above_tone_mmhg = mmhg;
            t.in_contraction = mmhg > 10;
        }
    };
    fill(40, 80, 0, 30);
    fill(60, 64, 0, 45);
    fill(80, 90, 0, 8);  // dips under the limit
    fill(90, 120, 0, 25);
    fill(200, 240, 1, 40);
    fill(240, 280, 2, 50);  // the next one begins at once
    fill(380, 400, 3, 20);  // goes on beyond what was computed
    const auto felt = contractions_in(course);
    REQUIRE(felt.size() == 4);
    CHECK(felt[0].from.us == 10 * s);
    CHECK(felt[0].peak.us == 15 * s);
    CHECK(felt[0].to.us == 30 * s);
    CHECK(felt[1].to.us == 60 * s);
    CHECK(felt[2].from.us == 60 * s);
    CHECK(felt[2].ended);
    CHECK_FALSE(felt[3].ended);
}

TEST_CASE("a labour of 3 contractions in 10 min, first peak at 60 s: a hand feels the first one then",
          "[play]") {
    Scenario scenario = small::labour();
    scenario.middle.labour.contractions_per_10min = 3;
    const Played p = played(R"([{"t": 1200, "do": "finish"}])", scenario);
    CHECK(p.contractions.size() >= 5);
    CHECK(p.contractions.size() <= 7);
    CHECK(std::abs(p.contractions[0].peak.seconds() - 60) <= 3);
    for (const Contraction& c : p.contractions)
        if (c.ended)
            CHECK(c.to.seconds() - c.from.seconds() == Approx(60).margin(20));  // the labour says 60 s felt
}
