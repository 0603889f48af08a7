#include "ui/terminal/input_output.h"

#include "engine/attempt/event.h"
#include "sim/course/course.h"
#include "ui/files.h"

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fmt/format.h>

namespace fs = std::filesystem;

namespace ui {

void refuse(const std::string& what, const std::string& found, const std::string& allowed) {
    throw Refused{{engine::Fault{"", 0, what, found, allowed}}};
}

void refuse(std::vector<engine::Fault> faults) { throw Refused{std::move(faults)}; }

void print_faults(const std::vector<engine::Fault>& faults) {
    for (const engine::Fault& fault : faults) fmt::print(stderr, "{}\n", engine::in_one_line(fault));
}

std::string read_file(const std::string& path) {
    std::error_code ignored;
    if (fs::is_directory(path, ignored)) refuse(path, "a directory", "a file that can be read");
    std::FILE* file = std::fopen(path.c_str(), "rb");
    if (file == nullptr) refuse(path, std::strerror(errno), "a file that can be read");
    std::string text;
    char block[65536];
    std::size_t got = 0;
    while ((got = std::fread(block, 1, sizeof block, file)) > 0) text.append(block, got);
    const bool bad = std::ferror(file) != 0;
    std::fclose(file);
    if (bad) refuse(path, "a read error", "a file that can be read");
    return text;
}

void write_out(const std::string& path, std::string_view bytes) {
    if (path == "-") {
        if (std::fwrite(bytes.data(), 1, bytes.size(), stdout) != bytes.size() || std::fflush(stdout) != 0)
            refuse("stdout", std::strerror(errno), "a place that can be written");
        return;
    }
    std::error_code error;
    if (fs::is_directory(path, error)) refuse(path, "a directory", "a file that can be written");
    // A device such as /dev/stdout cannot be replaced by renaming.
    const bool in_place = fs::exists(path, error) && !fs::is_regular_file(path, error);
    const std::string part = in_place ? path : path + ".part";
    std::FILE* file = std::fopen(part.c_str(), "wb");
    if (file == nullptr) refuse(path, std::strerror(errno), "a file that can be written");
    const bool written = std::fwrite(bytes.data(), 1, bytes.size(), file) == bytes.size();
    const bool closed = std::fclose(file) == 0;
    if (written && closed && !in_place) fs::rename(part, path, error);
    if (!written || !closed || error) {
        const std::string why = error ? error.message() : std::strerror(errno);
        if (!in_place) fs::remove(part, error);
        refuse(path, why, "a file that can be written");
    }
}

void needs_its_folder(const std::string& path) {
    const fs::path folder = fs::path(path).parent_path();
    std::error_code ignored;
    if (!folder.empty() && !fs::is_directory(folder, ignored))
        refuse("--out", path, "a file in a folder that is there; there is no folder " + folder.string());
}

engine::Scenario the_scenario(const std::string& path_or_id) {
    const std::string path = scenario_path(path_or_id);
    if (path.empty())
        refuse(path_or_id, "no such file or library id",
               "a scenario file, or an id from " + data_folder() + "/scenarios/library");
    return or_refuse(engine::read_scenario(read_file(path), path));
}

engine::Protocol the_protocol(const std::string& path_or_id) {
    const std::string path = protocol_path(path_or_id);
    if (path.empty())
        refuse(path_or_id, "no such file or protocol id",
               "a protocol file, or an id from " + data_folder() + "/scenarios/protocols");
    return or_refuse(engine::read_protocol(read_file(path), path));
}

sim::Seed the_seed(std::uint64_t seed) {
    if (seed > sim::Seed::largest) refuse("--seed", std::to_string(seed), "0 to 9007199254740991");
    return {seed};
}

sim::Instrument the_instrument(const std::string& word) {
    using enum sim::Instrument;
    for (sim::Instrument one : {horn, bell, diaphragm, doppler})
        if (engine::name_of(one) == word) return one;
    refuse("--with", word, "horn, bell, diaphragm, doppler");
}

sim::OutputMode the_mode(const std::string& word) {
    if (word == "true") return sim::OutputMode::true_sound;
    if (word == "assisted") return sim::OutputMode::assisted;
    if (word == "shifted") return sim::OutputMode::shifted;
    refuse("--mode", word, "true, assisted, shifted");
}

std::vector<sim::Change> the_acts(const std::vector<std::string>& acts, const engine::Scenario& scenario) {
    std::vector<sim::Change> changes;
    for (const std::string& text : acts) {
        double t = -1;
        const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), t);
        const std::string name(error == std::errc{} && *end == ' ' ? end + 1 : "");
        if (name.empty() || !(t >= 0) || t > scenario.length.value)
            refuse(
                "--act", text,
                fmt::format("\"T NAME\", T from 0 to {:g} seconds, NAME an act id", scenario.length.value));
        const sim::Act act = sim::act_named(name);
        if (act == sim::Act::none) {
            std::string known;
            for (int i = 1; i < static_cast<int>(sim::Act::count_); ++i)
                known += (i > 1 ? ", " : "") + std::string(sim::name_of(static_cast<sim::Act>(i)));
            refuse("--act", text, "an act the body answers to: " + known);
        }
        sim::Change change;
        change.kind = sim::Change::Kind::act;
        change.at_us = sim::labour_time(sim::Seconds{t}).us;
        change.act = act;
        changes.push_back(change);
    }
    std::stable_sort(changes.begin(), changes.end(),
                     [](const sim::Change& a, const sim::Change& b) { return a.at_us < b.at_us; });
    return changes;
}

}  // namespace ui
