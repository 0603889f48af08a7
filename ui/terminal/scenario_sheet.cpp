#include "ui/paper/sheet_page.h"

#include "engine/attempt/event.h"
#include "ui/files.h"
#include "ui/terminal/commands.h"
#include "ui/terminal/input_output.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace ui {
namespace {

constexpr std::size_t most_on_a_sheet = 200, of_a_folder = 12;

// Files and library ids as given; a folder stands for twelve of its scenarios, evenly spread by name.
std::vector<std::string> files_meant(const std::vector<std::string>& given) {
    std::vector<std::string> files;
    for (const std::string& one : given) {
        std::error_code ignored;
        if (!std::filesystem::is_directory(one, ignored)) {
            files.push_back(one);
            continue;
        }
        std::vector<std::string> inside;
        for (const auto& entry : std::filesystem::directory_iterator(one))
            if (entry.path().extension() == ".toml") inside.push_back(entry.path().string());
        if (inside.empty())
            refuse("FILE", one + ", a folder without scenarios",
                   "scenario files, library ids, or their folder");
        std::sort(inside.begin(), inside.end());
        const std::size_t n = std::min(of_a_folder, inside.size());
        for (std::size_t i = 0; i < n; ++i) files.push_back(inside[i * inside.size() / n]);
    }
    if (files.size() > most_on_a_sheet)
        refuse("FILE", fmt::format("{} scenarios", files.size()), fmt::format("at most {}", most_on_a_sheet));
    return files;
}

nlohmann::ordered_json measured(const SheetRow& row) {
    const auto tenth = [](double v) { return std::round(v * 10) / 10; };
    nlohmann::ordered_json sounds = nlohmann::ordered_json::array();
    for (const SheetSound& s : row.sounds)
        sounds.push_back({{"with", engine::name_of(s.with)},
                          {"at", {{"x", s.x_cm}, {"y", s.y_cm}}},
                          {"from_s", s.from_s},
                          {"peak_dbfs", tenth(s.peak_db)},
                          {"strongest_hz", tenth(s.spectrogram.strongest().hz)}});
    return {{"id", row.id}, {"minute_from_s", row.from_s}, {"truth", row.truth}, {"sounds", sounds}};
}

bool a_picture(const std::string& path) {
    const std::string suffix = std::filesystem::path(path).extension().string();
    return suffix == ".pdf" || suffix == ".svg" || suffix == ".png";
}

}  // namespace

// Course, beats, sound and loudness of scenarios on one sheet; it shows the truth.
int scenario_sheet(const SheetOptions& options) {
    if (!a_picture(options.out)) refuse("--out", options.out, "a name that ends in .pdf, .svg or .png");
    const engine::Protocol protocol = the_protocol(options.protocol);
    const sim::Seed seed = the_seed(options.seed);
    std::vector<engine::Scenario> scenarios;
    std::vector<engine::Fault> faults;
    for (const std::string& file : files_meant(options.files)) {
        try {
            scenarios.push_back(the_scenario(file));
        } catch (const Refused& refused) {  // the faults of all files, not of the first alone
            faults.insert(faults.end(), refused.faults.begin(), refused.faults.end());
        }
    }
    if (!faults.empty()) refuse(faults);
    std::optional<double> from_s;
    if (options.from_s >= 0) from_s = options.from_s;
    std::vector<SheetRow> rows;
    nlohmann::ordered_json list = nlohmann::ordered_json::array();
    for (const engine::Scenario& scenario : scenarios) {
        rows.push_back(sheet_row(scenario, protocol, seed, from_s));
        list.push_back(measured(rows.back()));
    }
    or_refuse(write_sheet(rows,
                          fmt::format("Fullminute {}, seed {}. Sound at the best place, true mode.",
                                      program_version(), seed.value),
                          options.out));
    if (options.json) write_out("-", list.dump(2) + "\n");
    return fine;
}

}  // namespace ui
