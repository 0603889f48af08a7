// What a file can say of the woman herself beside the baby: a pulse under 60 or over 120, a temperature
// between 37.5 and 38, and the act that finds it.
#include "sim/beats/beat_train.h"
#include "sim/course/course.h"
#include "tests/engine/scenario/lines_of.h"

#include <catch2/catch.hpp>

TEST_CASE("Her own pulse of 54 or 124 and 37.7 C: written, felt over a minute, read from the thermometer",
          "[reader]") {
    // Alert lines of the labour care guide 2020 [second-hand]: pulse under 60, 120 and over; temperature 37.5
    // and over.
    for (const double pulse : {54.0, 124.0}) {
        const std::string rate = std::to_string(static_cast<int>(pulse));
        std::string text = with(right_scenario, "79 bpm", rate + " bpm");
        text = with(text, "[mother]\n", "[mother]\ntemperature = \"37.7 C\"\nrestless = \"0 %\"\n");
        text +=
            "\n[labour]\ncontractions = \"0 per 10 min\"\n\n[[finding]]\nact = \"take_temperature\"\n"
            "says = \"37.7 degrees.\"\n";
        const auto read = engine::read_scenario(text, "a-test.toml");
        for (const std::string& line : lines_of(read.ok() ? std::vector<engine::Fault>{} : read.faults()))
            UNSCOPED_INFO(line);
        REQUIRE(read.ok());
        const sim::Patient p = read->patient({1});
        const auto course = sim::course_over(p, {1}, {}, {120});
        const auto beats = sim::beats_over(p, {1}, sim::Who::maternal, course);
        CHECK(sim::rate_between(beats, {30'000'000}, {90'000'000}).value == Approx(pulse).margin(0.1));
        CHECK(course.back().temperature_c == Approx(37.7));
        REQUIRE(read->findings.size() == 1);
        CHECK(read->findings[0].says == "37.7 degrees.");
    }
}
