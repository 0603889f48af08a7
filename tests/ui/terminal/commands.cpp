// The terminal's commands as its table promises them: files, exits, and what they say when something is
// wrong.
#include <catch2/catch.hpp>

#include "tests/ui/terminal/run_program.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <regex>

using nlohmann::json;

namespace {

const std::vector<std::string> commands{"lint", "course",  "beats",  "sound",   "map",
                                        "key",  "attempt", "replay", "debrief", "bench"};

std::vector<double> numbers_of(const std::string& line) {
    std::vector<double> numbers;
    std::istringstream stream(line);
    for (std::string cell; std::getline(stream, cell, ',');) numbers.push_back(std::atof(cell.c_str()));
    return numbers;
}

const std::string walk = FULLMINUTE_SOURCE_DIR "/scenarios/walk.json";

}  // namespace

TEST_CASE("every command explains itself with an example that the README has too", "[terminal]") {
    const std::string readme = text_of(FULLMINUTE_SOURCE_DIR "/README.md");
    Folder folder;
    for (const std::string& command : commands) {
        INFO(command);
        const Run help = folder.run(command + " --help");
        CHECK(help.exit == 0);
        CHECK(help.err.empty());
        const std::size_t at = help.out.find("Example: fullminute " + command + " ");
        REQUIRE(at != std::string::npos);
        std::string example = help.out.substr(at + 9);
        example = example.substr(0, example.find('\n'));
        if (command != "bench") CHECK(readme.find("build/" + example) != std::string::npos);
    }
}

TEST_CASE("--version is one line with the number; unknown words exit 2 with one line", "[terminal]") {
    Folder folder;
    const Run version = folder.run("--version");
    CHECK(version.exit == 0);
    CHECK(std::regex_match(version.out, std::regex("fullminute \\d+\\.\\d+\\.\\d+\n")));
    for (const std::string words :
         {"juggle", "course", "course c01 --seed x --out a.csv", "beats c01 --sed 1 --out b"}) {
        INFO(words);
        const Run run = folder.run(words);
        CHECK(run.exit == 2);
        CHECK(run.out.empty());
        CHECK(lines_of(run.err).size() == 1);
    }
}

TEST_CASE("course: one row each 0.25 s, both ends, decimals fixed", "[terminal]") {
    Folder folder;
    REQUIRE(folder.run("course c01 --out c.csv").exit == 0);
    const auto lines = lines_of(text_of(folder / "c.csv"));
    REQUIRE(lines.size() > 100);
    CHECK(lines[0] == "t_s,fhr_bpm,mhr_bpm,uc_mmhg");
    CHECK(std::regex_match(lines[2], std::regex(R"(0\.25,\d+\.\d{3},\d+\.\d{3},\d+\.\d{3})")));
    const double last = numbers_of(lines.back())[0];
    CHECK(static_cast<double>(lines.size() - 2) == Approx(last * 4));
    const Run out = folder.run("course c01 --out -");
    CHECK(out.out == text_of(folder / "c.csv"));
    REQUIRE(folder.run("course c01 --seed 2 --out d.csv").exit == 0);
    CHECK(text_of(folder / "d.csv") != out.out);
}

TEST_CASE("beats: as many fetal beats as the course's rate adds up to, within one", "[terminal]") {
    // The integral of the rate is the number of beats: definition of the modulation, independent of our
    // roots.
    Folder folder;
    REQUIRE(folder.run("course c01 --out c.csv").exit == 0);
    REQUIRE(folder.run("beats c01 --out b.csv").exit == 0);
    const auto course = lines_of(text_of(folder / "c.csv"));
    double expected = 0;
    for (std::size_t i = 1; i + 1 < course.size(); ++i)
        expected += (numbers_of(course[i])[1] + numbers_of(course[i + 1])[1]) / 2 / 60 * 0.25;
    const auto beats = lines_of(text_of(folder / "b.csv"));
    CHECK(beats[0] == "t_s,who,kind");
    const auto fetal = std::count_if(beats.begin(), beats.end(), [](const std::string& line) {
        return line.find(",fetal,") != std::string::npos && line.find("dropped") == std::string::npos;
    });
    CHECK(std::abs(static_cast<double>(fetal) - expected) <= 1.0);
    double before = -1;
    for (std::size_t i = 1; i < beats.size(); ++i) {
        CHECK(std::regex_match(beats[i],
                               std::regex(R"(\d+\.\d{6},(fetal|fetal2|maternal),(normal|ectopic|dropped))")));
        const double t = numbers_of(beats[i])[0];
        CHECK(t >= before);
        before = t;
    }
}

