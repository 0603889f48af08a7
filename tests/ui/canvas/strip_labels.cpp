// Words of the strip: each in a place of its own, whatever windows, curves and acts there are.
#include "ui/canvas/surface.h"
#include "ui/paper/verdict_words.h"
#include "ui/plots/strip_labels.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace ui;

namespace {

StripContent plain(double length_s, double baby_bpm, double mother_bpm) {
    StripContent content;
    content.length_s = length_s;
    const auto n = static_cast<std::size_t>(length_s * 4) + 1;
    content.baby.assign(n, baby_bpm);
    content.mother.assign(n, mother_bpm);
    content.pressure_mmhg.assign(n, 10);
    content.band = {110, 160, "normal 110 to 160: WHO 2018 listening with the 2020 labour guide"};
    return content;
}

bool touch(const Box& a, const Box& b) {
    return a.x < b.right() - 0.01 && b.x < a.right() - 0.01 && a.y < b.bottom() - 0.01 &&
           b.y < a.bottom() - 0.01;
}

}  // namespace

TEST_CASE(
    "Strip words: in 400 strips of up to 12 windows and 30 acts no two words or discs touch, all lie inside",
    "[strip]") {
    std::mt19937 random(20260101);
    const auto upto = [&](double most) { return std::uniform_real_distribution<double>(0, most)(random); };
    Picture picture(10, 10);
    for (int round = 0; round < 400; ++round) {
        StripContent content = plain(60 + upto(3600), 70 + upto(150), 60 + upto(100));
        if (round % 5 == 0) content.second_baby.assign(content.baby.size(), 90 + upto(90));
        const int windows = static_cast<int>(upto(13)), acts = static_cast<int>(upto(31));
        for (int i = 0; i < windows; ++i) {
            const double from = upto(content.length_s);
            content.windows.push_back(
                {from, from + 6 + upto(60), i % 2 == 0 ? "you: 139" : "you: nothing written"});
        }
        std::vector<double> times;
        for (int i = 0; i < acts; ++i)
            times.push_back(content.length_s * (1 - std::pow(upto(1), 1 + round % 4)));
        std::sort(times.begin(), times.end());
        for (int i = 0; i < acts; ++i)
            content.acts.push_back(
                {times[static_cast<std::size_t>(i)], i + 1, "call a second helper to her"});
        const double scale = 1 + 0.25 * (round % 5);
        const Theme theme{.scale = scale};
        const StripFrame frame = strip_frame(
            content, {0, 0, (500 + upto(900)) * scale, (200 + upto(300)) * scale}, whole(content), scale);
        const StripLabels labels = strip_labels(picture.canvas(), content, frame, theme);
        INFO("round " << round);
        const std::vector<Box> taken = labels.taken();
        for (std::size_t i = 0; i < taken.size(); ++i) {
            CHECK(taken[i].x >= frame.box.x);
            CHECK(taken[i].right() <= frame.box.right() + 0.01);
            CHECK(taken[i].bottom() <= frame.box.bottom());
            for (std::size_t k = i + 1; k < taken.size(); ++k) CHECK_FALSE(touch(taken[i], taken[k]));
        }
        int discs = 0;
        for (std::size_t i = 0; i < labels.act_x.size(); ++i) {
            if (std::isnan(labels.act_x[i])) continue;
            ++discs;
            if (i > 0) CHECK(labels.act_x[i] > labels.act_x[i - 1]);
        }
        CHECK(discs == acts);
    }
}

TEST_CASE("Marks of a source are words: CP, COP and (MEM); WHO 2018 and MCPC S-95 stay as they are",
          "[sources]") {
    CHECK(sources_in_words("WHO 2018, NICE 2022 (MEM), MCPC S-95, CP") ==
          "WHO 2018, NICE 2022 (from memory), MCPC S-95, common practice, no source of its own");
    CHECK(sources_in_words("COP, MEM") == "older community practice, from memory");
    CHECK(sources_in_words("MCPC") == "MCPC");
}

TEST_CASE("Strip words: with one count nothing is left out; five acts in the last second stand 19 px apart",
          "[strip]") {
    StripContent content = plain(600, 140, 82);
    content.windows.push_back({540, 600, "you: 139"});
    for (int i = 1; i <= 5; ++i) content.acts.push_back({599 + 0.2 * i, i, "turn her to her left side"});
    Picture picture(10, 10);
    const StripFrame frame = strip_frame(content, {0, 0, 1240, 330}, whole(content), 1.0);
    const StripLabels labels = strip_labels(picture.canvas(), content, frame, Theme{});
    CHECK(labels.windows[0].w > 0);
    CHECK(labels.band.w > 0);
    CHECK(labels.baby.w > 0);
    CHECK(labels.mother.w > 0);
    REQUIRE(labels.act_x.size() == 5);
    for (std::size_t i = 1; i < 5; ++i) CHECK(labels.act_x[i] - labels.act_x[i - 1] == Approx(19));
    CHECK(labels.act_x[4] + labels.act_r <= frame.acts.right());
}

TEST_CASE("Strip words: of a baby that climbs from 150 to 185 bpm no word hides a second, counts neither",
          "[strip]") {
    StripContent content = plain(60, 150, 90);
    for (std::size_t i = 0; i < content.baby.size(); ++i)
        content.baby[i] = 150 + 35 * static_cast<double>(i) / static_cast<double>(content.baby.size());
    content.windows.push_back({30, 60, "you: 168"});
    Picture picture(10, 10);
    const StripFrame frame = strip_frame(content, {0, 0, 1240, 330}, whole(content), 1.0);
    const StripLabels labels = strip_labels(picture.canvas(), content, frame, Theme{});
    REQUIRE(labels.band.w > 0);
    REQUIRE(labels.windows[0].w > 0);
    for (const Box& box : {labels.band, labels.windows[0]})
        for (std::size_t i = 0; i < content.baby.size(); ++i) {
            const double x = frame.x_of(0.25 * static_cast<double>(i)), y = frame.y_of(content.baby[i]);
            INFO("second " << 0.25 * static_cast<double>(i));
            CHECK_FALSE((x >= box.x && x <= box.right() && y >= box.y && y <= box.bottom()));
        }
}
