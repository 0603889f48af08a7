#include <catch2/catch.hpp>

#include "engine/attempt/event_table.h"

#include <fstream>
#include <sstream>

using namespace engine;

namespace {

std::string page() {
    std::ifstream file(FULLMINUTE_SOURCE_DIR "/scenarios/FORMAT.md", std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

}  // namespace

TEST_CASE("the format page's table of events is the reader's own table, row by row", "[events]") {
    const std::string text = page();
    const std::size_t section = text.find("\n## Attempts and events\n");
    REQUIRE(section != std::string::npos);
    const std::size_t from = text.find("| do | key |", section);
    REQUIRE(from != std::string::npos);
    const std::size_t to = text.find("\n\n", from);
    CHECK(text.substr(from, to + 1 - from) == events_table_markdown());
}

TEST_CASE("the help has all 25 words and every key of each", "[events]") {
    const std::string help = events_help();
    for (const DoWord& word : do_words()) {
        CHECK(help.find(std::string(word.name) + ": ") != std::string::npos);
        for (const EventField& f : word.fields)
            CHECK(help.find("    " + std::string(f.key)) != std::string::npos);
        CHECK_FALSE(word.means.empty());
    }
}
