// The baseline's own wander: how far, how slowly, and that it is what "settled" means.
#include "sim/course/course.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace sim;

namespace {

Patient woman(double drift) {
    Patient p;
    Baby b;
    b.baseline = {140};
    b.drift = {drift};
    b.variability = Variability::minimal;
    p.babies.add(b);
    p.labour.contractions_per_10min = 0;
    return p;
}

}  // namespace

TEST_CASE(
    "drift of 3 bpm: the settled rate has that spread, remembers itself for 10 to 20 min, mean as given",
    "[settled]") {
    // Ornstein-Uhlenbeck process, 10 to 20 min, 2 to 4 bpm [memory].
    double squares = 0, sum = 0, later = 0;
    int n = 0, pairs = 0;
    for (std::uint64_t s = 1; s <= 24; ++s) {
        const auto course = course_over(woman(3), Seed{s}, {}, {7200});
        for (std::size_t k = 0; k < course.size(); k += 240) {
            const double off = course[k].fhr_base_bpm[0] - 140;
            sum += off;
            squares += off * off;
            ++n;
            if (k + 3600 >= course.size()) continue;
            later += off * (course[k + 3600].fhr_base_bpm[0] - 140);
            ++pairs;
        }
    }
    CHECK(sum / n == Approx(0).margin(0.6));
    CHECK(std::sqrt(squares / n) == Approx(3).epsilon(0.12));
    // After 15 min e^-1.5 to e^-0.75 is left for memories of 10 and 20 min, 0.36 in the middle.
    const double left = later / pairs / (squares / n);
    CHECK((left > 0.15 && left < 0.55));
}

TEST_CASE("the rate follows its drifting baseline, and no drift keeps it to the last digit", "[settled]") {
    const auto course = course_over(woman(4), Seed{3}, {}, {3600});
    double with_base = 0, without = 0;
    for (const CourseTick& tick : course) {
        with_base += std::fabs(tick.fhr_bpm[0] - tick.fhr_base_bpm[0]);
        without += std::fabs(tick.fhr_bpm[0] - 140);
    }
    CHECK(with_base < 0.5 * without);
    for (const CourseTick& tick : course_over(woman(0), Seed{3}, {}, {600}))
        CHECK(tick.fhr_base_bpm[0] == 140);
}

TEST_CASE("the baseline never jumps: less than 1.5 bpm at a drift of 6 from one quarter second to the next",
          "[settled]") {
    const auto course = course_over(woman(6), Seed{9}, {}, {3600});
    for (std::size_t k = 1; k < course.size(); ++k)
        CHECK(std::fabs(course[k].fhr_base_bpm[0] - course[k - 1].fhr_base_bpm[0]) < 1.5);
}
