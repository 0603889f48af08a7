// Where a heart is loudest, over time and from one baby to the next; and the hand finds what has come down.
// Centimetres [practice]: down and to the midline about 1 cm a station, 3 cm down and six tenths of the way
// out once engaged.
#include "sim/body/abdomen.h"
#include "sim/body/palpation.h"
#include "tests/sim/scene.h"

#include <catch2/catch.hpp>

using namespace sim;

namespace {

Spot after(const Patient& p, double come_down, int baby = 0) {
    CourseTick now;
    now.come_down_fifths[static_cast<std::size_t>(baby)] = come_down;
    return heart_spot(p, baby, now);
}

}  // namespace

TEST_CASE("A head that comes down takes the spot with it, about 1 cm a fifth, 3 cm down in all",
          "[spot_moves]") {
    Patient p = scene::quiet_labour();
    for (const bool given : {false, true}) {
        p.babies[0].spot_given = given;
        const Spot first = after(p, 0), one = after(p, 1), in = after(p, 4);
        const double dx = one.x_cm - first.x_cm, dy = one.y_cm - first.y_cm;
        CHECK(std::sqrt(dx * dx + dy * dy) == Approx(1).margin(0.1));
        CHECK(in.y_cm == Approx(first.y_cm - 3));
        CHECK(in.x_cm == Approx(0.6 * first.x_cm));
    }
    p.babies[0].presentation = Presentation::across;
    p.babies[0].spot_given = false;
    CHECK(after(p, 4).y_cm == after(p, 0).y_cm);
}

TEST_CASE(
    "No two babies alike: the drawn offset moves a spot that follows from the position, not a given one",
    "[spot_moves]") {
    Patient p = scene::quiet_labour();
    p.babies[0].spot_off_x = {1.2};
    p.babies[0].spot_off_y = {-0.8};
    CHECK(heart_spot(p, 0, CourseTick{}).x_cm == Approx(7.2));
    CHECK(heart_spot(p, 0, CourseTick{}).y_cm == Approx(-7.8));
    p.babies[0].spot_given = true;
    CHECK(heart_spot(p, 0, CourseTick{}).x_cm == 6);
}

TEST_CASE("A movement shifts one twin's heart and leaves the other's", "[spot_moves]") {
    Patient p = scene::quiet_labour();
    p.babies.add(p.babies[0]);
    p.babies[1].back = Back::right_front;
    CourseTick now;
    now.shifted_x_cm = {0, 2};
    now.shifted_y_cm = {0, -1};
    CHECK(heart_spot(p, 0, now).x_cm == 6);
    CHECK(heart_spot(p, 1, now).x_cm == -4);
    CHECK(heart_spot(p, 1, now).y_cm == -8);
    CHECK(best_spot(p, now, Instrument::horn, 1).x_cm == -4);
}

TEST_CASE("A head felt four fifths above the brim is out of reach once it has come down three",
          "[spot_moves]") {
    const Patient p = scene::quiet_labour();
    CourseTick now;
    CHECK(felt_at(p, 0, -14, now) == Felt::hard_round_head);
    now.come_down_fifths[0] = 3;
    CHECK(felt_at(p, 0, -14, now) == Felt::nothing_clear);
    CHECK(felt_at(p, 0, 16, now) == Felt::broad_soft_breech);
}
