// Drives the real window by pushed SDL events under the dummy video driver, with sound rendered on demand.
#pragma once

#include "engine/store/journal.h"
#include "engine/store/store.h"
#include "ui/bedside/bedside.h"
#include "ui/debrief/debrief_screen.h"
#include "ui/door/door.h"
#include "ui/files.h"
#include "ui/program/go_round.h"
#include "ui/sound/device.h"
#include "ui/window/window.h"

#include <SDL2/SDL.h>

#include <catch2/catch.hpp>

#include <chrono>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <memory>
#include <string>
#include <thread>
#include <unistd.h>
#include <vector>

namespace driver {

// A fresh folder with its store and journal.
struct Place {
    std::filesystem::path folder;
    std::unique_ptr<engine::Store> store;
    std::unique_ptr<engine::Journal> journal;

    explicit Place(const std::string& name) {
        folder =
            std::filesystem::temp_directory_path() / ("fullminute-" + name + "-" + std::to_string(getpid()));
        std::filesystem::remove_all(folder);
        std::filesystem::create_directories(folder);
        open();
    }
    ~Place() {
        journal.reset();
        store.reset();
        std::error_code ignored;
        std::filesystem::remove_all(folder, ignored);
    }
    void open() {
        journal.reset();
        store.reset();
        auto s = engine::Store::open(store_file());
        REQUIRE(s.ok());
        store = std::move(s).value();
        auto j = engine::Journal::open(ui::journal_path(store_file()));
        REQUIRE(j.ok());
        journal = std::move(j).value();
    }
    std::string store_file() const { return (folder / "store.db").string(); }
};

class Person {
public:
    // `live`: the device has a callback of its own and real time passes; else sound is rendered here.
    Person(ui::Window& window, ui::SoundDevice& device, bool live = false)
        : window_(window), device_(device), live_(live) {}

    void at(ui::Screen& screen) { screen_ = &screen; }
    // Frames until everything pushed has been taken.
    void settle() {
        window_.step(*screen_);
        for (int i = 0; i < 60 && window_.more_input(); ++i) window_.step(*screen_);
        for (int i = 0; i < 3; ++i) window_.step(*screen_);
    }
    // Labour time goes on: sound is rendered, a frame every 100 ms of it.
    void wait(double seconds) {
        std::vector<float> out(2 * 4800);
        for (int i = 0; i < static_cast<int>(std::lround(seconds * 10)); ++i) {
            if (live_)
                std::this_thread::sleep_for(std::chrono::milliseconds(100));
            else
                device_.fill(out.data(), 4800);
            for (const float v : out) heard_ += std::fabs(static_cast<double>(v));
            window_.step(*screen_);
        }
    }
    void press_at(float x, float y) { button(SDL_MOUSEBUTTONDOWN, x, y); }
    void release_at(float x, float y) { button(SDL_MOUSEBUTTONUP, x, y); }
    void move_to(float x, float y) {
        SDL_Event e{};
        e.type = SDL_MOUSEMOTION;
        e.motion.x = static_cast<int>(x);
        e.motion.y = static_cast<int>(y);
        SDL_PushEvent(&e);
    }
    void click_at(float x, float y) {
        move_to(x, y);
        press_at(x, y);
        release_at(x, y);
        settle();
        tick();
    }
    void click(const std::string& id) {
        const ui::Area at = window_.where(id);
        INFO("control " << id);
        REQUIRE(at.w > 0);
        click_at(at.middle_x(), at.middle_y());
    }
    void key(SDL_Keycode code, Uint16 mods = 0) {
        for (Uint32 type : {SDL_KEYDOWN, SDL_KEYUP}) {
            SDL_Event e{};
            e.type = type;
            e.key.keysym.sym = code;
            e.key.keysym.scancode = SDL_GetScancodeFromKey(code);
            e.key.keysym.mod = mods;
            SDL_PushEvent(&e);
        }
        settle();
        tick();
    }
    void type(const std::string& text) {
        for (char c : text) {
            const auto code = static_cast<SDL_Keycode>(std::tolower(static_cast<unsigned char>(c)));
            for (Uint32 type : {SDL_KEYDOWN, SDL_TEXTINPUT, SDL_KEYUP}) {
                SDL_Event e{};
                e.type = type;
                if (type == SDL_TEXTINPUT) {
                    e.text.text[0] = c;
                } else {
                    e.key.keysym.sym = code;
                    e.key.keysym.scancode = SDL_GetScancodeFromKey(code);
                }
                SDL_PushEvent(&e);
            }
        }
        settle();
        tick();
    }
    // Tab until the control has the keyboard.
    void tab_to(const std::string& id) {
        for (int i = 0; i < 150 && window_.focused() != id; ++i) key(SDLK_TAB);
        INFO("control " << id);
        REQUIRE(window_.focused() == id);
    }
    // ... and used with the space bar.
    void use(const std::string& id) {
        tab_to(id);
        key(SDLK_SPACE);
    }
    // Pressed at one place, let go at another, the way between in steps.
    void drag(float x0, float y0, float x1, float y1) {
        move_to(x0, y0);
        press_at(x0, y0);
        settle();
        for (int i = 1; i <= 5; ++i) {
            move_to(x0 + (x1 - x0) * static_cast<float>(i) / 5, y0 + (y1 - y0) * static_cast<float>(i) / 5);
            settle();
            tick();
        }
        release_at(x1, y1);
        settle();
        tick();
    }
    // Sum of what wait() has sounded: 0 = silence.
    double heard() const { return heard_; }
    // One sound block, so that stamps come back.
    void tick() {
        std::vector<float> out(2 * 512);
        if (live_)
            std::this_thread::sleep_for(std::chrono::milliseconds(25));
        else
            device_.fill(out.data(), 512);
        window_.step(*screen_);
    }

private:
    void button(Uint32 type, float x, float y) {
        SDL_Event e{};
        e.type = type;
        e.button.button = SDL_BUTTON_LEFT;
        e.button.x = static_cast<int>(x);
        e.button.y = static_cast<int>(y);
        SDL_PushEvent(&e);
    }
    ui::Window& window_;
    ui::SoundDevice& device_;
    ui::Screen* screen_ = nullptr;
    bool live_ = false;
    double heard_ = 0;
};

inline std::unique_ptr<ui::Window> window(int width, int height, double text_size) {
    std::string fault;
    ui::WindowLook look;
    look.width = width;
    look.height = height;
    look.text_size = text_size;
    auto opened = ui::Window::open(look, fault);
    INFO(fault);
    REQUIRE(opened);
    return opened;
}

// Somebody who has just sat down with her; nothing is done yet.
struct AtHer {
    Place place;
    ui::SoundDevice device{ui::SoundDevice::Without::device};
    std::unique_ptr<ui::Window> window = driver::window(1280, 800, 1.0);
    Person person{*window, device};
    std::unique_ptr<ui::BedsideScreen> bedside;

    explicit AtHer(const char* name, const char* scenario = "c01") : place(name) {
        ui::DoorWish wish;
        wish.person = "C-7";
        wish.scenario = ui::scenario_path(scenario);
        wish.protocol = ui::protocol_path("");
        auto session = ui::sit_down(wish, device, *place.store, *place.journal);
        REQUIRE(session.ok());
        bedside = std::make_unique<ui::BedsideScreen>(std::move(session).value(), *place.store, false);
        person.at(*bedside);
        person.wait(1);
    }

    std::vector<engine::Event> all(engine::Do what) const {
        std::vector<engine::Event> list;
        for (const engine::Event& e : bedside->session().events())
            if (e.what == what) list.push_back(e);
        return list;
    }
};

}  // namespace driver
