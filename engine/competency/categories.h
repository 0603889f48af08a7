// Agreement on categories (slow, normal, fast; or an unordered list). Kappa misleads alone at a skewed
// prevalence: show the table and raw agreement beside it. Fleiss, Cohen & Everitt 1969.
#pragma once

#include "engine/competency/figure.h"

#include <cstddef>
#include <vector>

namespace engine {

enum class KappaWeights { none, linear, quadratic };  // the last two only for ordered categories

// Square, categories in order: rows the truth (or one trainee), columns the call (or the other).
using CategoryTable = std::vector<std::vector<long long>>;

struct Kappa {
    long long n = 0;
    Figure raw_agreement;       // share on the diagonal, whatever the weights
    Figure weighted_agreement;  // what kappa is made from; without weights the same
    Figure expected_agreement;  // of the weighted, by the margins alone
    Figure kappa, standard_error, standard_error_at_zero;
    Interval interval;
};
Kappa kappa(const CategoryTable& table, KappaWeights weights = KappaWeights::none);

}  // namespace engine
