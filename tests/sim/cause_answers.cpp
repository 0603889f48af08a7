// Every cause against every measure: how much, how soon, and what her own pulse does meanwhile.
#include "sim/course/course.h"
#include "sim/course/measures.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <set>

using namespace sim;

namespace {

constexpr double well_bpm = 140, ill_bpm = 80;

// The trouble is there from 60 s and complete by 300 s; she recovers within 20 s of what is taken away.
Patient woman(Trouble trouble) {
    Patient p;
    Baby b;
    b.baseline = {well_bpm};
    b.drift = {0};
    p.babies.add(b);
    p.mother.position = trouble == Trouble::lying_flat ? Position::flat : Position::half_sitting;
    p.labour.oxytocin_drip = p.labour.pushing = true;
    p.cause.trouble = trouble;
    p.cause.at = {60};
    p.cause.falls_to = {ill_bpm};
    p.cause.falls_over = {30};
    p.cause.recovers_over = {20};
    return p;
}

Change act(double t, Act what) {
    Change c;
    c.at_us = labour_time({t}).us;
    c.kind = Change::Kind::act;
    c.act = what;
    return c;
}

Change turn(double t, Position position) {
    Change c;
    c.at_us = labour_time({t}).us;
    c.kind = Change::Kind::position;
    c.position = position;
    return c;
}

Change done(const Measure& m, double t) {
    return m.act == Act::none ? turn(t, Position::left_side) : act(t, m.act);
}

// How much of the fall is gone at `t`, 0..1.
double gone(const std::vector<CourseTick>& course, double t) {
    return (course[static_cast<std::size_t>(t * 4)].fhr_base_bpm[0] - ill_bpm) / (well_bpm - ill_bpm);
}

// A position changed for another act's sake takes its own share too.
double also_by_position(const Measure& m) {
    double also = 0;
    for (const Measure& other : measures())
        if (m.act == Act::knees_chest_hips_up && other.trouble == m.trouble &&
            other.done == Done::lies_another)
            also = other.takes_away;
    return also;
}

}  // namespace

TEST_CASE("each measure takes its own share of the fall away, and half to nine tenths of it in its own time",
          "[response]") {
    for (const Measure& m : measures()) {
        INFO("trouble " << static_cast<int>(m.trouble) << " act " << name_of(m.act));
        if (m.act == Act::cool_her) continue;  // cools her too: below
        const Patient p = woman(m.trouble);
        const std::vector<Change> changes{done(m, 600)};
        const auto course = course_over(p, Seed{1}, changes, {600 + 4 * 3600});
        CHECK(gone(course, 600) == Approx(0).margin(0.01));
        const double whole = 1 - (1 - m.takes_away) * (1 - also_by_position(m));
        CHECK(gone(course, 600 + 3.5 * 3600) == Approx(whole).margin(0.01));
        const double done_s = 600 + act_takes(m.act).value + 0.5;
        if (m.works_over.value < 120) continue;
        // By one lag: nine tenths by then, less what the baby itself takes to follow.
        CHECK(gone(course, done_s + m.works_over.value) < 0.91 * whole);
        CHECK(gone(course, done_s + m.works_over.value) > 0.8 * whole);
        CHECK(gone(course, done_s + 0.1 * m.works_over.value) < 0.3 * whole);
    }
}

TEST_CASE(
    "the sooner one is the sooner one: a lifted part in half a minute, a medicine for the womb in minutes",
    "[response]") {
    const auto half_s = [](Act a) {
        const auto course =
            course_over(woman(Trouble::cord_prolapse), Seed{1}, std::vector<Change>{act(600, a)}, {3000});
        double t = 600;
        while (gone(course, t) < 0.5 * gone(course, 2990)) t += 0.25;
        return t - 600;
    };
    CHECK(half_s(Act::lift_the_part) < 40);
    CHECK(half_s(Act::knees_chest_hips_up) < 60);
    CHECK(half_s(Act::fill_bladder) > 120);
    CHECK(half_s(Act::slow_contractions_medicine) > 120);
}

TEST_CASE("what has no row moves nothing: 17 acts against 9 causes", "[response]") {
    for (int t = 1; t <= static_cast<int>(Trouble::unknown); ++t)
        for (int a = 1; a < static_cast<int>(Act::count_); ++a) {
            const auto trouble = static_cast<Trouble>(t);
            const auto what = static_cast<Act>(a);
            bool named = false;
            for (const Measure& m : measures()) {
                named = named || (m.trouble == trouble && m.act == what);
                // These two put her into another position.
                if (m.trouble == trouble && m.act == Act::none)
                    named = named || what == Act::off_her_back || what == Act::knees_chest_hips_up;
            }
            for (const Harm& h : harms()) named = named || (h.trouble == trouble && h.act == what);
            if (named || what == Act::cool_her) continue;
            const auto course =
                course_over(woman(trouble), Seed{1}, std::vector<Change>{act(600, what)}, {2400});
            INFO("trouble " << t << " act " << name_of(what));
            CHECK(gone(course, 2400) == Approx(0).margin(0.001));
        }
}

