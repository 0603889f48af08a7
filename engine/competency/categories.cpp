#include "engine/competency/categories.h"

#include "engine/competency/distributions.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace engine {
namespace {

double weight(std::size_t i, std::size_t j, std::size_t categories, KappaWeights weights) {
    if (i == j) return 1;
    if (weights == KappaWeights::none) return 0;
    const double apart =
        (static_cast<double>(i) - static_cast<double>(j)) / static_cast<double>(categories - 1);
    return weights == KappaWeights::linear ? 1 - std::fabs(apart) : 1 - apart * apart;
}

}  // namespace

Kappa kappa(const CategoryTable& table, KappaWeights weights) {
    const std::size_t k = table.size();
    long long n = 0;
    for (const auto& row : table) {
        assert(row.size() == k);
        for (long long cell : row) {
            assert(cell >= 0);
            n += cell;
        }
    }
    const auto none = [&](const std::string& why, const Figure& raw, const Figure& agreed,
                          const Figure& expected) {
        const Figure absent = Figure::absent(why);
        return Kappa{n, raw, agreed, expected, absent, absent, absent, Interval::absent(why)};
    };
    if (n == 0) {
        const Figure nothing = Figure::absent("no calls");
        return none("no calls", nothing, nothing, nothing);
    }
    const double total = static_cast<double>(n);
    std::vector<double> rows(k), columns(k), row_weight(k), column_weight(k);
    double same = 0, agreed = 0, expected = 0;
    for (std::size_t i = 0; i < k; ++i)
        for (std::size_t j = 0; j < k; ++j) {
            const double p = static_cast<double>(table[i][j]) / total;
            rows[i] += p;
            columns[j] += p;
            agreed += weight(i, j, k, weights) * p;
            if (i == j) same += p;
        }
    for (std::size_t i = 0; i < k; ++i)
        for (std::size_t j = 0; j < k; ++j) {
            const double w = weight(i, j, k, weights);
            expected += w * rows[i] * columns[j];
            row_weight[i] += w * columns[j];
            column_weight[j] += w * rows[i];
        }
    if (k == 1) return none("one category only", same, agreed, expected);
    if (n == 1) return none("one call shows no agreement beyond chance", same, agreed, expected);
    if (1 - expected < 1e-12) return none("both used one category only", same, agreed, expected);

    const double value = (agreed - expected) / (1 - expected);
    double at_value = 0, at_zero = 0;
    for (std::size_t i = 0; i < k; ++i)
        for (std::size_t j = 0; j < k; ++j) {
            const double w = weight(i, j, k, weights), mean = row_weight[i] + column_weight[j];
            const double p = static_cast<double>(table[i][j]) / total;
            at_value += p * (w - mean * (1 - value)) * (w - mean * (1 - value));
            at_zero += rows[i] * columns[j] * (w - mean) * (w - mean);
        }
    const double centre = value - expected * (1 - value);
    const double scale = total * (1 - expected) * (1 - expected);
    const double error = std::sqrt(std::max(0.0, at_value - centre * centre) / scale);
    const double error0 = std::sqrt(std::max(0.0, at_zero - expected * expected) / scale);
    // Where all agree, or all differ alike, there is no spread to tell anything from.
    const Interval interval =
        error < 1e-9 ? Interval::absent("calls all alike: an interval from their spread would have no width")
                     : Interval{std::max(-1.0, value - z95 * error), std::min(1.0, value + z95 * error)};
    return {n, same, agreed, expected, value, error, error0, interval};
}

}  // namespace engine
