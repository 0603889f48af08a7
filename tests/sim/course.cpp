#include "sim/course/course.h"

#include <catch2/catch.hpp>
#include <cstring>
#include <rapidcheck.h>

using namespace sim;

namespace {

Patient busy_labour() {
    Patient p;
    Baby b;
    p.babies.add(b);
    BabyEvent late;
    late.share = 0.7;
    p.babies[0].events.add(late);
    BabyEvent variable;
    variable.kind = BabyEvent::Kind::variable;
    variable.depth = {45};
    variable.length = {40};
    variable.share = 0.5;
    p.babies[0].events.add(variable);
    p.labour.oxytocin_drip = true;
    p.labour.contractions_per_10min = 6;
    p.labour.pushing = true;
    p.mother.position = Position::flat;
    p.cause.trouble = Trouble::lying_flat;
    p.cause.at = {100};
    p.cause.falls_to = {100};
    return p;
}

Change act(std::int64_t us, Act what) {
    Change c;
    c.at_us = us;
    c.kind = Change::Kind::act;
    c.act = what;
    return c;
}

bool same(const CourseTick& a, const CourseTick& b) {
    return a.fhr_bpm == b.fhr_bpm && a.fhr_base_bpm == b.fhr_base_bpm && a.mhr_bpm == b.mhr_bpm &&
           a.uc_mmhg == b.uc_mmhg && a.pushing == b.pushing && a.moving == b.moving &&
           a.in_contraction == b.in_contraction && a.contraction == b.contraction &&
           a.temperature_c == b.temperature_c;
}

}  // namespace

TEST_CASE("the same seed and acts give the same course to the last bit, another seed another one",
          "[course]") {
    const Patient p = busy_labour();
    const std::vector<Change> acts{act(200'000'000, Act::off_her_back), act(300'000'000, Act::stop_oxytocin)};
    const auto a = course_over(p, Seed{5}, acts, {900}), b = course_over(p, Seed{5}, acts, {900}),
               other = course_over(p, Seed{6}, acts, {900});
    REQUIRE(a.size() == b.size());
    std::size_t equal = 0;
    for (std::size_t k = 0; k < a.size(); ++k) {
        CHECK(same(a[k], b[k]));
        equal += a[k].fhr_bpm == other[k].fhr_bpm;
    }
    CHECK(equal < 5);
}

TEST_CASE("a course of 60 s has both ends and one spare cell: 242 points", "[course]") {
    CHECK(course_over(busy_labour(), Seed{1}, {}, {60}).size() == 242);
    CHECK(course_over(busy_labour(), Seed{1}, {}, {60.1}).size() == 243);
}

TEST_CASE("an act changes nothing before tick ceil((t + takes) / 0.25 s) + 2, whenever and whatever it is",
          "[course]") {
    const Patient p = busy_labour();
    const auto plain = course_over(p, Seed{7}, {}, {600});
    CHECK(rc::check([&] {
        const auto at_us = *rc::gen::inRange<std::int64_t>(0, 400'000'000);
        const Act what = static_cast<Act>(*rc::gen::inRange(1, static_cast<int>(Act::count_)));
        const auto acted = course_over(p, Seed{7}, std::vector<Change>{act(at_us, what)}, {600});
        const std::int64_t done_us = at_us + static_cast<std::int64_t>(act_takes(what).value * 1e6);
        const std::int64_t first = (done_us + course_tick_us - 1) / course_tick_us + 2;
        for (std::int64_t k = 0; k < first && k < static_cast<std::int64_t>(plain.size()); ++k)
            RC_ASSERT(same(plain[static_cast<std::size_t>(k)], acted[static_cast<std::size_t>(k)]));
    }));
}

TEST_CASE("an act done exactly on a tick first shows two ticks later, one a microsecond after it three",
          "[course]") {
    Patient p = busy_labour();
    const auto plain = course_over(p, Seed{7}, {}, {400});
    const auto first_change = [&](std::int64_t us) {
        Change c = act(us, Act::none);
        c.kind = Change::Kind::position;
        c.position = Position::left_side;
        const auto changed = course_over(p, Seed{7}, std::vector<Change>{c}, {400});
        std::int64_t k = 0;
        while (same(plain[static_cast<std::size_t>(k)], changed[static_cast<std::size_t>(k)])) ++k;
        return k;
    };
    CHECK(first_change(200'000'000) == 800 + 2);
    CHECK(first_change(200'000'001) == 801 + 2);
    CHECK(first_change(200'250'000) == 801 + 2);
}

TEST_CASE("two courses that differ by one act share all other chance: the variability is the same",
          "[course]") {
    Patient p = busy_labour();
    p.babies[0].events.size = 0;
    p.labour.pushing = false;
    const auto plain = course_over(p, Seed{7}, {}, {600});
    const auto turned =
        course_over(p, Seed{7}, std::vector<Change>{act(200'000'000, Act::off_her_back)}, {600});
    double worst = 0;
    for (std::size_t k = 0; k < plain.size(); ++k) {
        CHECK(plain[k].mhr_bpm == turned[k].mhr_bpm);
        CHECK(plain[k].uc_mmhg == turned[k].uc_mmhg);
        const double a = plain[k].fhr_bpm[0] - plain[k].fhr_base_bpm[0];
        const double b = turned[k].fhr_bpm[0] - turned[k].fhr_base_bpm[0];
        if (k < 4 * 210) worst = std::max(worst, std::abs(a - b));
    }
    CHECK(worst < 1e-9);
}

TEST_CASE("a copy of the course goes on exactly as the course does", "[course]") {
    const Patient p = busy_labour();
    Course course(p, Seed{3});
    for (int k = 0; k < 1000; ++k) course.advance();
    Course copy = course;
    CHECK(copy.ticks() == 1000);
    for (int k = 0; k < 1000; ++k) CHECK(same(course.advance(), copy.advance()));
}

TEST_CASE("changes that are no business of the body are ignored", "[course]") {
    Course course(busy_labour(), Seed{1}), plain(busy_labour(), Seed{1});
    for (Change::Kind kind :
         {Change::Kind::take, Change::Kind::place, Change::Kind::press, Change::Kind::hand,
          Change::Kind::lift, Change::Kind::gel, Change::Kind::mode, Change::Kind::skip}) {
        Change c;
        c.kind = kind;
        course.change(c);
    }
    for (int k = 0; k < 2000; ++k) CHECK(same(course.advance(), plain.advance()));
}
