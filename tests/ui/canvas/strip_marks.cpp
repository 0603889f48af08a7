// Marks on the strip: a tapped count's beats told apart by shape, a series as rates in their order.
#include "tests/ui/canvas/trial_attempt.h"
#include "ui/canvas/surface.h"
#include "ui/plots/breakdown.h"
#include "ui/plots/strip.h"

#include <catch2/catch.hpp>

using namespace ui;

namespace {

// The trial's first count, 150 s to 210 s at 140: tapped, but for a missed beat at 170 s and an extra tap at
// 190.2 s.
engine::JudgedAttempt tapped() {
    engine::JudgedAttempt judged = trial::judged();
    engine::WindowScore& window = judged.sheet.windows[0];
    engine::TapScore taps;
    for (int i = 0; i < 140; ++i) {
        const double s = 150 + i * 60 / 140.0;
        (std::fabs(s - 170) < 0.2 ? taps.missed_s : taps.caught_s).push_back(s);
    }
    taps.extra_s = {190.2};
    taps.taps = static_cast<int>(taps.caught_s.size() + 1);
    taps.lag_s = 0.06;
    taps.jitter_s = 0.02;
    taps.missed_bpm = -static_cast<double>(taps.missed_s.size());
    taps.extra_bpm = 1;
    taps.follows = "baby";
    window.taps = taps;
    window.terms.ear = taps.missed_bpm + taps.extra_bpm;
    window.terms.tally = -1 - window.terms.ear;
    return judged;
}

// Three tens from 335 s on: 138, 120, 102.
engine::JudgedAttempt in_a_row() {
    engine::JudgedAttempt judged = trial::judged();
    engine::SeriesScore series;
    series.first = 1;
    for (int i = 0; i < 3; ++i) {
        engine::WindowScore window = judged.sheet.windows[1];
        window.from_s = 335 + 13.0 * i;
        window.to_s = window.from_s + 10;
        if (i == 0)
            judged.sheet.windows[1] = window;
        else
            judged.sheet.windows.push_back(window);
        series.rates_bpm.push_back(138 - 18.0 * i);
    }
    series.last = 3;
    series.plan_s = 10;
    series.shown = {120, 129, 102, 138, 23, true};
    series.there = {120, 129, 102, 138, 0, false};
    judged.sheet.series = {series};
    return judged;
}

struct Drawn {
    StripContent content;
    StripFrame frame;
    Picture picture{1240, 360};
    explicit Drawn(const engine::JudgedAttempt& judged, StripView view) : content(strip_of(judged)) {
        frame = strip_frame(content, {0, 0, 1240, 360}, view, 1.0);
        picture.canvas().fill({0, 0, 1240, 360}, light_palette.card);
        draw_strip(picture.canvas(), content, frame, Theme{});
    }
    bool touched(double x, double y) const {
        return picture.at(static_cast<int>(std::lround(x)), static_cast<int>(std::lround(y))) !=
               light_palette.card;
    }
};

}  // namespace

TEST_CASE("Taps: a lane of their own when there are any; a ring at the missed beat, a cross at the extra tap",
          "[strip]") {
    CHECK(Drawn(trial::judged(), {150, 210}).frame.taps.h == 0);
    const Drawn drawn(tapped(), {160, 200});
    REQUIRE(drawn.content.taps.size() == 141);
    const double y = drawn.frame.taps.centre().y;
    const double missed = drawn.frame.x_of(tapped().sheet.windows[0].taps->missed_s.at(0));
    const double extra = drawn.frame.x_of(190.2);
    // A ring is open in the middle and drawn at its rim; a cross is drawn in the middle and open beside it.
    CHECK_FALSE(drawn.touched(missed, y));
    CHECK(drawn.touched(missed - 4.5, y));
    CHECK(drawn.touched(extra, y));
    CHECK(drawn.touched(extra - 4, y - 4));
    CHECK_FALSE(drawn.touched(extra - 4, y));
    CHECK(drawn.frame.taps.y >= drawn.frame.pressure.bottom());
    CHECK(drawn.frame.taps.bottom() <= drawn.frame.listened.y);
}

TEST_CASE("Taps over the whole ten minutes run together to a line; the missed beat still has its ring",
          "[strip]") {
    const Drawn drawn(tapped(), {0, 600});
    const double y = drawn.frame.taps.centre().y;
    CHECK(drawn.touched(drawn.frame.x_of(155), y));
    CHECK(drawn.touched(drawn.frame.x_of(205), y));
    CHECK_FALSE(drawn.touched(drawn.frame.x_of(120), y));
    CHECK(drawn.touched(drawn.frame.x_of(170) - 4, y - 2));
}

TEST_CASE("A tapped count's lines: 140.2 - 0.2 - 1 + 1 - 1 = 139, missed, extra and tally each their own",
          "[strip]") {
    const auto lines = breakdown_lines(tapped().sheet.windows[0]);
    double sum = lines.front().bpm;
    for (std::size_t i = 1; i + 1 < lines.size(); ++i) sum += lines[i].bpm;
    CHECK(sum == Approx(lines.back().bpm));
    const auto has = [&](const std::string& says) {
        return std::any_of(lines.begin(), lines.end(), [&](const auto& line) { return line.says == says; });
    };
    CHECK(has("ear: 1 missed"));
    CHECK(has("ear: 1 extra"));
    CHECK(has("tally: 140 tapped, 139 written"));
    CHECK(taps_in_words(tapped().sheet.windows[0]) ==
          "Taps: 139 of 140 beats caught, 0.06 s after them, give or take 0.02 s.");
}

TEST_CASE("A series is one label and bars at 138, 120 and 102 in their seconds", "[strip]") {
    const Drawn drawn(in_a_row(), {300, 420});
    REQUIRE(drawn.content.windows.size() == 4);
    CHECK(drawn.content.windows[1].says == "you: 3 x 10 s, together 120");
    CHECK(drawn.content.windows[2].says.empty());
    CHECK(drawn.content.windows[3].says.empty());
    for (int i = 0; i < 3; ++i) {
        const double x = drawn.frame.x_of(340 + 13.0 * i), y = drawn.frame.y_of(138 - 18.0 * i);
        CHECK(drawn.picture.at(static_cast<int>(x), static_cast<int>(y)) == light_palette.attention);
    }
    CHECK(series_in_words(in_a_row().sheet.series[0]).find("the beats showed no slowing") !=
          std::string::npos);
}
