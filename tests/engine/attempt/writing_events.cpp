#include <catch2/catch.hpp>

#include "engine/attempt/event_table.h"
#include "small_labour.h"
#include "sim/random.h"

#include <nlohmann/json.hpp>

using namespace engine;

namespace {

// Any event the table allows, drawn from a seed.
Event drawn(std::uint64_t n) {
    std::uint64_t draw = 0;
    const auto below = [&](std::int64_t count) {
        const auto w =
            sim::philox({static_cast<std::uint32_t>(n), 7, static_cast<std::uint32_t>(draw++), 0}, {1, 2});
        return static_cast<std::int64_t>((std::uint64_t{w[0]} << 20 ^ w[1]) %
                                         static_cast<std::uint64_t>(count));
    };
    Event e;
    e.t.us = below(14'400'000'001);
    const DoWord& word = do_words()[static_cast<std::size_t>(below(25))];
    e.what = word.what;
    const std::int64_t chosen =
        word.fields.empty() ? 0 : below(static_cast<std::int64_t>(word.fields.size()));
    for (std::size_t i = 0; i < word.fields.size(); ++i) {
        const EventField& f = word.fields[i];
        const bool wanted =
            f.required || (word.one_needed && static_cast<std::int64_t>(i) == chosen) || below(2) == 0;
        if (!wanted || (word.what == Do::decide && f.key == "what")) continue;
        if (f.text != nullptr) {
            if (f.words.empty()) {
                const std::string tries[] = {"a", "\"quoted\"\\ and\nnew line\ttab",
                                             "\xc3\xa9t\xc3\xa9 \xe2\x80\x94 \xf0\x9f\x91\xb6", "\x01\x1f",
                                             "/* <b> */"};
                e.*f.text = f.kind == EventFieldKind::act_id ? "off_her_back" : tries[below(5)];
            } else
                e.*f.text =
                    f.words[static_cast<std::size_t>(below(static_cast<std::int64_t>(f.words.size())))];
        } else if (f.kind == EventFieldKind::word) {
            const auto from = static_cast<std::int64_t>(f.words_from);
            f.set(e, from + below(static_cast<std::int64_t>(f.words.size()) - from));
        } else if (!f.only.empty()) {
            f.set(e, f.only[static_cast<std::size_t>(below(static_cast<std::int64_t>(f.only.size())))]);
        } else {
            f.set(e, f.least + below(f.most - f.least + 1));
        }
    }
    // A decision that says nothing is no event: it is never written.
    if (e.what == Do::decide && e.decision == Decision{}) e.decision.unsure = true;
    return e;
}

}  // namespace

TEST_CASE("10000 drawn events of all 25 kinds come back the same after writing and reading", "[events]") {
    std::array<int, 25> kinds{};
    for (std::uint64_t n = 0; n < 10'000; ++n) {
        const Event e = drawn(n);
        const std::string line = to_json(e);
        INFO(line);
        REQUIRE(line.find('\n') == std::string::npos);
        const auto read = read_events("[" + line + "]", "");
        if (!read) FAIL(in_one_line(read.faults()[0]));
        REQUIRE(read->size() == 1);
        REQUIRE((*read)[0] == e);
        REQUIRE(to_json((*read)[0]) == line);
        ++kinds[static_cast<std::size_t>(e.what)];
    }
    for (int k : kinds) CHECK(k > 200);
}

TEST_CASE("what is written is JSON to another reader, with the same values", "[events]") {
    // nlohmann's own tree: it shares no code with the writer of numbers or the table.
    const auto e = small::events(R"([{"t": 4.25, "do": "place", "x": -6.01, "y": -7, "press_n": 6.5}])");
    const auto tree = nlohmann::json::parse(to_json(e[0]));
    CHECK(tree.at("t") == 4.25);
    CHECK(tree.at("do") == "place");
    CHECK(tree.at("x") == -6.01);
    CHECK(tree.at("y") == -7);
    CHECK(tree.at("press_n") == 6.5);
    CHECK(tree.size() == 5);
}

TEST_CASE("whole steps are written as the shortest decimal", "[events]") {
    CHECK(decimal(250'000, 6) == "0.25");
    CHECK(decimal(1, 6) == "0.000001");
    CHECK(decimal(14'400'000'000, 6) == "14400");
    CHECK(decimal(-601, 2) == "-6.01");
    CHECK(decimal(-5, 2) == "-0.05");
    CHECK(decimal(0, 2) == "0");
    CHECK(decimal(60, 0) == "60");
    CHECK(decimal(-10, 1) == "-1");
}

TEST_CASE("bytes that are no UTF-8 become the replacement sign, so that what was written can be read",
          "[events]") {
    Event e;
    e.what = Do::note;
    e.text = "caf\xe9";
    const auto read = read_events("[" + to_json(e) + "]", "");
    REQUIRE(read);
    CHECK((*read)[0].text == "caf\xef\xbf\xbd");
}
