// Spectrogram and beat dots: what is drawn is what sounds and beats.
#include "ui/canvas/surface.h"
#include "ui/plots/beat_dots.h"
#include "ui/plots/spectrogram.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <numbers>

using namespace ui;

namespace {

std::vector<float> tone(double hz, double amplitude, double s = 2) {
    std::vector<float> samples(static_cast<std::size_t>(s * 48000));
    for (std::size_t i = 0; i < samples.size(); ++i)
        samples[i] = static_cast<float>(
            amplitude * std::sin(2 * std::numbers::pi * hz * static_cast<double>(i) / 48000.0));
    return samples;
}

sim::Beat beat(double s, sim::BeatKind kind = sim::BeatKind::normal) {
    sim::Beat b;
    b.at_us = static_cast<std::int64_t>(std::llround(s * 1e6));
    b.kind = kind;
    return b;
}

int darkness(Colour c) { return 765 - c.red - c.green - c.blue; }

}  // namespace

// A sine of amplitude a has a level of 20 log10 a under full scale [arithmetic]; a Hann window loses at most
// 1.42 dB half way between two rows (Harris 1978, table 1).
TEST_CASE("A tone of 300 Hz and amplitude 0.1 has its ridge at 300 Hz in every column, at -20 dB",
          "[spectrogram]") {
    const Spectrogram s = spectrogram_of(tone(300, 0.1), 5);
    CHECK(s.row_hz == Approx(11.71875));
    REQUIRE(s.columns > 60);
    for (int c = 0; c < s.columns; ++c) {
        int ridge = 0;
        for (int row = 1; row < s.rows; ++row)
            if (s.at(c, row) > s.at(c, ridge)) ridge = row;
        CHECK(std::fabs(ridge * s.row_hz - 300) <= s.row_hz / 2);
        CHECK(s.at(c, ridge) <= -20.0F + 0.05F);
        CHECK(s.at(c, ridge) >= -20.0F - 1.43F);
    }
    CHECK(std::fabs(s.strongest().hz - 300) <= s.row_hz / 2);
}

TEST_CASE("A tone on a row reads its level to 0.05 dB; 3 octaves away it is 60 dB down or more",
          "[spectrogram]") {
    const double hz = 48000.0 / 4096 * 20;  // 234.4 Hz
    const Spectrogram s = spectrogram_of(tone(hz, 0.5), 0);
    CHECK(static_cast<double>(s.at(10, 20)) == Approx(20 * std::log10(0.5)).margin(0.05));
    CHECK(s.at(10, 3) < s.at(10, 20) - 60.0F);
}

TEST_CASE("A burst from 1.0 s to 1.1 s is loudest in the columns between, and nowhere else within 20 dB",
          "[spectrogram]") {
    std::vector<float> samples = tone(150, 0.3, 2.5);
    for (std::size_t i = 0; i < samples.size(); ++i)
        if (i < 48000 || i >= 52800) samples[i] = 0;
    const Spectrogram s =
        spectrogram_of(samples, 10);  // the first sample is at 10 s: the burst at 11.0 s to 11.1 s
    const int row = static_cast<int>(std::lround(150 / s.row_hz));
    const float most = s.loudest_db();
    for (int c = 0; c < s.columns; ++c) {
        const double t = s.from_s + c * s.step_s;
        INFO(t);
        if (t > 11.03 && t < 11.07) CHECK(s.at(c, row) > most - 3.0F);
        if (t < 10.94 || t > 11.16) CHECK(s.at(c, row) < most - 20.0F);
    }
}

TEST_CASE("Nothing at all, or less than a window of it, draws as no sound and does not fall over",
          "[spectrogram]") {
    CHECK(spectrogram_of({}, 0).columns == 0);
    CHECK(spectrogram_of(std::vector<float>(1000), 0).columns == 0);
    const Spectrogram silent = spectrogram_of(std::vector<float>(48000), 0);
    CHECK(silent.loudest_db() == -160.0F);
    CHECK(silent.strongest().hz == 0);
    Picture picture(300, 200);
    draw_spectrogram(picture.canvas(), {0, 0, 300, 100}, spectrogram_of({}, 0), {}, "horn", "", Theme{});
    draw_spectrogram(picture.canvas(), {0, 100, 300, 100}, silent, {}, "horn", "", Theme{});
}

