// A quota file: what it says, what is refused, with line and what is allowed.
#include "engine/drawing/quota.h"
#include "engine/drawing/quota_table.h"
#include "tests/engine/scenario/lines_of.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <fstream>

using namespace engine;

namespace {

const std::string right_quota = R"(format = "fullminute-quota/1"
id = "a-set"
title = "A set"
scenarios = 20
normal = "60 %"

[tasks]
count = "50 %"
labour = "50 %"
)";

std::vector<std::string> quota_faults(const std::string& text) {
    return lines_of(read_quota(text, "a-set.toml").faults());
}

}  // namespace

TEST_CASE("A quota is read: 20 scenarios, 60 % normal, half counts, half labours", "[quota]") {
    const Quota q = read_quota(right_quota, "a-set.toml").value();
    CHECK(q.scenarios == 20);
    CHECK(q.normal == 60);
    CHECK(q.boundary == 0);
    CHECK(q.of(Axis::task).given);
    CHECK(q.of(Axis::task).line == 7);
    CHECK(q.of(Axis::task).percent[task::count] == 50);
    CHECK(q.of(Axis::task).percent[task::labour] == 50);
    CHECK(q.of(Axis::task).percent[task::find] < 0);
    CHECK_FALSE(q.of(Axis::level).given);
    CHECK(q.sha256.size() == 64);
}

TEST_CASE("Faults of a quota: all at once, with line, what was found, what is allowed", "[quota]") {
    const auto several = quota_faults(R"(format = "fullminute-quota/1"
id = "a-set"
title = "A set"
scenarios = 0
normal = 60

[tasks]
cuont = "50 %"
labour = "120 %"

[levels]
6 = "100 %"
)");
    REQUIRE(several.size() == 5);
    CHECK(several[0] == "a-set.toml:4: scenarios, found 0, allowed: a whole number, 1 to 2000");
    CHECK(several[1].find("a-set.toml:5: normal, found 60, a number without its unit") == 0);
    CHECK(several[2].find(
              "a-set.toml:8: tasks.cuont, found an unknown key, allowed: did you mean `count`?") == 0);
    CHECK(several[3] == "a-set.toml:9: tasks.labour, found \"120 %\", allowed: 0 % to 100 %");
    CHECK(several[4].find("a-set.toml:12: levels.6, found an unknown key") == 0);
}

TEST_CASE(
    "Shares of a section: 90 % together is refused at the line of the section; variants may leave a rest",
    "[quota]") {
    const auto less = quota_faults(with(right_quota, "labour = \"50 %\"", "labour = \"40 %\""));
    REQUIRE(less.size() == 1);
    CHECK(less[0] == "a-set.toml:7: tasks, found 90 % together, allowed: 100 % together");
    CHECK(quota_faults(right_quota + "[variants]\npreterm = \"10 %\"\n").empty());
    const auto more = quota_faults(right_quota + "[variants]\npreterm = \"60 %\"\nthin_green = \"50 %\"\n");
    REQUIRE(more.size() == 1);
    CHECK(more[0] == "a-set.toml:10: variants, found 110 % together, allowed: at most 100 % together");
}

TEST_CASE("Causes and what answers to nothing: read with their lines; half a section, or 120 %, is refused",
          "[quota]") {
    const Quota plain = read_quota(right_quota, "a-set.toml").value();
    CHECK(plain.to_nothing == Approx(33.33).margin(0.01));
    CHECK(plain.to_nothing_line == 0);
    const std::string asked =
        with(right_quota, "normal = \"60 %\"", "normal = \"60 %\"\nto_nothing = \"50 %\"");
    const Quota q =
        read_quota(asked + "[causes]\nfever = \"75 %\"\nnone_found = \"25 %\"\n", "a-set.toml").value();
    CHECK(q.to_nothing == 50);
    CHECK(q.to_nothing_line == 6);
    CHECK(q.of(Axis::cause).line == 11);
    CHECK(q.of(Axis::cause).percent[cause::fever] == 75);
    CHECK(q.of(Axis::cause).percent[cause::bleeding] < 0);
    const auto half = quota_faults(right_quota + "[causes]\nfever = \"50 %\"\n");
    REQUIRE(half.size() == 1);
    CHECK(half[0] == "a-set.toml:10: causes, found 50 % together, allowed: 100 % together");
    const auto much = quota_faults(with(asked, "\"50 %\"\n\n", "\"120 %\"\n\n"));
    REQUIRE(much.size() == 1);
    CHECK(much[0] == "a-set.toml:6: to_nothing, found \"120 %\", allowed: 0 % to 100 %");
}

