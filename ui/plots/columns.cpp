#include "ui/plots/columns.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace ui {

double value_at(std::span<const double> values, double step_s, double at_s) {
    const double place = at_s / step_s;
    if (values.empty() || place < 0 || place > static_cast<double>(values.size() - 1)) return 0;
    const auto i = static_cast<std::size_t>(std::floor(place));
    const double share = place - static_cast<double>(i);
    if (share == 0) return values[i];
    if (values[i] == 0 || values[i + 1] == 0) return 0;
    return values[i] + (values[i + 1] - values[i]) * share;
}

std::vector<Column> columns_of(std::span<const double> values, double step_s, double from_s, double to_s,
                               std::size_t n) {
    assert(step_s > 0 && to_s > from_s && n > 0);
    std::vector<Column> columns(n);
    const double width_s = (to_s - from_s) / static_cast<double>(n);
    for (std::size_t c = 0; c < n; ++c) {
        Column& column = columns[c];
        const auto take = [&column](double v) {
            if (v == 0) return;
            column.low = column.any ? std::min(column.low, v) : v;
            column.high = column.any ? std::max(column.high, v) : v;
            column.any = true;
        };
        const double t0 = from_s + width_s * static_cast<double>(c), t1 = t0 + width_s;
        take(value_at(values, step_s, t0));
        take(value_at(values, step_s, t1));
        const double first = std::max(0.0, std::ceil(t0 / step_s)), last = std::floor(t1 / step_s);
        for (double k = first; k <= last && k < static_cast<double>(values.size()); k += 1)
            take(values[static_cast<std::size_t>(k)]);
    }
    return columns;
}

}  // namespace ui
