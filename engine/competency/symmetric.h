// The elementary symmetric functions of easiness e^-b, and what follows from them: how often each item is
// right among persons of a given score. By the summation recursion: only sums of positive terms, so no digits
// are lost.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace engine {

struct SquareMatrix {
    std::size_t size = 0;
    std::vector<double> cells;

    explicit SquareMatrix(std::size_t n) : size(n), cells(n * n) {}
    double& operator()(std::size_t i, std::size_t j) { return cells[i * size + j]; }
    double operator()(std::size_t i, std::size_t j) const { return cells[i * size + j]; }
};
bool invert(SquareMatrix& m);  // symmetric and positive; false when it is not

struct Conditional {
    std::vector<double> gamma;           // 0 ... k
    std::vector<double> expected_right;  // each item, given how many persons have each score
    SquareMatrix information{0};         // its covariance: rows sum to 0
};
Conditional conditional(std::span<const double> difficulty, std::span<const double> persons_with);

}  // namespace engine
