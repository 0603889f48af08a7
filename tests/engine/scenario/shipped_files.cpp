// What ships: every file without a fault, with the facts it was asked to have.
#include "engine/scenario/scenario_table.h"
#include "tests/engine/scenario/shipped.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

TEST_CASE("Every shipped scenario and protocol is without a fault", "[shipped]") {
    const auto scenarios = files_in("scenarios/library"), protocols = files_in("scenarios/protocols");
    REQUIRE(scenarios.size() == 60);
    REQUIRE(protocols.size() == 4);
    for (const std::string& path : scenarios)
        CHECK(lines_of(engine::read_scenario_file(path).faults()).empty());
    for (const std::string& path : protocols)
        CHECK(lines_of(engine::read_protocol_file(path).faults()).empty());
}

TEST_CASE(
    "Sixty: 10 counting, 8 quick, 10 finding, 10 telling apart, 10 patterns, 12 labours, named by letter",
    "[shipped]") {
    std::map<char, int> by_letter;
    const std::map<char, engine::Task> task_of = {
        {'c', engine::Task::count},      {'q', engine::Task::quick},   {'f', engine::Task::find},
        {'t', engine::Task::tell_apart}, {'p', engine::Task::pattern}, {'l', engine::Task::labour}};
    for (const std::string& path : files_in("scenarios/library")) {
        INFO(path);
        const engine::Scenario s = engine::read_scenario_file(path).value();
        REQUIRE(task_of.count(s.id[0]) == 1);
        CHECK(s.task == task_of.at(s.id[0]));
        ++by_letter[s.id[0]];
    }
    CHECK(by_letter == std::map<char, int>{{'c', 10}, {'q', 8}, {'f', 10}, {'t', 10}, {'p', 10}, {'l', 12}});
}

TEST_CASE("Women are codes and each has her own, titles too; no rate is a whole number", "[shipped]") {
    std::set<std::string> codes, titles;
    for (const std::string& path : files_in("scenarios/library")) {
        INFO(path);
        const engine::Scenario s = engine::read_scenario_file(path).value();
        const std::size_t code = s.story.find("A-0");
        REQUIRE(code != std::string::npos);
        CHECK(codes.insert(s.story.substr(code, 5)).second);
        CHECK(titles.insert(s.title).second);
        CHECK_FALSE(s.teaching.empty());
        for (const sim::Baby& baby : s.middle.babies)
            if (baby.heart_beats) CHECK(baby.baseline.value != std::floor(baby.baseline.value));
        for (const sim::Baby& baby : s.middle.babies)
            if (!baby.heart_beats) CHECK_FALSE(s.content_note.empty());
        // What a finding establishes and what finds it must be known to every shipped protocol.
        for (const char* id : {"who-2018", "community-120-160", "figo-2015", "nice-2022"}) {
            const engine::Protocol p = shipped_protocol(id);
            for (const engine::Finding& finding : s.findings) {
                INFO(finding.act);
                REQUIRE(p.act(finding.act) != nullptr);
                CHECK(p.act(finding.act)->reveals);
                CHECK((finding.situation.empty() || p.situation(finding.situation) != nullptr));
            }
        }
    }
}

TEST_CASE("Four sit on a limit where protocols differ: marked so, and the settled rate does not wander there",
          "[shipped]") {
    std::set<std::string> marked;
    for (const std::string& path : files_in("scenarios/library")) {
        const engine::Scenario s = engine::read_scenario_file(path).value();
        if (!s.boundary) continue;
        marked.insert(s.id.substr(0, 3));
        CHECK(s.middle.babies[0].drift.value == 0);
    }
    CHECK(marked == std::set<std::string>{"c09", "q02", "q03", "t08"});
}

TEST_CASE("Every act that reveals finds something, in every scenario and at any moment of it", "[shipped]") {
    const engine::Protocol who = shipped_protocol("who-2018");
    for (const std::string& path : files_in("scenarios/library")) {
        const engine::Scenario s = engine::read_scenario_file(path).value();
        for (const engine::ActWords& act : who.acts) {
            if (!act.reveals || act.id == "count_contractions")
                continue;  // a hand feels these, no line of text
            for (double t = 0; t < s.length.value; t += 30) {
                int lines = 0;
                for (const engine::Finding& f : s.findings)
                    lines += f.act == act.id && f.from.value <= t && t < f.until.value ? 1 : 0;
                INFO(s.id << " " << act.id << " at " << t << " s");
                if (act.id == "take_blood_pressure" && s.id == "l03-a-long-night" && t < 240) continue;
                REQUIRE(lines == 1);
            }
        }
    }
}

