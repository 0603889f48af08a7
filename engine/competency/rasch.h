// The Rasch model: P(right) = 1 / (1 + e^(difficulty - ability)), in logits. Items by conditional maximum
// likelihood, which assumes nothing about who was tested; persons by weighted likelihood (Warm 1989), finite
// even at all wrong and all right. Existence of the estimates: Fischer 1981 [memory].
#pragma once

#include "engine/competency/figure.h"
#include "engine/competency/items.h"

#include <span>
#include <string>
#include <vector>

namespace engine {

inline constexpr std::size_t most_rasch_items = 200;

struct RaschItems {
    // One entry an item as given. Absent with the reason for an item all right or all wrong among those used.
    std::vector<Figure> difficulty, standard_error;  // mean of the known difficulties 0
    std::size_t persons = 0;  // with neither none nor all right: only they say anything of items
    Figure log_likelihood;
    std::string why;     // why nothing could be estimated; empty when it could
    std::string remark;  // "provisional: ...", "too few persons to publish"; may be empty
};
RaschItems rasch_items(const Responses& responses);

// From totals alone: how often each item was right, and how many persons had 0, 1, ... k right.
RaschItems rasch_items_from_totals(std::span<const long long> right, std::span<const long long> persons_with);

// Does an estimate exist: from every item a way to every other, where a step i -> j is a person who passed i
// and failed j. Persons and items as given; those with none or all right must be out already.
bool strongly_connected(const Responses& responses);

struct Ability {
    Figure logits, standard_error;
};
// For 0, 1, ... k right of these items. Weighted: all finite. Plain maximum likelihood: absent at 0 and k.
std::vector<Ability> weighted_abilities(std::span<const double> difficulty);
std::vector<Ability> plain_abilities(std::span<const double> difficulty);

// Mean squares near 1 when the item behaves. Meaningless below 100 persons: do not show.
struct ItemFit {
    Figure infit, outfit;
};
std::vector<ItemFit> item_fit(const Responses& responses, std::span<const double> difficulty);
inline constexpr std::size_t least_persons_for_fit = 100;

// Marginal likelihood with abilities spread as N(0, sd^2), 41-point Gauss-Hermite: for forms that overlap in
// part.
struct MarginalRasch {
    std::vector<Figure> difficulty;
    Figure sd, log_likelihood;
};
MarginalRasch marginal_rasch(std::span<const long long> right, std::span<const long long> persons_with);
MarginalRasch marginal_rasch(std::span<const long long> right, std::span<const long long> persons_with,
                             double sd);

}  // namespace engine
