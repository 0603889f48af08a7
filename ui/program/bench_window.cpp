#include "ui/program/bench_window.h"

#include "engine/store/journal.h"
#include "engine/store/store.h"
#include "ui/bedside/bedside.h"
#include "ui/canvas/drawings.h"
#include "ui/door/door.h"
#include "ui/files.h"
#include "ui/program/go_round.h"
#include "ui/sound/device.h"
#include "ui/window/window.h"

#include <SDL2/SDL.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <unistd.h>

namespace ui {
namespace {

double steady_ms() {
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now().time_since_epoch())
        .count();
}

// Processor time of this thread: the window's own, without the sound's.
double thread_s() {
    timespec t{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
    return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

double resident_mb() {
    std::ifstream file("/proc/self/statm");
    double all = 0, resident = 0;
    file >> all >> resident;
    return resident * static_cast<double>(sysconf(_SC_PAGESIZE)) / 1e6;
}

void without_display() {
    const char* x = std::getenv("DISPLAY");
    const char* wayland = std::getenv("WAYLAND_DISPLAY");
    if ((x != nullptr && *x != '\0') || (wayland != nullptr && *wayland != '\0')) return;
    setenv("SDL_VIDEODRIVER", "dummy", 0);
    setenv("SDL_AUDIODRIVER", "dummy", 0);
}

// A folder that goes with everything in it.
struct Folder {
    std::filesystem::path path =
        std::filesystem::temp_directory_path() / ("fullminute-bench-" + std::to_string(getpid()));
    Folder() { std::filesystem::create_directories(path); }
    ~Folder() {
        std::error_code ignored;
        std::filesystem::remove_all(path, ignored);
    }
};

// Another screen, shown for so many seconds.
class ForAWhile : public Screen {
public:
    ForAWhile(Screen& screen, double seconds) : screen_(screen), until_ms_(steady_ms() + 1000 * seconds) {}
    void draw(Frame& frame) override { screen_.draw(frame); }
    double draw_again_in_s() const override { return screen_.draw_again_in_s(); }
    Leave leave() const override { return steady_ms() >= until_ms_ ? Leave::quit : Leave::stay; }

private:
    Screen& screen_;
    double until_ms_;
};

void push_pointer(Uint32 type, Point at) {
    SDL_Event e{};
    e.type = type;
    if (type == SDL_MOUSEMOTION) {
        e.motion.x = static_cast<int>(at.x);
        e.motion.y = static_cast<int>(at.y);
    } else {
        e.button.button = SDL_BUTTON_LEFT;
        e.button.x = static_cast<int>(at.x);
        e.button.y = static_cast<int>(at.y);
    }
    SDL_PushEvent(&e);
}

void settle(Window& window, Screen& screen) {
    do window.step(screen);
    while (window.more_input());
}

// From handling the pointer's event to the first changed sample written: the handling itself, one whole block
// of the device to wait for (the worst case), and from the block's start to the tick that the change was
// stamped with; the middle one of sixty moves.
double hand_to_sound_ms(Window& window, BedsideScreen& bedside, SoundDevice& device) {
    constexpr int block = 512;
    std::vector<float> out(2 * block);
    Session& s = bedside.session();
    engine::Event take;
    take.what = engine::Do::take;
    take.instrument = s.scenario().place.instruments.front();
    s.want(take);
    engine::Event put;
    put.what = engine::Do::place;
    put.x_cm = 4;
    put.y_cm = -6;
    put.press_n = 6;
    s.want(put);
    device.fill(out.data(), block);
    settle(window, bedside);
    const AbdomenFrame skin = abdomen_in(window.where("belly").box());
    push_pointer(SDL_MOUSEBUTTONDOWN, skin.to_page(4, -6));
    settle(window, bedside);
    std::vector<double> took;
    for (int i = 1; i <= 60; ++i) {
        device.fill(out.data(), block);
        s.settle();
        push_pointer(SDL_MOUSEMOTION, skin.to_page(4 + 0.1 * (i % 40), -6));
        const std::size_t before = s.events().size();
        const double start = steady_ms();
        window.step(bedside);
        const double handled = steady_ms() - start;
        const double block_starts = static_cast<double>(device.rendered().us) / 1000;
        device.fill(out.data(), block);
        s.settle();
        if (s.events().size() == before || s.events().back().what != engine::Do::move) continue;
        const double into_block = static_cast<double>(s.events().back().t.us) / 1000 - block_starts;
        took.push_back(handled + 1000.0 * block / 48000 + std::max(0.0, into_block));
    }
    push_pointer(SDL_MOUSEBUTTONUP, skin.to_page(4, -6));
    settle(window, bedside);
    if (took.empty()) return 1e9;  // no move was taken: never a good figure
    std::nth_element(took.begin(), took.begin() + static_cast<std::ptrdiff_t>(took.size() / 2), took.end());
    return took[took.size() / 2];
}

int said_why(const std::string& why) {
    std::fprintf(stderr, "fullminute: the window is not measured: %s\n", why.c_str());
    return 0;
}

}  // namespace

std::vector<WindowFigure> measure_window() {
    without_display();
    const Folder folder;
    std::vector<WindowFigure> figures;
    const double start = steady_ms();
    std::string fault;
    const auto window = Window::open({}, fault);
    if (!window) return said_why(fault), figures;
    const std::string where = (folder.path / "store.db").string();
    auto store = engine::Store::open(where);
    auto journal = engine::Journal::open(journal_path(where));
    if (!store || !journal) return said_why("no store in " + folder.path.string()), figures;
    SoundDevice device;
    Shelf shelf(data_folder() + "/scenarios/library");
    DoorWish wish;
    wish.person = "bench";
    wish.protocol = protocol_path("");
    wish.scenario = scenario_path("c01");
    {
        DoorScreen door(wish, shelf, device, **journal);
        window->step(door);
        figures.push_back({"first_screen", steady_ms() - start, "ms", 400});
        while (!shelf.done()) window->step(door);
    }
    auto session = sit_down(wish, device, **store, **journal);
    if (!session) return said_why(engine::in_one_line(session.faults().front())), figures;
    {
        BedsideScreen bedside(std::move(session).value(), **store, false);
        for (int i = 0; i < 10; ++i) window->step(bedside);
        std::vector<double> costs;
        window->always_whole(true);
        for (int i = 0; i < 100; ++i) {
            const double before = thread_s();
            window->step(bedside);
            costs.push_back((thread_s() - before) * 1000);
        }
        std::nth_element(costs.begin(), costs.begin() + 50, costs.end());
        figures.push_back({"frame_1280x800", costs[50], "ms", 6});
        window->always_whole(false);
        ForAWhile resting(bedside, 5);
        const double used = thread_s(), from = steady_ms();
        window->show(resting);
        figures.push_back(
            {"idle_screen", 100 * (thread_s() - used) * 1000 / (steady_ms() - from), "% of a core", 2});
        figures.push_back({"memory_window", resident_mb(), "MB", 120});
        device.stop();
    }
    // A device whose blocks are rendered here, so that every one can be looked at.
    SoundDevice by_hand(SoundDevice::Without::device);
    auto again = sit_down(wish, by_hand, **store, **journal);
    if (!again) return said_why(engine::in_one_line(again.faults().front())), figures;
    BedsideScreen bedside(std::move(again).value(), **store, false);
    settle(*window, bedside);
    figures.push_back({"hand_to_sound", hand_to_sound_ms(*window, bedside, by_hand), "ms", 25});
    return figures;
}

}  // namespace ui
