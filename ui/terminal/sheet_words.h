// The score sheet as lines of text, for the terminal.
#pragma once

#include "engine/scoring/replay.h"

#include <string>

namespace ui {

std::string sheet_in_words(const engine::JudgedAttempt& judged);

}  // namespace ui
