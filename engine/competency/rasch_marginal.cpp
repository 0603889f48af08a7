#include "engine/competency/rasch.h"

#include <array>
#include <cassert>
#include <cmath>
#include <numbers>

namespace engine {
namespace {

constexpr std::size_t nodes = 41;

struct Quadrature {
    std::array<double, nodes> at{}, weight{};  // for a standard normal
};

// Gauss-Hermite by Newton on the normalised Hermite functions, from the largest root inwards.
Quadrature quadrature() {
    Quadrature q;
    constexpr auto n = static_cast<int>(nodes);
    double z = 0;
    for (int i = 0; i < (n + 1) / 2; ++i) {
        const auto known = [&](int back) {
            return q.at[static_cast<std::size_t>(i - back)] / std::numbers::sqrt2;
        };
        if (i == 0)
            z = std::sqrt(2.0 * n + 1) - 1.85575 * std::pow(2.0 * n + 1, -0.16667);
        else if (i == 1)
            z -= 1.14 * std::pow(n, 0.426) / z;
        else if (i == 2)
            z = 1.86 * z - 0.86 * known(2);
        else if (i == 3)
            z = 1.91 * z - 0.91 * known(2);
        else
            z = 2 * z - known(2);
        double slope = 1;
        for (int round = 0; round < 100; ++round) {
            double p = 1 / std::pow(std::numbers::pi, 0.25), before = 0;
            for (int j = 1; j <= n; ++j) {
                const double next = z * std::sqrt(2.0 / j) * p - std::sqrt((j - 1.0) / j) * before;
                before = p, p = next;
            }
            slope = std::sqrt(2.0 * n) * before;
            const double step = p / slope;
            z -= step;
            if (std::fabs(step) < 1e-15) break;
        }
        const auto high = static_cast<std::size_t>(i), low = nodes - 1 - high;
        q.at[high] = z * std::numbers::sqrt2, q.at[low] = -q.at[high];
        q.weight[high] = q.weight[low] = 2 / (slope * slope) / std::sqrt(std::numbers::pi);
    }
    return q;
}

MarginalRasch fit(std::span<const long long> right, std::span<const long long> persons_with, double sd,
                  bool fixed) {
    const std::size_t k = right.size();
    assert(persons_with.size() == k + 1);
    double persons = 0;
    for (long long n : persons_with) persons += static_cast<double>(n);
    const auto none = [&](const std::string& why) {
        return MarginalRasch{std::vector<Figure>(k, Figure::absent(why)), Figure::absent(why),
                             Figure::absent(why)};
    };
    std::vector<double> b(k);
    for (std::size_t i = 0; i < k; ++i) {
        const double share = static_cast<double>(right[i]);
        if (share <= 0 || share >= persons) return none("an item is all right or all wrong");
        b[i] = std::log((persons - share) / share);
    }
    static const Quadrature q = quadrature();
    double likelihood = 0;
    for (int round = 0; round < 100'000; ++round) {  // EM
        std::array<double, nodes> whole{};           // ln of weight / prod(1 + e^(ability - b))
        for (std::size_t t = 0; t < nodes; ++t) {
            whole[t] = std::log(q.weight[t]);
            for (double d : b) whole[t] -= std::log1p(std::exp(sd * q.at[t] - d));
        }
        std::array<double, nodes> expected{};
        likelihood = 0;
        for (std::size_t r = 0; r <= k; ++r) {
            if (persons_with[r] == 0) continue;
            std::array<double, nodes> part{};
            double most = -1e300, sum = 0;
            for (std::size_t t = 0; t < nodes; ++t) {
                part[t] = whole[t] + static_cast<double>(r) * sd * q.at[t];
                most = std::max(most, part[t]);
            }
            for (double& p : part) sum += p = std::exp(p - most);
            const double n = static_cast<double>(persons_with[r]);
            likelihood += n * (most + std::log(sum));
            for (std::size_t t = 0; t < nodes; ++t) expected[t] += n * part[t] / sum;
        }
        for (std::size_t i = 0; i < k; ++i) likelihood -= b[i] * static_cast<double>(right[i]);

        double moved = 0;
        for (std::size_t i = 0; i < k; ++i)
            for (int newton = 0; newton < 3; ++newton) {
                double sum = 0, slope = 0;
                for (std::size_t t = 0; t < nodes; ++t) {
                    const double p = 1 / (1 + std::exp(b[i] - sd * q.at[t]));
                    sum += expected[t] * p, slope += expected[t] * p * (1 - p);
                }
                const double step = (sum - static_cast<double>(right[i])) / slope;
                b[i] += step;
                if (newton == 0) moved = std::max(moved, std::fabs(step));
            }
        if (!fixed) {
            double square = 0;
            for (std::size_t t = 0; t < nodes; ++t)
                square += expected[t] * sd * sd * q.at[t] * q.at[t] / persons;
            const double next = std::sqrt(square);
            moved = std::max(moved, std::fabs(next - sd));
            sd = next;
        }
        if (sd < 1e-4) return none("no spread of ability is seen");
        if (moved < 1e-12) return {std::vector<Figure>(b.begin(), b.end()), sd, likelihood};
    }
    return none("the estimates do not settle");
}

}  // namespace

MarginalRasch marginal_rasch(std::span<const long long> right, std::span<const long long> persons_with) {
    return fit(right, persons_with, 1, false);
}

MarginalRasch marginal_rasch(std::span<const long long> right, std::span<const long long> persons_with,
                             double sd) {
    assert(sd > 0);
    return fit(right, persons_with, sd, true);
}

}  // namespace engine
