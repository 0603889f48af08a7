// `fullminute passrule` as typed in a shell. Expected values are those of tests/engine/competency (SciPy).
#include <catch2/catch.hpp>

#include "tests/ui/terminal/run_program.h"

#include <nlohmann/json.hpp>

using nlohmann::json;

namespace {

Approx near(double printed) { return Approx(printed).epsilon(0).margin(1e-6); }

}  // namespace

TEST_CASE(
    "70 % against 90 %: 25 stations, 21 to pass; alone .902 and .090 pass, joined at worst .830 and .059",
    "[terminal]") {
    const Folder folder;
    const Run run = folder.run("passrule --json");
    REQUIRE(run.exit == 0);
    const json r = json::parse(run.out);
    CHECK(r["items"] == 25);
    CHECK(r["mark"] == 21);
    CHECK(r["normals"] == 14);
    CHECK(r["least_normals_passed"] == 11);
    CHECK(r["critical"] == 8);
    CHECK(r["false_pass"].get<double>() == near(.090471919));
    CHECK(r["false_fail"].get<double>() == near(1 - .902006379));
    CHECK(r["joined_false_pass"].get<double>() == near(.058811444));
    CHECK(r["joined_false_fail"].get<double>() == near(1 - .829833077));
    CHECK(r["curve"].size() == 15);
    CHECK(r["curve"][14]["joined"].get<double>() == near(1));
    const json kinder =
        json::parse(folder.run("passrule --wrong-normal 0.5 --wrong-critical 0.5 --json").out);
    CHECK(kinder["joined_false_fail"].get<double>() == near(1 - .885710367));
    const json once = json::parse(folder.run("passrule --no-redraw --json").out);
    CHECK(once["joined_false_fail"].get<double>() == near(1 - .409982010));
}

// Every number of right normals, critical and plain stations added up in Python: with 3 critical stations
// 34 and 28 (19 normals, 15 to pass: .060490 and .090568) are the fewest that keep to both.
TEST_CASE("the whole rule keeps to .10 and .10 from 34 stations on with 3 critical ones; with 8 in 25 never",
          "[terminal]") {
    const Folder folder;
    const json three = json::parse(folder.run("passrule --critical 3 --json").out);
    CHECK(three["items_for_the_whole_rule"] == 34);
    CHECK(three["mark_for_the_whole_rule"] == 28);
    const json so = json::parse(folder.run("passrule --items 34 --mark 28 --critical 3 --json").out);
    CHECK(so["joined_false_pass"].get<double>() == near(.060489506));
    CHECK(so["joined_false_fail"].get<double>() == near(.090567690));
    const json yearly = json::parse(folder.run("passrule --json").out);
    CHECK(yearly["items_for_the_whole_rule"].is_null());
    CHECK(yearly["absent"]["mark_for_the_whole_rule"].get<std::string>().find("one more to miss") !=
          std::string::npos);
}

TEST_CASE("four made-up candidates: a perfect ear passes, an all-guessing one does not; twice the same",
          "[terminal]") {
    const Folder folder;
    const Run run = folder.run("passrule --candidates 4 --lost 0 --guesses 0,1 --watch-sd 0 --json");
    INFO(run.err);
    REQUIRE(run.exit == 0);
    const json levels = json::parse(run.out)["tried"]["levels"];
    REQUIRE(levels.size() == 2);
    CHECK(levels[0]["joined"] == 1);
    CHECK(levels[0]["joined_low"].get<double>() == near(.510109));  // Wilson, 4 of 4: 1 / (1 + 1.96^2 / 4)
    CHECK(levels[1]["joined"] == 0);
    CHECK(levels[1]["share_right"].get<double>() < .2);
    CHECK(folder.run("passrule --candidates 4 --lost 0 --guesses 0,1 --watch-sd 0 --json").out == run.out);
}

