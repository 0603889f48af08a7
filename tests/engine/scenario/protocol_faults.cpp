#include "sim/course/course.h"
#include "tests/engine/scenario/lines_of.h"

#include <catch2/catch.hpp>

using Lines = std::vector<std::string>;

namespace {

const std::string right_protocol = R"(format = "fullminute-protocol/1"
id = "a-test"
title = "A test"
origin = "made up"
cautions = ["For learning only."]
[limits]
low = "110 bpm"
high = "160 bpm"
[counting]
record_lengths = ["60 s", "30 s"]
[[listening]]
stage = "latent"
every = "1 h"
[[listening]]
stage = "active"
every = "15 to 30 min"
[[listening]]
stage = "second"
every = "5 min"
[[action]]
id = "feel_pulse"
words = "Feel her pulse"
kind = "seen"
source = "CP"
[[action]]
id = "stop_oxytocin"
words = "Stop the drip"
source = "MCPC S-95"
[[situation]]
id = "fast"
words = "Too fast"
level = "yellow"
[[rule]]
situation = "fast"
act = "feel_pulse"
within = "1 min"
source = ["CP", "MEM"]
)";

Lines protocol_faults(const std::string& text) {
    return lines_of(engine::read_protocol(text, "a-test.toml").faults());
}

}  // namespace

TEST_CASE("A small protocol reads as written", "[protocol]") {
    const auto read = engine::read_protocol(right_protocol, "a-test.toml");
    for (const std::string& line : lines_of(read.faults())) UNSCOPED_INFO(line);
    REQUIRE(read.ok());
    CHECK(read->low.bpm.value == 110);
    CHECK(read->low.limit_is_normal);
    CHECK_FALSE(read->alert_given);
    CHECK(read->record_lengths == std::vector<sim::Seconds>{{60}, {30}});
    CHECK(read->rule_for(engine::Stage::active).every_least.value == 900);
    CHECK(read->rule_for(engine::Stage::active).every_most.value == 1800);
    CHECK(read->rule_for(engine::Stage::second).every_most.value == 300);
    REQUIRE(read->act("feel_pulse") != nullptr);
    CHECK(read->act("feel_pulse")->kind == engine::ActKind::seen);
    CHECK(read->act("feel_puls") == nullptr);
    REQUIRE(read->rules.size() == 1);
    CHECK(read->rules[0].within.value == 60);
    CHECK(read->rules[0].sources == std::vector<std::string>{"CP", "MEM"});
    CHECK(read->situation("fast")->level == engine::Level::yellow);
    CHECK(read->situation("fast")->level_if_it_holds == engine::Level::yellow);
    CHECK(read->sha256.size() == 64);
}

TEST_CASE("A rule for an act or a situation that is not there names the nearest", "[protocol]") {
    CHECK(protocol_faults(with(right_protocol, "act = \"feel_pulse\"", "act = \"feel_puls\"")) ==
          Lines{"a-test.toml:35: rule[1].act, found \"feel_puls\", allowed: the id of an [[action]]; did you "
                "mean "
                "`feel_pulse`?"});
    CHECK(protocol_faults(with(right_protocol, "situation = \"fast\"", "situation = \"fever\"")) ==
          Lines{"a-test.toml:34: rule[1].situation, found \"fever\", allowed: a [[situation]] of this file"});
    const Lines wrong = protocol_faults(with(right_protocol, "situation = \"fast\"", "situation = \"fsat\""));
    REQUIRE(wrong.size() == 1);
    CHECK(wrong[0].find("; did you mean `fast`?") != std::string::npos);
}

