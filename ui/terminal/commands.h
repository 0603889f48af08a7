// What each terminal command is told, and the command itself: one file a command.
#pragma once

#include "sim/hold.h"
#include "ui/terminal/terminal.h"

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

namespace ui {

inline constexpr int fine = 0, answered_no = 1, bad_input = 2;

struct LintOptions {
    std::vector<std::string> files;
    bool json = false;
};

// What the commands on one scenario share. `acts` are "T NAME": seconds and an act id.
struct ScenarioOptions {
    std::string scenario;
    std::uint64_t seed = 1;
    std::vector<std::string> acts;
    std::string out;
    bool json = false;
};

struct CourseOptions : ScenarioOptions {};
struct BeatsOptions : ScenarioOptions {};

struct SoundOptions : ScenarioOptions {
    std::string with = "horn", at = "best", mode = "true", events;
    double press_n = 6, from_s = 0, for_s = 60;
    bool float_samples = false;
};

struct MapOptions : ScenarioOptions {
    std::string with = "horn";
    double from_s = 0;
};

struct KeyOptions : ScenarioOptions {
    std::string protocol;
    double from_s = -1, for_s = -1;  // below 0: the whole scenario
};

struct AttemptOptions : ScenarioOptions {
    std::string protocol, events, person = "A-000", mode = "true";
};

struct ReplayOptions {
    std::vector<std::string> files;
    bool json = false;
};

struct DebriefOptions {
    std::string attempt, out;
};

struct ProgressOptions {
    std::string who, store, out, mode;
    int method_s = 0;  // 0 = the one with the most counts
    bool json = false;
};

struct DrawOptions {
    std::string quota, out, protocol;
    std::uint64_t seed = 1;
    bool json = false;
};

struct SheetOptions {
    std::vector<std::string> files;
    std::string out, protocol;
    std::uint64_t seed = 1;
    double from_s = -1;  // below 0: the minute that differs most
    bool json = false;
};

struct BenchOptions {
    bool json = false, strict = false, quick = false;
    std::function<std::vector<WindowFigure>()> measure_window;  // empty in a build without the window
};

int lint(const LintOptions&);
int course(const CourseOptions&);
int beats(const BeatsOptions&);
int sound(const SoundOptions&);
int map(const MapOptions&);
int key(const KeyOptions&);
int attempt(const AttemptOptions&);
int replay(const ReplayOptions&);
int debrief(const DebriefOptions&);
int progress(const ProgressOptions&);
int scenario_draw(const DrawOptions&);
int scenario_sheet(const SheetOptions&);
int bench(const BenchOptions&);

}  // namespace ui
