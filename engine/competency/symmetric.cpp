#include "engine/competency/symmetric.h"

#include <cmath>

namespace engine {
namespace {

// gamma of all items but two (pass the number of items for "none").
std::vector<double> gamma_without(std::span<const double> easiness, std::size_t one, std::size_t two) {
    std::vector<double> g(easiness.size() + 1);
    g[0] = 1;
    std::size_t used = 0;
    for (std::size_t i = 0; i < easiness.size(); ++i) {
        if (i == one || i == two) continue;
        ++used;
        for (std::size_t j = used; j >= 1; --j) g[j] += easiness[i] * g[j - 1];
    }
    return g;
}

}  // namespace

bool invert(SquareMatrix& m) {
    const std::size_t n = m.size;
    for (std::size_t p = 0; p < n;
         ++p) {  // Gauss-Jordan in place; pivots of a positive matrix stay on the diagonal
        const double pivot = m(p, p);
        if (!(pivot > 1e-13)) return false;
        m(p, p) = 1;
        for (std::size_t j = 0; j < n; ++j) m(p, j) /= pivot;
        for (std::size_t i = 0; i < n; ++i) {
            if (i == p) continue;
            const double by = m(i, p);
            m(i, p) = 0;
            for (std::size_t j = 0; j < n; ++j) m(i, j) -= by * m(p, j);
        }
    }
    return true;
}

Conditional conditional(std::span<const double> difficulty, std::span<const double> persons_with) {
    const std::size_t k = difficulty.size();
    std::vector<double> easiness(k);
    for (std::size_t i = 0; i < k; ++i) easiness[i] = std::exp(-difficulty[i]);
    Conditional c{gamma_without(easiness, k, k), std::vector<double>(k), SquareMatrix(k)};

    std::vector<std::vector<double>> share(k, std::vector<double>(k + 1));  // P(item right | score)
    for (std::size_t i = 0; i < k; ++i) {
        const std::vector<double> g = gamma_without(easiness, i, k);
        for (std::size_t r = 1; r < k; ++r) {
            share[i][r] = easiness[i] * g[r - 1] / c.gamma[r];
            c.expected_right[i] += persons_with[r] * share[i][r];
            c.information(i, i) += persons_with[r] * share[i][r] * (1 - share[i][r]);
        }
    }
    for (std::size_t i = 0; i < k; ++i)
        for (std::size_t j = i + 1; j < k; ++j) {
            const std::vector<double> g = gamma_without(easiness, i, j);
            double covariance = 0;
            for (std::size_t r = 1; r < k; ++r) {
                const double both = r >= 2 ? easiness[i] * easiness[j] * g[r - 2] / c.gamma[r] : 0;
                covariance += persons_with[r] * (both - share[i][r] * share[j][r]);
            }
            c.information(i, j) = c.information(j, i) = covariance;
        }
    return c;
}

}  // namespace engine
