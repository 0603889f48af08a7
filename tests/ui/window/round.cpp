#include "tests/ui/window/driver.h"

#include <sys/wait.h>

namespace {

using engine::Do;

const engine::Event* first(const std::vector<engine::Event>& events, Do what) {
    for (const engine::Event& e : events)
        if (e.what == what) return &e;
    return nullptr;
}

}  // namespace

TEST_CASE("From the door to the debrief with pointer and keys: the store holds what was done", "[round]") {
    driver::Place place("round");
    ui::SoundDevice device(ui::SoundDevice::Without::device);
    auto window = driver::window(1280, 800, 1.0);
    ui::Shelf shelf(ui::data_folder() + "/scenarios/library");
    driver::Person person(*window, device);
    ui::DoorWish wish;
    wish.protocol = ui::protocol_path("");
    int doors = 0, bedsides = 0, debriefs = 0;

    const auto show = [&](ui::Screen& screen) -> ui::Leave {
        person.at(screen);
        person.settle();
        if (dynamic_cast<ui::DoorScreen*>(&screen) != nullptr) {
            if (++doors > 1) return ui::Leave::quit;
            person.click("side/person");
            person.type("B-207");
            person.click("list/c01-own-minute");
            person.click("start");
            CHECK(screen.leave() == ui::Leave::on);
            return screen.leave();
        }
        if (auto* bedside = dynamic_cast<ui::BedsideScreen*>(&screen)) {
            ++bedsides;
            ui::Session& s = bedside->session();
            person.wait(2);
            person.key('1');
            CHECK(s.hold().instrument == s.scenario().place.instruments.front());
            person.key('l');  // the left hand to her wrist
            person.key('i');
            const ui::Area belly = window->where("belly");
            person.click_at(belly.middle_x() + 60, belly.middle_y() + 60);
            CHECK(s.hold().placed);
            const double x0 = s.hold().x_cm;
            person.key(SDLK_RIGHT);
            CHECK(s.hold().x_cm == Approx(x0 + 0.5).margin(0.001));  // half a centimetre a key
            person.wait(1);
            const double started = s.now().seconds();
            person.key(SDLK_SPACE);
            person.wait(60);
            person.key(SDLK_SPACE);
            CHECK(s.now().seconds() - started == Approx(60).margin(0.3));
            person.click("sheet/beats");
            person.type("139");
            person.key(SDLK_TAB);
            person.type("140");
            person.key(SDLK_TAB);
            person.type("82");
            person.key(SDLK_RETURN);
            person.click("tab:decide");
            person.click("decide/source:0");
            person.click("decide/baseline:0");
            person.click("decide");
            person.click("tab:act");
            person.click("search");
            person.type("carry on");
            person.click("acts/continue_routine");
            person.click("do");
            person.wait(1);
            person.click("finish");
            person.click("finish:yes");
            CHECK(screen.leave() == ui::Leave::on);
            return screen.leave();
        }
        ++debriefs;
        CHECK(dynamic_cast<ui::DebriefScreen*>(&screen) != nullptr);
        window->screenshot(std::string(FULLMINUTE_BINARY_DIR) + "/screens/debrief.png");
        return ui::Leave::back;
    };
    ui::go_round(show, wish, shelf, device, *place.store, *place.journal);
    CHECK(doors == 2);
    CHECK(bedsides == 1);
    CHECK(debriefs == 1);

    const auto lines = place.store->attempts_of("B-207");
    REQUIRE(lines.ok());
    REQUIRE(lines->size() == 1);
    CHECK(lines->front().scenario_id == "c01-own-minute");
    const auto json = place.store->attempt_json(lines->front().id);
    REQUIRE(json.ok());
    const auto kept = engine::read_attempt(*json, "kept");
    REQUIRE(kept.ok());
    const std::vector<engine::Event>& events = kept->attempt.events;
    const engine::Event* report = first(events, Do::report);
    REQUIRE(report != nullptr);
    CHECK(report->beats == 139);
    CHECK(report->bpm == 140);
    const engine::Event* pulse = first(events, Do::report_pulse);
    REQUIRE(pulse != nullptr);
    CHECK(pulse->bpm == 82);
    const engine::Event* line = first(events, Do::record);
    REQUIRE(line != nullptr);
    CHECK(line->bpm == 140);
    const engine::Event* decided = first(events, Do::decide);
    REQUIRE(decided != nullptr);
    CHECK(decided->decision.source == engine::SourceIs::baby);
    CHECK(decided->decision.baseline == engine::BaselineIs::normal);
    const engine::Event* act = first(events, Do::act);
    REQUIRE(act != nullptr);
    CHECK(act->act == "continue_routine");
    const engine::Event* start = first(events, Do::start_window);
    const engine::Event* stop = first(events, Do::stop_window);
    REQUIRE(start != nullptr);
    REQUIRE(stop != nullptr);
    CHECK(stop->t.seconds() - start->t.seconds() == Approx(60).margin(0.3));
    CHECK(events.back().what == Do::finish);
    for (std::size_t i = 1; i < events.size(); ++i) CHECK(events[i - 1].t <= events[i].t);
    const auto left = place.journal->interrupted();
    REQUIRE(left.ok());
    CHECK(left->empty());
    const auto differences = engine::replay(*json, "kept");
    REQUIRE(differences.ok());
    CHECK(differences->empty());
}

