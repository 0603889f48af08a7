// The canvas: contrast of the palette, text that fits or is reported, one mapping of the abdomen, pixels
// where expected.
#include "ui/canvas/drawings.h"
#include "ui/canvas/surface.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace ui;

namespace {

// Contrast of two colours: WCAG 2.1, "relative luminance" and "contrast ratio".
double luminance(Colour c) {
    const auto part = [](std::uint8_t v) {
        const double s = v / 255.0;
        return s <= 0.03928 ? s / 12.92 : std::pow((s + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * part(c.red) + 0.7152 * part(c.green) + 0.0722 * part(c.blue);
}
double contrast(Colour a, Colour b) {
    const double x = luminance(a), y = luminance(b);
    return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

}  // namespace

TEST_CASE("Contrast formula: black on white is 21, equal colours are 1 (WCAG 2.1)", "[canvas]") {
    CHECK(contrast({0, 0, 0}, {255, 255, 255}) == Approx(21.0));
    CHECK(contrast({90, 90, 90}, {90, 90, 90}) == Approx(1.0));
}

TEST_CASE("Every colour of words has at least 4.5 to 1 against its ground, light and dark", "[canvas]") {
    for (const Palette& p : {light_palette, dark_palette}) {
        for (const Colour ground : {p.page, p.card})
            for (const Colour words : {p.ink, p.soft_ink, p.act, p.attention, p.fine})
                CHECK(contrast(words, ground) >= 4.5);
        CHECK(contrast(p.on_act, p.act) >= 4.5);
        CHECK(contrast(p.ink, p.chosen) >= 4.5);
        CHECK(contrast(p.ink, p.field) >= 4.5);
        CHECK(contrast(p.fine, p.normal_band) >= 4.5);
        CHECK(contrast(p.ink, p.window_wash) >= 4.5);
    }
    CHECK(contrast(light_palette.ink, light_palette.card) >= 14.0);
    CHECK(contrast(light_palette.on_act, light_palette.act) >= 7.0);
}

TEST_CASE("A text that is too high for its box is reported, one that fits is not, at 100, 150 and 200 %",
          "[canvas]") {
    Picture picture(800, 600);
    const std::string story =
        "Second baby, 39 weeks 4 days. Waters clear. Four contractions in ten minutes, strong.";
    for (const double scale : {1.0, 1.5, 2.0}) {
        Canvas canvas(picture.canvas().context());
        const Words how{.size = TypeScale::text * scale};
        const TextSize needed = canvas.measure(story, how, 240);
        CHECK(needed.lines >= 3);
        CHECK(needed.w <= 240.5);
        canvas.block({20, 20, 240, needed.h + 1}, story, how);
        CHECK(canvas.overflows().empty());
        canvas.block({20, 20, 240, needed.h * 0.6}, story, how);
        REQUIRE(canvas.overflows().size() == 1);
        CHECK(canvas.overflows()[0].text == story);
    }
}

TEST_CASE("A name of 90 letters without a blank wraps inside 240 pixels", "[canvas]") {
    Picture picture(400, 200);
    const TextSize size = picture.canvas().measure(std::string(90, 'W'), {.size = 16}, 240);
    CHECK(size.lines > 1);
    CHECK(size.w <= 240.5);
}

TEST_CASE("A card is its own colour in the middle, the page's outside its rounded corner", "[canvas]") {
    Picture picture(200, 120);
    picture.canvas().fill({0, 0, 200, 120}, light_palette.page);
    picture.canvas().card({20, 20, 160, 80}, light_palette);
    CHECK(picture.at(100, 60) == light_palette.card);
    CHECK(picture.at(10, 60) == light_palette.page);
    CHECK(picture.at(21, 21) == light_palette.page);  // cut off by the rounding
    CHECK(picture.at(20, 60) == light_palette.rule);  // the edge
}

TEST_CASE("What is clipped stays inside its box", "[canvas]") {
    Picture picture(100, 100);
    picture.canvas().fill({0, 0, 100, 100}, {255, 255, 255});
    {
        const Canvas::Clip inside(picture.canvas(), {0, 0, 50, 100});
        picture.canvas().fill({0, 0, 100, 100}, {0, 0, 0});
    }
    CHECK(picture.at(49, 50) == Colour{0, 0, 0});
    CHECK(picture.at(51, 50) == Colour{255, 255, 255});
}

TEST_CASE("Abdomen: 6 cm to her left is right of the navel, 7 cm below it is lower, and back again",
          "[canvas]") {
    for (const AbdomenFrame& frame : {abdomen_in({10, 20, 520, 560}), abdomen_close_in({0, 0, 300, 420})}) {
        const Point at = frame.to_page(6, -7);
        CHECK(at.x == Approx(frame.navel.x + 6 * frame.px_per_cm));
        CHECK(at.y == Approx(frame.navel.y + 7 * frame.px_per_cm));
        const Point back = frame.to_cm(at);
        CHECK(back.x == Approx(6));
        CHECK(back.y == Approx(-7));
        // The whole map (x -16..16, y -18..20) lies on the picture.
        for (const double x : {-16.0, 16.0})
            for (const double y : {-18.0, 20.0}) CHECK(frame.box.holds(frame.to_page(x, y)));
    }
}

TEST_CASE("The navel of the drawing lies where the mapping says: darker than the skin 3 cm beside it",
          "[canvas]") {
    Picture picture(920, 840);
    const AbdomenFrame frame = abdomen_in({0, 0, 920, 840});
    draw_abdomen(picture.canvas(), frame);
    const auto tone = [&](double x_cm, double y_cm) {
        const Point p = frame.to_page(x_cm, y_cm);
        return luminance(picture.at(static_cast<int>(p.x), static_cast<int>(p.y)));
    };
    CHECK(tone(0, 0) < 0.6 * tone(3, 0));
    CHECK(tone(0, 0) < 0.6 * tone(-3, 0));
    CHECK(contrast(light_palette.ink, picture.at(static_cast<int>(frame.to_page(6, -7).x),
                                                 static_cast<int>(frame.to_page(6, -7).y))) > 4.5);
}

TEST_CASE("Every drawing is there and puts ink on the page", "[canvas]") {
    for (const Drawing which :
         {Drawing::abdomen, Drawing::hand_left, Drawing::hand_right, Drawing::fingers_on_wrist, Drawing::horn,
          Drawing::bell, Drawing::diaphragm, Drawing::doppler, Drawing::watch}) {
        const Sprite made = sprite(80, 80, [which](Canvas& canvas) { draw(canvas, which, {0, 0, 80, 80}); });
        std::size_t solid = 0;
        for (std::size_t i = 3; i < made.rgba.size(); i += 4) solid += made.rgba[i] == 255;
        INFO(file_name_of(which));
        CHECK(solid > 400);  // an empty frame, drawn for a missing file, has some 300 half-covered points
    }
}
