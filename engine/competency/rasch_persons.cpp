#include "engine/competency/rasch.h"

#include <cassert>
#include <cmath>

namespace engine {
namespace {

struct AtAbility {
    double expected = 0, information = 0, skew = 0;
};

AtAbility at(std::span<const double> difficulty, double ability) {
    AtAbility sum;
    for (double b : difficulty) {
        const double p = 1 / (1 + std::exp(b - ability)), q = p * (1 - p);
        sum.expected += p;
        sum.information += q;
        sum.skew += q * (1 - 2 * p);
    }
    return sum;
}

// Where a falling function of ability crosses 0.
template <typename Falling>
double crossing(std::span<const double> difficulty, Falling falling) {
    double low = 0, high = 0;
    for (double b : difficulty) low = std::min(low, b), high = std::max(high, b);
    low -= 30, high += 30;
    for (int i = 0; i < 80; ++i) {
        const double middle = (low + high) / 2;
        (falling(middle) > 0 ? low : high) = middle;
    }
    return (low + high) / 2;
}

Ability with_error(std::span<const double> difficulty, double ability) {
    return {ability, 1 / std::sqrt(at(difficulty, ability).information)};
}

}  // namespace

std::vector<Ability> weighted_abilities(std::span<const double> difficulty) {
    std::vector<Ability> abilities;
    for (std::size_t r = 0; r <= difficulty.size() && !difficulty.empty(); ++r)
        abilities.push_back(with_error(difficulty, crossing(difficulty, [&](double ability) {
                                           const AtAbility a = at(difficulty, ability);
                                           return static_cast<double>(r) - a.expected +
                                                  a.skew / (2 * a.information);
                                       })));
    return abilities;
}

std::vector<Ability> plain_abilities(std::span<const double> difficulty) {
    std::vector<Ability> abilities;
    const std::size_t k = difficulty.size();
    for (std::size_t r = 0; r <= k && k > 0; ++r) {
        if (r == 0 || r == k) {
            const Figure none = Figure::absent(r == 0 ? "none right" : "all right");
            abilities.push_back({none, none});
            continue;
        }
        abilities.push_back(with_error(difficulty, crossing(difficulty, [&](double ability) {
                                           return static_cast<double>(r) - at(difficulty, ability).expected;
                                       })));
    }
    return abilities;
}

std::vector<ItemFit> item_fit(const Responses& responses, std::span<const double> difficulty) {
    const std::size_t k = difficulty.size();
    const std::vector<Ability> abilities = plain_abilities(difficulty);
    std::vector<double> squares(k), weights(k), standardised(k);
    double persons = 0;
    for (const auto& person : responses) {
        assert(person.size() == k);
        std::size_t score = 0;
        for (char right : person) score += static_cast<std::size_t>(right);
        if (score == 0 || score == k) continue;
        persons += 1;
        for (std::size_t i = 0; i < k; ++i) {
            const double p = 1 / (1 + std::exp(difficulty[i] - *abilities[score].logits));
            const double left = person[i] - p, q = p * (1 - p);
            squares[i] += left * left;
            weights[i] += q;
            standardised[i] += left * left / q;
        }
    }
    std::vector<ItemFit> fit;
    for (std::size_t i = 0; i < k; ++i)
        if (persons == 0)
            fit.push_back({Figure::absent("nobody had some right and some wrong"),
                           Figure::absent("nobody had some right and some wrong")});
        else
            fit.push_back({squares[i] / weights[i], standardised[i] / persons});
    return fit;
}

}  // namespace engine
