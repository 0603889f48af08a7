// The score sheet as JSON: the shape kept in an attempt file and compared by a replay.
#pragma once

#include "engine/scoring/score_sheet.h"

#include <nlohmann/json_fwd.hpp>

namespace engine {

nlohmann::ordered_json json_of(const ScoreSheet& sheet);

}  // namespace engine
