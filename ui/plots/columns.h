// A long curve as one column a pixel: lowest and highest value within it, so that nothing narrow is lost and
// drawing costs the width of the picture, not the length of the labour.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace ui {

struct Column {
    double low = 0, high = 0;
    bool any = false;  // false: no value in it (no heart), a gap in the curve
};

// `values` every `step_s` from 0, straight between neighbours; 0 = no value. `n` columns from `from_s` to
// `to_s`; each includes the values at both its edges, so neighbours touch. Past the end of the values: gaps.
std::vector<Column> columns_of(std::span<const double> values, double step_s, double from_s, double to_s,
                               std::size_t n);

// Value at a time, straight between neighbours; 0 outside and beside a gap.
double value_at(std::span<const double> values, double step_s, double at_s);

}  // namespace ui
