// The scenarios there are: read one after another, so that the door stands open before the last is read.
#pragma once

#include "engine/scenario/scenario.h"

#include <string>
#include <vector>

namespace ui {

struct ShelfLine {
    std::string path, id, title, where, content_note, story;
    engine::Task task = engine::Task::count;
    int level = 1;
};

class Shelf {
public:
    // Finds the files of a folder (*.toml), by name; none is read yet.
    explicit Shelf(const std::string& folder);
    // Reads the next `most` files; false when there are no more.
    bool read_some(int most);
    // Reads one file at once; its index, or -1 with the reason in `fault`.
    int read_now(const std::string& path, std::string& fault);
    const std::vector<ShelfLine>& lines() const { return lines_; }
    // Files that could not be read, one line each.
    const std::vector<std::string>& faults() const { return faults_; }
    bool done() const { return next_ >= waiting_.size(); }

private:
    bool take(const std::string& path, std::string& fault);
    std::vector<std::string> waiting_;
    std::size_t next_ = 0;
    std::vector<ShelfLine> lines_;
    std::vector<std::string> faults_;
};

// What the task asks for, in a few words: "Count a full minute".
std::string task_words(engine::Task task);
std::string task_in_short(engine::Task task);

}  // namespace ui
