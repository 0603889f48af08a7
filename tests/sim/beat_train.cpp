#include "sim/beats/beat_train.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <rapidcheck.h>

using namespace sim;

namespace {

Patient woman() {
    Patient p;
    p.babies.add(Baby{});
    return p;
}

// A course with any fetal rate, given at the grid points.
template <typename Rate>
std::vector<CourseTick> course_of(double length_s, Rate rate) {
    std::vector<CourseTick> course;
    for (int k = 0; k <= length_s * 4; ++k) {
        CourseTick tick;
        tick.fhr_bpm[0] = rate(k * 0.25);
        tick.mhr_bpm = 80;
        course.push_back(tick);
    }
    return course;
}

double seconds(const Beat& b) { return static_cast<double>(b.at_us) / 1e6; }

}  // namespace

TEST_CASE("a steady 137.3 bpm gives beats 60/137.3 s apart to a microsecond", "[beats]") {
    const auto train = beats_over(woman(), Seed{1}, Who::fetal, course_of(600, [](double) { return 137.3; }));
    REQUIRE(train.size() >= 1372);
    for (std::size_t i = 0; i < train.size(); ++i)
        CHECK(std::fabs(seconds(train[i]) - seconds(train[0]) - static_cast<double>(i) * 60 / 137.3) <
              1.1e-6);
}

TEST_CASE(
    "a rate rising straight from 60 to 180 bpm in a minute: beats where the parabola of its integral says",
    "[beats]") {
    // Integral pulse frequency modulation: beat n where the integral of r/60 reaches n plus the starting
    // phase; here t + t^2/60 in beats, worked by hand.
    const auto train =
        beats_over(woman(), Seed{4}, Who::fetal, course_of(60, [](double t) { return 60 + 2 * t; }));
    REQUIRE(train.size() >= 119);
    const auto phase = [](double t) { return t + t * t / 60; };
    const double start = phase(seconds(train[0]));
    for (std::size_t i = 0; i < train.size(); ++i)
        CHECK(phase(seconds(train[i])) - start == Approx(static_cast<double>(i)).margin(1e-5));
}

TEST_CASE("beats over any wandering rate: the count equals the integral of the rate to one beat", "[beats]") {
    CHECK(rc::check([] {
        const double middle = *rc::gen::inRange(60, 220), swing = *rc::gen::inRange(0, 30);
        const double each_s = *rc::gen::inRange(3, 60);
        const auto course =
            course_of(120, [&](double t) { return middle + swing * std::sin(6.2832 * t / each_s); });
        const auto train = beats_over(woman(), Seed{9}, Who::fetal, course);
        double integral = 0;
        for (std::size_t k = 0; k + 1 < course.size(); ++k)
            integral += 0.25 * 0.5 * (course[k].fhr_bpm[0] + course[k + 1].fhr_bpm[0]) / 60;
        RC_ASSERT(std::fabs(static_cast<double>(train.size()) - integral) <= 1.0);
        for (std::size_t i = 1; i < train.size(); ++i) RC_ASSERT(train[i - 1].at_us < train[i].at_us);
    }));
}

TEST_CASE("a heart at 270 bpm puts one or two beats in a cell and loses none", "[beats]") {
    const auto train = beats_over(woman(), Seed{1}, Who::fetal, course_of(60, [](double) { return 270.0; }));
    CHECK(std::abs(static_cast<int>(train.size()) - 270) <= 1);
}