TEST_CASE(
    "Rates of a class: 84 to 104 bpm is read with its line; 3 bpm wide, one value and 300 bpm are refused",
    "[quota]") {
    const Quota q = read_quota(right_quota + "[rates]\nslow = \"84 to 104 bpm\"\n", "a-set.toml").value();
    CHECK(q.slow_rate == RateRange{84, 104, 11});
    CHECK_FALSE(q.fast_rate.asked());
    const auto narrow = quota_faults(
        right_quota + "[rates]\nslow = \"84 to 87 bpm\"\nfast = \"170 bpm\"\nnormal = \"300 bpm\"\n");
    REQUIRE(narrow.size() == 3);
    CHECK(narrow[0] ==
          "a-set.toml:11: rates.slow, found 84 bpm to 87 bpm, allowed: a range 4 bpm wide or more");
    CHECK(narrow[1] ==
          "a-set.toml:12: rates.fast, found 170 bpm to 170 bpm, allowed: a range 4 bpm wide or more");
    CHECK(narrow[2].find("a-set.toml:13: rates.normal, found \"300 bpm\"") == 0);
}

TEST_CASE("A quota of another kind, or by another name than its file, is refused", "[quota]") {
    CHECK(quota_faults(with(right_quota, "quota/1", "scenario/1")).size() == 1);
    CHECK(quota_faults(with(right_quota, "quota/1", "quota/2"))[0].find("newer program") !=
          std::string::npos);
    CHECK(quota_faults(with(right_quota, "\"a-set\"", "\"b-set\""))[0].find("a-set") != std::string::npos);
    CHECK(quota_faults(with(right_quota, "[tasks]", "[[tasks]]")).size() >= 1);
    CHECK_FALSE(read_quota_file("/nowhere/at-all.toml").ok());
}

// Largest remainders, worked by hand: 7 of 33.4, 33.3, 33.3 % are 2.338, 2.331, 2.331 -> the first gets the
// one left.
TEST_CASE("Shares in whole numbers sum to all: a third each of 7 is 3, 2, 2; 62.5 % of 24 is 15", "[quota]") {
    CHECK(in_whole_numbers({33.4, 33.3, 33.3}, 7) == std::vector<int>{3, 2, 2});
    CHECK(in_whole_numbers({62.5, 37.5}, 24) == std::vector<int>{15, 9});
    CHECK(in_whole_numbers({50, 50}, 1) == std::vector<int>{1, 0});
    CHECK(in_whole_numbers({10, 30, 60}, 10) == std::vector<int>{1, 3, 6});
}

// Writes the tables into the page again after a row was added: test_engine_drawing "[.write-format-page]".
TEST_CASE("FORMAT.md's quota tables are written again", "[.write-format-page]") {
    std::string page = bytes_at("scenarios/FORMAT.md");
    const std::size_t from = page.find("### Top of a quota"), until = page.find("### How quotas are met");
    REQUIRE(from != std::string::npos);
    REQUIRE(until != std::string::npos);
    page.replace(from, until - from, quota_format_page());
    std::ofstream(FULLMINUTE_SOURCE_DIR "/scenarios/FORMAT.md", std::ios::binary) << page;
}

TEST_CASE("FORMAT.md holds every row of the quota table", "[quota]") {
    const std::string page = quota_format_page();
    CHECK(page.size() > 3000);
    CHECK(bytes_at("scenarios/FORMAT.md").find(page) != std::string::npos);
    std::size_t rows = 0;
    for (std::size_t at = page.find("\n| `"); at != std::string::npos; at = page.find("\n| `", at + 1))
        ++rows;
    CHECK(rows == quota_table().size());
}

TEST_CASE("The shipped quotas are without a fault", "[quota]") {
    for (const char* id : {"first-week", "year-check"}) {
        std::string path = FULLMINUTE_SOURCE_DIR "/scenarios/quotas/";
        path.append(id).append(".toml");
        CHECK(lines_of(read_quota_file(path).faults()).empty());
    }
}
