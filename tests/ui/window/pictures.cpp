// Pictures for the README, made on demand:
// FULLMINUTE_PICTURES=assets/pictures SDL_VIDEODRIVER=dummy build/tests/test_ui_window "[.pictures]"
#include "tests/ui/window/driver.h"

#include <cstdlib>
#include <fstream>
#include <sstream>

namespace {

std::string picture(const char* name) {
    const char* asked = std::getenv("FULLMINUTE_PICTURES");
    const std::filesystem::path folder = asked != nullptr ? asked : FULLMINUTE_BINARY_DIR "/pictures";
    std::filesystem::create_directories(folder);
    return (folder / name).string();
}

}  // namespace

TEST_CASE("Pictures of door, bedside and debrief", "[.slow][.pictures]") {
    // A device that plays into nothing: the pictures show the program as it is on a machine with sound.
    setenv("SDL_AUDIODRIVER", "disk", 1);
    setenv("SDL_DISKAUDIOFILE", "/dev/null", 1);
    driver::Place place("pictures");
    ui::SoundDevice device;
    auto window = driver::window(1280, 800, 1.0);
    ui::Shelf shelf(ui::data_folder() + "/scenarios/library");
    while (shelf.read_some(8)) {
    }
    driver::Person person(*window, device, true);
    ui::DoorWish wish;
    wish.person = "A-014";
    wish.protocol = ui::protocol_path("");
    wish.scenario = ui::scenario_path("c01");
    {
        ui::DoorScreen door(wish, shelf, device, *place.journal);
        person.at(door);
        person.settle();
        CHECK(window->screenshot(picture("door.png")));
    }
    {
        auto session = ui::sit_down(wish, device, *place.store, *place.journal);
        REQUIRE(session.ok());
        ui::BedsideScreen bedside(std::move(session).value(), *place.store, false);
        person.at(bedside);
        person.wait(1);
        person.key('1');
        person.key('l');
        person.key('i');
        const ui::Point at = ui::abdomen_in(window->where("belly").box()).to_page(6, -7);
        person.click_at(static_cast<float>(at.x), static_cast<float>(at.y));
        person.click_at(640, 20);  // the keyboard belongs to nothing
        person.key(SDLK_SPACE);
        person.wait(15);
        CHECK(bedside.session().counting());
        CHECK(window->screenshot(picture("bedside.png")));
        device.stop();
    }
    // Through three contractions and after, acted on in time; four beats missed in the count.
    std::ifstream file(std::string(FULLMINUTE_SOURCE_DIR) + "/scenarios/walk.json");
    std::stringstream text;
    text << file.rdbuf();
    auto events = engine::read_events(text.str(), "walk");
    REQUIRE(events.ok());
    engine::Attempt attempt;
    attempt.events = std::move(events).value();
    for (engine::Event& e : attempt.events) {
        if (e.what == engine::Do::report) e.beats = 136;
        if (e.what == engine::Do::report || e.what == engine::Do::record) e.bpm = 136;
    }
    const auto scenario = engine::read_scenario_file(ui::scenario_path("p03"));
    const auto protocol = engine::read_protocol_file(ui::protocol_path(""));
    REQUIRE(scenario.ok());
    REQUIRE(protocol.ok());
    attempt.scenario_text = scenario->text;
    attempt.protocol_text = protocol->text;
    attempt.header.person = "A-014";
    attempt.header.seed = 1;
    attempt.header.scenario_id = scenario->id;
    attempt.header.scenario_sha256 = scenario->sha256;
    attempt.header.protocol_id = protocol->id;
    attempt.header.protocol_sha256 = protocol->sha256;
    const auto judged = engine::judge_attempt(std::move(attempt), "walk");
    REQUIRE(judged.ok());
    ui::DebriefScreen debrief(*judged, device);
    person.at(debrief);
    person.settle();
    CHECK(window->overflows().empty());
    CHECK(window->screenshot(picture("debrief.png")));
    person.click("view:1");
    std::filesystem::create_directories(std::string(FULLMINUTE_BINARY_DIR) + "/screens");
    window->screenshot(std::string(FULLMINUTE_BINARY_DIR) + "/screens/debrief-walk-place.png");
}
