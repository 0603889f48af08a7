// From the Doppler on her skin to the line on her chart: what pointer, Enter and Space do, and what not.
#include "tests/ui/window/driver.h"

namespace {

// The Doppler placed and nothing else done.
struct AtHer : driver::AtHer {
    AtHer(const char* name, const char* scenario) : driver::AtHer(name, scenario) {
        person.key('1');
        person.key(SDLK_RETURN);
        person.wait(1);
        REQUIRE(bedside->session().hold().placed);
    }
};

}  // namespace

TEST_CASE("The pointer uncovers the Doppler's number, and neither that nor the number moves the Doppler",
          "[written]") {
    AtHer her("uncover", "c01");
    const sim::Hold before = her.bedside->session().hold();
    const std::size_t covered = her.all(engine::Do::cover_display).size();
    her.person.click("cover");
    her.person.wait(1);
    REQUIRE(her.all(engine::Do::cover_display).size() == covered + 1);
    CHECK_FALSE(her.all(engine::Do::cover_display).back().covered);
    const ui::Area button = her.window->where("cover");
    her.person.click_at(button.middle_x(), button.y - 20);  // the figures above it
    her.person.wait(1);
    CHECK(her.bedside->session().hold().x_cm == before.x_cm);
    CHECK(her.bedside->session().hold().y_cm == before.y_cm);
    CHECK(her.all(engine::Do::place).size() == 1);
    CHECK(her.all(engine::Do::move).empty());
}

TEST_CASE("Enter writes 140 down also when `during` was pressed with the pointer after the number",
          "[written]") {
    AtHer her("enter", "c01");
    her.person.key(SDLK_SPACE);
    her.person.wait(5);
    her.person.key(SDLK_SPACE);
    her.person.wait(1);
    her.person.tab_to("sheet/rate");
    her.person.type("140");
    her.person.click("sheet/when:1");
    her.person.key(SDLK_RETURN);
    her.person.wait(1);
    REQUIRE(her.all(engine::Do::record).size() == 1);
    CHECK(her.all(engine::Do::record).front().bpm == 140);
    CHECK(her.all(engine::Do::record).front().when == "during");
    // Nothing is typed any more: a second Enter writes no second line.
    her.person.key(SDLK_RETURN);
    her.person.wait(1);
    CHECK(her.all(engine::Do::record).size() == 1);
}

TEST_CASE("Ten seconds at a time: no count starts before its length is chosen, then it is meant for 10 s",
          "[written]") {
    AtHer her("short", "q04");
    her.person.key(SDLK_SPACE);
    her.person.wait(1);
    CHECK(her.all(engine::Do::start_window).empty());
    her.person.click("sheet/plan:3");
    her.person.key(SDLK_SPACE);
    her.person.wait(1);
    REQUIRE(her.all(engine::Do::start_window).size() == 1);
    CHECK(her.all(engine::Do::start_window).front().plan_s == 10);
}

TEST_CASE("A full minute is what a station of full minutes means from the start: 60 s", "[written]") {
    AtHer her("minute", "c01");
    her.person.key(SDLK_SPACE);
    her.person.wait(1);
    REQUIRE(her.all(engine::Do::start_window).size() == 1);
    CHECK(her.all(engine::Do::start_window).front().plan_s == 60);
}
