// The narrow rows as columns, by SQLite's C interface: SOCI fetches a row of twenty numbers several times
// slower.
#pragma once

#include "engine/competency/count_columns.h"
#include "engine/outcome.h"

#include <optional>
#include <string>

namespace engine {

// `path`: a store of this version, open elsewhere or not.
Outcome<CountColumns> read_counts(const std::string& path, const std::optional<std::string>& person);

}  // namespace engine
