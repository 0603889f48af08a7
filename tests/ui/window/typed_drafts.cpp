// Typed and not written yet: given back when the attempt is taken up again.
#include "tests/ui/window/driver.h"

#include <chrono>
#include <thread>

TEST_CASE("A note half typed comes back after the program was gone, and is no event of the attempt",
          "[drafts]") {
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
        person.key('m');             // a contraction starts
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
    // The contraction was open: the next mark ends it. The first length was 15 s, the womb medium and soft
    // between.
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

TEST_CASE("Lean, hands on the belly, by ear beside her pulse and tapping come back as they were left",
          "[drafts]") {
    driver::Place place("left");
    ui::SoundDevice device(ui::SoundDevice::Without::device);
    auto window = driver::window(1280, 800, 1.0);
    driver::Person person(*window, device);
    ui::DoorWish wish;
    wish.person = "C-5";
    wish.scenario = ui::scenario_path("c01");
    wish.protocol = ui::protocol_path("");
    std::vector<std::uint32_t> left_page;
    {
        auto session = ui::sit_down(wish, device, *place.store, *place.journal);
        REQUIRE(session.ok());
        ui::BedsideScreen bedside(std::move(session).value(), *place.store, false);
        person.at(bedside);
        person.wait(1);
        person.key('l');
        person.key('l');  // on her belly, at 6, 3
        for (int i = 0; i < 4; ++i) person.key(SDLK_UP);
        person.key('1');
        person.key('i');
        person.key(SDLK_RETURN);
        for (int i = 0; i < 3; ++i) person.key(SDLK_RIGHT);  // a way of three steps
        person.tab_to("lean");
        for (int i = 0; i < 5; ++i) person.key('k');  // 25 degrees to her left
        person.key(SDLK_ESCAPE);
        person.use("sheet/compare:2");
        person.use("sheet/tap");
        person.key(SDLK_ESCAPE);
        // drafts are kept by the clock of the room, one second apart
        for (int tenth = 0; tenth < 30; ++tenth) {
            std::this_thread::sleep_for(std::chrono::milliseconds(100));
            window->step(bedside);
        }
        CHECK(bedside.session().hold().tilt_deg == Approx(25));
        left_page = window->pixels();
    }
    auto left = place.journal->interrupted();
    REQUIRE(left.ok());
    REQUIRE(left->size() == 1);
    CHECK(left->front().drafts.at("left_spot") == "600,500");
    CHECK(left->front().drafts.at("tapping") == "1");
    wish.resume = left->front();
    auto again = ui::sit_down(wish, device, *place.store, *place.journal);
    REQUIRE(again.ok());
    ui::BedsideScreen bedside(std::move(again).value(), *place.store, true);
    person.at(bedside);
    person.settle();
    // Hand, lean, the way come and the choices look the same; of the rest only watch and womb go on.
    const auto back = window->pixels();
    REQUIRE(back.size() == left_page.size());
    const auto differing = [&](const ui::Area& at) {
        std::size_t n = 0;
        for (int y = static_cast<int>(at.y); y < static_cast<int>(at.bottom()); ++y)
            for (int x = static_cast<int>(at.x); x < static_cast<int>(at.right()); ++x) {
                const auto i = static_cast<std::size_t>(y) * 1280 + static_cast<std::size_t>(x);
                n += back[i] != left_page[i] ? 1 : 0;
            }
        return n;
    };
    CHECK(differing(window->where("belly")) == 0);
    CHECK(differing(window->where("lean")) == 0);
    for (const char* id :
         {"sheet/compare:0", "sheet/compare:1", "sheet/compare:2", "sheet/compare:3", "sheet/tap"}) {
        INFO(id);
        CHECK(differing(window->where(id)) == 0);
    }
    person.key(SDLK_SPACE);
    person.key('t');
    person.wait(1);
    int taps = 0;
    for (const engine::Event& e : bedside.session().events()) taps += e.what == engine::Do::tap ? 1 : 0;
    CHECK(taps == 1);
    device.stop();
}

TEST_CASE("A blank typed beside a number does not wipe it out; asked twice a new count starts", "[drafts]") {
    driver::AtHer her("blank");
    driver::Person& person = her.person;
    ui::BedsideScreen& bedside = *her.bedside;
    person.key('1');
    person.key('i');
    person.key(SDLK_RETURN);
    person.key(SDLK_SPACE);
    person.wait(3);
    person.key(SDLK_SPACE);
    person.tab_to("sheet/beats");
    person.type("13");
    person.key(SDLK_SPACE);
    CHECK_FALSE(bedside.session().counting());
    person.type("9");
    person.tab_to("sheet/rate");
    person.type("139");
    person.key(SDLK_RETURN);
    person.wait(1);
    int beats = 0;
    for (const engine::Event& e : bedside.session().events())
        if (e.what == engine::Do::report) beats = e.beats.value_or(0);
    CHECK(beats == 139);
    person.key(SDLK_ESCAPE);
    person.key(SDLK_SPACE);
    CHECK(bedside.session().counting());  // all is written: nothing is asked
    person.wait(2);
    person.key(SDLK_SPACE);
    person.tab_to("sheet/beats");
    person.type("7");
    person.key(SDLK_SPACE);
    CHECK_FALSE(bedside.session().counting());
    person.key(SDLK_SPACE);
    CHECK(bedside.session().counting());
}

TEST_CASE("Contractions of 999 s or 99 in ten minutes are refused on the page; 45 s and 3 are taken",
          "[drafts]") {
    driver::AtHer her("too-long");
    driver::Person& person = her.person;
    ui::BedsideScreen& bedside = *her.bedside;
    const auto reports = [&her] { return her.all(engine::Do::report_contractions); };
    person.key('w');
    person.tab_to("write/length");
    person.type("999");
    person.use("write/contractions");
    person.wait(1);
    CHECK(reports().empty());
    person.tab_to("write/length");
    for (int i = 0; i < 3; ++i) person.key(SDLK_BACKSPACE);
    person.type("45");
    person.tab_to("write/per10");
    person.type("99");
    person.use("write/contractions");
    person.wait(1);
    CHECK(reports().empty());
    person.tab_to("write/per10");
    for (int i = 0; i < 2; ++i) person.key(SDLK_BACKSPACE);
    person.type("3");
    person.use("write/contractions");
    person.wait(1);
    REQUIRE(reports().size() == 1);
    CHECK(reports().front().per_10min == 3);
    CHECK(reports().front().length_s == 45);
    // Whatever a screen may ask for: what a file could not say is refused, not only what this page knows of.
    engine::Event beyond;
    beyond.what = engine::Do::report_contractions;
    beyond.length_s = 601;
    CHECK(bedside.session().want(beyond) != "");
    beyond.length_s = 600;
    CHECK(bedside.session().want(beyond) == "");
}

TEST_CASE("A referral note that was sent is not called unsent when she is left; one typed since then is",
          "[drafts]") {
    driver::AtHer her("referral-sent");
    driver::Person& person = her.person;
    ui::BedsideScreen& bedside = *her.bedside;
    person.key('w');
    person.tab_to("write/situation");
    person.type("FHR 98");
    person.use("write/handover");
    person.wait(1);
    CHECK(bedside.left_open().empty());
    person.tab_to("write/assessment");
    person.type("slow");
    CHECK_FALSE(bedside.left_open().empty());
}
