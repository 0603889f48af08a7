#include "ui/door/shelf.h"

#include "ui/window/words.h"

#include <algorithm>
#include <filesystem>

namespace fs = std::filesystem;

namespace ui {

Shelf::Shelf(const std::string& folder) {
    std::error_code ignored;
    for (const auto& entry : fs::directory_iterator(folder, ignored))
        if (entry.path().extension() == ".toml") waiting_.push_back(entry.path().string());
    std::sort(waiting_.begin(), waiting_.end());
}

bool Shelf::take(const std::string& path, std::string& fault) {
    auto read = engine::read_scenario_file(path);
    if (!read) {
        fault = engine::in_one_line(read.faults().front());
        return false;
    }
    const engine::Scenario& s = *read;
    lines_.push_back({path, s.id, s.title, s.place.name, s.content_note, s.story, s.task, s.level});
    return true;
}

bool Shelf::read_some(int most) {
    for (int i = 0; i < most && next_ < waiting_.size(); ++i) {
        const std::string path = waiting_[next_++];
        const bool known =
            std::any_of(lines_.begin(), lines_.end(), [&](const auto& l) { return l.path == path; });
        std::string fault;
        if (!known && !take(path, fault)) faults_.push_back(fault);
    }
    if (!done()) return true;
    // An unhurried order: easy first, and by name within a level, so that no list tells what is wrong.
    std::stable_sort(lines_.begin(), lines_.end(), [](const ShelfLine& a, const ShelfLine& b) {
        return std::pair(a.level, a.id) < std::pair(b.level, b.id);
    });
    return false;
}

int Shelf::read_now(const std::string& path, std::string& fault) {
    for (std::size_t i = 0; i < lines_.size(); ++i)
        if (lines_[i].path == path) return static_cast<int>(i);
    return take(path, fault) ? static_cast<int>(lines_.size()) - 1 : -1;
}

std::string task_in_short(engine::Task task) {
    switch (task) {
        case engine::Task::count: return words("Full minute");
        case engine::Task::quick: return words("Short counts");
        case engine::Task::find: return words("Find it");
        case engine::Task::tell_apart: return words("Whose");
        case engine::Task::pattern: return words("Through");
        case engine::Task::labour: return words("Labour");
    }
    return "";
}

std::string task_words(engine::Task task) {
    switch (task) {
        case engine::Task::count: return words("Count a full minute");
        case engine::Task::quick: return words("Short counts");
        case engine::Task::find: return words("Find the heart");
        case engine::Task::tell_apart: return words("Whose heart is it?");
        case engine::Task::pattern: return words("Through the contractions");
        case engine::Task::labour: return words("A whole labour");
    }
    return "";
}

}  // namespace ui