TEST_CASE("A protocol may not change how long the body's own acts take", "[protocol]") {
    const double fixed = sim::act_takes(sim::Act::stop_oxytocin).value;
    const auto read = engine::read_protocol(right_protocol, "a-test.toml");
    REQUIRE(read.ok());
    CHECK(read->act("stop_oxytocin")->takes.value == fixed);
    const Lines found = protocol_faults(
        with(right_protocol, "words = \"Stop the drip\"", "words = \"Stop the drip\"\ntakes = \"599 s\""));
    REQUIRE(found.size() == 1);
    CHECK(found[0].find("a-test.toml:28: action[2].takes, found \"599 s\", allowed: ") == 0);
    CHECK(found[0].find("the body answers to `stop_oxytocin`, so the program fixes its time") !=
          std::string::npos);
    CHECK(protocol_faults(with(right_protocol, "kind = \"seen\"", "takes = \"599 s\"")).empty());
}

TEST_CASE("Rules that cannot be meant are refused", "[protocol]") {
    CHECK(protocol_faults(with(right_protocol, "act = \"feel_pulse\"\n", "")) ==
          Lines{"a-test.toml:33: rule[1], found neither act nor any_of, allowed: one of the two"});
    CHECK(protocol_faults(with(right_protocol, "within = \"1 min\"", "grade = \"late_if_before\"")) ==
          Lines{"a-test.toml:33: rule[1].before, found nothing, allowed: needed with late_if_before: the "
                "acts that come "
                "first"});
    CHECK(protocol_faults(
              with(right_protocol, "within = \"1 min\"", "within = \"1 min\"\ngrade = \"unsafe\"")) ==
          Lines{"a-test.toml:36: rule[1].within, found \"1 min\", allowed: only with grade = \"expected\""});
    const Lines unless =
        protocol_faults(with(right_protocol, "within = \"1 min\"", "unless = \"drip_not_runing\""));
    REQUIRE(unless.size() == 1);
    CHECK(unless[0].find("a-test.toml:36: rule[1].unless, found \"drip_not_runing\", allowed: one of: "
                         "drip_not_running, ") == 0);
    CHECK(unless[0].find("did you mean `drip_not_running`?") != std::string::npos);
    CHECK(protocol_faults(with(right_protocol, "source = [\"CP\", \"MEM\"]\n", "")) ==
          Lines{"a-test.toml:33: rule[1].source, found nothing, allowed: needed: where it comes from (a text "
                "or a list of "
                "texts)"});
}

TEST_CASE("Limits crossed, an alert by half, a stage left out, an act twice", "[protocol]") {
    CHECK(protocol_faults(with(right_protocol, "high = \"160 bpm\"", "high = \"100 bpm\"")) ==
          Lines{"a-test.toml:8: limits.high, found \"100 bpm\", allowed: above low = 110 bpm"});
    CHECK(protocol_faults(
              with(right_protocol, "high = \"160 bpm\"", "high = \"160 bpm\"\nalert_low = \"110 bpm\"")) ==
          Lines{"a-test.toml:6: limits.alert_high, found nothing, allowed: alert_low and alert_high, both or "
                "neither"});
    CHECK(protocol_faults(with(right_protocol, "stage = \"second\"", "stage = \"active\"")) ==
          Lines{"a-test.toml:1: listening, found 2 times stage = \"active\", allowed: one [[listening]] for "
                "each of "
                "latent, active, second",
                "a-test.toml:1: listening, found 0 times stage = \"second\", allowed: one [[listening]] for "
                "each of "
                "latent, active, second"});
    CHECK(protocol_faults(with(right_protocol, "id = \"stop_oxytocin\"", "id = \"feel_pulse\"")) ==
          Lines{"a-test.toml:26: action[2].id, found \"feel_pulse\", allowed: each action once"});
    CHECK(protocol_faults(with(right_protocol, "low = \"110 bpm\"", "low = 110")) ==
          Lines{"a-test.toml:7: limits.low, found 110, a number without its unit, allowed: 60 bpm to 220 "
                "bpm, in quotes "
                "and with its unit"});
    CHECK(
        protocol_faults(with(right_protocol, "protocol/1", "protocol/2")) ==
        Lines{"a-test.toml:1: format, found \"fullminute-protocol/2\", written by a newer program, allowed: "
              "\"fullminute-protocol/1\""});
}