TEST_CASE("windows are half open: a beat on the first edge counts, a beat on the last does not",
          "[counting]") {
    std::vector<Beat> train;
    for (int i = 0; i < 10; ++i) train.push_back({i * 500'000, i, BeatKind::normal});
    CHECK(beats_between(train, {500'000}, {2'000'000}) == 3);  // 0.5, 1.0, 1.5
    CHECK(beats_between(train, {500'001}, {2'000'000}) == 2);
    CHECK(beats_between(train, {500'000}, {2'000'001}) == 4);
    CHECK(beats_between(train, {2'000'000}, {500'000}) == 0);
    CHECK(beats_between({}, {0}, {1'000'000}) == 0);
}

TEST_CASE("neighbouring windows share no beat and lose none, wherever the cut falls", "[counting]") {
    const auto train = beats_over(woman(), Seed{2}, Who::fetal, course_of(120, [](double) { return 143.7; }));
    CHECK(rc::check([&] {
        const std::int64_t cut = *rc::gen::inRange<std::int64_t>(0, 120'000'000);
        const std::int64_t middle = (cut + 120'000'000) / 2;
        RC_ASSERT(beats_between(train, {0}, {cut}) + beats_between(train, {cut}, {middle}) +
                      beats_between(train, {middle}, {120'000'000}) ==
                  beats_between(train, {0}, {120'000'000}));
    }));
}

TEST_CASE("rate of a window has no rounding in it: 137.3 bpm over any 15 s reads 137.300", "[counting]") {
    const auto train = beats_over(woman(), Seed{3}, Who::fetal, course_of(120, [](double) { return 137.3; }));
    for (std::int64_t from = 1'000'000; from < 100'000'000; from += 1'234'567)
        CHECK(rate_between(train, {from}, {from + 15'000'000}).value == Approx(137.3).margin(0.0005));
}

TEST_CASE("rate of a window beyond the last beat falls back to the beats inside, and to 0 under two",
          "[counting]") {
    std::vector<Beat> train;
    for (int i = 0; i < 4; ++i) train.push_back({1'000'000 + i * 500'000, i, BeatKind::normal});
    CHECK(rate_between(train, {0}, {9'000'000}).value == Approx(120));
    CHECK(rate_between(train, {2'100'000}, {9'000'000}).value == 0);
    CHECK(rate_between({}, {0}, {9'000'000}).value == 0);
}

TEST_CASE("every fourth beat missing at 165.4 bpm is heard as 124.05 bpm, with one doubled pause in three",
          "[rhythm]") {
    Patient p = woman();
    p.babies[0].rhythm.drop_every = 4;
    const auto train = beats_over(p, Seed{1}, Who::fetal, course_of(600, [](double) { return 165.4; }));
    CHECK(static_cast<double>(beats_between(train, {0}, {600'000'000})) / 10 ==
          Approx(165.4 * 3 / 4).margin(0.15));
    CHECK(rate_between(train, {10'000'000}, {590'000'000}).value == Approx(124.05).margin(0.1));
    std::vector<double> gaps;
    std::int64_t last = -1;
    for (const Beat& b : train) {
        if (b.kind == BeatKind::dropped) continue;
        if (last >= 0) gaps.push_back(static_cast<double>(b.at_us - last) / 1e6 * 165.4 / 60);
        last = b.at_us;
    }
    const auto doubled =
        std::count_if(gaps.begin(), gaps.end(), [](double g) { return std::fabs(g - 2) < 1e-3; });
    CHECK(static_cast<double>(doubled) / static_cast<double>(gaps.size()) == Approx(1.0 / 3).margin(0.01));
}

TEST_CASE("blocked beats in pairs at 144 bpm: a regular slow heart between 65 and 80 bpm", "[rhythm]") {
    // Blocked atrial bigeminy, 65 to 80 bpm [memory].
    Patient p = woman();
    p.babies[0].rhythm.drop_every = 2;
    const auto train = beats_over(p, Seed{1}, Who::fetal, course_of(120, [](double) { return 144.0; }));
    const double heard = rate_between(train, {5'000'000}, {110'000'000}).value;
    CHECK((heard > 65 && heard < 80));
}

TEST_CASE(
    "a conducted early beat comes after 0.55 to 0.75 intervals, the next after 1.0 to 1.3, under two in all",
    "[rhythm]") {
    // Atrial ectopic beats do not compensate fully [memory].
    Patient p = woman();
    p.babies[0].rhythm.early_beat = 0.1;
    const auto train = beats_over(p, Seed{5}, Who::fetal, course_of(1200, [](double) { return 140.0; }));
    int early = 0;
    for (std::size_t i = 1; i + 1 < train.size(); ++i) {
        if (train[i].kind != BeatKind::ectopic) continue;
        ++early;
        const double before = (seconds(train[i]) - seconds(train[i - 1])) * 140 / 60;
        const double after = (seconds(train[i + 1]) - seconds(train[i])) * 140 / 60;
        CHECK((before >= 0.549 && before <= 0.751));
        CHECK((after >= 0.999 && after <= 1.301));
        CHECK(before + after < 2);
    }
    // Chance 0.1 for each beat that does not follow an early one: 2,800 x 0.1 / 1.1 = 255, four standard
    // errors 60.
    CHECK(std::abs(early - 255) < 60);
}

TEST_CASE("a blocked early beat leaves a pause of 1.3 to 1.7 intervals and is not counted", "[rhythm]") {
    Patient p = woman();
    p.babies[0].rhythm.dropped_beat = 0.05;
    const auto train = beats_over(p, Seed{5}, Who::fetal, course_of(600, [](double) { return 140.0; }));
    int blocked = 0;
    for (std::size_t i = 1; i + 1 < train.size(); ++i) {
        if (train[i].kind != BeatKind::dropped) continue;
        ++blocked;
        const double pause = (seconds(train[i + 1]) - seconds(train[i - 1])) * 140 / 60;
        CHECK((pause >= 1.299 && pause <= 1.701));
    }
    CHECK(blocked > 30);
    CHECK(
        beats_between(train, {0}, {600'000'000}) ==
        std::count_if(train.begin(), train.end(), [](const Beat& b) { return b.kind != BeatKind::dropped; }));
}

TEST_CASE("a baby without a heart has no beats, and a twin beats by a clock of its own", "[beats]") {
    Patient p = woman();
    p.babies.add(Baby{});
    p.babies[0].heart_beats = false;
    const auto course = course_over(p, Seed{1}, {}, {60});
    CHECK(beats_over(p, Seed{1}, Who::fetal, course).empty());
    CHECK(beats_over(p, Seed{1}, Who::fetal2, course).size() > 100);
    CHECK(beats_over(p, Seed{1}, Who::maternal, course).size() > 60);
    for (const CourseTick& tick : course) {
        CHECK(tick.fhr_bpm[0] == 0);
        CHECK(tick.fhr_base_bpm[0] == 0);
    }
    Patient one = woman();
    CHECK(beats_over(one, Seed{1}, Who::fetal2, course_over(one, Seed{1}, {}, {60})).empty());
}

TEST_CASE("cell by cell the clock gives the beats of the whole train, each inside its cell", "[beats]") {
    const Patient p = woman();
    const auto course = course_over(p, Seed{8}, {}, {120});
    const auto train = beats_over(p, Seed{8}, Who::fetal, course);
    BeatClock clock(p, Seed{8}, Who::fetal);
    std::size_t i = 0;
    for (std::size_t k = 0; k + 1 < course.size(); ++k)
        for (const Beat& b : clock.advance(course[k].fhr_bpm[0], course[k + 1].fhr_bpm[0])) {
            REQUIRE(i < train.size());
            CHECK(b.at_us == train[i].at_us);
            CHECK(b.number == static_cast<std::int64_t>(i));
            CHECK(b.at_us >= static_cast<std::int64_t>(k) * course_tick_us);
            CHECK(b.at_us <= static_cast<std::int64_t>(k + 1) * course_tick_us);
            ++i;
        }
    CHECK(i == train.size());
}
