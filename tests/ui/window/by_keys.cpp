// Door to debrief and back with keys only; every control of the bedside once.
#include "tests/ui/window/driver.h"

#include <map>

namespace {

using engine::Do;

std::vector<const engine::Event*> all(const std::vector<engine::Event>& events, Do what) {
    std::vector<const engine::Event*> found;
    for (const engine::Event& e : events)
        if (e.what == what) found.push_back(&e);
    return found;
}

void at_the_bedside(driver::Person& person, ui::Session& s) {
    person.wait(2);
    person.key('1');
    person.key('l');  // left hand: her wrist
    person.use("gel");
    person.use("cover");  // uncovered
    person.key(SDLK_ESCAPE);
    person.key('i');
    person.key(SDLK_UP);
    person.key(SDLK_RETURN);  // placed at the ring
    CHECK(s.hold().placed);
    person.key(SDLK_RIGHT);
    person.key(SDLK_PLUS);
    person.use("harder");
    person.tab_to("lean");
    person.key('k');
    person.key(SDLK_ESCAPE);
    person.key('m');
    person.wait(1);
    person.key('m');
    person.key(SDLK_SPACE);
    person.wait(60);
    person.key(SDLK_SPACE);
    person.tab_to("sheet/beats");
    person.type("139");
    person.tab_to("sheet/rate");
    person.type("140");
    person.tab_to("sheet/pulse");
    person.type("82");
    person.tab_to("sheet/done");
    person.type("told her");
    person.use("sheet/when:0");
    person.use("sheet/slow:1");
    person.use("sheet/compare:3");
    person.use("write");
    person.key(SDLK_ESCAPE);
    person.key('d');
    person.use("decide/source:0");
    person.use("decide/baseline:0");
    person.use("decide/around:4");
    person.use("decide/rhythm:0");
    person.use("decide/unsure");
    person.use("decide");
    person.use("cautions");
    person.key(SDLK_RETURN);
    person.key(SDLK_ESCAPE);
    person.key('a');
    person.tab_to("search");
    person.type("carry on");
    person.use("acts/continue_routine");
    person.use("do");
    person.key(SDLK_ESCAPE);
    person.key('w');
    person.tab_to("write/per10");
    person.type("3");
    person.tab_to("write/length");
    person.type("45");
    person.use("write/strength:1");
    person.use("write/rests:0");
    person.use("write/contractions");
    person.tab_to("write/note");
    person.type("quiet");
    person.use("write/keep_note");
    person.tab_to("write/situation");
    person.type("well");
    person.use("write/handover");
    person.key(SDLK_ESCAPE);
    person.key(SDLK_DELETE);  // lifted
    CHECK_FALSE(s.hold().placed);
    person.use("position");
    person.use("positions:2");
    person.key(SDLK_ESCAPE);
    person.key('r');  // refused: that hand holds the Doppler
    CHECK(s.hold().right == sim::On::none);
    person.key('l');  // from her wrist to her belly
    CHECK(s.hold().left == sim::On::belly);
    person.wait(1);
    person.use("finish");
    person.tab_to("finish:yes");
    person.key(SDLK_RETURN);
}

}  // namespace

