#include "engine/competency/line_fit.h"

#include "engine/competency/distributions.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <numbers>
#include <set>
#include <utility>

namespace engine {
namespace {

Coefficient absent_coefficient(const std::string& why) {
    return {Figure::absent(why), Figure::absent(why), Interval::absent(why)};
}

Coefficient coefficient(double value, double standard_error, double degrees) {
    const double half = t_quantile(0.975, degrees) * standard_error;
    return {value, standard_error, {value - half, value + half}};
}

LineFit no_line(std::size_t n, const std::string& why) {
    return {absent_coefficient(why), absent_coefficient(why), Figure::absent(why), Figure::absent(why), n};
}

}  // namespace

LineFit line_fit(std::span<const double> x, std::span<const double> y) {
    assert(x.size() == y.size());
    LineSums sums;
    for (std::size_t i = 0; i < x.size(); ++i) sums.add(x[i], y[i]);
    return sums.fit();
}

LineFit LineSums::fit() const {
    const auto n = static_cast<std::size_t>(n_);
    if (n < 3) return no_line(n, "a line with its error needs 3 points");
    const double xx = xx_ - x_ * x_ / n_, xy = xy_ - x_ * y_ / n_, yy = std::max(0.0, yy_ - y_ * y_ / n_);
    const double mean_x = x0_ + x_ / n_, mean_y = y0_ + y_ / n_;
    if (xx <= 1e-12 * xx_ || xx <= 1e-20 * n_ * mean_x * mean_x) return no_line(n, "all x equal");
    const double slope = xy / xx, intercept = mean_y - slope * mean_x;
    const double sd = std::sqrt(std::max(0.0, yy - slope * xy) / (n_ - 2));
    return {coefficient(intercept, sd * std::sqrt(1 / n_ + mean_x * mean_x / xx), n_ - 2),
            coefficient(slope, sd / std::sqrt(xx), n_ - 2),
            sd,
            yy > 0 ? Figure(std::min(1.0, slope * xy / yy)) : Figure::absent("all y equal"),
            n,
            mean_x,
            xx};
}

Figure LineFit::at(double x) const {
    if (!slope.value) return slope.value;
    return *intercept.value + *slope.value * x;
}

Figure LineFit::standard_error_at(double x) const {
    if (!residual_sd) return residual_sd;
    return *residual_sd * std::sqrt(1 / static_cast<double>(n) + (x - mean_x) * (x - mean_x) / spread_x);
}

LineFit error_against_truth(std::span<const double> truth_bpm, std::span<const double> typed_bpm) {
    assert(truth_bpm.size() == typed_bpm.size());
    LineSums sums;
    for (std::size_t i = 0; i < truth_bpm.size(); ++i) sums.add(truth_bpm[i], typed_bpm[i] - truth_bpm[i]);
    return sums.fit();
}

SpreadByRate spread_against_truth(std::span<const double> truth_bpm, std::span<const double> typed_bpm) {
    const LineFit line = error_against_truth(truth_bpm, typed_bpm);
    if (!line.slope.value) return {line};
    const double intercept = *line.intercept.value, slope = *line.slope.value;
    LineSums sums;
    for (std::size_t i = 0; i < truth_bpm.size(); ++i)
        sums.add(truth_bpm[i], std::fabs(typed_bpm[i] - truth_bpm[i] - intercept - slope * truth_bpm[i]));
    return {sums.fit()};
}

Figure SpreadByRate::sd_at_bpm(double truth_bpm) const {
    const Figure size = size_of_residual.at(truth_bpm);
    if (!size) return size;
    if (*size < 0) return Figure::absent("the line of the spread falls below 0 there");
    return std::sqrt(std::numbers::pi / 2) * *size;
}

namespace {

using Row = std::array<double, 3>;

// Inverse of a symmetric 3 x 3 matrix by its cofactors; false when it is as good as singular.
bool invert(const std::array<Row, 3>& m, std::array<Row, 3>& inverse) {
    for (std::size_t i = 0; i < 3; ++i)
        for (std::size_t j = 0; j < 3; ++j) {
            const std::size_t a = (j + 1) % 3, b = (j + 2) % 3, c = (i + 1) % 3, d = (i + 2) % 3;
            inverse[i][j] = m[a][c] * m[b][d] - m[a][d] * m[b][c];
        }
    const double determinant = m[0][0] * inverse[0][0] + m[0][1] * inverse[1][0] + m[0][2] * inverse[2][0];
    if (std::fabs(determinant) < 1e-12 * m[0][0] * m[1][1] * m[2][2]) return false;
    for (Row& row : inverse)
        for (double& cell : row) cell /= determinant;
    return true;
}

std::string not_separable(const Coefficient& c) {
    if (!c.value) return c.value.why();
    return *c.interval.low <= 0 && *c.interval.high >= 0 ? "not separable: the interval spans 0" : "";
}

}  // namespace

Habits habits_of(std::span<const UntappedCount> counts) {
    const auto none = [](const std::string& why) {
        return Habits{absent_coefficient(why),
                      absent_coefficient(why),
                      absent_coefficient(why),
                      Figure::absent(why),
                      why,
                      why,
                      why};
    };
    if (counts.size() < 9) return none("habits need 9 counts");
    std::set<double> rates, windows;
    for (const UntappedCount& c : counts) rates.insert(c.rate_bpm), windows.insert(c.window_s);
    if (rates.size() < 2) return none("habits need two rates");
    if (windows.size() < 2) return none("with one window length, a late stop and missed beats look the same");

    std::array<Row, 3> normal{}, inverse{};
    Row right{};
    const auto row_of = [](const UntappedCount& c) {
        return Row{1, c.rate_bpm / 60, c.rate_bpm * c.window_s / 60};
    };
    for (const UntappedCount& c : counts) {
        const Row row = row_of(c);
        for (std::size_t i = 0; i < 3; ++i) {
            right[i] += row[i] * c.surplus_beats;
            for (std::size_t j = 0; j < 3; ++j) normal[i][j] += row[i] * row[j];
        }
    }
    if (!invert(normal, inverse)) return none("rates and windows always changed together");
    Row b{};
    for (std::size_t i = 0; i < 3; ++i)
        for (std::size_t j = 0; j < 3; ++j) b[i] += inverse[i][j] * right[j];
    double squares = 0;
    for (const UntappedCount& c : counts) {
        const Row row = row_of(c);
        const double left = c.surplus_beats - row[0] * b[0] - row[1] * b[1] - row[2] * b[2];
        squares += left * left;
    }
    const double degrees = static_cast<double>(counts.size() - 3), sd = std::sqrt(squares / degrees);
    const auto found = [&](std::size_t i) {
        return coefficient(b[i], sd * std::sqrt(inverse[i][i]), degrees);
    };
    Habits habits{found(0), found(1), found(2), sd, "", "", ""};
    habits.fencepost_remark = not_separable(habits.fencepost_beats);
    habits.window_remark = not_separable(habits.window_late_s);
    habits.missed_remark = not_separable(habits.missed_share);
    return habits;
}

}  // namespace engine