TEST_CASE("Drawn, 300 Hz is the darkest line, four fifths of the way up from 20 to 600 Hz", "[spectrogram]") {
    Picture picture(400, 300);
    picture.canvas().fill({0, 0, 400, 300}, light_palette.card);
    const Spectrogram s = spectrogram_of(tone(300, 0.2), 0);
    draw_spectrogram(picture.canvas(), {0, 0, 400, 300}, s, {}, "tone", "", Theme{});
    // The shades end 17 px above the foot and begin 42 px under the top.
    int darkest = 0, first = 0, last = 0;
    for (int y = 44; y < 282; ++y)
        if (const int here = darkness(picture.at(200, y)); here >= darkest) {
            if (here > darkest) first = y;
            darkest = here;
            last = y;
        }
    const double share = (283.0 - (first + last + 1) / 2.0) / (283 - 42);
    const double most_hz = (s.rows - 1) * s.row_hz;
    CHECK(20 * std::pow(most_hz / 20, share) == Approx(300).margin(24));  // one band is 9 %
    CHECK(darkest > 500);
    CHECK(picture.at(200, 270) == light_palette.card);  // nothing near 25 Hz
}

TEST_CASE("Shades grow darker with every step of 4 dB: also without colour the louder is the darker",
          "[spectrogram]") {
    for (double under = 0; under < spectrogram_depth_db; under += 4)
        CHECK(darkness(shade_of(under, Theme{})) > darkness(shade_of(under + 4, Theme{})));
    CHECK(shade_of(0, Theme{}) == light_palette.ink);
    CHECK(shade_of(spectrogram_depth_db, Theme{}) == light_palette.card);
    CHECK(shade_of(90, Theme{}) == light_palette.card);
}

// 60 / 0.5 s = 120; a missing beat makes 60 / 1.0 s = 60 [arithmetic].
TEST_CASE("Beat dots: 0.5 s apart is 120; across a missing beat 60; a dropped beat has no dot",
          "[spectrogram]") {
    const std::vector<sim::Beat> train{beat(0),   beat(0.5),
                                       beat(1.0), beat(1.5, sim::BeatKind::dropped),
                                       beat(2.0), beat(2.4, sim::BeatKind::ectopic)};
    const auto dots = beat_dots(train, 0, 10);
    REQUIRE(dots.size() == 4);
    CHECK(dots[0].at_s == 0.5);
    CHECK(dots[0].bpm == Approx(120));
    CHECK(dots[2].at_s == 2.0);
    CHECK(dots[2].bpm == Approx(60));
    CHECK(dots[3].bpm == Approx(150));
    CHECK(beat_dots(train, 0.6, 2.0).size() == 1);
}

TEST_CASE("Spectrogram, its key and beat dots draw on a picture and on paper (PDF, SVG)", "[spectrogram]") {
    const Spectrogram s = spectrogram_of(tone(100, 0.2), 0);
    const auto draw = [&](Canvas& canvas) {
        BeatDots dots;
        dots.baby = {{10, 140}, {20, 250}};
        dots.mother = {{15, 40}};
        draw_beat_dots(canvas, {20, 20, 200, 100}, dots, Theme{});
        draw_spectrogram(canvas, {20, 140, 300, 150}, s, {{0.5, 0.9}, {0.7}, {0.6}}, "horn", "at 1, 2 cm",
                         Theme{});
        draw_spectrogram_key(canvas, {20, 300, 200, 30}, Theme{});
        CHECK(canvas.overflows().empty());
    };
    Picture picture(400, 360);
    picture.canvas().fill({0, 0, 400, 360}, light_palette.card);
    draw(picture.canvas());
    const Picture& drawn = picture;
    int ink = 0;
    for (int y = 0; y < 360; ++y)
        for (int x = 0; x < 400; ++x) ink += drawn.at(x, y) == light_palette.card ? 0 : 1;
    CHECK(ink > 10000);
    std::string name = (std::filesystem::temp_directory_path() / "fullminute-XXXXXX").string();
    const std::filesystem::path folder = mkdtemp(name.data());
    for (const char* suffix : {".pdf", ".svg"}) {
        const std::string path = (folder / ("plots" + std::string(suffix))).string();
        REQUIRE(write_pages(path, {}, {draw}).ok());
        CHECK(std::filesystem::file_size(path) > 2000);
    }
    std::filesystem::remove_all(folder);
}
