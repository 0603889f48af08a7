// A straight line through points by least squares, and what is asked of it: does the error grow with the
// rate, does the scatter.
#pragma once

#include "engine/competency/figure.h"

#include <span>
#include <string>
#include <vector>

namespace engine {

struct Coefficient {
    Figure value, standard_error;
    Interval interval;  // by t
};
Coefficient absent_coefficient(const std::string& why);
Coefficient coefficient_by_t(double value, double standard_error, double degrees);

struct LineFit {
    Coefficient intercept, slope;
    Figure residual_sd;  // over n - 2
    Figure share_explained;
    std::size_t n = 0;

    Figure at(double x) const;
    Figure standard_error_at(double x) const;  // of the line, not of a next point

    double mean_x = 0, spread_x = 0;  // sum of squares about the mean
};
LineFit line_fit(std::span<const double> x, std::span<const double> y);

// The same from running sums about the first point: one pass, nothing kept. A fit that meets every point
// leaves a residual of rounding, not exactly 0.
class LineSums {
public:
    void add(double x, double y) {
        if (n_ == 0) x0_ = x, y0_ = y;
        const double u = x - x0_, v = y - y0_;
        n_ += 1;
        x_ += u, y_ += v, xx_ += u * u, xy_ += u * v, yy_ += v * v;
    }
    LineFit fit() const;

private:
    double n_ = 0, x0_ = 0, y0_ = 0, x_ = 0, y_ = 0, xx_ = 0, xy_ = 0, yy_ = 0;
};

// Error (typed minus truth) against the truth, which is known without error; never against the mean of the
// two, which builds a correlation in. A negative slope is a pull towards normal.
LineFit error_against_truth(std::span<const double> truth_bpm, std::span<const double> typed_bpm);

// sd(x) = sqrt(pi / 2) (c0 + c1 x), from |residual| of the line above against the truth. Bland & Altman 1999.
struct SpreadByRate {
    LineFit size_of_residual;
    Figure sd_at_bpm(double truth_bpm) const;
};
SpreadByRate spread_against_truth(std::span<const double> truth_bpm, std::span<const double> typed_bpm);

}  // namespace engine