// Facts of the counting, quick, finding and telling-apart scenarios and of the first ten, as the library's
// plan gives them [practice].
TEST_CASE("The library has the rates, pulses and places of its plan", "[shipped]") {
    struct Row {
        const char* id;
        double fhr, mhr, x, y;
        bool placed;
    };
    const Row rows[] = {
        {"c01", 138.4, 79, 6, -7, true},  {"c02", 126.7, 84, -6, -7, true},
        {"c03", 171.3, 96, 0, 0, false},  {"c04", 97.6, 72, 0, 0, false},
        {"c05", 152.4, 0, 0, 0, false},   {"c06", 133.2, 88, 0, 0, false},
        {"c07", 143.9, 0, 0, 0, false},   {"c08", 184.6, 118, 0, 0, false},
        {"c09", 114.3, 0, 0, 0, false},   {"c10", 148.3, 0, 0, 0, false},
        {"q01", 136.3, 0, 0, 0, false},   {"q02", 107.2, 0, 0, 0, false},
        {"q03", 163.8, 0, 0, 0, false},   {"q04", 141.7, 0, 0, 0, false},
        {"q05", 139.6, 0, 0, 0, false},   {"q06", 129.1, 0, 0, 0, false},
        {"q07", 131.4, 106, 0, 0, false}, {"q08", 187.6, 93.8, 0, 0, false},
        {"f01", 137.1, 0, 6, -7, true},   {"f02", 128.9, 0, -9, -7, true},
        {"f03", 144.6, 0, 4, 5, true},    {"f04", 139.3, 0, 0, 0, false},
        {"f05", 168.4, 90, 11, -8, true}, {"f06", 134.8, 0, -3, -1, true},
        {"f07", 147.5, 83, 0, 0, false},  {"f08", 136.4, 0, 8, -8, true},
        {"f09", 132.6, 0, 2, -13, true},  {"f10", 0, 112, 0, 0, false},
        {"t01", 142.3, 88, 0, 0, false},  {"t02", 134.2, 81, 0, 0, false},
        {"t03", 147.4, 0, 0, 0, false},   {"t04", 139.8, 92, 0, 0, false},
        {"t05", 71.8, 97, 0, 0, false},   {"t06", 211.4, 0, 0, 0, false},
        {"t07", 133.5, 91, 1, -14, true}, {"t08", 124.9, 121.6, 0, 0, false},
        {"t09", 172.8, 126, 0, 0, false}, {"t10", 0, 128.4, 0, 0, false},
        {"p02", 138.2, 0, 0, 0, false},   {"p03", 142.4, 0, 0, 0, false},
        {"l03", 137.3, 0, 0, 0, false},   {"l05", 173.2, 114, 0, 0, false},
        {"l06", 136.4, 0, 0, 0, false},
    };
    for (const Row& row : rows) {
        INFO(row.id);
        const engine::Scenario s = library(row.id);
        const sim::Baby& baby = s.middle.babies[0];
        if (row.fhr > 0) CHECK(baby.baseline.value == row.fhr);
        CHECK(baby.heart_beats == (row.fhr > 0));
        if (row.mhr > 0) CHECK(s.middle.mother.pulse.value == row.mhr);
        if (row.placed) {
            CHECK(baby.spot_given);
            CHECK(baby.spot_x.value == row.x);
            CHECK(baby.spot_y.value == row.y);
        }
    }
    CHECK(library("l05").middle.mother.temperature_c == 38.6);
    CHECK(library("l05").labour.waters_gone_hours == 20);
    CHECK(library("l05").place.minutes_to_theatre == 90);
    CHECK(library("l06").labour.open_cm == 4);
    CHECK(library("c03").middle.mother.temperature_c == 37.1);
    CHECK(library("c08").middle.mother.temperature_c == 38.7);
    CHECK(library("c07").middle.mother.fat.value == 4);
    CHECK_FALSE(library("q07").place.watch);
    CHECK_FALSE(library("q08").place.watch);
    CHECK(library("q06").middle.babies[0].rhythm.early_beat == 0.06);
    CHECK(library("f08").middle.babies[1].baseline.value == 151.7);
    CHECK(library("f06").middle.babies[0].presentation == sim::Presentation::across);
    CHECK(library("f03").middle.babies[0].presentation == sim::Presentation::breech);
    CHECK(library("t04").middle.babies[0].presentation == sim::Presentation::breech);
}

TEST_CASE("A protocol names all situations, grades them, and its cautions are eight", "[shipped]") {
    for (const char* id : {"who-2018", "community-120-160", "figo-2015", "nice-2022"}) {
        INFO(id);
        const engine::Protocol p = shipped_protocol(id);
        CHECK(p.from_memory);
        CHECK(p.acts.size() == 56);  // listening again in time is the last of them
        CHECK(p.cautions.size() == 8);
        CHECK(p.conflicts.size() == 10);
        CHECK(p.plan.size() >= 10);
        for (const auto& [line, filled] : p.plan) CHECK(filled.empty());
        for (std::string_view situation : engine::situation_ids()) {
            INFO(situation);
            CHECK((situation == "always" || p.situation(situation) != nullptr));
            CHECK(std::any_of(p.rules.begin(), p.rules.end(), [&](const engine::Rule& r) {
                return r.situation == situation && r.grade == engine::Grade::expected;
            }));
        }
        // An act that is expected must be allowed to be done: never expected and unsafe at once under one
        // situation.
        for (const engine::Rule& a : p.rules)
            for (const engine::Rule& b : p.rules)
                if (a.situation == b.situation && a.grade == engine::Grade::expected &&
                    b.grade == engine::Grade::unsafe)
                    for (const std::string& act : a.acts)
                        CHECK(std::find(b.acts.begin(), b.acts.end(), act) == b.acts.end());
    }
}
