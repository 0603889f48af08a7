#include <catch2/catch.hpp>

#include "small_labour.h"

using namespace engine;

namespace {

constexpr std::int64_t s = 1'000'000;

SkipDone stop(const Scenario& scenario, double from, double asked, double listened_until = -1) {
    return skip_stop(scenario, small::protocol(), sim::labour_time({from}), sim::labour_time({asked}),
                     sim::labour_time({listened_until}));
}

}  // namespace

TEST_CASE("W51: active first stage, last listening ended: due 30 min later at the latest under WHO 2018",
          "[skip]") {
    // Clinical standards W51, WHO 2018: last listen 08:00, due 08:15-08:30. Here 08:00 is 60 s into the
    // attempt.
    const SkipDone done = stop(small::labour(7200), 100, 7000, 60);
    CHECK(done.to.us == (60 + 1800) * s);
    CHECK(done.why == "a listening falls due");
    CHECK(stop(small::labour(7200), 100, 1859, 60).to.us == 1859 * s);
    CHECK(stop(small::labour(7200), 100, 1859, 60).why.empty());
}

TEST_CASE("W52: second stage, a gap of 7 min is overdue: a skip of 7 min stops at 5 min", "[skip]") {
    // Clinical standards W52: every 5 min, WHO 2018, MCPC C-57; NICE [second-hand].
    Scenario scenario = small::labour(7200);
    scenario.labour.stage = Stage::second;
    const SkipDone done = stop(scenario, 60, 60 + 420, 60);
    CHECK(done.to.us == 360 * s);
    CHECK(done.why == "a listening falls due");
}

TEST_CASE("before the first listening it is due from the last line on her chart, else from the start",
          "[skip]") {
    Scenario scenario = small::labour(7200);
    CHECK(stop(scenario, 10, 7000).to.us == 1800 * s);
    scenario.chart = {{75, 132, 84, ""}, {20, 136, 84, ""}};
    CHECK(stop(scenario, 10, 7000).to.us == 600 * s);
}

TEST_CASE("an overdue listening falls due again one interval later, so that every skip goes ahead",
          "[skip]") {
    CHECK(stop(small::labour(14400), 1800, 14000, 0).to.us == 3600 * s);
    CHECK(stop(small::labour(14400), 2500, 14000, 0).to.us == 3600 * s);
}

TEST_CASE("she calls out: the first call after the start of the skip stops it", "[skip]") {
    Scenario scenario = small::labour(7200);
    scenario.call_outs = {{CallOut::Kind::wants_to_push, {900}, "I must push"},
                          {CallOut::Kind::waters_break, {400}, ""}};
    CHECK(stop(scenario, 10, 1700).to.us == 400 * s);
    CHECK(stop(scenario, 10, 1700).why == "her waters break");
    CHECK(stop(scenario, 400, 1700).to.us == 900 * s);
    CHECK(stop(scenario, 400, 1700).why == "she wants to push: I must push");
    CHECK(stop(scenario, 10, 300).to.us == 300 * s);
}

TEST_CASE("somebody at the door at 400 s breaks into a count, not into a skip to 1700 s", "[skip]") {
    Scenario scenario = small::labour(7200);
    scenario.call_outs = {{CallOut::Kind::interrupted, {400}, "Sister, where are the cloths?"},
                          {CallOut::Kind::wants_to_push, {900}, "I must push"}};
    CHECK(stop(scenario, 10, 850).to.us == 850 * s);
    CHECK(stop(scenario, 10, 1700).to.us == 900 * s);
    CHECK(stop(scenario, 10, 1700).why == "she wants to push: I must push");
}

TEST_CASE("a played skip stops where its file's next event may begin, counted from the last lifting",
          "[skip]") {
    const auto events =
        small::events(R"([{"t": 1, "do": "take", "what": "doppler"}, {"t": 2, "do": "place", "x": 6, "y": -7},
        {"t": 70, "do": "lift"}, {"t": 80, "do": "skip", "to": 3500}, {"t": 1870, "do": "place", "x": 6, "y": -7},
        {"t": 1880, "do": "finish"}])");
    const Scenario scenario = small::labour();
    REQUIRE_FALSE(check_order(scenario, small::protocol(), events, "e"));
    const Played p = play(scenario, small::protocol(), {1}, events);
    REQUIRE(p.skips.size() == 1);
    CHECK(p.skips[0].from.us == 80 * s);
    CHECK(p.skips[0].asked.us == 3500 * s);
    CHECK(p.skips[0].to.us == 1870 * s);
    CHECK(p.spells.size() == 2);
}

TEST_CASE("W53: listened for 45 s is too short: the listening stays due; 60 s is one", "[skip]") {
    // Clinical standards W53: under 60 s is too short, WHO 2018, MCPC C-57; NICE [second-hand].
    const auto stopped = [](const std::string& lifted) {
        const auto events = small::events(
            R"([{"t": 1, "do": "take", "what": "doppler"}, {"t": 100, "do": "place", "x": 6, "y": -7},
            {"t": )" +
            lifted + R"(, "do": "lift"}, {"t": 200, "do": "skip", "to": 3500}])");
        const Scenario scenario = small::labour();
        Order order(scenario, small::protocol());
        for (const Event& e : events) {
            REQUIRE(order.refuses(e).empty());
            order.take(e);
        }
        const Played p = play(scenario, small::protocol(), {1}, events);
        CHECK(p.skips.at(0).to == order.last());
        return p.skips.at(0).to.us;
    };
    CHECK(stopped("145") == 1800 * s);
    CHECK(stopped("160") == (160 + 1800) * s);
}
