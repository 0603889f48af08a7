// The progress screen driven as a person drives it, with nothing, little and much counted.
#include "tests/ui/progress/kept_counts.h"
#include "tests/ui/window/driver.h"

#include "ui/library.h"
#include "ui/progress/progress_screen.h"

#include <catch2/catch.hpp>

namespace {

void look_at(const ui::Window& window, const std::string& name) {
    const std::filesystem::path folder = std::filesystem::path(FULLMINUTE_BINARY_DIR) / "screens";
    std::filesystem::create_directories(folder);
    CHECK(window.screenshot((folder / ("progress-" + name + ".png")).string()));
    INFO(name);
    for (const std::string& what : window.overflows()) UNSCOPED_INFO("does not fit: " << what);
    CHECK(window.overflows().empty());
}

engine::CountColumns counts_of(driver::Place& place, const std::string& person) {
    auto counts = place.store->counts(person);
    REQUIRE(counts.ok());
    return std::move(counts).value();
}

void every_amount(double text_size, int width = 1280, int height = 800) {
    driver::Place place("progress");
    ui::SoundDevice device(ui::SoundDevice::Without::device);
    auto window = driver::window(width, height, text_size);
    driver::Person person(*window, device);
    const auto library = ui::library_labours();
    for (const int n : {0, 1, 9, 40, 400}) {
        const std::string code = "P-" + std::to_string(n);
        kept::put(place.store_file(), code, kept::many(n));
        ui::ProgressScreen screen(code, counts_of(place, code), library);
        person.at(screen);
        person.settle();
        const std::string name =
            std::to_string(n) + "-" + std::to_string(static_cast<int>(std::lround(text_size * 100)));
        look_at(*window, name);
        if (n == 0 || text_size < 1.2) continue;
        for (const char* view : {"learning", "bands", "kinds", "next"}) {
            person.key('v');
            look_at(*window, name + "-" + view);
        }
    }
}

}  // namespace

TEST_CASE("Progress fits at 100 % with 0, 1, 9, 40 and 400 counts", "[progress]") { every_amount(1.0); }
TEST_CASE("Progress fits at 150 % with 0, 1, 9, 40 and 400 counts", "[progress]") { every_amount(1.5); }
TEST_CASE("Progress fits at 200 % with 0, 1, 9, 40 and 400 counts", "[progress]") { every_amount(2.0); }

TEST_CASE("M goes from the full minutes to the 15 s counts, which are never put together", "[progress]") {
    driver::Place place("progress-keys");
    ui::SoundDevice device(ui::SoundDevice::Without::device);
    auto window = driver::window(1280, 800, 1.0);
    driver::Person person(*window, device);
    kept::put(place.store_file(), "A-014", kept::many(40));
    ui::ProgressScreen screen("A-014", counts_of(place, "A-014"), ui::library_labours(),
                              place.folder.string());
    person.at(screen);
    person.settle();
    CHECK(screen.progress().method_s == 60);
    CHECK(screen.progress().errors.n() == 30);
    person.key('m');
    CHECK(screen.progress().method_s == 15);
    CHECK(screen.progress().errors.n() == 10);
    person.click("method");
    CHECK(screen.progress().method_s == 60);
    person.key('s');
    CHECK(std::filesystem::exists(place.folder / "progress-A-014.pdf"));
    CHECK(screen.said().find("progress-A-014.pdf") != std::string::npos);
    person.key(SDLK_ESCAPE);
    CHECK(screen.leave() == ui::Leave::back);
}

TEST_CASE(
    "From the door by keys alone: a newcomer's progress, a labour chosen there, and back at the door with it",
    "[progress]") {
    driver::Place place("progress-door");
    ui::SoundDevice device(ui::SoundDevice::Without::device);
    auto window = driver::window(1280, 800, 1.0);
    ui::Shelf shelf(ui::data_folder() + "/scenarios/library");
    driver::Person person(*window, device);
    ui::DoorWish wish;
    wish.protocol = ui::protocol_path("");
    int doors = 0, seen = 0;
    std::string chosen;
    const auto show = [&](ui::Screen& screen) -> ui::Leave {
        person.at(screen);
        person.settle();
        if (auto* door = dynamic_cast<ui::DoorScreen*>(&screen)) {
            if (++doors == 2) {
                CHECK(door->wish().person == "B-207");
                CHECK(door->wish().scenario == chosen);
                return ui::Leave::quit;
            }
            person.use("side/progress");
            CHECK(screen.leave() == ui::Leave::stay);  // nobody is named yet
            person.tab_to("side/person");
            person.type("B-207");
            person.use("side/progress");
            return screen.leave();
        }
        auto* progress = dynamic_cast<ui::ProgressScreen*>(&screen);
        REQUIRE(progress != nullptr);
        ++seen;
        CHECK(progress->progress().attempts == 0);
        person.use("next/0:c01-own-minute");
        chosen = progress->chosen_path();
        return screen.leave();
    };
    ui::go_round(show, wish, shelf, device, *place.store, *place.journal);
    CHECK(seen == 1);
    CHECK(chosen == ui::scenario_path("c01"));
}