TEST_CASE("sound: 48 kHz, one channel, 16 bit, as long as asked, the same twice", "[terminal]") {
    Folder folder;
    const Run run = folder.run("sound c01 --with doppler --at best --from 10 --for 3 --out a.wav --json");
    REQUIRE(run.exit == 0);
    const std::string wav = text_of(folder / "a.wav");
    REQUIRE(wav.size() == 44 + 3 * 48000 * 2);
    CHECK(wav.substr(0, 4) == "RIFF");
    const auto word = [&](std::size_t at, std::size_t bytes) {
        unsigned value = 0;
        for (std::size_t i = 0; i < bytes; ++i)
            value |= static_cast<unsigned>(static_cast<unsigned char>(wav[at + i])) << (8 * i);
        return value;
    };
    CHECK(word(22, 2) == 1);
    CHECK(word(24, 4) == 48000);
    CHECK(word(34, 2) == 16);
    const json told = json::parse(run.out);
    CHECK(told["samples"] == 3 * 48000);
    CHECK(told["peak_dbfs"].get<double>() <= -0.9);
    CHECK(told["peak_dbfs"].get<double>() > -40);
    REQUIRE(folder.run("sound c01 --with doppler --at best --from 10 --for 3 --out b.wav").exit == 0);
    CHECK(text_of(folder / "b.wav") == wav);
}

TEST_CASE("map: the best spot is the largest level of its own CSV, ties to higher y then smaller x",
          "[terminal]") {
    Folder folder;
    const Run run = folder.run("map f03 --with doppler --out m.csv --json");
    REQUIRE(run.exit == 0);
    const auto lines = lines_of(text_of(folder / "m.csv"));
    CHECK(lines[0] == "x_cm,y_cm,level_db,rival_db");
    CHECK(lines.size() == 1 + 65 * 77);
    double best = -1e9;
    for (std::size_t i = 1; i < lines.size(); ++i) best = std::max(best, numbers_of(lines[i])[2]);
    const json told = json::parse(run.out);
    CHECK(told["level_db"].get<double>() == Approx(best).margin(0.011));
    CHECK(told["best"]["y"].get<double>() >
          0);  // breech: above the navel (Klein, A Book for Midwives 2010, p. 139)
    REQUIRE(folder.run("map f03 --with doppler --out m.png").exit == 0);
    CHECK(text_of(folder / "m.png").substr(1, 3) == "PNG");
    CHECK(folder.run("map f03 --out m.gif").exit == 2);
}

TEST_CASE("key: the computed answer as JSON, whole or for one spell", "[terminal]") {
    Folder folder;
    const Run whole = folder.run("key p03 --json");
    REQUIRE(whole.exit == 0);
    const json key = json::parse(whole.out);
    for (const char* part : {"baseline_bpm", "decision", "level", "situations", "expected", "unsafe", "why"})
        CHECK(key.contains(part));
    CHECK(key["decision"]["around"] == "slow_after_contraction");
    CHECK(key["level"] == "orange");
    const json quiet =
        json::parse(folder.run("key c01 --protocol community-120-160 --from 0 --for 120 --json").out);
    CHECK(quiet["decision"]["baseline"] == "normal");
    CHECK(quiet["level"] == "green");
    CHECK(folder.run("key c01 --from 0 --for 99999 --json").exit == 2);
}

TEST_CASE("attempt, replay, debrief: one path from events to page", "[terminal]") {
    Folder folder;
    const Run judged = folder.run("attempt p03 --events " + walk + " --out a.json --json");
    REQUIRE(judged.exit == 0);
    const json told = json::parse(judged.out);
    CHECK(told["score"]["aspects"].size() == 9);
    for (const auto& aspect : told["score"]["aspects"]) {
        INFO(aspect.dump());
        CHECK(aspect["verdict"] != "missed");
    }
    for (const char* what : {"beats", "events", "score"})
        CHECK(told["sha256"][what].get<std::string>().size() == 64);
    CHECK(json::parse(folder.run("attempt p03 --events " + walk + " --json").out) == told);

    CHECK(folder.run("replay a.json").exit == 0);
    std::string changed = text_of(folder / "a.json");
    const std::size_t at = changed.rfind("\"met\"");
    REQUIRE(at != std::string::npos);
    changed.replace(at, 5, "\"missed\"");
    folder.write("b.json", changed);
    const Run differs = folder.run("replay a.json b.json");
    CHECK(differs.exit == 1);
    CHECK(differs.out.find("b.json: differs") != std::string::npos);
    CHECK(folder.run("replay nothing.json").exit == 2);

    for (const auto& [name, magic] : std::vector<std::pair<std::string, std::string>>{
             {"d.pdf", "%PDF"}, {"d.svg", "<?xml"}, {"d.png", "\x89PNG"}}) {
        REQUIRE(folder.run("debrief a.json --out " + name).exit == 0);
        CHECK(text_of(folder / name).substr(0, magic.size()) == magic);
    }
    CHECK(folder.run("debrief a.json --out d.doc").exit == 2);
}

