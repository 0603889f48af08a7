// The terminal: every figure a screen shows, without a screen. Never opens sound or a window.
// Exit 0 fine; 1 the yes/no question of the command was answered no; 2 bad input or usage, one line a fault on stderr.
#pragma once

namespace ui {

int run_terminal(int argc, const char* const* argv);

}  // namespace ui
