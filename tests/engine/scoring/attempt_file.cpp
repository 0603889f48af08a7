// A whole attempt file: written, read, recomputed, compared.
#include "faultless_listeners.h"

#include "engine/sha256.h"
#include "sim/truth_version.h"

#include <nlohmann/json.hpp>

using namespace perfect;

namespace {

JudgedAttempt judged(const Listener& l) {
    Attempt a;
    a.header.id = "0123456789abcdef0123456789abcdef";
    a.header.person = "A-014";
    a.header.program = "test";
    a.scenario_text = l.scenario.text;
    a.protocol_text = l.protocol.text;
    a.events = l.events;
    auto out = judge_attempt(std::move(a), "test");
    if (!out.ok()) FAIL(in_one_line(out.faults().front()));
    REQUIRE(out.ok());
    return out.value();
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("An attempt written, read and computed again is the same in every figure", "[attempt file]") {
    for (const Listener& l : {faultless_c01(), faultless_l03()}) {
        const JudgedAttempt first = judged(l);
        const std::string text = write_attempt(first);
        const auto differ = replay(text, "attempt.json");
        REQUIRE(differ.ok());
        CHECK(differ.value().empty());
        const auto read = read_attempt(text, "attempt.json");
        REQUIRE(read.ok());
        CHECK(read->attempt.events == first.attempt.events);
        CHECK(read->attempt.scenario_text == l.scenario.text);
        CHECK(read->attempt.header.seed == 1);
        const auto again = judge_attempt(read->attempt, "attempt.json");
        REQUIRE(again.ok());
        CHECK(write_attempt(again.value()) == text);
        CHECK(hashes_of(again.value()).score == hashes_of(first).score);
        CHECK(hashes_of(again.value()).beats == hashes_of(first).beats);
    }
}

TEST_CASE("A changed figure, a changed verdict and a changed event are each named by the replay",
          "[attempt file]") {
    const std::string text = write_attempt(judged(faultless_c01()));
    const auto named = [&](const std::string& changed, const std::string& where) {
        const auto differ = replay(changed, "attempt.json");
        REQUIRE(differ.ok());
        REQUIRE_FALSE(differ->empty());
        INFO(differ->front());
        CHECK(differ->front().find(where) != std::string::npos);
    };
    named(replaced(text, "\"verdict\": \"met\"", "\"verdict\": \"missed\""), "score.aspects.site.verdict");
    auto json = nlohmann::ordered_json::parse(text);
    json["score"]["windows"][0]["true_bpm"] = json["score"]["windows"][0]["true_bpm"].get<double>() + 0.001;
    named(json.dump(), "score.windows[0].true_bpm");
    json = nlohmann::ordered_json::parse(text);
    for (auto& e : json["events"])
        if (e["do"] == "report") e["beats"] = e["beats"].get<int>() + 3;
    named(json.dump(), "score.");
}

TEST_CASE("A text that is not the one hashed, a newer format and a doubled key are refused",
          "[attempt file]") {
    const std::string text = write_attempt(judged(faultless_c01()));
    const auto refused = [&](const std::string& changed, const std::string& what) {
        const auto read = read_attempt(changed, "attempt.json");
        REQUIRE_FALSE(read.ok());
        INFO(in_one_line(read.faults().front()));
        CHECK(in_one_line(read.faults().front()).find(what) != std::string::npos);
    };
    refused(replaced(text, "138.4 bpm", "139.4 bpm"), "scenario.sha256");
    refused(replaced(text, "fullminute-attempt/1", "fullminute-attempt/2"), "newer program");
    refused(replaced(text, "\"seed\": 1,", "\"seed\": 1, \"seed\": 2,"), "twice");
    refused(replaced(text, "\"seed\": 1,", "\"seed\": 9007199254740992,"), "seed");
    refused("[]", "object");
    refused("{", "JSON");
}

TEST_CASE("An attempt made by another truth is said not to be recomputed, and is no difference of score",
          "[attempt file]") {
    const std::string text = write_attempt(judged(faultless_c01()));
    const std::string now = "\"truth\": " + std::to_string(sim::truth_version);
    const auto differ = replay(replaced(text, now, "\"truth\": 999"), "attempt.json");
    REQUIRE(differ.ok());
    REQUIRE(differ->size() == 1);
    CHECK(not_recomputed(differ.value()));
    CHECK(differ->front() ==
          "made by truth 999, this program is " + std::to_string(sim::truth_version) + ": not recomputed");
}

TEST_CASE("The file holds the header, both texts with their hashes, events one a line, and nine aspects",
          "[attempt file]") {
    const JudgedAttempt j = judged(faultless_c01());
    const std::string text = write_attempt(j);
    const auto json = nlohmann::ordered_json::parse(text);
    CHECK(json["format"] == "fullminute-attempt/1");
    CHECK(json["scenario"]["sha256"] == sha256_hex(j.scenario.text));
    CHECK(json["events"].size() == j.attempt.events.size());
    REQUIRE(json["score"]["aspects"].size() == 9);
    const char* names[] = {"site",     "whose",  "window", "count", "arithmetic",
                           "decision", "action", "record", "care"};
    for (std::size_t i = 0; i < 9; ++i) CHECK(json["score"]["aspects"][i]["aspect"] == names[i]);
    const auto& w = json["score"]["windows"][0];
    double sum = 0;
    // absent: no part of the sum
    for (const auto& term : w["terms"]) sum += term.is_null() ? 0 : term.get<double>();
    CHECK(sum == Approx(w["reported_bpm"].get<double>() - w["true_bpm"].get<double>()).margin(1e-9));
}

TEST_CASE("Scripts for the terminal: each is judged without a fault", "[attempt file]") {
    struct Row {
        const char* file;
        const char* stem;
    };
    for (const Row& row : {Row{"tests/attempts/c01-faultless.json", "c01-own-minute"},
                           Row{"tests/attempts/l03-faultless.json", "l03-a-long-night"},
                           Row{"scenarios/walk.json", "p03-after-the-end"}}) {
        CAPTURE(row.file);
        Listener l(row.stem);
        const auto events =
            read_events(file_text(std::string(FULLMINUTE_SOURCE_DIR) + "/" + row.file), row.file);
        REQUIRE(events.ok());
        l.events = events.value();
        const ScoreSheet sheet = l.sheet();
        INFO(told(sheet));
        CHECK_FALSE(sheet.primary.has_value());
        CHECK(sheet.critical_missed.empty());
    }
}

// Not run with the others: writes the scripts anew after the course has changed on purpose.
TEST_CASE("Writes the scripts for the terminal", "[.write-attempts]") {
    const auto write = [](const Listener& l, const std::string& file) {
        std::ofstream out(std::string(FULLMINUTE_SOURCE_DIR) + "/" + file, std::ios::binary);
        out << "[";
        for (std::size_t i = 0; i < l.events.size(); ++i)
            out << (i == 0 ? "" : ",\n ") << to_json(l.events[i]);
        out << "]\n";
        REQUIRE(out.good());
    };
    write(faultless_c01(), "tests/attempts/c01-faultless.json");
    write(faultless_l03(), "tests/attempts/l03-faultless.json");
    write(faultless_p03(), "scenarios/walk.json");
}
