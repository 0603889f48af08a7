// What ships, as read from the tree.
#pragma once

#include "engine/scenario/scenario.h"
#include "tests/engine/scenario/lines_of.h"

#include <algorithm>
#include <filesystem>
#include <stdexcept>
#include <string>
#include <vector>

// Every file of a folder of the tree, in the order of their names.
inline std::vector<std::string> files_in(const std::string& folder) {
    std::vector<std::string> paths;
    for (const auto& entry :
         std::filesystem::directory_iterator(std::filesystem::path(FULLMINUTE_SOURCE_DIR) / folder))
        if (entry.path().extension() == ".toml") paths.push_back(entry.path().string());
    std::sort(paths.begin(), paths.end());
    return paths;
}

// "p03" -> the scenario of that id in the library.
inline engine::Scenario library(const std::string& start) {
    for (const std::string& path : files_in("scenarios/library"))
        if (path.substr(path.rfind('/') + 1).rfind(start + "-", 0) == 0)
            return engine::read_scenario_file(path).value();
    throw std::runtime_error("no scenario " + start);
}
