#include <catch2/catch.hpp>

#include "engine/attempt/event_table.h"
#include "small_labour.h"

#include <set>

using namespace engine;

namespace {

// Every fault of a text, one line each.
std::vector<std::string> faults_of(const std::string& json) {
    std::vector<std::string> lines;
    const auto read = read_events(json, "e.json");
    if (!read)
        for (const Fault& f : read.faults()) lines.push_back(in_one_line(f));
    return lines;
}

// The only fault; fails when there is another number of them.
std::string fault_of(const std::string& json) {
    const auto lines = faults_of(json);
    INFO(json);
    for (const auto& l : lines) UNSCOPED_INFO(l);
    REQUIRE(lines.size() == 1);
    return lines[0];
}

using Catch::Contains;
using Catch::StartsWith;

}  // namespace

TEST_CASE("the events file of the format page, 13 events, is accepted as it stands", "[events]") {
    // The example of the format page, written independently of this reader.
    const auto read = small::events(R"([{"t": 2.0, "do": "take", "what": "horn"},
 {"t": 4.5, "do": "place", "x": 6.0, "y": -7.0, "press_n": 6},
 {"t": 5.0, "do": "hand", "hand": "left", "on": "wrist"},
 {"t": 20.0, "do": "report_pulse", "bpm": 84},
 {"t": 30.0, "do": "start_window"}, {"t": 30.4, "do": "tap"}, {"t": 90.0, "do": "stop_window"},
 {"t": 95.0, "do": "report", "beats": 139, "bpm": 139},
 {"t": 99.0, "do": "lift"},
 {"t": 100.0, "do": "decide", "source": "baby", "baseline": "normal", "around": "not_listened"},
 {"t": 103.0, "do": "record", "bpm": 139, "when": "between", "pulse_bpm": 84},
 {"t": 104.0, "do": "act", "what": "continue_routine"},
 {"t": 110.0, "do": "finish"}])");
    REQUIRE(read.size() == 13);
    CHECK(read[1].t.us == 4'500'000);
    CHECK(read[1].y_cm == -7.0);
    CHECK(read[5].t.us == 30'400'000);
    CHECK(read[7].beats == 139);
    CHECK(read[9].decision.source == SourceIs::baby);
    CHECK(read[9].decision.around == Around::not_listened);
    CHECK(read[9].decision.rhythm == RhythmIs::not_said);
    CHECK(read[10].when == "between");
    CHECK_FALSE(check_order(small::labour(), small::protocol(), read, "e.json"));
}

TEST_CASE("the events of a whole attempt text are found under `events`, whatever stands around them",
          "[events]") {
    const auto read = small::events(
        R"({"format": "fullminute-attempt/1", "scenario": {"text": "x", "events": [1, 2]}, "a": [{"t": 1}],
            "events": [{"t": 1, "do": "finish"}], "score": {"aspects": []}})");
    REQUIRE(read.size() == 1);
    CHECK(read[0].what == Do::finish);
}

TEST_CASE("reading rounds t to 1 us, places to 0.01 cm, force to 0.01 N, angles to 0.1 degree", "[events]") {
    const auto e =
        small::events(R"([{"t": 1.2345678, "do": "place", "x": 1.236, "y": -7.004, "press_n": 5.128},
                                     {"t": 2, "do": "tilt", "deg": 12.34, "towards": 359.86}])");
    CHECK(e[0].t.us == 1'234'568);
    CHECK(e[0].x_cm == 1.24);
    CHECK(e[0].y_cm == -7.0);
    CHECK(e[0].press_n == 5.13);
    CHECK(e[1].tilt_deg == 12.3);
    CHECK(e[1].tilt_towards_deg == 359.9);
}

TEST_CASE("a doubled key is refused, not silently taken", "[events]") {
    CHECK_THAT(fault_of(R"([{"t": 1, "do": "report", "beats": 139, "beats": 140}])"),
               StartsWith("e.json:1: events[0].beats, found twice"));
    CHECK_THAT(fault_of("{\"events\": [],\n \"events\": []}"), StartsWith("e.json:2: events, found twice"));
}

TEST_CASE("an unknown key names the keys there are", "[events]") {
    CHECK_THAT(
        fault_of(R"([{"t": 1, "do": "hand", "hand": "left", "on": "wrist", "at": 3}])"),
        Contains("events[0].at") && Contains("unknown key of `hand`") && Contains("allowed: hand, on"));
    CHECK_THAT(fault_of(R"([{"t": 1, "do": "tap", "x": 3}])"), Contains("no key beside t and do"));
}

