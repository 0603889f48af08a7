// Comparable forms from one pool: whole quotas, a draw that is the same on every machine, and the refusal to
// top up silently. Publish the seed after the check.
#pragma once

#include "engine/outcome.h"

#include <span>
#include <string>
#include <vector>

namespace engine {

// `total` shared by whole weights (per cent, per mille): floors first, the rest to the largest remainders,
// ties to the lower index. All in whole numbers. Weights >= 0, one above 0.
std::vector<int> quotas(int total, std::span<const long long> weights);

struct Stratum {
    std::string name;  // category, or category x difficulty third
    std::vector<std::string> ids;
};

// Ids by the hex SHA-256 of "seed|form|id", ties by id. Adding an item does not reorder the others.
std::vector<std::string> drawing_order(const std::string& seed, const std::string& form,
                                       std::vector<std::string> ids);

// The first quota of each stratum, in the strata's order. `nth` 1 takes the next quota of the same order
// instead: a form that shares no item with the first. A stratum that is too small is a fault, never topped up
// from another; all such strata are named.
Outcome<std::vector<std::string>> draw_form(const std::string& seed, const std::string& form,
                                            std::span<const Stratum> strata, std::span<const int> quota,
                                            int nth = 0);

}  // namespace engine
