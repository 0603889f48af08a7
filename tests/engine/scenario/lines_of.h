// Faults of a file as the person sees them, and a scenario that is right, to be spoiled line by line.
#pragma once

#include "engine/outcome.h"
#include "engine/protocol/protocol.h"
#include "engine/scenario/scenario.h"

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

inline std::vector<std::string> lines_of(const std::vector<engine::Fault>& faults) {
    std::vector<std::string> lines;
    for (const engine::Fault& fault : faults) lines.push_back(engine::in_one_line(fault));
    return lines;
}

// The right file below has its baseline in line 15.
inline const std::string right_scenario = R"(format = "fullminute-scenario/1"
id = "a-test"
title = "A test"
task = "count"
length = "6 min"
story = "A-001 is in labour."

[place]
name = "Sirro Bridge centre"
instruments = ["horn", "doppler"]

[mother]
pulse = "79 bpm"
[baby]
baseline = "138.4 bpm"
position = "LOA"
)";

// Replaces the one place where `from` stands; a spoiled test that spoils nothing is itself a fault.
inline std::string with(std::string text, const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    if (at == std::string::npos) throw std::runtime_error("not in the text: " + from);
    return text.replace(at, from.size(), to);
}

inline std::vector<std::string> scenario_faults(const std::string& text) {
    return lines_of(engine::read_scenario(text, "a-test.toml").faults());
}

inline std::string bytes_at(const std::string& path) {
    std::string whole(FULLMINUTE_SOURCE_DIR "/");
    whole.append(path);
    std::ifstream in(whole, std::ios::binary);
    if (!in) throw std::runtime_error("cannot read " + path);
    std::ostringstream all;
    all << in.rdbuf();
    return all.str();
}

inline engine::Protocol shipped_protocol(const std::string& id) {
    std::string path(FULLMINUTE_SOURCE_DIR "/scenarios/protocols/");
    path.append(id).append(".toml");
    return engine::read_protocol_file(path).value();
}
