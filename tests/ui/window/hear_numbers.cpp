// A numbered place on the debrief's strip: pressed, or its number key, and it is heard from there.
#include "tests/ui/window/driver.h"

#include "ui/debrief/debrief_screen.h"

#include <algorithm>
#include <fstream>
#include <sstream>

namespace {

// The walk without its referral note, so that there is one thing to say at least.
engine::JudgedAttempt walked() {
    std::ifstream file(std::string(FULLMINUTE_SOURCE_DIR) + "/scenarios/walk.json");
    std::stringstream text;
    text << file.rdbuf();
    auto scenario = engine::read_scenario_file(ui::scenario_path("p03"));
    auto protocol = engine::read_protocol_file(ui::protocol_path(""));
    REQUIRE((scenario.ok() && protocol.ok()));
    const auto read = engine::read_events(text.str(), "walk.json");
    REQUIRE(read.ok());
    std::vector<engine::Event> events = *read;
    std::erase_if(events, [](const engine::Event& e) { return e.what == engine::Do::handover; });
    engine::Attempt attempt;
    attempt.header.person = "A-014";
    attempt.header.scenario_id = scenario->id;
    attempt.scenario_text = scenario->text;
    attempt.header.scenario_sha256 = scenario->sha256;
    attempt.header.protocol_id = protocol->id;
    attempt.protocol_text = protocol->text;
    attempt.header.protocol_sha256 = protocol->sha256;
    attempt.events = std::move(events);
    auto judged = engine::judge_attempt(attempt, "walk");
    REQUIRE(judged.ok());
    return std::move(judged).value();
}

}  // namespace

TEST_CASE("A number pressed on the strip plays from its moment, and so does its key", "[debrief]") {
    const engine::JudgedAttempt judged = walked();
    REQUIRE_FALSE(judged.sheet.next_time.empty());
    ui::SoundDevice device(ui::SoundDevice::Without::device);
    auto window = driver::window(1280, 800, 1.0);
    driver::Person person(*window, device);
    ui::DebriefScreen debrief(judged, device);
    person.at(debrief);
    person.settle();
    window->screenshot(std::string(FULLMINUTE_BINARY_DIR) + "/screens/debrief-numbers.png");
    const ui::Area strip = window->where("strip");
    REQUIRE(strip.w > 0);
    const double whole_s = std::max(judged.played.end.seconds(), 1.0);
    const double at_s = judged.sheet.next_time.front().at_s;
    person.key(SDLK_END);
    CHECK(debrief.at_s() > at_s + 10);
    person.click_at(strip.x + strip.w * static_cast<float>(at_s / whole_s), strip.bottom() - 8);
    CHECK(debrief.playing());
    CHECK(debrief.at_s() == Approx(at_s).margin(1.5));
    person.key('p');  // stopped
    CHECK_FALSE(debrief.playing());
    person.key(SDLK_END);
    person.key('1');
    CHECK(debrief.playing());
    CHECK(debrief.at_s() == Approx(at_s).margin(1.5));
    person.key('p');
}
