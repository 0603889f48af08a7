// The program: no command opens the window, a command runs in the terminal. Same engine calls behind both.
#include "ui/terminal/terminal.h"

#include <malloc.h>

#ifdef FULLMINUTE_WINDOW
#include "ui/program/bench_window.h"
#include "ui/program/program.h"

#include <cstdlib>
#include <iostream>

namespace {

bool has_screen() {
    for (const char* name : {"DISPLAY", "WAYLAND_DISPLAY", "SDL_VIDEODRIVER"})
        if (const char* value = std::getenv(name); value != nullptr && *value != '\0') return true;
    return false;
}

int open_window(const ui::WindowWords& words) {
    if (!has_screen()) {
        std::cerr << "fullminute: no display found (DISPLAY and WAYLAND_DISPLAY are empty); the commands "
                     "work without "
                     "one: fullminute --help\n";
        return 2;
    }
    ui::WindowOptions options;
    options.store = words.store;
    options.scenario = words.scenario;
    options.protocol = words.protocol;
    options.person = words.person;
    options.text_size = words.text_size / 100;
    options.width = words.width;
    options.height = words.height;
    options.fullscreen = words.fullscreen;
    options.once = !words.screenshot.empty();
    options.screenshot = words.screenshot;
    return ui::run_window(options);
}

}  // namespace

#endif

int main(int argc, char** argv) {
    // A course of an hour is a megabyte: kept for the next one instead of being fetched from the system page
    // by page, which costs as much as computing it.
    mallopt(M_MMAP_THRESHOLD, 64 << 20);
    mallopt(M_TRIM_THRESHOLD, 64 << 20);
#ifdef FULLMINUTE_WINDOW
    return ui::run_terminal(argc, argv, open_window, ui::measure_window);
#else
    return ui::run_terminal(argc, argv, {});
#endif
}
