// The window's figures for `fullminute bench`.
#pragma once

#include "ui/terminal/terminal.h"

#include <vector>

namespace ui {

// Opens the window (without a display: SDL's dummy drivers), sits down with the first scenario in a store of
// its own, and measures; takes about seven seconds. Empty, with one line on stderr, when no window can be
// opened.
std::vector<WindowFigure> measure_window();

}  // namespace ui
