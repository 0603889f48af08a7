// The debrief as pages: what was true, what was done, what to do next time. For the screen's "Save as PDF"
// and for the terminal.
#pragma once

#include "engine/outcome.h"
#include "engine/scoring/replay.h"

#include <string>

namespace ui {

// Kind by suffix: .pdf, .svg, .png (A4 upright, pages one below the other in the last two). The bytes follow
// from the attempt alone: no clock, no machine. Fault: another suffix, or a file that cannot be written.
engine::Outcome<engine::Done> write_debrief(const engine::JudgedAttempt& judged, const std::string& path);

}  // namespace ui
