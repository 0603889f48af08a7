// The loudness map of the abdomen as a picture, for the terminal.
#pragma once

#include "engine/outcome.h"

#include <array>
#include <string>
#include <vector>

namespace ui {

// Rows x_cm, y_cm, level_db, rival_db on the map's grid of 0.5 cm (sim/body/abdomen.h), any order. Fault: no
// rows, or a file that cannot be written.
engine::Outcome<engine::Done> write_map_png(const std::vector<std::array<double, 4>>& rows,
                                            const std::string& path);

}  // namespace ui