TEST_CASE("Keys alone go from the door through every control of the bedside to the debrief and round again",
          "[by_keys]") {
    driver::Place place("keys");
    ui::SoundDevice device(ui::SoundDevice::Without::device);
    auto window = driver::window(1280, 800, 1.0);
    ui::Shelf shelf(ui::data_folder() + "/scenarios/library");
    driver::Person person(*window, device);
    ui::DoorWish wish;
    wish.protocol = ui::protocol_path("");
    int bedsides = 0, debriefs = 0;
    const auto show = [&](ui::Screen& screen) -> ui::Leave {
        person.at(screen);
        person.settle();
        if (dynamic_cast<ui::DoorScreen*>(&screen) != nullptr) {
            if (debriefs > 0) return ui::Leave::quit;
            person.settle();
            CHECK(window->focused() == "side/person");  // ready for the code; the first labour is chosen
            person.type("K-9");
            person.key(SDLK_RETURN);
            CHECK(screen.leave() == ui::Leave::on);
            return screen.leave();
        }
        if (auto* bedside = dynamic_cast<ui::BedsideScreen*>(&screen)) {
            if (++bedsides == 1)
                at_the_bedside(person, bedside->session());
            else {
                CHECK(bedside->session().scenario().id == "c01-own-minute");  // "Same again"
                CHECK(device.volume() == Approx(0.5));
                person.key('v');
                CHECK(device.volume() == Approx(0.6));
                person.key(SDLK_ESCAPE);
                CHECK(bedside->session().paused());
                for (int i = 0; i < 6; ++i) person.use("louder");
                CHECK(device.volume() == Approx(1));  // and no louder: the cap
                for (int i = 0; i < 12; ++i) person.use("softer");
                CHECK(device.volume() == Approx(0.1));  // never silent by mistake
                person.use("to_door");
            }
            return screen.leave();
        }
        auto* debrief = dynamic_cast<ui::DebriefScreen*>(&screen);
        REQUIRE(debrief != nullptr);
        ++debriefs;
        CHECK(window->overflows().empty());
        CHECK(window->where("play").w > 0);
        CHECK_FALSE(debrief->playing());
        // From the middle of the strip: the play line goes there, the device sounds again, the line moves on.
        const ui::Area strip = window->where("strip");
        person.click_at(strip.middle_x(), strip.middle_y());
        const double middle = debrief->at_s();
        CHECK(middle > 20);
        const double before = person.heard();
        person.key('p');
        for (int i = 0; i < 500 && debrief->at_s() < middle + 0.5; ++i) {
            std::this_thread::sleep_for(std::chrono::milliseconds(10));
            person.wait(0.1);
        }
        CHECK(debrief->playing());
        CHECK(debrief->at_s() > middle + 0.4);
        CHECK(debrief->at_s() < middle + 60);
        CHECK(person.heard() > before + 1);  // not silence
        person.key('p');
        CHECK_FALSE(debrief->playing());
        const double stood = debrief->at_s();
        person.wait(1);
        CHECK(debrief->at_s() == Approx(stood));
        person.key(SDLK_HOME);
        CHECK(debrief->at_s() == Approx(0));
        CHECK(window->where("view:1").w > 0);
        const float count_card = window->where("card:2:bar").w + window->where("card:3:bar").w;
        CHECK(count_card > 0);  // a list of the first view
        person.click("view:1");
        CHECK(window->where("card:3:bar").w == 0);
        CHECK(window->overflows().empty());
        window->screenshot(std::string(FULLMINUTE_BINARY_DIR) + "/screens/debrief-place.png");
        person.key('v');
        CHECK(window->where("card:2:bar").w + window->where("card:3:bar").w > 0);
        person.click("again");
        CHECK(screen.leave() == ui::Leave::same_again);
        return screen.leave();
    };
    ui::go_round(show, wish, shelf, device, *place.store, *place.journal);
    CHECK(bedsides == 2);
    CHECK(debriefs == 1);

    const auto lines = place.store->attempts_of("K-9");
    REQUIRE(lines.ok());
    REQUIRE(lines->size() == 1);
    CHECK(lines->front().scenario_id == "c01-own-minute");
    const auto json = place.store->attempt_json(lines->front().id);
    REQUIRE(json.ok());
    const auto kept = engine::read_attempt(*json, "kept");
    REQUIRE(kept.ok());
    const std::vector<engine::Event>& events = kept->attempt.events;
    std::map<std::string, int> times;
    for (const engine::Event& e : events) ++times[std::string(engine::name_of(e.what))];
    const std::map<std::string, int> done{
        {"take", 1},         {"cover_display", 2}, {"hand", 2},
        {"gel", 1},          {"place", 1},         {"move", 1},
        {"press", 2},        {"tilt", 1},          {"mark_contraction", 2},
        {"start_window", 1}, {"stop_window", 1},   {"report", 1},
        {"report_pulse", 1}, {"record", 1},        {"compare", 1},
        {"decide", 1},       {"act", 1},           {"report_contractions", 1},
        {"note", 1},         {"handover", 1},      {"lift", 1},
        {"position", 1},     {"finish", 1}};
    for (const auto& [what, n] : done) {
        INFO(what);
        CHECK(times[what] == n);
    }
    CHECK(times.size() == done.size());
    const engine::Event& place_event = *all(events, Do::place).at(0);
    CHECK(place_event.x_cm == 5);  // the ring stands at 5, -6; one step up
    CHECK(place_event.y_cm == -5.5);
    CHECK(all(events, Do::move).at(0)->x_cm == 5.5);
    CHECK(all(events, Do::press).at(1)->press_n == 8);
    CHECK(all(events, Do::tilt).at(0)->tilt_deg == 5);
    CHECK(all(events, Do::report).at(0)->beats == 139);
    CHECK(all(events, Do::report).at(0)->bpm == 140);
    const engine::Event& line = *all(events, Do::record).at(0);
    CHECK(line.bpm == 140);
    CHECK(line.pulse_bpm == 82);
    CHECK(line.when == "between");
    CHECK(line.slowing == "no");
    CHECK(line.done == "told her");
    const engine::Event& decided = *all(events, Do::decide).at(0);
    CHECK(decided.decision.source == engine::SourceIs::baby);
    CHECK(decided.decision.baseline == engine::BaselineIs::normal);
    CHECK(decided.decision.around == engine::Around::not_listened);
    CHECK(decided.decision.rhythm == engine::RhythmIs::regular);
    CHECK(decided.decision.unsure);
    CHECK(all(events, Do::act).at(0)->act == "continue_routine");
    CHECK(all(events, Do::report_contractions).at(0)->per_10min == 3);
    CHECK(all(events, Do::report_contractions).at(0)->length_s == 45);
    CHECK(all(events, Do::position).at(0)->position == sim::Position::left_side);
    CHECK(all(events, Do::stop_window).at(0)->t.seconds() -
              all(events, Do::start_window).at(0)->t.seconds() ==
          Approx(60).margin(0.3));
}
