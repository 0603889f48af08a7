// Where drawn hearts settle when a quota asks for a range of rates.
#include "tests/engine/drawing/drawn.h"

using namespace drawn;

TEST_CASE(
    "Asked for slow at 84 to 104, normal at 130 to 140 and fast at 166 to 174: each of 30 settles there, for "
    "seeds 1 "
    "to 3",
    "[drawing]") {
    const Protocol protocol =
        read_protocol_file(FULLMINUTE_SOURCE_DIR "/scenarios/protocols/who-2018.toml").value();
    const Quota quota = quota_of(
        "scenarios = 30\nnormal = \"34 %\"\n[tasks]\ncount = \"100 %\"\n[when_not_normal]\nslow = \"50 %\"\n"
        "fast = \"50 %\"\n[rates]\nslow = \"84 to 104 bpm\"\nnormal = \"130 to 140 bpm\"\nfast = \"166 to "
        "174 bpm\"\n");
    const auto drawn = draw(quota, protocol, {5});
    REQUIRE(drawn.ok());
    for (const DrawnScenario& one : *drawn) {
        const Scenario scenario = read_scenario(one.text, one.id + ".toml").value();
        const int trouble_asked = one.asked.what[Axis::trouble];
        const double from = trouble_asked == trouble::slow ? 84 : trouble_asked == trouble::fast ? 166 : 130;
        const double to = trouble_asked == trouble::slow ? 104 : trouble_asked == trouble::fast ? 174 : 140;
        for (const std::uint64_t ear : {1ULL, 2ULL, 3ULL}) {
            const double settled = key_of(scenario, protocol, {ear}).baseline_bpm;
            INFO(one.id << " settled at " << settled);
            CHECK(settled >= from);
            CHECK(settled <= to);
        }
    }
}

TEST_CASE(
    "Slow ones asked for where none is ever drawn, 60 to 66 bpm, are refused with the rate they settle at",
    "[drawing]") {
    const Protocol protocol =
        read_protocol_file(FULLMINUTE_SOURCE_DIR "/scenarios/protocols/who-2018.toml").value();
    const auto drawn =
        draw(quota_of("scenarios = 1\nnormal = \"0 %\"\n[tasks]\ncount = \"100 %\"\n"
                      "[when_not_normal]\nslow = \"100 %\"\n[rates]\nslow = \"60 to 66 bpm\"\n"),
             protocol, {5});
    REQUIRE_FALSE(drawn.ok());
    CHECK(in_one_line(drawn.faults()[0]).find(" bpm, asked 60 to 66") != std::string::npos);
}
