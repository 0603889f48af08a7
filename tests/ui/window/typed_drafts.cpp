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
        person.key('m');  // a contraction starts
        person.use("sheet/plan:2");  // 15 s
        person.key('w');
        person.use("write/strength:1");
        person.use("write/rests:0");
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
    CHECK(left->front().drafts.at("plan") == "2");
    CHECK(left->front().drafts.at("strength") == "1");
    CHECK(left->front().drafts.at("rests") == "0");
    wish.resume = left->front();
    auto again = ui::sit_down(wish, device, *place.store, *place.journal);
    REQUIRE(again.ok());
    ui::BedsideScreen bedside(std::move(again).value(), *place.store, true);
    person.at(bedside);
    person.settle();
    CHECK_FALSE(bedside.session().paused());
    person.wait(1);
    person.key('w');
    person.use("write/keep_note");
    person.wait(1);
    std::string kept;
    for (const engine::Event& e : bedside.session().events())
        if (e.what == engine::Do::note) kept = e.text;
    CHECK(kept == "she feels it move");
    // The contraction was open: the next mark ends it. The first length was 15 s, the womb medium and soft between.
    person.key('m');
    person.tab_to("write/per10");
    person.type("3");
    person.use("write/contractions");
    person.key('c');
    person.key(SDLK_ESCAPE);
    person.wait(1);
    int starts = 0, ends = 0;
    std::string strength, rests;
    for (const engine::Event& e : bedside.session().events()) {
        if (e.what == engine::Do::mark_contraction) ++(e.contraction_starts ? starts : ends);
        if (e.what == engine::Do::report_contractions) strength = e.strength, rests = e.rests;
    }
    CHECK(starts == 1);
    CHECK(ends == 1);
    CHECK(strength == "medium");
    CHECK(rests == "soft");
    device.stop();
}
