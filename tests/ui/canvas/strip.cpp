// The strip: columns hold what the curve holds, the axis says minutes and seconds, everything lies inside its
// box.
#include "tests/ui/canvas/trial_attempt.h"
#include "ui/canvas/surface.h"
#include "ui/plots/abdomen_map.h"
#include "ui/plots/breakdown.h"
#include "ui/plots/columns.h"
#include "ui/plots/strip.h"

#include <catch2/catch.hpp>

using namespace ui;

TEST_CASE("Columns: 140 everywhere but one point of 100 shows 100 to 140 in its column and 140 elsewhere",
          "[strip]") {
    std::vector<double> values(401, 140.0);                     // 100 s
    values[202] = 100;                                          // 50.5 s
    const auto columns = columns_of(values, 0.25, 0, 100, 20);  // 5 s each
    REQUIRE(columns.size() == 20);
    for (std::size_t c = 0; c < 20; ++c) {
        INFO(c);
        CHECK(columns[c].any);
        CHECK(columns[c].high == 140);
        CHECK(columns[c].low == (c == 10 ? 100 : 140));
    }
}

TEST_CASE("Columns: from 20 s to 30 s without a heart is a gap of exactly the columns inside it", "[strip]") {
    std::vector<double> values(401, 120.0);
    for (std::size_t k = 80; k <= 120; ++k) values[k] = 0;
    const auto columns = columns_of(values, 0.25, 0, 100, 50);  // 2 s each
    for (std::size_t c = 0; c < 50; ++c) {
        INFO(c);
        CHECK(columns[c].any == (c < 10 || c >= 15));
    }
}

TEST_CASE("Columns narrower than the grid read straight between points: 100 and 110 give 105 half way",
          "[strip]") {
    const std::vector<double> values{100, 110, 110};
    CHECK(value_at(values, 0.25, 0.125) == Approx(105));
    CHECK(value_at(values, 0.25, 0.5) == Approx(110));
    CHECK(value_at(values, 0.25, 0.6) == 0);  // past the end
    CHECK(value_at(values, 0.25, -0.1) == 0);
}

TEST_CASE("Time axis: 268 s is 4:28, 3665 s is 61:05; ten minutes on 1100 pixels are labelled each minute",
          "[strip]") {
    CHECK(minutes_and_seconds(268) == "4:28");
    CHECK(minutes_and_seconds(0) == "0:00");
    CHECK(minutes_and_seconds(3665) == "61:05");
    CHECK(label_step_s(600, 1100, 40) == 60);
    CHECK(label_step_s(30, 1100, 40) == 2);
    CHECK(label_step_s(14400, 1100, 40) == 1200);
}

TEST_CASE("Strip: times and rates go to their place and back; a rate of 240 widens the axis", "[strip]") {
    StripContent content = strip_of(trial::judged());
    const StripFrame frame = strip_frame(content, {10, 10, 900, 300}, whole(content), 1.0);
    CHECK(frame.s_at(frame.x_of(268)) == Approx(268));
    CHECK(frame.x_of(0) == Approx(frame.rates.x));
    CHECK(frame.x_of(600) == Approx(frame.rates.right()));
    CHECK(frame.y_of(frame.least_bpm) == Approx(frame.rates.bottom()));
    CHECK(frame.most_bpm == 180);
    CHECK(frame.listened.bottom() < frame.box.bottom());
    content.baby[100] = 240;
    CHECK(strip_frame(content, {10, 10, 900, 300}, whole(content), 1.0).most_bpm == 240);
}

TEST_CASE("Strip: the baby's line is ink at 140, the window is washed, the gap from 300 s to 320 s is empty",
          "[strip]") {
    const auto judged = trial::judged();
    const StripContent content = strip_of(judged);
    REQUIRE(content.windows.size() == 2);
    CHECK(content.windows[0].says == "you: 139");
    CHECK(content.band.says == "normal 110 to 160: WHO 2018");
    Picture picture(1240, 330);
    picture.canvas().fill({0, 0, 1240, 330}, light_palette.card);
    const StripFrame frame = strip_frame(content, {0, 0, 1240, 330}, whole(content), 1.0);
    draw_strip(picture.canvas(), content, frame, Theme{});
    const auto darkest = [&](double s) {
        int least = 255;
        for (double bpm = 100; bpm < 150; bpm += 0.25) {
            const Colour c = picture.at(static_cast<int>(frame.x_of(s)), static_cast<int>(frame.y_of(bpm)));
            least = std::min<int>(least, c.red);
        }
        return least;
    };
    CHECK(darkest(270) < 80);   // the curve
    CHECK(darkest(310) > 180);  // nothing but lines of the grid
    const Colour plain = picture.at(static_cast<int>(frame.x_of(260)), static_cast<int>(frame.y_of(153)));
    const Colour washed = picture.at(static_cast<int>(frame.x_of(180)), static_cast<int>(frame.y_of(153)));
    CHECK(plain == light_palette.normal_band);
    CHECK(washed == blended(light_palette.attention, light_palette.normal_band, 0.10));
}

TEST_CASE("Count taken apart: 124.3 - 0.3 - 2 - 2 - 30 = 90, each with its sign", "[strip]") {
    const auto lines = breakdown_lines(trial::judged().sheet.windows[1]);
    REQUIRE(lines.size() == 6);
    double sum = lines.front().bpm;
    for (std::size_t i = 1; i + 1 < lines.size(); ++i) sum += lines[i].bpm;
    CHECK(sum == Approx(lines.back().bpm));
    CHECK(signed_rate(-2) ==
          "\xE2\x88\x92"
          "2");
    CHECK(signed_rate(1.5) == "+1.5");
    CHECK(signed_rate(0.04) == "0");
    CHECK(signed_rate(-0.04) == "0");
}

TEST_CASE("Level line of a cone: 3 dB under a top of 0 dB at 1 dB a centimetre is a circle of 3 cm",
          "[strip]") {
    std::vector<std::array<double, 4>> rows;
    for (double y = -18; y <= 20; y += 0.5)
        for (double x = -16; x <= 16; x += 0.5) rows.push_back({x, y, -std::hypot(x - 6, y + 7), -40});
    const Loudness loudness = loudness_of(rows);
    CHECK(loudness.columns == 65);
    CHECK(loudness.rows == 77);
    CHECK(loudness.best_x == 6);
    CHECK(loudness.best_y == -7);
    const auto pieces = level_line(loudness, -3);
    REQUIRE(pieces.size() > 20);
    for (const LevelPiece& piece : pieces) {
        CHECK(std::hypot(piece.from.x - 6, piece.from.y + 7) == Approx(3).margin(0.05));
        CHECK(std::hypot(piece.to.x - 6, piece.to.y + 7) == Approx(3).margin(0.05));
    }
}

TEST_CASE("Two equally loud places: the higher one is the best, then the one more to her right", "[strip]") {
    std::vector<std::array<double, 4>> rows;
    for (double y = 0; y <= 2; y += 0.5)
        for (double x = 0; x <= 2; x += 0.5)
            rows.push_back({x, y, (y == 1.5 || y == 0.5) && x >= 0.5 ? -3.0 : -9.0, -40});
    const Loudness loudness = loudness_of(rows);
    CHECK(loudness.best_y == 1.5);
    CHECK(loudness.best_x == 0.5);
}
