// Typed and not written yet: given back when the attempt is taken up again.
#include "tests/ui/window/driver.h"

#include <chrono>
#include <thread>

TEST_CASE("A note half typed comes back after the program was gone, and is no event of the attempt", "[drafts]") {
    driver::Place place("drafts");
    ui::SoundDevice device(ui::SoundDevice::Without::device);
    auto window = driver::window(1280, 800, 1.0);
    driver::Person person(*window, device);
    ui::DoorWish wish;
    wish.person = "C-4";
    wish.scenario = ui::scenario_path("c01");
    wish.protocol = ui::protocol_path("");
    {
        auto session = ui::sit_down(wish, device, *place.store, *place.journal);
        REQUIRE(session.ok());
        ui::BedsideScreen bedside(std::move(session).value(), *place.store, false);
        person.at(bedside);
        person.wait(1);
        person.key('w');
        person.tab_to("write/note");
        person.type("she feels it move");
        person.tab_to("write/situation");
        person.type("FHR 98");
        // Drafts are kept by the clock of the room, not of the labour.
        for (int tenth = 0; tenth < 30; ++tenth) {
            std::this_thread::sleep_for(std::chrono::milliseconds(100));
            window->step(bedside);
        }
        for (const engine::Event& e : bedside.session().events()) CHECK(e.what != engine::Do::note);
    }
    auto left = place.journal->interrupted();
    REQUIRE(left.ok());
    REQUIRE(left->size() == 1);
    CHECK(left->front().drafts.at("note") == "she feels it move");
    CHECK(left->front().drafts.at("situation") == "FHR 98");
    wish.resume = left->front();
    auto again = ui::sit_down(wish, device, *place.store, *place.journal);
    REQUIRE(again.ok());
    ui::BedsideScreen bedside(std::move(again).value(), *place.store, true);
    person.at(bedside);
    person.settle();
    person.click("go_on");
    person.wait(1);
    person.key('w');
    person.use("write/keep_note");
    person.wait(1);
    std::string kept;
    for (const engine::Event& e : bedside.session().events())
        if (e.what == engine::Do::note) kept = e.text;
    CHECK(kept == "she feels it move");
    device.stop();
}