TEST_CASE(
    "the yearly mix of 25: every task has its rates; a perfect candidate passes, one who misreads, forgets "
    "and takes "
    "hers does not",
    "[terminal]") {
    const Folder folder;
    const auto tried = [&](const std::string& sort) {
        const Run run =
            folder.run("passrule --quota year-check --candidates 1 --lost 0 --watch-sd 0 --json" + sort);
        INFO(run.err);
        REQUIRE(run.exit == 0);
        return json::parse(run.out)["tried"];
    };
    const json good = tried(""), bad = tried(" --misreads 1 --forgets 1 --takes-hers 1");
    CHECK(good["stations"] == 25);
    REQUIRE(good["levels"].size() == 1);
    std::vector<std::string> tasks;
    int stations = 0;
    for (const json& row : good["levels"][0]["by_task"]) {
        tasks.push_back(row["task"]);
        stations += row["stations"].get<int>();
    }
    CHECK(tasks == std::vector<std::string>{"count", "quick", "find", "tell_apart", "pattern", "labour"});
    CHECK(stations == 25);
    CHECK(good["levels"][0]["joined"] == 1);
    CHECK(good["levels"][0]["forgets"] == 0);
    const json& worst = bad["levels"][0];
    CHECK(worst["takes_hers"] == 1);
    CHECK(worst["joined"] == 0);
    CHECK(worst["by_task"][4]["right"] == 0);
    CHECK(worst["by_task"][5]["right"].get<double>() < 1);
}

TEST_CASE("rules that cannot be are refused in one line, exit 2", "[terminal]") {
    const Folder folder;
    const auto refused = [&](const std::string& words, const std::string& line) {
        const Run run = folder.run("passrule " + words);
        CHECK(run.exit == 2);
        CHECK(lines_of(run.err) == std::vector<std::string>{line});
    };
    refused("--must-fail 0.9 --must-pass 0.7",
            "--must-fail, --must-pass, found 0.9, 0.7, allowed: the level that must fail must be below the "
            "one that "
            "must pass");
    refused("--items 25", "--items, --mark, found 25, 0, allowed: both or neither");
    refused(
        "--items 25 --mark 26",
        "--mark, --least-normals, found 26, 11, allowed: the mark must be 1 to the number of stations, 25");
    refused("--normals 20 --critical 8",
            "--normals, --critical, found 20, 8, allowed: together at most the stations, 25");
    refused("--items 30 --mark 25 --candidates 2",
            "--quota, found 25 stations, allowed: as many as the rule has, 30");
    refused("--normals 13 --candidates 2", "--normals, found 13, allowed: as drawn, 14");
    for (const char* words : {"--candidates 2 --lost -1", "--lost -1"})
        refused(
            words,
            "--lost, --guesses, --pull, --watch-sd, found -1, 0, 0, 0.2, allowed: the loss must be 0 to 10 "
            "times the usual");
    refused("--candidates 1 --misreads 2",
            "--misreads, --forgets, --late, --takes-hers, found 2, 0, 0, 0, allowed: what is misread must be "
            "a share, "
            "0 to 1");
    refused("--lost 0,0.1,0.2,0.3,0.4,0.5,0.6,0.7 --guesses 0,0.1,0.2,0.3,0.4,0.5,0.6,0.7",
            "levels, found 64, allowed: at most 60");
    CHECK(folder.run("passrule --quota nowhere --candidates 1").exit == 2);
}

TEST_CASE("an option below its range is refused with it; a quota that is none, too, without candidates",
          "[terminal]") {
    const Folder folder;
    for (const char* words :
         {"--items 0", "--mark 0", "--items 0 --mark 0", "--items -3 --mark 2", "--normals -5",
          "--critical -1", "--least-normals -2", "--items 501 --mark 400"}) {
        const Run run = folder.run(std::string("passrule ") + words);
        INFO(words << ": " << run.err);
        CHECK(run.exit == 2);
        CHECK(run.out.empty());
        REQUIRE(lines_of(run.err).size() == 1);
        CHECK(run.err.find("allowed: ") != std::string::npos);
        CHECK(run.err.find(" to 500") != std::string::npos);
    }
    CHECK(folder.run("passrule --quota nosuch").exit == 2);
    CHECK(folder.run("passrule --items 10 --mark 8 --normals 0 --critical 0 --least-normals 0").exit == 0);
}
