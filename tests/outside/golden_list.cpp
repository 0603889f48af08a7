// The alarm that the truth has moved: beats, sound and scores of shipped labours against a committed list.
// The list is our own output on purpose: it says that nothing changed, never that it is right. Both
// compilers' builds compare against the same file. A new list: FULLMINUTE_GOLDEN_OUT=FILE, after
// sim::truth_version was bumped.
#include "engine/scoring/replay.h"
#include "engine/sha256.h"
#include "sim/beats/beat_train.h"
#include "sim/body/abdomen.h"
#include "sim/listening.h"
#include "sim/truth_version.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

namespace {

const std::string source = FULLMINUTE_SOURCE_DIR;

std::string text_of(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

std::string beats_sha256(const engine::Scenario& scenario, const sim::Patient& patient, sim::Seed seed) {
    const auto course = sim::course_over(patient, seed, {}, scenario.length);
    const std::int64_t end_us = sim::labour_time(scenario.length).us;
    const char* const who_words[] = {"fetal", "fetal2", "maternal"};
    const char* const kind_words[] = {"normal", "ectopic", "dropped"};
    std::vector<std::pair<sim::Beat, std::size_t>> rows;
    for (std::size_t who = 0; who < 3; ++who)
        for (const sim::Beat& beat : sim::beats_over(patient, seed, static_cast<sim::Who>(who), course))
            if (beat.at_us < end_us) rows.emplace_back(beat, who);
    std::stable_sort(rows.begin(), rows.end(),
                     [](const auto& a, const auto& b) { return a.first.at_us < b.first.at_us; });
    std::string csv = "t_s,who,kind\n";
    for (const auto& [beat, who] : rows) {
        char line[80];
        std::snprintf(line, sizeof line, "%lld.%06lld,%s,%s\n",
                      static_cast<long long>(beat.at_us / 1'000'000),
                      static_cast<long long>(beat.at_us % 1'000'000), who_words[who],
                      kind_words[static_cast<std::size_t>(beat.kind)]);
        csv += line;
    }
    return engine::sha256_hex(csv);
}

// 30 s to 35 s at the best place with the first instrument there is.
std::string sound_sha256(const engine::Scenario& scenario, const sim::Patient& patient, sim::Seed seed) {
    if (scenario.place.instruments.empty()) return "-";
    sim::Listening listening(patient, seed, sim::OutputMode::true_sound);
    sim::Change change;
    change.kind = sim::Change::Kind::take;
    change.instrument = scenario.place.instruments.front();
    listening.apply(change);
    change.kind = sim::Change::Kind::gel;
    listening.apply(change);
    const sim::BestSpot spot = sim::best_spot(patient, {}, change.instrument, 0);
    change.kind = sim::Change::Kind::place;
    change.x_cm = spot.x_cm;
    change.y_cm = spot.y_cm;
    listening.apply(change);
    std::vector<float> samples(static_cast<std::size_t>(sim::sample_rate) * 30);
    listening.render(samples);
    samples.resize(static_cast<std::size_t>(sim::sample_rate) * 5);
    listening.render(samples);
    return engine::sha256_hex(
        std::string(reinterpret_cast<const char*>(samples.data()), samples.size() * sizeof(float)));
}

std::string score_sha256(const std::string& scenario_text, const std::string& events_path, sim::Seed seed) {
    if (!std::filesystem::exists(events_path)) return "-";
    engine::Attempt attempt;
    attempt.header.seed = seed.value;
    attempt.scenario_text = scenario_text;
    attempt.protocol_text = text_of(source + "/scenarios/protocols/who-2018.toml");
    attempt.events = engine::read_events(text_of(events_path), events_path).value();
    const auto judged = engine::judge_attempt(std::move(attempt), events_path);
    return judged ? engine::hashes_of(*judged).score : "refused";
}

std::string list_now() {
    std::set<std::string> files;
    for (const auto& file : std::filesystem::directory_iterator(source + "/scenarios/library"))
        if (file.path().extension() == ".toml") files.insert(file.path().string());
    std::string list;
    for (const std::string& file : files) {
        const std::string text = text_of(file);
        const engine::Scenario scenario = engine::read_scenario(text, file).value();
        const std::string events = source + "/tests/attempts/" + scenario.id.substr(0, 3) + "-faultless.json";
        for (const sim::Seed seed : {sim::Seed{1}, sim::Seed{7}}) {
            const sim::Patient patient = scenario.patient(seed);
            list += scenario.id + " " + std::to_string(seed.value) + " " +
                    beats_sha256(scenario, patient, seed) + " " + sound_sha256(scenario, patient, seed) +
                    " " + (seed.value == 1 ? score_sha256(text, events, seed) : "-") + "\n";
        }
    }
    return list;
}

}  // namespace

TEST_CASE("beats, 5 s of sound and scores of every shipped labour are those of the golden list", "[golden]") {
    const std::string now = list_now();
    if (const char* out = std::getenv("FULLMINUTE_GOLDEN_OUT")) std::ofstream(out, std::ios::binary) << now;
    const std::string path = source + "/tests/golden/truth-" + std::to_string(sim::truth_version) + ".txt";
    const std::string was = text_of(path);
    INFO(path << ": missing or different from what this build makes. If a course, beat, sample or score was "
                 "meant to "
                 "change: bump sim::truth_version and write a new list.");
    REQUIRE_FALSE(was.empty());
    std::istringstream a(was), b(now);
    std::string line_was, line_now;
    while (std::getline(a, line_was)) {
        REQUIRE(std::getline(b, line_now));
        CHECK(line_now == line_was);
    }
    CHECK_FALSE(std::getline(b, line_now));  // a labour that the list does not know yet
}
