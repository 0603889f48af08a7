// A table from outside: CSV with a header line, columns found by name, read in one pass. Only the columns
// asked for are kept. Cells may be quoted ("" inside quotes is a quote); lines end in LF or CR LF. Empty
// lines are passed over; in a table of one column only those after the last row are. Words are UTF-8.
#pragma once

#include "engine/outcome.h"

#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace engine {

// How a number column is kept: as it is, or in whole thousandths (rounded half up; its rule must lie in 0 to
// 2,000,000), which for a million rows is half the memory to fill.
enum class Kept { number, thousandths };

// What a column must hold. Numbers are finite and inside least..most, whole when said.
struct ColumnRule {
    const char* name;
    bool word = false;  // any text but none
    bool needed = true;
    double least = -1e12, most = 1e12;
    bool whole = false;
    Kept kept = Kept::number;
};

struct Column {
    std::string name;
    std::vector<double> numbers;            // a number column: one a row
    std::vector<std::int32_t> thousandths;  // a number column kept so
    std::vector<unsigned> words;            // a word column: one a row, into `names`
    std::vector<std::string> names;         // in order of first appearance
};

struct Table {
    std::string file;
    std::size_t rows = 0;
    std::vector<Column> columns;  // those of the rules that the file has, in the rules' order
    // 1-based line of each row; empty when every row is one line and none is passed over: first_line + row.
    std::vector<unsigned> lines;
    unsigned first_line = 2;

    const Column* find(std::string_view name) const;        // null when the file does not have it
    const Column& operator[](std::string_view name) const;  // must be there
    Fault fault(std::size_t row, std::string what, std::string found, std::string allowed) const;
};

// Every fault of the text, each with its line.
Outcome<Table> read_table(const std::string& file, std::string_view text, std::span<const ColumnRule> rules);

// The same from a text that comes in parts, each of whole lines, the last one empty; a part need only live
// until the next is asked for. `bytes`: about how long all of it is.
using NextPart = std::function<std::string_view()>;
Outcome<Table> read_table(const std::string& file, const NextPart& next, std::size_t bytes,
                          std::span<const ColumnRule> rules);

}  // namespace engine
