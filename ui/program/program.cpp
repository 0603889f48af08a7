#include "ui/program/program.h"

#include "engine/store/journal.h"
#include "engine/store/store.h"
#include "ui/door/door.h"
#include "ui/files.h"
#include "ui/sound/device.h"
#include "ui/window/window.h"

#include <cstdio>
#include <cstdlib>

namespace ui {
namespace {

int refuse(const std::string& why) {
    std::fprintf(stderr, "fullminute: %s\n", why.c_str());
    return 2;
}

bool headless() {
    const char* driver = std::getenv("SDL_VIDEODRIVER");
    if (driver != nullptr && *driver != '\0') return false;
    return std::getenv("DISPLAY") == nullptr && std::getenv("WAYLAND_DISPLAY") == nullptr;
}

}  // namespace

int run_window(const WindowOptions& options) {
    // SDL would try the console itself when it runs as root.
    if (headless()) return refuse("no screen to open a window on (DISPLAY is not set)");
    std::string fault;
    WindowLook look;
    look.width = options.width;
    look.height = options.height;
    look.fullscreen = options.fullscreen;
    look.text_size = options.text_size;
    const auto window = Window::open(look, fault);
    if (!window) return refuse(fault);
    const std::string where = store_path(options.store);
    auto store = engine::Store::open(where);
    if (!store) return refuse(engine::in_one_line(store.faults().front()));
    auto journal = engine::Journal::open(journal_path(where));
    if (!journal) return refuse(engine::in_one_line(journal.faults().front()));
    SoundDevice device;
    Shelf shelf(data_folder() + "/scenarios/library");

    DoorWish wish;
    wish.person = options.person;
    wish.protocol = protocol_path(options.protocol);
    if (!options.scenario.empty()) {
        wish.scenario = scenario_path(options.scenario);
        if (wish.scenario.empty()) return refuse("no such scenario: " + options.scenario);
        if (shelf.read_now(wish.scenario, fault) < 0) return refuse(fault);
    }
    DoorScreen door(wish, shelf, device, **journal);
    if (options.once) {
        for (int i = 0; i < 40; ++i) window->step(door);
        if (!options.screenshot.empty() && !window->screenshot(options.screenshot))
            return refuse(options.screenshot + ": cannot be written");
        return 0;
    }
    window->show(door);
    return 0;
}

}  // namespace ui
