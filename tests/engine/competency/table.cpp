// A table read in parts is the table read whole; rates kept in thousandths are the rates.
#include "engine/competency/table.h"

#include <catch2/catch.hpp>
#include <rapidcheck.h>

#include <algorithm>
#include <string>
#include <string_view>
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

namespace {

const std::vector<ColumnRule> counts{{"who", true, true},
                                     {"rate", false, true, 0, 1000, false, Kept::thousandths},
                                     {"window_s", false, false, 1, 3600, true, Kept::thousandths}};

// 400 rows of 120.5 bpm in a minute by, with one line of another kind.
std::string with_line(int row, const std::string& line) {
    std::string text = "who,rate,more,window_s\n";
    for (int i = 0; i < 400; ++i)
        text += i == row ? line + "\n"
                         : "A-0" + std::to_string(i % 20 / 10) + std::to_string(i % 10) + ",120.5,x,60\n";
    return text;
}

}  // namespace

TEST_CASE("any 400 rows: words, rates of none to five decimals, lines and quotes are read as they were made",
          "[table]") {
    CHECK(rc::check([] {
        const std::string end = *rc::gen::element<std::string>("\n", "\r\n");
        const int most_decimals = *rc::gen::inRange(0, 6), least_decimals = *rc::gen::inRange(0, 2);
        const int odd_rows = *rc::gen::element(0, 0, 1, 3, 50);  // about
        std::string text = "who,rate,more,window_s" + end;
        std::vector<std::int32_t> rates, windows;
        std::vector<std::string> who;
        std::vector<int> lines;
        int line = 1;
        for (int i = 0; i < 400; ++i) {
            const int odd = *rc::gen::inRange(0, 400) < odd_rows ? *rc::gen::inRange(0, 7) : 7;
            ++line;
            if (odd == 0) text += end, ++line;  // an empty line
            const int rate = *rc::gen::inRange(0, 1001);
            std::string written = std::to_string(rate);
            std::int32_t thousandths = rate * 1000;
            const int decimals =
                rate == 1000 ? 0 : std::min(most_decimals, *rc::gen::inRange(least_decimals, 6));
            if (decimals > 0) written += '.';
            for (int d = 0, worth = 100; d < decimals; ++d, worth /= 10) {
                const int digit = *rc::gen::inRange(0, d == 3 ? 5 : 10);  // the fourth rounds down
                written += static_cast<char>('0' + digit);
                thousandths += worth * digit;
            }
            if (odd == 1) written = "0" + written;
            if (odd == 2) written = '"' + written + '"';
            const auto length = static_cast<std::size_t>(*rc::gen::inRange(1, 12));
            std::string name = std::string(length, 'b') + static_cast<char>('a' + i % 3), cell = name;
            if (odd == 3) cell = name += " c";
            if (odd == 4) cell = '"' + (name += ",\n") + '"';
            if (odd == 5) cell = '"' + name + '"';
            rates.push_back(thousandths);
            who.push_back(name);
            windows.push_back(*rc::gen::element(6, 15, 60, 3600));
            lines.push_back(line);
            line += odd == 4;
            text += cell + "," + written + (odd == 6 ? ",\"x,y\"," : ",x,") + std::to_string(windows.back()) +
                    end;
        }
        const Outcome<Table> t = read_table("t.csv", text, counts);
        RC_ASSERT(t.ok());
        RC_ASSERT(t->rows == 400u);
        RC_ASSERT((*t)["rate"].thousandths == rates);
        RC_ASSERT((*t)["who"].words.size() == 400u);
        for (std::size_t row = 0; row < 400; ++row) {
            RC_ASSERT((*t)["who"].names[(*t)["who"].words[row]] == who[row]);
            RC_ASSERT((*t)["window_s"].thousandths[row] == windows[row] * 1000);
            RC_ASSERT(t->fault(row, "rate", "x", "y").line == lines[row]);
        }
    }));
}

TEST_CASE("one line in 400 that is not as it should be: its own fault, at its own line", "[table]") {
    struct Wrong {
        const char *line, *what, *found;
    };
    for (const Wrong& wrong :
         {Wrong{"A-014,12a,x,60", "rate", "`12a`"},
          Wrong{"A-014,,x,60", "rate", "nothing"},
          Wrong{"A-014,-1,x,60", "rate", "`-1`"},
          Wrong{"A-014,1000.1,x,60", "rate", "`1000.1`"},
          Wrong{"A-014,1.2.3,x,60", "rate", "`1.2.3`"},
          Wrong{"A-014,.,x,60", "rate", "`.`"},
          Wrong{"A-014,1\xae"
                "2,x,60",
                "rate",
                "`1\\xAE"
                "2`"},
          Wrong{"A-014,1 2,x,60", "rate", "`1 2`"},
          Wrong{"A-014,1:2,x,60", "rate", "`1:2`"},
          Wrong{"A-014,12345678,x,60", "rate", "`12345678`"},
          Wrong{"A-014,4294968,x,60", "rate", "`4294968`"},  // 1,000 times it is little more than 2^32
          Wrong{"A-014,4294968.5,x,60", "rate", "`4294968.5`"},
          Wrong{"A-014,1 2,x,60 ", "rate", "`1 2`"},
          Wrong{"A-014,.5.,x,60", "rate", "`.5.`"},
          Wrong{"A-014,120.,x,", "window_s", "nothing"},
          Wrong{"A-014,120.5,x,0", "window_s", "`0`"},
          Wrong{"A-014,120.5,x,60.5", "window_s", "`60.5`"},
          Wrong{"A-014,120.5,x,3601", "window_s", "`3601`"},
          Wrong{",120.5,x,60", "who", "nothing"},
          Wrong{"A-014,120.5,60", "row", "3 cells"},
          Wrong{"A-014,120.5,x,60,7", "row", "5 cells"}})
        for (const int row : {0, 3, 199, 399}) {
            CAPTURE(wrong.line, row);
            const Outcome<Table> t = read_table("t.csv", with_line(row, wrong.line), counts);
            REQUIRE_FALSE(t.ok());
            CHECK(t.faults().front().line == row + 2);
            CHECK(std::any_of(t.faults().begin(), t.faults().end(), [&](const Fault& fault) {
                return fault.line == row + 2 && fault.what == wrong.what && fault.found == wrong.found;
            }));
            for (const Fault& fault : t.faults()) CHECK(fault.line == row + 2);
        }
}

TEST_CASE("a cell of 5,000 letters, a row of a lone CR and two lines that share their cells out wrongly",
          "[table]") {
    const std::string longest(5'000, 'z');
    const Outcome<Table> t = read_table("t.csv", with_line(7, "A-014,130," + longest + ",60"), counts);
    REQUIRE(t.ok());
    CHECK(t->rows == 400);
    CHECK((*t)["rate"].thousandths[7] == 130'000);
    CHECK((*t)["rate"].thousandths[399] == 120'500);
    // eight cells in two lines, three and five
    for (const char* lines : {"A-014,130,x\n60,A-014,130,x,60", "A-014,130\nx,60", "A-014,130\rx,60"}) {
        const Outcome<Table> shared = read_table("t.csv", with_line(7, lines), counts);
        REQUIRE_FALSE(shared.ok());
        CHECK(shared.faults().front().line == 9);
    }
    const Outcome<Table> old = read_table("t.csv", with_line(7, "A-014,130,x,60\rA-015,131,x,60"), counts);
    REQUIRE(old.ok());
    CHECK(old->rows == 401);
    CHECK((*old)["rate"].thousandths[8] == 131'000);
    CHECK(old->fault(400, "rate", "x", "y").line == 402);
}