TEST_CASE("Killed while counting: the door offers the attempt, and it goes on where it was", "[round]") {
    driver::Place place("killed");
    const std::string store_file = place.store_file();
    place.journal.reset();
    place.store.reset();
    // A process of its own sits down, places the horn, counts, and is killed without a word.
    const pid_t child = fork();
    if (child == 0) {
        auto journal = engine::Journal::open(ui::journal_path(store_file));
        auto store = engine::Store::open(store_file);
        if (!journal || !store) _exit(3);
        ui::SoundDevice device(ui::SoundDevice::Without::device);
        ui::DoorWish wish;
        wish.person = "C-3";
        wish.scenario = ui::scenario_path("c01");
        wish.protocol = ui::protocol_path("");
        auto session = ui::sit_down(wish, device, **store, **journal);
        if (!session) _exit(4);
        ui::Session& s = **session;
        std::vector<float> out(2 * 4800);
        const auto go = [&](int tenths) {
            for (int i = 0; i < tenths; ++i) {
                device.fill(out.data(), 4800);
                s.settle();
            }
        };
        go(20);
        engine::Event take;
        take.what = Do::take;
        take.instrument = s.scenario().place.instruments.front();
        s.want(take);
        engine::Event put;
        put.what = Do::place;
        put.x_cm = 6;
        put.y_cm = -7;
        put.press_n = 6;
        s.want(put);
        go(10);
        engine::Event start;
        start.what = Do::start_window;
        start.plan_s = 60;
        if (!s.want(start).empty()) _exit(5);
        go(50);
        if (!(*journal)->flush()) _exit(6);
        kill(getpid(), SIGKILL);
    }
    int status = 0;
    REQUIRE(waitpid(child, &status, 0) == child);
    REQUIRE(WIFSIGNALED(status));
    REQUIRE(WTERMSIG(status) == SIGKILL);

    place.open();
    ui::SoundDevice device(ui::SoundDevice::Without::device);
    auto window = driver::window(1280, 800, 1.0);
    ui::Shelf shelf(ui::data_folder() + "/scenarios/library");
    driver::Person person(*window, device);
    ui::DoorWish wish;
    wish.protocol = ui::protocol_path("");
    ui::DoorScreen door(wish, shelf, device, *place.journal);
    person.at(door);
    person.settle();
    window->screenshot(std::string(FULLMINUTE_BINARY_DIR) + "/screens/door-resume.png");
    person.click("resume");
    REQUIRE(door.leave() == ui::Leave::on);
    REQUIRE(door.wish().resume);
    CHECK(ui::interrupted_words(*door.wish().resume).find("You were counting") == 0);

    auto session = ui::sit_down(door.wish(), device, *place.store, *place.journal);
    REQUIRE(session.ok());
    ui::BedsideScreen bedside(std::move(session).value(), *place.store, true);
    person.at(bedside);
    person.settle();
    ui::Session& s = bedside.session();
    CHECK_FALSE(s.paused());  // "Go on" at the door was enough
    CHECK(s.counting());
    CHECK(s.hold().placed);
    CHECK(s.hold().x_cm == Approx(6));
    const double stood = s.now().seconds();
    person.wait(2);
    CHECK(s.now().seconds() == Approx(stood + 2).margin(0.2));
    person.key(SDLK_SPACE);
    CHECK_FALSE(s.counting());
}
