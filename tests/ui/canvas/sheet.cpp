// The contact sheet: the right minute, the right sound, on screen and on paper; few colours look the same.
#include "tests/ui/canvas/trial_attempt.h"
#include "ui/canvas/surface.h"
#include "ui/paper/few_colours.h"
#include "ui/paper/sheet_page.h"

#include <catch2/catch.hpp>

#include <cairo.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>

using namespace ui;

namespace {

engine::Scenario library(const std::string& name) {
    std::string path = FULLMINUTE_SOURCE_DIR "/scenarios/library/";
    path.append(name).append(".toml");
    return engine::read_scenario_file(path).value();
}

engine::Protocol who() {
    return engine::read_protocol_file(FULLMINUTE_SOURCE_DIR "/scenarios/protocols/who-2018.toml").value();
}

struct Made {
    std::filesystem::path folder;
    Made() {
        std::string name = (std::filesystem::temp_directory_path() / "fullminute-XXXXXX").string();
        folder = mkdtemp(name.data());
    }
    ~Made() { std::filesystem::remove_all(folder); }
    std::string at(const std::string& name) const { return (folder / name).string(); }
};

}  // namespace

TEST_CASE("A row of the sheet: course, one minute of beats, six seconds of sound for each instrument",
          "[sheet]") {
    const engine::Scenario s = library("f10-two-instruments");
    const SheetRow row = sheet_row(s, who(), {1}, 30.0);
    CHECK(row.from_s == 30);
    REQUIRE(row.sounds.size() == 2);
    CHECK(row.sounds[0].with == sim::Instrument::horn);
    CHECK(row.sounds[1].with == sim::Instrument::doppler);
    for (const SheetSound& sound : row.sounds) {
        CHECK(sound.from_s == 57);
        CHECK(sound.marks.baby_s.empty());        // there is no heart
        CHECK(sound.marks.mother_s.size() >= 9);  // 112 a minute: 11 in six seconds
        CHECK(sound.spectrogram.columns > 200);
        CHECK(sound.peak_db > -60);
    }
    CHECK(row.dots.baby.empty());
    CHECK(row.dots.mother.size() > 100);
    CHECK_FALSE(row.map.heart);
    CHECK(row.truth.find("not found") != std::string::npos);
    CHECK(row.truth.find("RED") != std::string::npos);
}

TEST_CASE("The minute shown is the one that differs most: in l03 it is after the fall begins at 240 s",
          "[sheet]") {
    const SheetRow row = sheet_row(library("l03-a-long-night"), who(), {1});
    double in_minute = 0;
    for (const BeatDot& dot : row.dots.baby) in_minute += dot.bpm / static_cast<double>(row.dots.baby.size());
    // Left alone the heart stays at 94 for most of the half hour: what differs is what came before, or the
    // fall itself.
    CHECK((row.from_s < 330 || in_minute < 110));
    CHECK(sheet_row(library("l03-a-long-night"), who(), {1}, 1e9).from_s == 1800 - 60);  // never past the end
}

TEST_CASE("The sheet is a PDF, an SVG, a PNG; another suffix or no such folder is a fault", "[sheet]") {
    const std::vector<SheetRow> rows(4, sheet_row(library("c01-own-minute"), who(), {1}, 0.0));
    Made made;
    for (const auto& [name, magic] : std::vector<std::pair<std::string, std::string>>{
             {"s.pdf", "%PDF"}, {"s.svg", "<?xml"}, {"s.png", "\x89PNG"}}) {
        REQUIRE(write_sheet(rows, "foot", made.at(name)).ok());
        std::ifstream file(made.at(name), std::ios::binary);
        std::string start(magic.size(), ' ');
        file.read(start.data(), static_cast<std::streamsize>(start.size()));
        CHECK(start == magic);
        CHECK(std::filesystem::file_size(made.at(name)) > 20000);
    }
    CHECK_FALSE(write_sheet(rows, "foot", made.at("s.doc")).ok());
    CHECK_FALSE(write_sheet(rows, "foot", made.at("nowhere/s.png")).ok());
    CHECK_FALSE(write_sheet(rows, "foot", made.at("nowhere/s.pdf")).ok());
}

TEST_CASE("Few colours: the palette's own stay within a step of 8, a thousand greys within 16", "[sheet]") {
    Picture picture(100, 40);
    Canvas& canvas = picture.canvas();
    canvas.fill({0, 0, 100, 40}, light_palette.card);
    canvas.fill({10, 10, 20, 20}, light_palette.attention);
    for (int x = 40; x < 100; ++x)
        canvas.fill({static_cast<double>(x), 0, 1, 40},
                    {static_cast<std::uint8_t>(x * 2), static_cast<std::uint8_t>(x * 2),
                     static_cast<std::uint8_t>(x * 2)});
    Made made;
    REQUIRE(write_png_few_colours(picture, made.at("f.png")).ok());
    cairo_surface_t* read = cairo_image_surface_create_from_png(made.at("f.png").c_str());
    REQUIRE(cairo_image_surface_get_width(read) == 100);
    REQUIRE(cairo_image_surface_get_height(read) == 40);
    const unsigned char* pixels = cairo_image_surface_get_data(read);
    int furthest = 0;
    for (int y = 0; y < 40; ++y)
        for (int x = 0; x < 100; ++x) {
            const unsigned char* p = pixels + y * cairo_image_surface_get_stride(read) + x * 4;  // B, G, R
            const Colour c = picture.at(x, y);
            furthest = std::max(
                {furthest, std::abs(p[2] - c.red), std::abs(p[1] - c.green), std::abs(p[0] - c.blue)});
        }
    cairo_surface_destroy(read);
    CHECK(furthest <= 8);
}