TEST_CASE("an unknown or missing do word is refused with the list of 25", "[events]") {
    CHECK(do_words().size() == 25);
    CHECK_THAT(fault_of(R"([{"t": 1, "do": "listen"}])"),
               Contains("events[0].do, found listen") && Contains("take, place, move") && Contains("finish"));
    CHECK_THAT(fault_of(R"([{"t": 1}])"), Contains("events[0].do, found nothing"));
    CHECK_THAT(fault_of(R"([{"t": 1, "do": 4}])"), Contains("events[0].do, found 4"));
}

TEST_CASE("time going back is refused with its index, its line and the time before", "[events]") {
    CHECK_THAT(
        fault_of(
            "[{\"t\": 2, \"do\": \"gel\"},\n{\"t\": 3.5, \"do\": \"gel\"},\n{\"t\": 3.25, \"do\": \"gel\"}]"),
        StartsWith("e.json:3: events[2].t, found 3.25, allowed: 3.5 or more"));
    CHECK(small::events(R"([{"t": 2, "do": "gel"}, {"t": 2, "do": "gel"}])").size() == 2);
}

TEST_CASE("values of the wrong kind are refused with what is allowed", "[events]") {
    CHECK_THAT(fault_of(R"([{"t": "1", "do": "gel"}])"),
               Contains("events[0].t, found \"1\"") && Contains("0 to 14400"));
    CHECK_THAT(fault_of(R"([{"t": 1, "do": "report", "beats": 139.5}])"), Contains("a whole number"));
    CHECK_THAT(fault_of(R"([{"t": 1, "do": "report", "beats": "139"}])"), Contains("found \"139\""));
    CHECK_THAT(fault_of(R"([{"t": 1, "do": "report", "beats": null}])"), Contains("found null"));
    CHECK_THAT(fault_of(R"([{"t": 1, "do": "place", "x": [1], "y": 0}])"), Contains("found an array"));
    CHECK_THAT(fault_of(R"([{"t": 1, "do": "place", "x": {"a": 1}, "y": 0}])"), Contains("found an object"));
    CHECK_THAT(fault_of(R"([{"t": 1, "do": "decide", "unsure": "yes"}])"), Contains("true, false"));
    CHECK_THAT(fault_of(R"([{"t": 1, "do": "take", "what": "trumpet"}])"),
               Contains("found trumpet, allowed: none, horn, bell, diaphragm, doppler"));
    CHECK_THAT(fault_of(R"([{"t": 1, "do": "decide", "source": "not_said"}])"),
               Contains("allowed: baby, mother"));
    CHECK_THAT(fault_of(R"([{"t": 1, "do": "act", "what": "Drop Table"}])"), Contains("a-z, 0-9 and _"));
    CHECK_THAT(fault_of(R"([{"t": 1, "do": "record", "when": "sometimes"}])"),
               Contains("between, during, after"));
    CHECK_THAT(fault_of(R"([{"t": 1, "do": "note", "text": 7}])"), Contains("events[0].text, found 7"));
    CHECK_THAT(fault_of(R"([{"t": 1, "do": "note", "text": "a\u0000b"}])"), Contains("events[0].text"));
    CHECK_THAT(fault_of(R"([4])"), Contains("events[0], found 4"));
    CHECK_THAT(fault_of(R"([[1, 2]])"), Contains("events[0], found an array"));
}

TEST_CASE("every number is refused one step outside its range and taken at both ends", "[events]") {
    int tried = 0;
    for (const DoWord& word : do_words())
        for (const EventField& field : word.fields) {
            if (field.kind != EventFieldKind::number) continue;
            const auto with = [&](std::int64_t steps) {
                std::string s = R"([{"t": 0, "do": ")" + std::string(word.name) + "\"";
                for (const EventField& other : word.fields)
                    if (other.required || other.key == field.key)
                        s += ", \"" + std::string(other.key) +
                             "\": " + decimal(other.key == field.key ? steps : other.least, other.decimals);
                return s + "}]";
            };
            INFO(word.name << "." << field.key);
            CHECK(faults_of(with(field.least)).empty());
            CHECK(faults_of(with(field.most)).empty());
            CHECK(faults_of(with(field.least - 1)).size() == 1);
            CHECK(faults_of(with(field.most + 1)).size() == 1);
            ++tried;
        }
    CHECK(tried == 17);  // counted by hand on the format page
}

TEST_CASE("the length meant is 60, 30, 15, 10 or 6 s and no other", "[events]") {
    for (const char* plan : {"60", "30", "15", "10", "6"})
        CHECK(faults_of(std::string(R"([{"t": 1, "do": "start_window", "plan_s": )") + plan + "}]").empty());
    CHECK_THAT(fault_of(R"([{"t": 1, "do": "start_window", "plan_s": 20}])"),
               Contains("found 20, allowed: 60, 30, 15, 10, 6"));
}

