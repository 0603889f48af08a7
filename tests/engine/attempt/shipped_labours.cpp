#include <catch2/catch.hpp>

#include "engine/protocol/protocol.h"
#include "small_labour.h"

#include <algorithm>
#include <filesystem>

using namespace engine;

namespace {

Protocol who_2018() {
    const auto p = read_protocol_file(FULLMINUTE_SOURCE_DIR "/scenarios/protocols/who-2018.toml");
    if (!p) FAIL(in_one_line(p.faults()[0]));
    return *p;
}

std::vector<Scenario> library() {
    std::vector<std::string> paths;
    for (const auto& entry : std::filesystem::directory_iterator(FULLMINUTE_SOURCE_DIR "/scenarios/library"))
        if (entry.path().extension() == ".toml") paths.push_back(entry.path().string());
    std::sort(paths.begin(), paths.end());
    std::vector<Scenario> all;
    for (const std::string& path : paths) {
        auto s = read_scenario_file(path);
        if (!s) FAIL(in_one_line(s.faults()[0]));
        all.push_back(std::move(s).value());
    }
    return all;
}

}  // namespace

TEST_CASE("every shipped labour can be listened to with each instrument of its place, for a full minute",
          "[play]") {
    const Protocol protocol = who_2018();
    int tried = 0;
    for (const Scenario& scenario : library())
        for (const sim::Instrument with : scenario.place.instruments) {
            INFO(scenario.id << " " << name_of(with));
            const std::string to = with == sim::Instrument::horn ? "half_sitting" : "left_side";
            const auto events = small::events(
                R"([{"t": 1, "do": "position", "to": ")" + to + R"("}, {"t": 2, "do": "take", "what": ")" +
                std::string(name_of(with)) + R"("}, {"t": 3, "do": "place", "x": 6, "y": -7},
                {"t": 3.5, "do": "hand", "hand": "left", "on": "wrist"}, {"t": 4, "do": "start_window"},
                {"t": 59, "do": "stop_window"}, {"t": 59.5, "do": "report", "beats": 130}, {"t": 60, "do": "finish"}])");
            const auto fault = check_order(scenario, protocol, events, "e");
            if (fault) FAIL_CHECK(in_one_line(*fault));
            const Played p = play(scenario, protocol, {1}, events);
            CHECK(p.windows.at(0).plan_s == 60.0);
            CHECK(p.finished);
            CHECK(small::seen(p, "feel_pulse"));
            // A heart that beats does so 40 to 240 times in 55 s or is not there at all.
            const auto heard = sim::beats_between(p.fetal, p.windows[0].from, p.windows[0].to);
            CHECK((scenario.middle.babies[0].heart_beats ? heard >= 40 && heard <= 240 : heard == 0));
            ++tried;
        }
    CHECK(tried >= 10);
}

TEST_CASE("every finding of the shipped labours shows once its act is done at the right time", "[play]") {
    const Protocol protocol = who_2018();
    int shown = 0;
    for (const Scenario& scenario : library())
        for (const Finding& finding : scenario.findings) {
            const auto words = std::find_if(protocol.acts.begin(), protocol.acts.end(),
                                            [&](const ActWords& a) { return a.id == finding.act; });
            INFO(scenario.id << " " << finding.act);
            REQUIRE(words != protocol.acts.end());
            if (words->kind == ActKind::seen) continue;
            const double at = std::max(0.0, finding.from.value - words->takes.value);
            if (at + words->takes.value + 1 > scenario.length.value) continue;
            Event act;
            act.t = sim::labour_time({at});
            act.what = Do::act;
            act.act = finding.act;
            Event end;
            end.t = sim::labour_time({at + words->takes.value + 1});
            end.what = Do::finish;
            REQUIRE_FALSE(check_order(scenario, protocol, {act, end}, "e"));
            const Played p = play(scenario, protocol, {1}, {act, end});
            CHECK(std::any_of(p.revealed.begin(), p.revealed.end(),
                              [&](const Revealed& r) { return r.says == finding.says; }));
            ++shown;
        }
    CHECK(shown > 0);
}
