#include "tests/ui/window/driver.h"

#include <algorithm>
#include <iostream>

namespace {

// Every word of the screen as it is now has its place; the picture is kept for a person to look at.
void look(const ui::Window& window, const std::string& name) {
    const std::filesystem::path folder = std::filesystem::path(FULLMINUTE_BINARY_DIR) / "screens";
    std::filesystem::create_directories(folder);
    CHECK(window.screenshot((folder / (name + ".png")).string()));
    INFO(name);
    for (const std::string& what : window.overflows()) UNSCOPED_INFO("does not fit: " << what);
    CHECK(window.overflows().empty());
    // No control lies over another (her skin and the strip hold what is put on them), none outside the
    // window.
    const auto controls = window.controls();
    const auto seen = [](const ui::Area& a) { return a.w >= 1 && a.h >= 1; };
    for (std::size_t i = 0; i < controls.size(); ++i) {
        const auto& [id, a] = controls[i];
        INFO(id);
        if (!seen(a)) continue;
        CHECK(a.x >= 0);
        CHECK(a.y >= 0);
        for (std::size_t j = 0; j < i; ++j) {
            const auto& [other, b] = controls[j];
            INFO(other);
            // the number stands over her where there is room
            if (id == "cover" && other == "belly") continue;
            const bool apart = a.right() <= b.x + 0.5f || b.right() <= a.x + 0.5f ||
                               a.bottom() <= b.y + 0.5f || b.bottom() <= a.y + 0.5f;
            if (seen(b)) CHECK(apart);
        }
    }
}

// Tab goes through every control once; each is wholly seen when it has the keyboard.
void reach_all(driver::Person& person, const ui::Window& window, const std::string& where) {
    std::vector<std::string> reached;
    for (int i = 0; i < 300; ++i) {
        person.key(SDLK_TAB);
        person.settle();
        const std::string id = window.focused();
        if (!reached.empty() && id == reached.front()) break;
        reached.push_back(id);
        INFO(where << ": " << id);
        const ui::Area whole = window.where(id);
        bool all = false;
        for (const auto& [control, seen] : window.controls())
            if (control == id) all = std::fabs(seen.h - whole.h) < 1 && std::fabs(seen.w - whole.w) < 1;
        CHECK(all);
    }
    std::size_t there = 0;
    for (const auto& [id, seen] : window.controls())
        if (id.find(":bar") == std::string::npos) ++there;
    CHECK(reached.size() + 6 >= there);  // all but those that cannot be used now
    person.key(SDLK_ESCAPE);
}

void every_page(int width, int height, double text_size) {
    const std::string size = std::to_string(width) + "x" + std::to_string(height) + "-" +
                             std::to_string(static_cast<int>(std::lround(text_size * 100))) + "-";
    driver::Place place("screens");
    ui::SoundDevice device(ui::SoundDevice::Without::device);
    auto window = driver::window(width, height, text_size);
    ui::Shelf shelf(ui::data_folder() + "/scenarios/library");
    while (shelf.read_some(8)) {
    }
    ui::DoorWish wish;
    wish.person = "A-014";
    wish.protocol = ui::protocol_path("");
    wish.scenario = ui::scenario_path("l04");
    if (wish.scenario.empty()) wish.scenario = shelf.lines().front().path;
    driver::Person person(*window, device);

    ui::DoorScreen door(wish, shelf, device, *place.journal);
    person.at(door);
    person.settle();
    look(*window, size + "door");
    if (window->where("view:1").w > 0) {
        person.click("view:1");
        look(*window, size + "door-list");
    }

    auto session = ui::sit_down(wish, device, *place.store, *place.journal);
    REQUIRE(session.ok());
    ui::BedsideScreen bedside(std::move(session).value(), *place.store, false);
    person.at(bedside);
    person.settle();
    person.wait(2);
    look(*window, size + "bedside");
    person.key('1');
    person.key('l');
    person.key('i');
    person.key(SDLK_RETURN);
    person.wait(3);
    person.key(SDLK_SPACE);
    person.wait(2);
    look(*window, size + "counting");
    person.key(SDLK_SPACE);
    person.key('r');
    person.key('r');
    person.wait(1);
    for (const char* tab : {"decide", "act", "write"}) {
        person.click(std::string("tab:") + tab);
        person.settle();
        look(*window, size + tab);
    }
    if (window->where("tab:her").w > 0) {
        person.click("tab:her");
        look(*window, size + "her");
    }
    if (window->where("tab:story").w > 0) {
        person.click("tab:story");
        look(*window, size + "story");
    }
    person.click("position");
    person.settle();
    look(*window, size + "position");
    person.key(SDLK_ESCAPE);
    person.click("finish");
    look(*window, size + "finish");
    person.key(SDLK_ESCAPE);
    person.key(SDLK_ESCAPE);
    look(*window, size + "paused");
    person.key(SDLK_RETURN);
    person.click("finish");
    person.click("finish:yes");
    REQUIRE(bedside.judged());
    ui::DebriefScreen debrief(*bedside.judged(), device, place.folder.string());
    person.at(debrief);
    person.settle();
    for (int view = 0; window->where("view:" + std::to_string(view)).w > 0; ++view) {
        person.click("view:" + std::to_string(view));
        look(*window, size + "debrief-" + std::to_string(view));
    }
}

}  // namespace

