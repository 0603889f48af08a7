// The window with its screens: door, bedside, debrief, and which comes after which.
#pragma once

#include <string>

namespace ui {

struct WindowOptions {
    std::string store;     // --store as asked; empty = the person's own
    std::string scenario;  // path or library id chosen beforehand; empty = none
    std::string protocol;  // the same for the protocol; empty = the usual one
    std::string person;    // code; empty = asked at the door
    bool fullscreen = false;
    double text_size = 1.0;  // 1.0 .. 2.0
    int width = 1280, height = 800;
    bool once = false;       // draw the first screen, then leave: shows that it opens
    std::string screenshot;  // with `once`: saved here as PNG
};

// Runs until the window is closed. 0, or 2 with one line on stderr when it cannot open (no display, store
// refused).
int run_window(const WindowOptions& options);

}  // namespace ui
