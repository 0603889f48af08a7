// Tables and options `fullminute figures` refuses: one line a fault, with place, value and what is allowed.
#include <catch2/catch.hpp>

#include "tests/ui/terminal/run_program.h"

TEST_CASE("every fault of a table is named with its line, nothing is printed, exit 2", "[terminal]") {
    const Folder folder;
    folder.write("bad.csv", "truth,typed\n140,138\n150,15O\n,131\n1,2,3\n\n160,inf\n\"a\nb\",1\n170,x\n");
    const Run run = folder.run("figures bad.csv --of agreement --json");
    CHECK(run.exit == 2);
    CHECK(run.out.empty());
    CHECK(lines_of(run.err) ==
          std::vector<std::string>{"bad.csv:3: typed, found `15O`, allowed: a number from 0 to 1000",
                                   "bad.csv:4: truth, found nothing, allowed: a number from 1 to 1000",
                                   "bad.csv:5: row, found 3 cells, allowed: 2",
                                   "bad.csv:7: typed, found `inf`, allowed: a number from 0 to 1000",
                                   "bad.csv:8: truth, found `a b`, allowed: a number from 1 to 1000",
                                   "bad.csv:10: typed, found `x`, allowed: a number from 0 to 1000"});
    folder.write("no.csv", "truth,guess,truth\n140,138,1\n");
    CHECK(lines_of(folder.run("figures no.csv --of agreement").err) ==
          std::vector<std::string>{"no.csv:1: truth, found the column 2 times, allowed: once",
                                   "no.csv:1: header, found truth, guess, truth, allowed: a column `typed`"});
    folder.write("empty.csv", "");
    CHECK(lines_of(folder.run("figures empty.csv --of icc").err) ==
          std::vector<std::string>{
              "empty.csv:1: header, found an empty file, allowed: a header line, then rows"});
    folder.write("right.csv", "right\n1\n2\n0.5\n");
    CHECK(lines_of(folder.run("figures right.csv --of sequential").err) ==
          std::vector<std::string>{"right.csv:3: right, found `2`, allowed: a whole number from 0 to 1",
                                   "right.csv:4: right, found `0.5`, allowed: a whole number from 0 to 1"});
}

TEST_CASE("an unknown kind, a missing file, a cell given twice: one line each, exit 2", "[terminal]") {
    const Folder folder;
    folder.write("t.csv", "item,who,typed\nw1,A,120\nw1,B,118\nw1,A,121\n");
    const Run kind = folder.run("figures t.csv --of wisdom");
    CHECK(kind.exit == 2);
    REQUIRE(lines_of(kind.err).size() == 1);
    CHECK(kind.err.find("--of, found wisdom, allowed: one of: agreement, repeat,") == 0);
    CHECK(folder.run("figures none.csv --of icc").exit == 2);
    CHECK(lines_of(folder.run("figures t.csv --of icc").err) ==
          std::vector<std::string>{"t.csv:4: item and who, found w1, A again, allowed: once each"});
    CHECK(folder.run("figures t.csv").exit == 2);
}

TEST_CASE("A borderline outside the ratings given, or no number at all, is refused in one line",
          "[terminal]") {
    const Folder folder;
    folder.write("t.csv", "rating,score\n1,9\n1,11\n2,13\n2,12\n2,15\n3,16\n3,18\n3,17\n4,21\n4,20\n");
    for (const char* bad : {"nan", "inf", "-inf", "99", "0.5"}) {
        const Run run = folder.run(std::string("figures t.csv --of borderline --borderline ") + bad);
        INFO(bad);
        CHECK(run.exit == 2);
        CHECK(lines_of(run.err).size() == 1);
    }
    CHECK(folder.run("key c01 --from nan --for 60").err == "--from, found nan, allowed: a number\n");
    CHECK(folder.run("sound c01 --for inf --out x.wav").exit == 2);
}

TEST_CASE("a rate of 0 or of 1e9 in a table of counts, and a target not below the start, are refused",
          "[terminal]") {
    const Folder folder;
    const auto refused = [&](const std::string& table, const std::string& words, const std::string& says) {
        folder.write("t.csv", table);
        const Run run = folder.run("figures t.csv --of " + words);
        INFO(run.err);
        CHECK(run.exit == 2);
        CHECK(run.err.find(says) != std::string::npos);
    };
    refused("truth,typed\n120,118\n0,118\n", "agreement", "t.csv:3: truth");
    refused("truth,typed\n120,1e9\n120,118\n", "agreement", "t.csv:2: typed");
    for (const char* target : {"0.95", "0.99"})
        refused("months,right,items\n9,7,10\n", std::string("refresher --target ") + target,
                "--target, --after, found " + std::string(target) + ", 0.95, allowed: a target below");
    refused("months,right,items\n9,7,10\n", "refresher --target nan",
            "--target, found nan, allowed: a number");
}

TEST_CASE("what is asked twice, out of range, or not text is refused in one line, with what is allowed",
          "[terminal]") {
    const Folder folder;
    const auto refused = [&](const std::string& table, const std::string& words, const std::string& says) {
        folder.write("t.csv", table);
        for (const char* as : {"", " --json"}) {
            const Run run = folder.run("figures t.csv --of " + words + as);
            INFO(words);
            CHECK(run.exit == 2);
            CHECK(run.out.empty());
            CHECK(run.err == says + "\n");
        }
    };
    refused("truth,typed\nslow,slow\n", "kappa --order slow,normal,slow",
            "--order, found slow again, allowed: each category once");
    refused("item,group\ni1,N\ni2,N\n", "form --seed s --quota N=1,N=2",
            "--quota, found N=2, N again, allowed: each stratum once");
    const std::string pool = "item,group,difficulty\ni1,N,0\ni2,N,0.5\ni3,N,1\n";
    refused(pool, "form --seed s --quota N=3",
            "--mark, found none, and a column `difficulty`, allowed: 1 to 2, one less than its items: with "
            "difficulties forms are made alike at their mark");
    refused(pool, "form --seed s", "--quota, found nothing, allowed: STRATUM=N for each stratum wanted");
    refused("typed,again\n120,-3\n", "repeat",
            "t.csv:2: again, found `-3`, allowed: a number from 0 to 1000");
    refused("who,item,truth,typed\nA,i1,0.5,120\n", "cohort",
            "t.csv:2: truth, found `0.5`, allowed: a number from 1 to 1000");
    refused("rate,window_s,surplus\n140,60,much\n", "habits",
            "t.csv:2: surplus, found `much`, allowed: a number from -1e+12 to 1e+12");
    refused("right\n1\n\n0\n", "sequential",
            "t.csv:3: right, found nothing, allowed: a whole number from 0 to 1");
    refused("right\n\n", "sequential", "t.csv:2: right, found nothing, allowed: a whole number from 0 to 1");
    refused("form,difficulty\nA,0\nA,1\n", "equate --mark 1",
            "t.csv: form, found 1 form, allowed: two or more, the first with its mark");
    refused("who,right\nA-001,1\nB\xe9la,1\nB\xe9la,0\n", "shares",
            "t.csv:3: who, found `B\\xE9la`, allowed: a word in UTF-8");
    refused("who,right\nA-001,\xff\n", "shares",
            "t.csv:2: right, found `\\xFF`, allowed: a whole number from 0 to 1");
}
