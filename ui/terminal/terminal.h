// The terminal: every figure a screen shows, without a screen. Never opens sound or a window. Exit 0 fine; 1
// the yes/no question of the command was answered no; 2 bad input or usage, one line a fault on stderr.
#pragma once

#include <functional>
#include <string>
#include <vector>

namespace ui {

// What may be said on the command line about the window that opens when no command is given.
struct WindowWords {
    std::string store, scenario, protocol, person;
    double text_size = 100;  // percent, 100..200
    int width = 1280, height = 800;
    bool fullscreen = false;
    std::string screenshot;  // draw the first screen, save it here as PNG, leave
};

// A figure of the window, for `bench`.
struct WindowFigure {
    std::string what;
    double value = 0;
    std::string unit;
    double budget = 0;  // met when value <= budget
};

// `open_window` is called when there is no command; empty in a build without the window.
// `measure_window` gives the window's figures to `bench`; empty = the window is not measured.
int run_terminal(int argc, const char* const* argv, const std::function<int(const WindowWords&)>& open_window,
                 const std::function<std::vector<WindowFigure>()>& measure_window = {});

}  // namespace ui