TEST_CASE("Every page fits at 1280x800, text 100 %", "[screens]") { every_page(1280, 800, 1.0); }
TEST_CASE("Every page fits at 1280x800, text 150 %", "[screens]") { every_page(1280, 800, 1.5); }
TEST_CASE("Every page fits at 1920x1080, text 100 %", "[screens]") { every_page(1920, 1080, 1.0); }
TEST_CASE("Every page fits at 1920x1080, text 150 %", "[screens]") { every_page(1920, 1080, 1.5); }
TEST_CASE("Every page fits at 1920x1080, text 200 %", "[screens]") { every_page(1920, 1080, 2.0); }
TEST_CASE("At 200 % on 1280x800 the tab key reaches everything and brings it into view", "[screens]") {
    driver::Place place("reach");
    ui::SoundDevice device(ui::SoundDevice::Without::device);
    auto window = driver::window(1280, 800, 2.0);
    ui::Shelf shelf(ui::data_folder() + "/scenarios/library");
    while (shelf.read_some(8)) {
    }
    ui::DoorWish wish;
    wish.person = "A-014";
    wish.protocol = ui::protocol_path("");
    wish.scenario = ui::scenario_path("l04");
    driver::Person person(*window, device);
    ui::DoorScreen door(wish, shelf, device, *place.journal);
    person.at(door);
    person.settle();
    reach_all(person, *window, "door, who");
    person.use("view:1");
    person.use("task:6");
    reach_all(person, *window, "door, which");
    auto session = ui::sit_down(wish, device, *place.store, *place.journal);
    REQUIRE(session.ok());
    ui::BedsideScreen bedside(std::move(session).value(), *place.store, false);
    person.at(bedside);
    person.wait(1);
    reach_all(person, *window, "story");
    person.key('1');
    person.key(SDLK_RETURN);
    CHECK(bedside.session().hold().placed);
    reach_all(person, *window, "her");
    for (const char tab : {'c', 'd', 'w'}) {
        person.key(tab);
        reach_all(person, *window, std::string("page ") + tab);
    }
    person.use("finish");
    person.use("finish:yes");
    REQUIRE(bedside.judged());
    ui::DebriefScreen debrief(*bedside.judged(), device, place.folder.string());
    person.at(debrief);
    person.settle();
    for (int view = 0; view < 7; ++view) {
        reach_all(person, *window, "debrief " + std::to_string(view));
        person.key('v');
    }
}
TEST_CASE("Every page fits at 1280x800, text 200 %", "[screens]") { every_page(1280, 800, 2.0); }
TEST_CASE("Every page fits at 1280x800, text 175 %", "[screens]") { every_page(1280, 800, 1.75); }
TEST_CASE("Every page fits at 960x600, text 150 %", "[screens]") { every_page(960, 600, 1.5); }
TEST_CASE("Text of 200 % is shown as 200 % at 1280x800; at 960x600 as large as there is room for, 150 %",
          "[screens]") {
    CHECK(driver::window(1280, 800, 2.0)->text_size() == Approx(2.0));
    CHECK(driver::window(960, 600, 2.0)->text_size() == Approx(1.5));
}