TEST_CASE(
    "a scar that gives way and an unknown cause have no measure, bleeding, fever and medicine only small "
    "ones",
    "[response]") {
    for (const Measure& m : measures()) {
        CHECK(m.trouble != Trouble::none);
        CHECK(m.trouble != Trouble::scar_gives_way);
        CHECK(m.trouble != Trouble::unknown);
        if (m.trouble == Trouble::bleeding || m.trouble == Trouble::fever ||
            m.trouble == Trouble::mothers_medicine)
            CHECK(m.takes_away <= 0.3);
        CHECK_FALSE(m.source.empty());
    }
    CHECK(measures().size() >= 20);
}

TEST_CASE("needs: no drip, nothing to stop; never pushed, nothing to pause", "[response]") {
    Patient p = woman(Trouble::too_many_contractions);
    p.labour.oxytocin_drip = false;
    CHECK(gone(course_over(p, Seed{1}, std::vector<Change>{act(600, Act::stop_oxytocin)}, {3000}), 3000) ==
          Approx(0).margin(0.001));
    p = woman(Trouble::cord_pressure);
    p.labour.pushing = false;
    const std::vector<Change> paused{act(600, Act::pause_pushing)},
        pushed_first{act(300, Act::push_with_contractions), act(600, Act::pause_pushing)};
    CHECK(gone(course_over(p, Seed{1}, paused, {3000}), 3000) == Approx(0).margin(0.001));
    CHECK(gone(course_over(p, Seed{1}, pushed_first, {3000}), 3000) == Approx(0.3).margin(0.01));
}

TEST_CASE("knees to chest helps a cord while she stays so, and no longer", "[response]") {
    const std::vector<Change> changes{act(600, Act::knees_chest_hips_up), turn(1200, Position::half_sitting)};
    const auto course = course_over(woman(Trouble::cord_prolapse), Seed{1}, changes, {2400});
    CHECK(gone(course, 1190) ==
          Approx(0.6).margin(0.02));  // half, and a fifth of the rest by lying otherwise
    CHECK(gone(course, 2400) == Approx(0).margin(0.01));
}

TEST_CASE("bleeding: her pulse goes from 88 to 128, nine tenths in 10 min; a drip brings back three tenths",
          "[response][mother]") {
    Patient p = woman(Trouble::bleeding);
    p.labour.contractions_per_10min = 0;
    p.mother.pulse = {88};
    p.cause.pulse_to = {128};
    p.cause.pulse_over = {600};
    const auto mean = [&](const std::vector<Change>& changes, double from, double to) {
        double sum = 0;
        int n = 0;
        for (std::uint64_t s = 1; s <= 6; ++s) {
            const auto course = course_over(p, Seed{s}, changes, {to});
            for (auto k = static_cast<std::size_t>(from * 4); k < static_cast<std::size_t>(to * 4); ++k, ++n)
                sum += course[k].mhr_bpm;
        }
        return sum / n;
    };
    CHECK(mean({}, 0, 60) == Approx(88).margin(3));
    CHECK(mean({}, 640, 680) == Approx(88 + 0.9 * 40).margin(4));
    CHECK(mean({}, 2400, 3600) == Approx(128).margin(1.5));
    CHECK(mean({act(1200, Act::start_drip)}, 4200, 5400) == Approx(128 - 0.3 * 40).margin(1.5));
    // Without an answer to measures it stays; without a pulse given it never moved.
    p.cause.answer = 0;
    CHECK(mean({act(1200, Act::start_drip)}, 4200, 5400) == Approx(128).margin(1.5));
    p.cause.pulse_to = {0};
    CHECK(mean({}, 2400, 3600) == Approx(88).margin(1.5));
}

TEST_CASE("lying flat: her pulse rises too, and comes back when she turns; before it begins nothing shows",
          "[response][mother]") {
    Patient p = woman(Trouble::lying_flat);
    p.labour.contractions_per_10min = 0;
    p.cause.pulse_to = {112};
    p.cause.pulse_over = {60};
    Patient calm = p;
    calm.cause.pulse_to = {0};
    const std::vector<Change> turned{turn(600, Position::right_side)};
    const auto with = course_over(p, Seed{2}, turned, {900}),
               without = course_over(calm, Seed{2}, turned, {900});
    const auto more = [&](double t) {
        const auto k = static_cast<std::size_t>(t * 4);
        return with[k].mhr_bpm - without[k].mhr_bpm;
    };
    CHECK(more(59) == 0);
    CHECK(more(590) == Approx(112 - 84).margin(0.1));
    CHECK(more(880) == Approx(0).margin(0.1));
}
