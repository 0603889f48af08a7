// A long table (one line a cell) as a grid: rows and columns by two of its word columns.
#pragma once

#include "engine/competency/table.h"

#include <string>
#include <string_view>
#include <vector>

namespace engine {

struct Grid {
    std::vector<std::string> row_names, column_names;
    std::vector<std::vector<double>> cells;
    std::vector<std::string> left_out;  // rows without a value in every column

    // "2 persons with gaps left out: A-014 A-020"; may be empty
    std::string remark(const char* one, const char* more) const;
};

// A cell given twice is a fault with its line.
Outcome<Grid> grid_of(const Table& table, std::string_view rows, std::string_view columns,
                      std::string_view value);

}  // namespace engine
