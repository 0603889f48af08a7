// Only what has changed is rendered anew; what stands on screen is always what a whole frame would show.
#include "tests/ui/window/driver.h"

#include "ui/progress/progress_screen.h"

namespace {

// Watches a person at work: after each thing done the window's pixels are those of a whole frame.
struct Watched {
    ui::Window& window;
    driver::Person& person;
    int frames = 0, in_part = 0;

    void same(const std::string& after) {
        const std::vector<std::uint32_t> stood = window.pixels();
        ++frames;
        if (window.share_rendered() < 1) ++in_part;
        window.render_again();
        const std::vector<std::uint32_t> whole = window.pixels();
        REQUIRE_FALSE(whole.empty());
        REQUIRE(stood.size() == whole.size());
        std::size_t other = 0;
        for (std::size_t i = 0; i < whole.size(); ++i) other += stood[i] != whole[i] ? 1 : 0;
        INFO(after);
        CHECK(other == 0);
    }
    void wait(double s) {
        person.wait(s);
        same("time passed");
    }
    void key(SDL_Keycode code) {
        person.key(code);
        same(std::string("key ") + SDL_GetKeyName(code));
    }
    void type(const std::string& text) {
        for (const char c : text) {
            person.type(std::string(1, c));
            same(std::string("typed ") + c);
        }
    }
    void click(const std::string& id) {
        person.click(id);
        same("click on " + id);
    }
    void pointer_over(const std::string& id) {
        const ui::Area at = window.where(id);
        person.move_to(at.middle_x(), at.middle_y());
        person.settle();
        same("pointer over " + id);
    }
};

void at_every_place(double text_size) {
    driver::Place place("parts");
    ui::SoundDevice device(ui::SoundDevice::Without::device);
    auto window = driver::window(1280, 800, text_size);
    ui::Shelf shelf(ui::data_folder() + "/scenarios/library");
    while (shelf.read_some(8)) {
    }
    driver::Person person(*window, device);
    Watched watched{*window, person};
    ui::DoorWish wish;
    wish.person = "A-0";
    wish.protocol = ui::protocol_path("");
    wish.scenario = ui::scenario_path("l04");
    {
        ui::DoorScreen door(wish, shelf, device, *place.journal);
        person.at(door);
        person.settle();
        watched.same("the door opens");
        watched.click("side/person");
        watched.type("14");
        watched.click("task:2");
        watched.key(SDLK_TAB);
        watched.pointer_over("start");
        watched.key(SDLK_DOWN);
    }
    auto session = ui::sit_down(wish, device, *place.store, *place.journal);
    REQUIRE(session.ok());
    ui::BedsideScreen bedside(std::move(session).value(), *place.store, false);
    person.at(bedside);
    person.settle();
    watched.same("at the bedside");
    for (int i = 0; i < 12; ++i) watched.wait(0.2);  // the second hand; the minute hand moves once
    watched.key('1');
    watched.key('l');
    for (int i = 0; i < 8; ++i) watched.wait(0.1);  // a pulse under the finger
    watched.key('i');
    watched.key(SDLK_RETURN);
    watched.key(SDLK_RIGHT);
    watched.key(SDLK_PLUS);
    watched.key(SDLK_SPACE);
    for (int i = 0; i < 4; ++i) watched.wait(0.3);
    watched.key(SDLK_SPACE);
    watched.key('r');
    watched.click("sheet/beats");
    watched.type("139");
    watched.pointer_over("write");
    watched.key(SDLK_RETURN);
    for (const char* tab : {"decide", "act", "write"}) watched.click(std::string("tab:") + tab);
    person.tab_to("write/note");
    watched.type("a long word and more");
    watched.key(SDLK_LEFT);
    watched.key(SDLK_BACKSPACE);
    watched.key(SDLK_ESCAPE);
    watched.click("finish");
    watched.click("close");
    watched.wait(0.2);
    SDL_Event shown{};
    shown.type = SDL_WINDOWEVENT;
    shown.window.event = SDL_WINDOWEVENT_EXPOSED;
    SDL_PushEvent(&shown);
    window->step(bedside);
    CHECK(window->share_rendered() == 1);  // somebody else may have painted over it
    watched.click("finish");
    watched.click("finish:yes");
    REQUIRE(bedside.judged());
    ui::DebriefScreen debrief(*bedside.judged(), device);
    person.at(debrief);
    person.settle();
    watched.same("the debrief");
    for (int i = 0; i < 5; ++i) watched.key(SDLK_RIGHT);
    watched.key('v');
    watched.key('v');
    ui::ProgressScreen progress("A-014", {}, {});
    person.at(progress);
    person.settle();
    watched.same("progress");
    watched.key(SDLK_TAB);
    // Most of all this moved a little of the page; a test in which every frame was whole would show nothing.
    CHECK(watched.in_part * 2 > watched.frames);
}

}  // namespace

TEST_CASE("After anything done the window shows what a whole frame shows, pixel for pixel, text 100 %",
          "[parts]") {
    at_every_place(1.0);
}
TEST_CASE("After anything done the window shows what a whole frame shows, pixel for pixel, text 150 %",
          "[parts]") {
    at_every_place(1.5);
}

TEST_CASE(
    "A fifth of a second at the bedside renders less than a fiftieth of the window, an unmoved page nothing",
    "[parts]") {
    driver::AtHer her("fifth");
    driver::Person& person = her.person;
    ui::BedsideScreen& bedside = *her.bedside;
    int moved = 0;
    for (int i = 0; i < 20; ++i) {
        person.wait(0.1);
        CHECK(her.window->share_rendered() < 0.02);
        if (her.window->share_rendered() > 0) ++moved;
    }
    CHECK(moved >= 9);  // two seconds, five steps each
    CHECK(moved <= 11);
    her.window->step(bedside);
    CHECK(her.window->share_rendered() == 0);
    her.window->always_whole(true);
    her.window->step(bedside);
    CHECK(her.window->share_rendered() == 1);
}
