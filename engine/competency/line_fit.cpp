#include "engine/competency/line_fit.h"

#include "engine/competency/distributions.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace engine {
namespace {

LineFit no_line(std::size_t n, const std::string& why) {
    return {absent_coefficient(why), absent_coefficient(why), Figure::absent(why), Figure::absent(why), n};
}

}  // namespace

Coefficient absent_coefficient(const std::string& why) {
    return {Figure::absent(why), Figure::absent(why), Interval::absent(why)};
}

Coefficient coefficient_by_t(double value, double standard_error, double degrees) {
    const double half = t_quantile(0.975, degrees) * standard_error;
    return {value, standard_error, {value - half, value + half}};
}

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
    return {coefficient_by_t(intercept, sd * std::sqrt(1 / n_ + mean_x * mean_x / xx), n_ - 2),
            coefficient_by_t(slope, sd / std::sqrt(xx), n_ - 2),
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

}  // namespace engine
