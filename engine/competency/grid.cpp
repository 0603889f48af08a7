#include "engine/competency/grid.h"

#include <cmath>
#include <limits>

namespace engine {

std::string Grid::remark(const char* one, const char* more) const {
    if (left_out.empty()) return "";
    std::string words =
        std::to_string(left_out.size()) + " " + (left_out.size() == 1 ? one : more) + " with gaps left out:";
    for (std::size_t i = 0; i < left_out.size() && i < 10; ++i) words += " " + left_out[i];
    return left_out.size() > 10 ? words + " ..." : words;
}

Outcome<Grid> grid_of(const Table& table, std::string_view rows, std::string_view columns,
                      std::string_view value) {
    const Column &row = table[rows], &column = table[columns], &cell = table[value];
    const std::size_t width = column.names.size();
    constexpr double gap = std::numeric_limits<double>::quiet_NaN();
    std::vector<std::vector<double>> all(row.names.size(), std::vector<double>(width, gap));
    std::vector<Fault> faults;
    for (std::size_t i = 0; i < table.rows; ++i) {
        double& at = all[row.words[i]][column.words[i]];
        if (!std::isnan(at))
            faults.push_back(table.fault(
                i, std::string(rows) + " and " + std::string(columns),
                row.names[row.words[i]] + ", " + column.names[column.words[i]] + " again", "once each"));
        at = cell.numbers[i];
    }
    if (!faults.empty()) return faults;
    Grid grid{{}, column.names, {}, {}};
    for (std::size_t r = 0; r < all.size(); ++r) {
        bool whole = true;
        for (double x : all[r]) whole = whole && !std::isnan(x);
        if (!whole) {
            grid.left_out.push_back(row.names[r]);
            continue;
        }
        grid.row_names.push_back(row.names[r]);
        grid.cells.push_back(std::move(all[r]));
    }
    return grid;
}

}  // namespace engine
