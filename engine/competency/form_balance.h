// Are two forms equally hard: by Rasch difficulties of their items (only once 30 persons have been tested).
#pragma once

#include "engine/competency/figure.h"
#include "engine/competency/forms.h"

#include <functional>
#include <span>
#include <string>
#include <vector>

namespace engine {

double true_score(std::span<const double> difficulty, double ability);
double test_information(std::span<const double> difficulty, double ability);
std::vector<double> chance_of_scores(std::span<const double> difficulty, double ability);  // 0 ... k right
double chance_at_least(std::span<const double> difficulty, double ability, int mark);

// The same ability on another form: where the first form's true score is its cut, the second's true score.
struct EquatedCut {
    Figure ability, cut;
    int mark = 0;  // rounded up [practice]
};
EquatedCut equated_cut(std::span<const double> first, double first_cut, std::span<const double> second);

// Two independent draws of q from N items.
struct Overlap {
    double mean = 0;
    double at_least(int common) const;
    int drawn = 0, pool = 0;
};
Overlap overlap(int drawn, int pool);

// Accepted: mean difficulty within 0.15 logit of the target's, and at the cut at least 90 % of its
// information [practice].
struct FormTarget {
    double mean_difficulty = 0, information = 0, cut_ability = 0;
};
FormTarget target_of(std::span<const double> difficulty, double cut_ability);
bool balanced(std::span<const double> difficulty, const FormTarget& target);

// Draws `form`, then "form#1", "form#2", ... until balanced; a fault after 200.
struct BalancedForm {
    std::string label;
    std::vector<std::string> ids;
};
Outcome<BalancedForm> draw_balanced(const std::string& seed, const std::string& form,
                                    std::span<const Stratum> strata, std::span<const int> quota,
                                    const std::function<double(const std::string&)>& difficulty_of,
                                    const FormTarget& target);

}  // namespace engine
