// `fullminute scenario draw` and `fullminute scenario sheet`: files, exits, and what they say when something
// is wrong.
#include <catch2/catch.hpp>

#include "tests/ui/terminal/run_program.h"

#include <nlohmann/json.hpp>

using nlohmann::json;

TEST_CASE("scenario draw and sheet explain themselves with an example that the README has too",
          "[scenario]") {
    const std::string readme = text_of(FULLMINUTE_SOURCE_DIR "/README.md");
    Folder folder;
    for (const std::string command : {"draw", "sheet"}) {
        INFO(command);
        const Run help = folder.run("scenario " + command + " --help");
        CHECK(help.exit == 0);
        const std::size_t at = help.out.find("Example: fullminute scenario " + command + " ");
        REQUIRE(at != std::string::npos);
        std::string example = help.out.substr(at + 9);
        example = example.substr(0, example.find('\n'));
        CHECK(readme.find(example) != std::string::npos);
    }
    CHECK(folder.run("scenario").exit == 2);
    CHECK(folder.run("scenario paint").exit == 2);
}

TEST_CASE("scenario draw: 24 files that lint, the same bytes each time, and what each one is as JSON",
          "[scenario]") {
    Folder folder;
    const Run run = folder.run("scenario draw --quota first-week --seed 7 --out drawn --json");
    REQUIRE(run.exit == 0);
    CHECK(run.err.empty());
    const json list = json::parse(run.out);
    REQUIRE(list.size() == 24);
    int normals = 0;
    for (const auto& one : list) {
        normals += one["normal"].get<bool>() ? 1 : 0;
        CHECK(std::filesystem::exists(folder / one["file"].get<std::string>()));
        CHECK(one["level"].get<int>() <= 2);
        CHECK(one["boundary"] == false);
    }
    CHECK(normals == 15);
    CHECK(list[0]["file"] == "drawn/d7-001.toml");
    CHECK(folder.run("lint drawn/*.toml").exit == 0);
    CHECK(folder.run("key drawn/d7-001.toml --json").exit == 0);
    REQUIRE(folder.run("scenario draw --quota first-week --seed 7 --out again").exit == 0);
    for (const auto& one : list) {
        const std::string name = one["id"].get<std::string>() + ".toml";
        CHECK(text_of(folder / ("drawn/" + name)) == text_of(folder / ("again/" + name)));
    }
    const Run words = folder.run("scenario draw --quota first-week --seed 8 --out drawn");
    CHECK(words.exit == 0);
    CHECK(lines_of(words.out).size() == 24);
    CHECK(words.out.find("drawn/d8-001.toml  ") != std::string::npos);
}

TEST_CASE("scenario sheet: PDF, SVG, PNG of scenarios by id, file or folder, and what was measured",
          "[scenario]") {
    Folder folder;
    const Run run = folder.run("scenario sheet c01 f10 --seed 3 --from 60 --out s.png --json");
    REQUIRE(run.exit == 0);
    const json list = json::parse(run.out);
    REQUIRE(list.size() == 2);
    CHECK(list[0]["id"] == "c01-own-minute");
    CHECK(list[0]["minute_from_s"] == 60.0);
    CHECK(list[0]["sounds"].size() == 1);
    CHECK(list[0]["sounds"][0]["with"] == "doppler");
    CHECK(list[1]["sounds"].size() == 2);
    CHECK(text_of(folder / "s.png").substr(1, 3) == "PNG");
    CHECK(folder.run("scenario sheet c01 --out s.svg").exit == 0);
    REQUIRE(folder.run("scenario sheet '" FULLMINUTE_SOURCE_DIR "'/scenarios/library --out s.pdf").exit == 0);
    CHECK(text_of(folder / "s.pdf").substr(0, 4) == "%PDF");
}

TEST_CASE("scenario draw and sheet refuse bad input: exit 2, file and line, nothing written", "[scenario]") {
    Folder folder;
    folder.write("bad.toml",
                 "format = \"fullminute-quota/1\"\nid = \"bad\"\ntitle = \"t\"\nscenarios = "
                 "4\n[tasks]\ncuont = \"100 %\"\n");
    folder.write("not.toml",
                 "format = \"fullminute-quota/1\"\nid = \"not\"\ntitle = \"t\"\nscenarios = "
                 "4\n[places]\npost = \"100 %\"\n"
                 "[instruments]\ndoppler = \"100 %\"\n");
    folder.write("a.toml", "format = \"fullminute-scenario/1\"\ntitle = 3\n");
    folder.write("b.toml", "format = \"fullminute-scenario/1\"\nlevel = 9\n");
    struct Bad {
        std::string words, says;
    };
    const std::vector<Bad> all{
        {"scenario draw --quota bad.toml --out x", "bad.toml:6: tasks.cuont"},
        {"scenario draw --quota not.toml --out x", "not.toml:5: places.post, found 4 of 4"},
        {"scenario draw --quota nowhere --out x", "scenarios/quotas"},
        {"scenario draw --quota first-week --out bad.toml", "not a folder"},
        {"scenario draw --quota first-week --seed 9007199254740992 --out x", "9007199254740991"},
        {"scenario draw --out x", "--quota"},
        {"scenario sheet c01 --out x.doc", ".pdf, .svg or .png"},
        {"scenario sheet nowhere --out x.png", "nowhere"},
        {"scenario sheet a.toml b.toml --out x.png", "a.toml:2: title"},
        {"scenario sheet a.toml b.toml --out x.png", "b.toml:2: level"},
        {"scenario sheet c01 --out nowhere/x.png", "nowhere/x.png"},
        {"scenario sheet c01 --from -5 --out x.png", "--from"},
        {"scenario sheet . --out x.pdf", "a.toml:"},
    };
    for (const Bad& bad : all) {
        INFO(bad.words);
        const Run run = folder.run(bad.words);
        CHECK(run.exit == 2);
        INFO(run.err);
        CHECK(run.err.find(bad.says) != std::string::npos);
        CHECK(run.out.empty());
        for (const char* name : {"x", "x.png", "x.pdf", "x.doc"})
            CHECK_FALSE(std::filesystem::exists(folder / name));
    }
}

TEST_CASE("lint knows a quota by its format, and names its faults", "[scenario]") {
    Folder folder;
    CHECK(folder.run("lint '" FULLMINUTE_SOURCE_DIR "'/scenarios/quotas/*.toml").exit == 0);
    folder.write("q.toml",
                 "format = \"fullminute-quota/1\"\nid = \"q-a\"\ntitle = \"t\"\nscenarios = 4\n[levels]\n1 = "
                 "\"90 %\"\n");
    const Run run = folder.run("lint q.toml");
    CHECK(run.exit == 2);
    CHECK(run.err.find("q.toml:2: id") != std::string::npos);
    CHECK(run.err.find("q.toml:5: levels, found 90 % together") != std::string::npos);
}