TEST_CASE("A critical act that was missed stands above everything else to do next time", "[screens]") {
    driver::Place place("grave");
    ui::SoundDevice device(ui::SoundDevice::Without::device);
    auto window = driver::window(1280, 800, 1.0);
    driver::Person person(*window, device);
    engine::JudgedAttempt judged;
    judged.scenario.title = "Made up";
    judged.sheet.next_time.push_back({"Count from the first beat to the stop.", 0});
    const auto first_line_at = [&] {
        ui::DebriefScreen debrief(judged, device, place.folder.string());
        person.at(debrief);
        person.settle();
        CHECK(window->overflows().empty());
        return window->where("words/hear:0").y;
    };
    const float without = first_line_at();
    judged.sheet.critical_missed.push_back("not done: Stop the drip");
    const float with = first_line_at();
    CHECK(with >= without + 20);  // a line of strong words above it
    CHECK(with <= without + 60);
}

TEST_CASE("A hidden window stops the labour's time until the trainee goes on", "[screens]") {
    driver::Place place("hidden");
    ui::SoundDevice device(ui::SoundDevice::Without::device);
    auto window = driver::window(1280, 800, 1.0);
    ui::DoorWish wish;
    wish.person = "A-014";
    wish.protocol = ui::protocol_path("");
    wish.scenario = ui::scenario_path("c01");
    auto session = ui::sit_down(wish, device, *place.store, *place.journal);
    REQUIRE(session.ok());
    ui::BedsideScreen bedside(std::move(session).value(), *place.store, false);
    driver::Person person(*window, device);
    person.at(bedside);
    person.wait(1);
    SDL_Event e{};
    e.type = SDL_WINDOWEVENT;
    e.window.event = SDL_WINDOWEVENT_MINIMIZED;
    SDL_PushEvent(&e);
    person.settle();
    CHECK(bedside.session().paused());
    person.wait(0.2);  // what was being faded out
    const double stood = bedside.session().now().seconds();
    person.wait(2);
    // Of these two seconds nothing passes; what was already rendered may still be heard, one device delay (21
    // ms).
    CHECK(bedside.session().now().seconds() == Approx(stood).margin(device.delay_s() + 0.005));
    person.key(SDLK_RETURN);
    person.wait(1);
    CHECK(bedside.session().now().seconds() == Approx(stood + 1).margin(0.2));
}

// Not part of the usual run: figures for a person, as they depend on the machine.
TEST_CASE("What a bedside frame costs at 1280x800", "[.cost]") {
    driver::Place place("cost");
    ui::SoundDevice device(ui::SoundDevice::Without::device);
    auto window = driver::window(1280, 800, 1.0);
    ui::DoorWish wish;
    wish.person = "A-014";
    wish.protocol = ui::protocol_path("");
    wish.scenario = ui::scenario_path("c01");
    auto session = ui::sit_down(wish, device, *place.store, *place.journal);
    REQUIRE(session.ok());
    ui::BedsideScreen bedside(std::move(session).value(), *place.store, false);
    driver::Person person(*window, device);
    person.at(bedside);
    person.key('1');
    person.key(SDLK_RETURN);
    std::vector<double> costs;
    window->always_whole(true);
    for (int i = 0; i < 200; ++i) {
        person.tick();
        costs.push_back(window->frame_cost_s() * 1000);
    }
    std::sort(costs.begin(), costs.end());
    std::cout << "frame: median " << costs[100] << " ms, 95 % " << costs[190] << " ms\n";
}
