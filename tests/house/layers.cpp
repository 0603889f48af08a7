// The walls of the house: arrows point up only (ui -> engine -> sim), and each thing stays in its room.
#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <regex>
#include <sstream>

namespace fs = std::filesystem;

namespace {

struct Source {
    std::string path;                   // from the root, "sim/course/course.cpp"
    std::string text;                   // as written
    std::string code;                   // without comments and string literals
    std::vector<std::string> includes;  // names between <> or ""
};

std::string without_comments_and_words(const std::string& text) {
    static const std::regex noise(R"re(//[^\n]*|/\*[\s\S]*?\*/|"(?:\\.|[^"\\\n])*")re");
    return std::regex_replace(text, noise, "");
}

std::vector<std::string> includes_of(const std::string& text) {
    static const std::regex line(R"re((?:^|\n)[ \t]*#[ \t]*include[ \t]*[<"]([^>"]+)[>"])re");
    std::vector<std::string> names;
    for (std::sregex_iterator i(text.begin(), text.end(), line), end; i != end; ++i) names.push_back((*i)[1]);
    return names;
}

std::vector<Source> read_sources() {
    std::vector<Source> all;
    for (const char* top : {"sim", "engine", "ui"})
        for (const auto& entry : fs::recursive_directory_iterator(fs::path(FULLMINUTE_SOURCE_DIR) / top)) {
            const auto kind = entry.path().extension();
            if (kind != ".cpp" && kind != ".h" && kind != ".inc") continue;
            std::ifstream file(entry.path());
            std::stringstream text;
            text << file.rdbuf();
            Source source;
            source.path = fs::relative(entry.path(), FULLMINUTE_SOURCE_DIR).string();
            source.text = text.str();
            source.code = without_comments_and_words(source.text);
            source.includes = includes_of(source.text);
            all.push_back(source);
        }
    return all;
}

const std::vector<Source>& sources() {
    static const std::vector<Source> once = read_sources();
    return once;
}

bool starts(const std::string& text, const std::string& with) { return text.rfind(with, 0) == 0; }

int floor_of(const std::string& path) {
    return starts(path, "sim/") ? 0 : starts(path, "engine/") ? 1 : starts(path, "ui/") ? 2 : -1;
}

// Faults in the shape "file: what".
template <typename Rule>
std::vector<std::string> broken(Rule rule) {
    std::vector<std::string> faults;
    for (const Source& source : sources()) rule(source, faults);
    return faults;
}

std::vector<std::string> code_with(const std::string& top, const std::regex& pattern,
                                   const std::vector<std::string>& except = {}) {
    return broken([&](const Source& source, std::vector<std::string>& faults) {
        if (!starts(source.path, top)) return;
        for (const std::string& path : except)
            if (starts(source.path, path)) return;
        std::smatch found;
        if (std::regex_search(source.code, found, pattern))
            faults.push_back(source.path + ": " + found.str());
    });
}

}  // namespace

TEST_CASE("the tree is there: at least 60 source files are read", "[house]") {
    CHECK(sources().size() >= 60);
}

TEST_CASE("no include points upwards: ui -> engine -> sim", "[house]") {
    const auto faults = broken([](const Source& source, std::vector<std::string>& out) {
        for (const std::string& name : source.includes)
            if (floor_of(name) > floor_of(source.path)) out.push_back(source.path + " includes " + name);
    });
    CHECK(faults == std::vector<std::string>{});
}

TEST_CASE(
    "sim uses the standard library and itself; the processor's own words in one file, with a plain twin "
    "beside",
    "[house]") {
    const auto faults = broken([](const Source& source, std::vector<std::string>& out) {
        if (!starts(source.path, "sim/")) return;
        for (const std::string& name : source.includes)
            if (!starts(name, "sim/") && name.find_first_of("./") != std::string::npos &&
                !(source.path == "sim/dice_lanes.h" && name == "emmintrin.h"))
                out.push_back(source.path + " includes " + name);
    });
    CHECK(faults == std::vector<std::string>{});
}

TEST_CASE("SDL and ImGui only in ui; never in its terminal, canvas, plots or paper", "[house]") {
    const auto faults = broken([](const Source& source, std::vector<std::string>& out) {
        const bool allowed = starts(source.path, "ui/") && !starts(source.path, "ui/terminal/") &&
                             !starts(source.path, "ui/canvas/") && !starts(source.path, "ui/plots/") &&
                             !starts(source.path, "ui/paper/");
        for (const std::string& name : source.includes)
            if (!allowed && (starts(name, "SDL") || starts(name, "imgui")))
                out.push_back(source.path + " includes " + name);
    });
    CHECK(faults == std::vector<std::string>{});
}

TEST_CASE("SQL only in engine/store", "[house]") {
    const auto faults = broken([](const Source& source, std::vector<std::string>& out) {
        if (starts(source.path, "engine/store/")) return;
        for (const std::string& name : source.includes)
            if (starts(name, "soci") || starts(name, "sqlite3"))
                out.push_back(source.path + " includes " + name);
        static const std::regex sql(
            R"re("\s*(SELECT |INSERT INTO |UPDATE \w+ SET|DELETE FROM |CREATE TABLE|PRAGMA ))re");
        if (std::regex_search(source.text, sql)) out.push_back(source.path + ": SQL");
    });
    CHECK(faults == std::vector<std::string>{});
}

TEST_CASE("clocks only in ui; the journal keeps wall time for audit alone", "[house]") {
    const std::regex clock(
        R"re(system_clock|steady_clock|high_resolution_clock|clock_gettime|gettimeofday|\btime\s*\(\s*(NULL|nullptr|0)?\s*\)|\bclock\s*\(\s*\))re");
    CHECK(code_with("sim/", clock) == std::vector<std::string>{});
    CHECK(code_with("engine/", clock, {"engine/store/journal"}) == std::vector<std::string>{});
}

TEST_CASE("no library elementary function in sim or scoring: its last bits differ between machines",
          "[house]") {
    const std::regex libm(
        R"re(\b(std::)?(exp|exp2|expm1|log|log2|log10|log1p|pow|sin|cos|tan|sinh|cosh|tanh|asin|acos|atan|atan2|hypot|cbrt|erf|erfc|tgamma|lgamma)f?\s*\()re");
    CHECK(code_with("sim/", libm) == std::vector<std::string>{});
    CHECK(code_with("engine/scoring/", libm) == std::vector<std::string>{});
    CHECK(code_with("engine/attempt/", libm) == std::vector<std::string>{});
}

TEST_CASE("no library distribution or generator below ui: their sequences are not fixed", "[house]") {
    const std::regex dice(R"re(std::\w+_distribution|std::mt19937\w*|std::random_device|\brand\s*\(\s*\))re");
    CHECK(code_with("sim/", dice) == std::vector<std::string>{});
    CHECK(code_with("engine/", dice) == std::vector<std::string>{});
}

TEST_CASE("sim has no thread, file or stream", "[house]") {
    const std::regex outside(
        R"re(std::(thread|jthread|mutex|ifstream|ofstream|fstream|cout|cerr|async|condition_variable)\b|\bfopen\s*\()re");
    CHECK(code_with("sim/", outside) == std::vector<std::string>{});
}

TEST_CASE("the layer reader sees an upward include and a library sine when they are there", "[house]") {
    CHECK(includes_of("#pragma once\n#  include \"engine/outcome.h\"\n") ==
          std::vector<std::string>{"engine/outcome.h"});
    CHECK(floor_of("engine/outcome.h") > floor_of("sim/units.h"));
    CHECK(without_comments_and_words("a = 1; // std::sin(x)\nb = \"cos(\";") == "a = 1; \nb = ;");
}
