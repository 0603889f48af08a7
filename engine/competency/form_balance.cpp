#include "engine/competency/form_balance.h"

#include "engine/competency/distributions.h"
#include "engine/competency/standards.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>

namespace engine {
namespace {

double chance_right(double difficulty, double ability) { return 1 / (1 + std::exp(difficulty - ability)); }

}  // namespace

double true_score(std::span<const double> difficulty, double ability) {
    double sum = 0;
    for (double b : difficulty) sum += chance_right(b, ability);
    return sum;
}

double test_information(std::span<const double> difficulty, double ability) {
    double sum = 0;
    for (double b : difficulty) sum += chance_right(b, ability) * (1 - chance_right(b, ability));
    return sum;
}

std::vector<double> chance_of_scores(std::span<const double> difficulty, double ability) {
    std::vector<double> chance{1};
    for (double b : difficulty) {
        const double p = chance_right(b, ability);
        chance.push_back(0);
        for (std::size_t r = chance.size() - 1; r >= 1; --r)
            chance[r] = chance[r] * (1 - p) + chance[r - 1] * p;
        chance[0] *= 1 - p;
    }
    return chance;
}

double chance_at_least(std::span<const double> difficulty, double ability, int mark) {
    const std::vector<double> chance = chance_of_scores(difficulty, ability);
    const auto from = std::min(chance.size(), static_cast<std::size_t>(std::max(0, mark)));
    return std::accumulate(chance.begin() + static_cast<std::ptrdiff_t>(from), chance.end(), 0.0);
}

EquatedCut equated_cut(std::span<const double> first, double first_cut, std::span<const double> second) {
    if (first_cut <= 0 || first_cut >= static_cast<double>(first.size())) {
        const Figure none = Figure::absent("the cut must lie between none and all right");
        return {none, none, 0};
    }
    double low = -60, high = 60;
    for (int i = 0; i < 100; ++i) {
        const double middle = (low + high) / 2;
        (true_score(first, middle) < first_cut ? low : high) = middle;
    }
    const double ability = (low + high) / 2, cut = true_score(second, ability);
    return {ability, cut, rounded_up(cut)};
}

Overlap overlap(int drawn, int pool) {
    assert(drawn >= 0 && pool >= drawn && pool > 0);
    return {static_cast<double>(drawn) * drawn / pool, drawn, pool};
}

double Overlap::at_least(int common) const { return hypergeometric_at_least(common, drawn, drawn, pool); }

FormTarget target_of(std::span<const double> difficulty, double cut_ability) {
    assert(!difficulty.empty());
    const double sum = std::accumulate(difficulty.begin(), difficulty.end(), 0.0);
    return {sum / static_cast<double>(difficulty.size()), test_information(difficulty, cut_ability),
            cut_ability};
}

bool balanced(std::span<const double> difficulty, const FormTarget& target) {
    const FormTarget own = target_of(difficulty, target.cut_ability);
    return std::fabs(own.mean_difficulty - target.mean_difficulty) <= 0.15 &&
           own.information >= 0.9 * target.information;
}

Outcome<BalancedForm> draw_balanced(const std::string& seed, const std::string& form,
                                    std::span<const Stratum> strata, std::span<const int> quota,
                                    const std::function<double(const std::string&)>& difficulty_of,
                                    const FormTarget& target) {
    for (int i = 0; i < 200; ++i) {
        const std::string label = i == 0 ? form : form + "#" + std::to_string(i);
        Outcome<std::vector<std::string>> drawn = draw_form(seed, label, strata, quota);
        if (!drawn.ok()) return drawn.faults();
        std::vector<double> difficulty;
        for (const std::string& id : *drawn) difficulty.push_back(difficulty_of(id));
        if (!difficulty.empty() && balanced(difficulty, target))
            return BalancedForm{label, std::move(drawn).value()};
    }
    return Fault{"", 0, "form " + form, "no balanced draw in 200",
                 "a pool with more items near the target's difficulty"};
}

}  // namespace engine
