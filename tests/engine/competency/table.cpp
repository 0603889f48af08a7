// A table read in parts is the table read whole; rates kept in thousandths are the rates.
#include "engine/competency/table.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace engine;

namespace {

const std::vector<ColumnRule> rules{{"who", true, true},
                                    {"rate", false, true, 0, 1000, false, Kept::thousandths},
                                    {"seconds", false, false, 1, 3600, true}};

// Whole lines, `lines` of them a part.
Outcome<Table> in_parts(const std::string& text, std::size_t lines) {
    std::size_t at = 0;
    std::string part;  // the reader may not keep anything of the part before
    return read_table(
        "t.csv",
        [&] {
            const std::size_t from = at;
            for (std::size_t n = 0; n < lines && at < text.size(); ++n) {
                const std::size_t end = text.find('\n', at);
                at = end == std::string::npos ? text.size() : end + 1;
            }
            part.assign(text, from, at - from);
            return std::string_view(part);
        },
        text.size(), rules);
}

const std::string four = "who,rate,seconds\nA-014,138.4,60\r\nA-020,0,15\n\nA-014,160.0005,60\nA-031,1000,6";

}  // namespace

TEST_CASE(
    "four rows in parts of one, two or all lines: 138.4, 0, 160.0005, 1000 bpm in thousandths, lines 2 3 5 6",
    "[table]") {
    for (const std::size_t lines : {1u, 2u, 3u, 9u}) {
        const Outcome<Table> t = in_parts(four, lines);
        REQUIRE(t.ok());
        CHECK(t->rows == 4);
        // half up
        CHECK((*t)["rate"].thousandths == std::vector<std::int32_t>{138'400, 0, 160'001, 1'000'000});
        CHECK((*t)["seconds"].numbers == std::vector<double>{60, 15, 60, 6});
        CHECK((*t)["who"].names == std::vector<std::string>{"A-014", "A-020", "A-031"});
        CHECK((*t)["who"].words == std::vector<unsigned>{0, 1, 0, 2});
        CHECK(t->fault(2, "rate", "x", "y").line == 5);
    }
}

TEST_CASE("a rate of 1000.001, of -1, of nothing and of a word is refused with its line, whole text or parts",
          "[table]") {
    for (const std::size_t lines : {1u, 9u}) {
        const Outcome<Table> t =
            in_parts("who,rate\nA-014,1000.001\nA-014,-1\nA-014,\nA-014,fast\nA-014,1e2\n", lines);
        REQUIRE_FALSE(t.ok());
        REQUIRE(t.faults().size() == 4);
        const char* found[] = {"`1000.001`", "`-1`", "nothing", "`fast`"};
        for (std::size_t i = 0; i < 4; ++i) {
            CHECK(t.faults()[i].line == static_cast<int>(i + 2));
            CHECK(t.faults()[i].found == found[i]);
            CHECK(t.faults()[i].allowed == "a number from 0 to 1000");
        }
    }
}

TEST_CASE("header only: no rows; nothing at all: refused", "[table]") {
    CHECK(in_parts("who,rate\n", 1)->rows == 0);
    CHECK(in_parts("", 1).faults()[0].found == "an empty file");
    CHECK(in_parts("\n\n", 1).faults()[0].found == "an empty file");
}

TEST_CASE(
    "a quoted word with a comma is not the plain cells it looks like; words that start alike stay apart",
    "[table]") {
    const std::string text =
        "who,rate,more\n\"A,7\",120,x\nA,7,x\nA-0,130,xxxxxxxx\nA-01,130,xxxxxxxx\nA-0,130,xxxxxxxx\n";
    const Outcome<Table> t = in_parts(text, 9);
    REQUIRE(t.ok());
    CHECK((*t)["who"].names == std::vector<std::string>{"A,7", "A", "A-0", "A-01"});
    CHECK((*t)["who"].words == std::vector<unsigned>{0, 1, 2, 3, 2});
    CHECK((*t)["rate"].thousandths == std::vector<std::int32_t>{120'000, 7'000, 130'000, 130'000, 130'000});
}