TEST_CASE("a needed key left out is named; a report without any number is refused", "[events]") {
    CHECK_THAT(fault_of(R"([{"t": 1, "do": "place", "x": 2}])"),
               Contains("events[0].y, found nothing, allowed: -18 to 20"));
    CHECK_THAT(fault_of(R"([{"do": "gel"}])"), Contains("events[0].t, found nothing"));
    for (const char* word : {"report", "record", "decide", "report_contractions", "handover"})
        CHECK_THAT(fault_of(R"([{"t": 1, "do": ")" + std::string(word) + "\"}]"),
                   Contains("at least one of"));
}

TEST_CASE("all faults of a file are told in one go, with their lines", "[events]") {
    const auto lines = faults_of(
        "[{\"t\": 1, \"do\": \"place\", \"x\": 99, \"y\": 1},\n"
        " {\"t\": 2, \"do\": \"nothing\"},\n"
        " {\"t\": 1, \"do\": \"report\", \"bpm\": 900}]");
    REQUIRE(lines.size() == 4);
    CHECK_THAT(lines[0], StartsWith("e.json:1: events[0].x, found 99, allowed: -16 to 16"));
    CHECK_THAT(lines[1], StartsWith("e.json:2: events[1].do"));
    CHECK_THAT(lines[2], StartsWith("e.json:3: events[2].t"));
    CHECK_THAT(lines[3], StartsWith("e.json:3: events[2].bpm, found 900, allowed: 0 to 400"));
}

TEST_CASE("text that is no JSON, or has no events, is one fault with its line", "[events]") {
    CHECK_THAT(fault_of("[{\"t\": 1,\n \"do\": }]"), StartsWith("e.json:2: not JSON"));
    CHECK_THAT(fault_of(""), Contains("not JSON"));
    CHECK_THAT(fault_of("[{\"t\": 1, \"do\": \"gel\"}"), Contains("not JSON"));
    CHECK_THAT(fault_of("[{\"t\": 1e999, \"do\": \"gel\"}]"), Contains("not JSON"));
    CHECK_THAT(fault_of("[{\"t\": 1, \"do\": \"note\", \"text\": \"\xff\"}]"), Contains("not JSON"));
    CHECK_THAT(fault_of("7"), Contains("a JSON array of events"));
    CHECK_THAT(fault_of("{\"event\": []}"), Contains("no array"));
    CHECK_THAT(fault_of("{\"events\": {}}"), Contains("events"));
    CHECK_THAT(fault_of("{\"events\": 3}"), Contains("events"));
    CHECK(faults_of("[]").empty());
    CHECK_FALSE(faults_of(std::string(200'000, '[')).empty());
}

TEST_CASE("one word fills one part of the decision: 13 words", "[events]") {
    const auto said = [](const std::string& word) {
        return small::events(R"([{"t": 1, "do": "decide", "what": ")" + word + "\"}]")[0].decision;
    };
    for (const char* w : {"normal", "fast", "slow", "rising"}) CHECK(name_of(said(w).baseline) == w);
    for (const char* w : {"mother", "doubtful", "not_found", "two_babies"})
        CHECK(name_of(said(w).source) == w);
    for (const char* w : {"no_slowing", "slows_in_contraction", "slow_after_contraction", "stays_down"})
        CHECK(name_of(said(w).around) == w);
    CHECK(said("irregular").rhythm == RhythmIs::irregular);
    CHECK_THAT(fault_of(R"([{"t": 1, "do": "decide", "what": "fast", "baseline": "slow"}])"),
               Contains("either one word or the parts"));
}

TEST_CASE("what an event does to body or sound is one change, or none", "[events]") {
    const auto e = small::events(
        R"([{"t": 1, "do": "place", "x": 6, "y": -7}, {"t": 2, "do": "act", "what": "off_her_back"},
        {"t": 3, "do": "act", "what": "inform_senior"}, {"t": 4, "do": "tap"}, {"t": 5, "do": "skip", "to": 900},
        {"t": 6, "do": "hand", "hand": "right", "on": "belly"}])");
    REQUIRE(change_of(e[0]));
    CHECK(change_of(e[0])->press_n == 6.0f);
    CHECK(change_of(e[0])->at_us == 1'000'000);
    REQUIRE(change_of(e[1]));
    CHECK(change_of(e[1])->act == sim::Act::off_her_back);
    CHECK_FALSE(change_of(e[2]));
    CHECK_FALSE(change_of(e[3]));
    CHECK(change_of(e[4])->skip_to_us == 900'000'000);
    CHECK(change_of(e[5])->hand == sim::Hand::right);
    CHECK(change_of(e[5])->on == sim::On::belly);
}
