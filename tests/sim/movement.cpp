// Movement bursts and what they put the heart off its place; and how far the baby has come down.
#include "sim/course/movement.h"

#include "sim/course/course.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace sim;

namespace {

Patient woman(Variability set) {
    Patient p;
    Baby b;
    b.variability = set;
    p.babies.add(b);
    return p;
}

double off_cm(const CourseTick& tick) { return std::hypot(tick.shifted_x_cm[0], tick.shifted_y_cm[0]); }

struct Shifts {
    double under_1cm = 0, furthest_cm = 0, over_2cm = 0, fastest_cm_s = 0;
};

Shifts shifts(Variability set) {
    Shifts all;
    double n = 0;
    for (std::uint64_t s = 1; s <= 20; ++s) {
        const auto course = course_over(woman(set), Seed{s}, {}, {3600});
        CHECK(off_cm(course[0]) == 0);
        for (std::size_t k = 1; k < course.size(); ++k) {
            all.under_1cm += off_cm(course[k]) < 1;
            all.over_2cm += off_cm(course[k]) > 2;
            all.furthest_cm = std::max(all.furthest_cm, off_cm(course[k]));
            const double step = std::hypot(course[k].shifted_x_cm[0] - course[k - 1].shifted_x_cm[0],
                                           course[k].shifted_y_cm[0] - course[k - 1].shifted_y_cm[0]);
            all.fastest_cm_s = std::max(all.fastest_cm_s, 4 * step);
            if (step > 0) CHECK((course[k].moving || course[k - 1].moving));
            ++n;
        }
    }
    all.under_1cm /= n;
    all.over_2cm /= n;
    return all;
}

}  // namespace

TEST_CASE("in labour the heart stays within 1 cm nine tenths of the time, and never goes 3 cm off",
          "[movement]") {
    // After a movement the baby may shift by 1 to 3 cm [practice]; a womb in labour holds it.
    const Shifts s = shifts(Variability::labour);
    CHECK(s.under_1cm > 0.87);
    CHECK(s.furthest_cm > 0.8);
    CHECK(s.furthest_cm <= 3.0001);
    CHECK(s.fastest_cm_s < 4);
}

TEST_CASE("a lively baby shifts by 2 to 3 cm now and then, never more", "[movement]") {
    const Shifts s = shifts(Variability::active);
    CHECK((s.over_2cm > 0.02 && s.over_2cm < 0.4));
    CHECK(s.furthest_cm > 2);
    CHECK(s.furthest_cm <= 3.0001);
}

TEST_CASE("no movements, no shift; no heart, none either; twins shift each by its own chance", "[movement]") {
    Patient p = woman(Variability::active);
    p.babies.add(p.babies[0]);
    const auto course = course_over(p, Seed{4}, {}, {3600});
    bool differ = false;
    for (const CourseTick& tick : course)
        differ = differ || std::fabs(tick.shifted_x_cm[0] - tick.shifted_x_cm[1]) > 0.2;
    CHECK(differ);
    p.babies[0].movements_per_10min = 0;
    p.babies[1].heart_beats = false;
    for (const CourseTick& tick : course_over(p, Seed{4}, {}, {3600})) {
        CHECK(off_cm(tick) == 0);
        CHECK(tick.shifted_x_cm[1] == 0);
    }
}

TEST_CASE(
    "a head at 4 fifths that comes down to 1 within the hour: 1.5 fifths at half an hour, 3 from then on",
    "[movement]") {
    Patient p = woman(Variability::labour);
    p.babies[0].fifths_above_brim = 4;
    p.babies[0].comes_down_to = 1;
    p.babies[0].comes_down_over = {3600};
    const auto course = course_over(p, Seed{1}, {}, {5400});
    CHECK(course[0].come_down_fifths[0] == 0);
    CHECK(course[4 * 1800].come_down_fifths[0] == Approx(1.5));
    CHECK(course[4 * 3600].come_down_fifths[0] == Approx(3));
    CHECK(course[4 * 5400].come_down_fifths[0] == Approx(3));
    p.babies[0].comes_down_to = -1;
    CHECK(course_over(p, Seed{1}, {}, {60})[200].come_down_fifths[0] == 0);
    p.babies[0].comes_down_to = 5;  // lower than it is it does not go up
    CHECK(course_over(p, Seed{1}, {}, {600})[2400].come_down_fifths[0] == 0);
}
