// Ranges in a file are drawn from the seed alone; a rate left out is drawn as usual for the weeks.
#include "tests/engine/scenario/lines_of.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>

TEST_CASE("132 to 148 bpm: 2000 seeds stay inside, spread evenly, and a seed always draws the same",
          "[drawn]") {
    std::string text = with(right_scenario, "138.4 bpm", "132 to 148 bpm");
    text = with(text, "79 bpm", "76 to 92 bpm");
    text += "[[baby.event]]\nkind = \"late\"\ndepth = \"20 to 30 bpm\"\n";
    const auto read = engine::read_scenario(text, "a-test.toml");
    REQUIRE(read.ok());
    REQUIRE(read->drawn.size() == 3);
    CHECK(read->drawn[0].key == "mother.pulse");
    CHECK(read->drawn[1].key == "baby.baseline");
    CHECK(read->drawn[1].from == 132);
    CHECK(read->drawn[1].to == 148);
    CHECK(read->drawn[1].unit == "bpm");
    CHECK(read->drawn[2].key == "baby.event[1].depth");
    CHECK(read->middle.babies[0].baseline.value == 140);

    double sum = 0, pulses = 0, together = 0;
    std::set<double> seen;
    const int seeds = 2000;
    for (int i = 0; i < seeds; ++i) {
        const sim::Seed seed{static_cast<std::uint64_t>(i) + 1};
        const sim::Patient p = read->patient(seed);
        const double rate = p.babies[0].baseline.value, pulse = p.mother.pulse.value;
        const double depth = p.babies[0].events[0].depth.value;
        REQUIRE((rate >= 132 && rate < 148));
        REQUIRE((pulse >= 76 && pulse < 92));
        REQUIRE((depth >= 20 && depth < 30));
        REQUIRE(read->patient(seed).babies[0].baseline.value == rate);
        sum += rate;
        pulses += pulse;
        together += (rate - 140) * (pulse - 84);
        seen.insert(rate);
    }
    CHECK(seen.size() == seeds);
    // Even over 16 bpm: SD 16/sqrt(12) = 4.62, of the mean of 2000 0.103; four of these [arithmetic].
    CHECK(sum / seeds == Approx(140).margin(0.42));
    CHECK(pulses / seeds == Approx(84).margin(0.42));
    // Two quantities are drawn apart: correlation of 2000 pairs within 4/sqrt(2000) = 0.09 [arithmetic].
    CHECK(together / seeds / (4.62 * 4.62) == Approx(0).margin(0.09));
}

TEST_CASE("A file without ranges gives the same patient for every seed", "[drawn]") {
    const auto read = engine::read_scenario(right_scenario, "a-test.toml");
    REQUIRE(read.ok());
    CHECK(read->drawn.empty());
    CHECK(read->patient({1}).babies[0].baseline.value == 138.4);
    CHECK(read->patient({sim::Seed::largest}).babies[0].baseline.value == 138.4);
}

TEST_CASE("The second of two babies is drawn for itself", "[drawn]") {
    const std::string text =
        right_scenario +
        "[baby2]\nbaseline = \"150 to 160 bpm\"\nposition = \"ROT\"\nspot_x = \"-6 to -4 cm\"\n"
        "spot_y = \"5 to 7 cm\"\n";
    const auto read = engine::read_scenario(text, "a-test.toml");
    REQUIRE(read.ok());
    REQUIRE(read->drawn.size() == 3);
    CHECK(read->drawn[0].key == "baby2.baseline");
    const sim::Patient p = read->patient({7});
    CHECK(p.babies[0].baseline.value == 138.4);
    CHECK(p.babies[1].baseline.value > 150);
    CHECK(p.babies[1].baseline.value < 160);
    CHECK(p.babies[1].spot_x.value <= -4);
    CHECK(p.babies[1].spot_y.value >= 5);
}

// Reference ranges of 224 records (1998): 144 bpm at 24 wk, 131 at 40 wk. 2126 records: mean 133.3, SD 9.84,
// 106 to 160.
TEST_CASE("No baseline in the file: drawn for 40 weeks about 131, spread 9, within 112 to 158", "[reader]") {
    const auto read = engine::read_scenario(with(with(right_scenario, "baseline = \"138.4 bpm\"\n", ""),
                                                 "[mother]\n", "[mother]\ngestation = \"40 wk\"\n"),
                                            "a-test.toml");
    REQUIRE(read.ok());
    const engine::Scenario& scenario = read.value();
    CHECK(scenario.middle.babies[0].baseline.value == Approx(131.04));
    double sum = 0, squares = 0;
    const int seeds = 2000;
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
        const double bpm = scenario.patient(sim::Seed{seed}).babies[0].baseline.value;
        REQUIRE(bpm >= 112);
        REQUIRE(bpm <= 158);
        sum += bpm;
        squares += bpm * bpm;
    }
    const double mean = sum / seeds, spread = std::sqrt(squares / seeds - mean * mean);
    CHECK(mean == Approx(131.04).margin(1));
    CHECK(spread == Approx(9).margin(1));
    CHECK(scenario.patient(sim::Seed{7}).babies[0].baseline.value ==
          scenario.patient(sim::Seed{7}).babies[0].baseline.value);
}