TEST_CASE("bad input: place, value and what is allowed, exit 2, and nothing written", "[terminal]") {
    Folder folder;
    folder.write("broken.toml", "format = \"fullminute-scenario/1\"\ntitle = \"x\n");
    folder.write("disorder.json", R"([{"t": 5, "do": "take", "what": "horn"}, {"t": 4, "do": "finish"}])");
    folder.write("early.json", R"([{"t": 1, "do": "start_window"}])");
    folder.write("juggle.json", R"([{"t": 1, "do": "juggle"}])");
    folder.write("cut.json", R"([{"t": 1, "do":)");
    struct Bad {
        std::string words, says;
    };
    const std::vector<Bad> all{
        {"lint broken.toml", "broken.toml:2"},
        {"lint missing.toml", "missing.toml"},
        {"course broken.toml --out x.csv", "broken.toml:2"},
        {"course nowhere --out x.csv", "nowhere"},
        {"course c01 --seed 9007199254740992 --out x.csv", "9007199254740991"},
        {"course c01 --act \"5 juggle\" --out x.csv", "off_her_back"},
        {"course c01 --act juggle --out x.csv", "T NAME"},
        {"course c01 --out nowhere/x.csv", "nowhere/x.csv"},
        {"course c01 --out .", "directory"},
        {"sound c01 --with trumpet --out x.wav", "horn, bell, diaphragm, doppler"},
        {"sound c01 --at 99,0 --out x.wav", "-16 to 16"},
        {"sound c01 --press 99 --out x.wav", "0 to 30"},
        {"sound c01 --mode loud --out x.wav", "true, assisted, shifted"},
        {"sound c01 --from 1e9 --out x.wav", "--from"},
        {"attempt c01 --events disorder.json --out x.json", "events[1]"},
        {"attempt c01 --events early.json --out x.json", "events[0]"},
        {"attempt c01 --events juggle.json --out x.json", "juggle"},
        {"attempt c01 --events cut.json --out x.json", "cut.json"},
        {"attempt c01 --events missing.json --out x.json", "missing.json"},
        {"replay early.json", "early.json"},
    };
    for (const Bad& bad : all) {
        INFO(bad.words);
        const Run run = folder.run(bad.words);
        CHECK(run.exit == 2);
        CHECK(run.err.find(bad.says) != std::string::npos);
        CHECK(run.out.empty());
        CHECK_FALSE(std::filesystem::exists(folder / "x.csv"));
        CHECK_FALSE(std::filesystem::exists(folder / "x.wav"));
        CHECK_FALSE(std::filesystem::exists(folder / "x.json"));
    }
}

TEST_CASE("lint: every fault of every file, one line each, and exit 0 for the shipped library",
          "[terminal]") {
    Folder folder;
    const Run fine =
        folder.run("lint '" FULLMINUTE_SOURCE_DIR "'/scenarios/library/*.toml '" FULLMINUTE_SOURCE_DIR
                   "'/scenarios/protocols/*.toml");
    CHECK(fine.exit == 0);
    CHECK(lines_of(fine.out).size() >= 12);
    std::string two =
        text_of(FULLMINUTE_SOURCE_DIR "/scenarios/library/" +
                std::filesystem::path(lines_of(fine.out)[0].substr(0, lines_of(fine.out)[0].find(": ")))
                    .filename()
                    .string());
    two += "\n[weather]\nrain = true\n";
    folder.write("c01-own-minute.toml", two);
    const Run run = folder.run("lint c01-own-minute.toml missing.toml --json");
    CHECK(run.exit == 2);
    const json faults = json::parse(run.out);
    REQUIRE(faults.size() >= 2);
    CHECK(faults[0]["line"].get<int>() > 5);
    CHECK(lines_of(run.err).size() == faults.size());
}

TEST_CASE(
    "refused while the line is read: --seed -1 by its own number, --for 0 without 309 digits, a folder not "
    "there",
    "[terminal]") {
    Folder folder;
    const auto refused = [&](const std::string& words, const std::string& says) {
        const Run run = folder.run(words);
        INFO(words << ": " << run.err);
        CHECK(run.exit == 2);
        const auto lines = lines_of(run.err);
        REQUIRE(lines.size() == 1);
        CHECK(lines[0].find(says) != std::string::npos);
        CHECK(lines[0].size() < 200);
    };
    refused("beats c01 --seed -1 --out b.csv", "--seed: found -1, allowed: 0 to 9007199254740991");
    refused("beats c01 --seed 9007199254740992 --out b.csv", "allowed: 0 to 9007199254740991");
    refused("scenario draw --quota first-week --seed -1 --out d", "found -1, allowed: 0 to 9007199254740991");
    refused("passrule --candidates 1 --seed -1", "found -1, allowed: 0 to 9007199254740991");
    refused("key c01 --for 0", "--for: found 0, allowed: more than 0 s");
    refused("key c01 --from -1", "--from: found -1, allowed: 0 s or more");
    refused("debrief a.json --out no-such/d.pdf", "there is no folder no-such");
}
