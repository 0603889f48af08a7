// The parts of a plan: counts of each value, whether they can be met two axes at a time, and putting all
// together.
#pragma once

#include "engine/drawing/dice.h"
#include "engine/drawing/goes_together.h"
#include "engine/drawing/quota.h"

#include <array>
#include <optional>
#include <vector>

namespace engine {

// How many scenarios have each value; nothing where any will do.
using Counts = std::optional<std::vector<int>>;
using AllCounts = std::array<Counts, axis_count>;
AllCounts counts_of(const Quota& quota);

// What cannot be met because two axes ask for what does not go together; empty when each pair can be met by
// itself.
std::vector<Fault> pairs_that_do_not_fit(const Quota& quota, const AllCounts& counts);

// All together: the cases, or the fault that names what was left over.
Outcome<std::vector<Case>> put_together(const Quota& quota, const AllCounts& counts, Dice& dice);

}  // namespace engine
