// A store filled at once with made-up counted windows, without their attempts: to measure and try figures of
// a cohort on a store of its size. Never a real one.
#pragma once

#include "engine/competency/count_columns.h"
#include "engine/outcome.h"

#include <string>

namespace engine {

// `path` must be a store without rows. Every column of `counts` has all rows; people and items are named from
// 1 on.
Outcome<Done> fill_with_counts(const std::string& path, const CountColumns& counts);

}  // namespace engine
