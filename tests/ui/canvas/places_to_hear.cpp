// The numbers of what to do next time on the strip: each at its moment, none on another, all inside the lane.
#include "ui/plots/places_to_hear.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace ui;

namespace {
StripFrame strip_of_600_s(double width) {
    StripContent content;
    content.length_s = 600;
    content.baby.assign(2400, 140);
    content.mother.assign(2400, 80);
    return strip_frame(content, {0, 0, width, 220}, {0, 600}, 1.0);
}
std::vector<engine::NextTime> said_at(std::vector<double> seconds) {
    std::vector<engine::NextTime> next;
    for (const double s : seconds) next.push_back({"Hear it again from here.", s});
    return next;
}
}  // namespace

TEST_CASE("Five places at one second at the very end stand beside each other, inside the lane", "[places]") {
    const StripFrame frame = strip_of_600_s(700);
    const auto places = places_to_hear(said_at({600, 600, 600, 600, 600}), frame, 1.0);
    REQUIRE(places.size() == 5);
    for (std::size_t i = 0; i < places.size(); ++i) {
        CHECK(places[i].number == static_cast<int>(i) + 1);
        CHECK(places[i].at.x - places[i].radius >= frame.listened.x - 1e-9);
        CHECK(places[i].at.x + places[i].radius <= frame.listened.right() + 1e-9);
        for (std::size_t j = 0; j < i; ++j)
            CHECK(std::fabs(places[i].at.x - places[j].at.x) >= 2 * places[i].radius);
    }
}

TEST_CASE("Places far apart stand exactly at their moments: 120 s and 300 s of 600", "[places]") {
    const StripFrame frame = strip_of_600_s(700);
    const auto places = places_to_hear(said_at({300, 120}), frame, 1.0);
    REQUIRE(places.size() == 2);
    CHECK(places[0].at.x == Approx(frame.x_of(300)));
    CHECK(places[1].at.x == Approx(frame.x_of(120)));
}

TEST_CASE("A place outside the part that is shown is not drawn", "[places]") {
    StripContent content;
    content.length_s = 600;
    const StripFrame frame = strip_frame(content, {0, 0, 700, 220}, {0, 200}, 1.0);
    CHECK(places_to_hear(said_at({300}), frame, 1.0).empty());
}
