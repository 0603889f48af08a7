// The program: no words opens the window, words run a terminal command.
#include "ui/terminal/terminal.h"

#ifdef FULLMINUTE_WINDOW
#include "ui/program/program.h"
#endif

#include <cstdlib>
#include <cstring>
#include <iostream>

namespace {

bool has_screen() {
    for (const char* name : {"DISPLAY", "WAYLAND_DISPLAY", "SDL_VIDEODRIVER"})
        if (const char* value = std::getenv(name); value != nullptr && *value != '\0') return true;
    return false;
}

}  // namespace

int main(int argc, char** argv) {
#ifdef FULLMINUTE_WINDOW
    const bool store_only = argc == 3 && std::strcmp(argv[1], "--store") == 0;
    if (argc == 1 || store_only) {
        if (!has_screen()) {
            std::cerr << "fullminute: no display found; the commands work without one (fullminute --help)\n";
            return 2;
        }
        ui::WindowOptions options;
        if (store_only) options.store = argv[2];
        return ui::run_window(options);
    }
#endif
    return ui::run_terminal(argc, argv);
}
