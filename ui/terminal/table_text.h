// The text of a table of millions of rows, part by part: a part that stays near the processor is read several
// times faster than a text laid out whole.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace ui {

// Refuses (see input_output.h) a file that cannot be read.
class TableText {
public:
    explicit TableText(const std::string& path);
    ~TableText();
    TableText(const TableText&) = delete;
    TableText& operator=(const TableText&) = delete;

    std::size_t bytes() const { return bytes_; }  // of the file; 0 = not known (a pipe)
    // Whole lines; empty at the end. From the first quote on all the rest in one part: a quoted cell may hold
    // line ends.
    std::string_view next();

private:
    bool read_more();  // false at the end

    std::string path_;
    int file_ = -1;
    std::size_t bytes_ = 0;
    std::vector<char> held_;
    std::size_t given_ = 0, filled_ = 0;  // of held_: handed out, read
};

}  // namespace ui
