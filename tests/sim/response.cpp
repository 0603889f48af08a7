#include "sim/course/response.h"

#include "sim/course/course.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace sim;

namespace {

Patient woman(Trouble trouble, double falls_to, double answer = 1) {
    Patient p;
    Baby b;
    b.baseline = {137};
    b.drift = {0};
    b.variability = Variability::quiet;
    p.babies.add(b);
    p.cause.trouble = trouble;
    p.cause.at = {120};
    p.cause.falls_to = {falls_to};
    p.cause.falls_over = {60};
    p.cause.recovers_over = {90};
    p.cause.answer = answer;
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

double base_at(const Patient& p, const std::vector<Change>& changes, double t) {
    const auto course = course_over(p, Seed{1}, changes, {t});
    return course[static_cast<std::size_t>(t * 4)].fhr_base_bpm[0];
}

}  // namespace

TEST_CASE("lying flat: 137 to 94 nine tenths in 2 min; on her side back in 90 s", "[response]") {
    Patient p = woman(Trouble::lying_flat, 94);
    p.mother.position = Position::flat;
    p.cause.falls_over = {120};
    CHECK(base_at(p, {}, 119) == Approx(137));
    CHECK(base_at(p, {}, 240) == Approx(137 - 0.9 * 43).margin(0.5));
    CHECK(base_at(p, {}, 900) == Approx(94).margin(0.2));
    const std::vector<Change> turned{act(600, Act::off_her_back)};
    const double lying = base_at(p, turned, 600), answered_s = 600 + act_takes(Act::off_her_back).value + 0.5;
    CHECK(base_at(p, turned, answered_s + 90) == Approx(lying + 0.9 * (137 - lying)).margin(0.6));
    CHECK(base_at(p, turned, 1200) == Approx(137).margin(0.2));
    // Any way off her back will do; back on it, the rate falls again.
    CHECK(base_at(p, {turn(600, Position::hands_and_knees)}, 1200) == Approx(137).margin(0.2));
    CHECK(base_at(p, {turn(600, Position::left_side), turn(900, Position::flat)}, 1500) ==
          Approx(94).margin(1));
}

TEST_CASE("lying flat does nothing to a woman who sits, and an answer of 0.5 brings half of it back",
          "[response]") {
    Patient p = woman(Trouble::lying_flat, 94, 0.5);
    CHECK(base_at(p, {}, 900) == Approx(137).margin(0.01));
    p.mother.position = Position::flat;
    CHECK(base_at(p, {act(600, Act::off_her_back)}, 1500) == Approx(137 - 43 * 0.5).margin(0.5));
}

TEST_CASE("prolapsed cord: fingers under the part help most, knees and chest some, pushing it back harms",
          "[response]") {
    // Order: RCOG Green-top guideline 50 [second-hand], WHO MCPC S-97; sizes [practice].
    const Patient p = woman(Trouble::cord_prolapse, 78);
    const double untouched = base_at(p, {}, 900);
    const double knees = base_at(p, {act(300, Act::knees_chest_hips_up)}, 900);
    const double lifted = base_at(p, {act(300, Act::lift_the_part)}, 900);
    const double both = base_at(p, {act(300, Act::lift_the_part), act(301, Act::knees_chest_hips_up)}, 900);
    const double pushed = base_at(p, {act(300, Act::push_cord_back)}, 900);
    const double lifted_pushed =
        base_at(p, {act(300, Act::lift_the_part), act(310, Act::push_cord_back)}, 900);
    CHECK(untouched == Approx(78).margin(0.5));
    CHECK(knees > untouched + 15);
    CHECK(lifted > knees + 15);
    CHECK(both > lifted);
    CHECK(both <= 137);
    CHECK(pushed < untouched - 5);
    CHECK(lifted_pushed < lifted - 20);
}

TEST_CASE("pressed cord: any new position off her back helps, the same one does not", "[response]") {
    const Patient p = woman(Trouble::cord_pressure, 85);
    CHECK(base_at(p, {}, 900) == Approx(85).margin(0.5));
    CHECK(base_at(p, {act(300, Act::off_her_back)}, 900) > 120);
    CHECK(base_at(p, {turn(300, Position::hands_and_knees)}, 900) > 120);
    CHECK(base_at(p, {turn(300, p.mother.position)}, 900) == Approx(85).margin(0.5));
    CHECK(base_at(p, {turn(300, Position::flat)}, 900) == Approx(85).margin(0.5));
}

TEST_CASE(
    "too many contractions: the drip stopped brings the rate back, raised it does not; no drip, no stop",
    "[response]") {
    Patient p = woman(Trouble::too_many_contractions, 100);
    p.labour.oxytocin_drip = true;
    p.labour.contractions_per_10min = 7;
    p.cause.recovers_over = {480};
    CHECK(base_at(p, {}, 1200) == Approx(100).margin(0.5));
    // The drip leaves over 600 s (half in 3 min [memory]), the baby takes its own 480 s from there.
    CHECK(base_at(p, {act(300, Act::stop_oxytocin)}, 300 + 300) < 120);
    CHECK(base_at(p, {act(300, Act::stop_oxytocin)}, 300 + 600 + 480) > 125);
    CHECK(base_at(p, {act(300, Act::raise_oxytocin)}, 1200) < 100);
    CHECK(base_at(p, {act(300, Act::slow_contractions_medicine)}, 1500) > 125);
    p.labour.oxytocin_drip = false;
    CHECK(base_at(p, {act(300, Act::stop_oxytocin)}, 1200) == Approx(100).margin(0.5));
}

TEST_CASE("late slowings of a lying-flat or over-driven womb fade with the right measure, others stay",
          "[response]") {
    const auto depth_after = [](Trouble trouble, const std::vector<Change>& changes) {
        Patient p = woman(trouble, 0);
        p.mother.position = Position::flat;
        p.labour.oxytocin_drip = true;
        p.cause.at = {0};
        p.labour.irregular = 0;
        BabyEvent e;
        e.depth = {30};
        p.babies[0].events.add(e);
        Patient without = p;
        without.babies[0].events.size = 0;
        const auto with_events = course_over(p, Seed{2}, changes, {2400});
        const auto plain = course_over(without, Seed{2}, changes, {2400});
        double deepest = 0;
        for (std::size_t k = 4 * 1500; k < plain.size(); ++k)
            deepest = std::max(deepest, plain[k].fhr_bpm[0] - with_events[k].fhr_bpm[0]);
        return deepest;
    };
    CHECK(depth_after(Trouble::lying_flat, {}) == Approx(30).margin(1.5));
    CHECK(depth_after(Trouble::lying_flat, {act(600, Act::off_her_back)}) < 2);
    CHECK(depth_after(Trouble::too_many_contractions, {act(600, Act::stop_oxytocin)}) < 6);
    CHECK(depth_after(Trouble::unknown, {act(600, Act::off_her_back)}) == Approx(30).margin(1.5));
    // Bleeding: only a little, a fifth [practice].
    CHECK(depth_after(Trouble::bleeding, {act(600, Act::off_her_back)}) == Approx(24).margin(1.5));
}

TEST_CASE("a scar that gives way and an unknown cause answer to nothing at all", "[response]") {
    for (Trouble trouble : {Trouble::scar_gives_way, Trouble::unknown}) {
        std::vector<Change> everything;
        double t = 200;
        for (Act a : {Act::off_her_back, Act::stop_oxytocin, Act::start_drip, Act::give_oxygen,
                      Act::offer_drink, Act::lift_the_part, Act::knees_chest_hips_up,
                      Act::slow_contractions_medicine, Act::cool_her, Act::pause_pushing})
            everything.push_back(act(t += 5, a));
        CHECK(base_at(woman(trouble, 62), everything, 1500) <= 62.5);
    }
}

TEST_CASE("oxygen alone moves no rate, whatever the cause", "[response]") {
    for (int i = 0; i <= static_cast<int>(Trouble::unknown); ++i) {
        Patient p = woman(static_cast<Trouble>(i), 90);
        p.mother.position = Position::flat;
        CHECK(base_at(p, {act(300, Act::give_oxygen)}, 1200) == Approx(base_at(p, {}, 1200)));
    }
}

TEST_CASE("cooling is slow and small: under 0.1 C in five minutes, 0.4 to 0.6 C in an hour, the rate follows",
          "[response]") {
    // 8 to 10 bpm a degree for her, about 10 for the baby [memory].
    Patient p = woman(Trouble::fever, 0);
    p.babies[0].baseline = {173.2};
    p.mother.temperature_c = 38.6;
    const auto course = course_over(p, Seed{1}, std::vector<Change>{act(0, Act::cool_her)}, {3700});
    CHECK(course[4 * 300].temperature_c > 38.5);
    CHECK(course[4 * 3660].temperature_c > 38.0);
    CHECK(course[4 * 3660].temperature_c < 38.2);
    CHECK(course[4 * 3660].fhr_base_bpm[0] == Approx(173.2 - 5.4).margin(1));
}

TEST_CASE("a pressed cord is one twin's; lying flat is both's", "[response]") {
    for (const auto& [trouble, second] :
         {std::pair{Trouble::cord_prolapse, 137.0}, {Trouble::lying_flat, 94.0}}) {
        Patient p = woman(trouble, 94);
        p.mother.position = Position::flat;
        p.babies.add(p.babies[0]);
        const CourseTick tick = course_over(p, Seed{1}, {}, {900})[3600];
        CHECK(tick.fhr_base_bpm[0] == Approx(94).margin(0.5));
        CHECK(tick.fhr_base_bpm[1] == Approx(second).margin(0.5));
    }
}

TEST_CASE("freeing one twin's cord takes nothing from the other's slowings", "[response]") {
    Patient p = woman(Trouble::cord_pressure, 0);
    p.cause.at = {0};
    BabyEvent e;
    e.kind = BabyEvent::Kind::variable;
    e.depth = {40};
    e.length = {40};
    p.babies[0].events.add(e);
    p.babies.add(p.babies[0]);
    const auto course = course_over(p, Seed{2}, std::vector<Change>{act(300, Act::off_her_back)}, {2400});
    double lowest[2] = {999, 999};
    for (std::size_t k = 4 * 900; k < course.size(); ++k)
        for (std::size_t b = 0; b < 2; ++b) lowest[b] = std::min(lowest[b], course[k].fhr_bpm[b]);
    CHECK(lowest[0] > 137 - 20);  // a fifth is left: 8, and its own swings
    CHECK(lowest[1] < 137 - 32);
}

TEST_CASE("every act has an id that leads back to it, and takes 0 to 120 s", "[response]") {
    for (int i = 1; i < static_cast<int>(Act::count_); ++i) {
        const Act a = static_cast<Act>(i);
        CHECK(act_named(name_of(a)) == a);
        CHECK((act_takes(a).value >= 0 && act_takes(a).value <= 120));
    }
    CHECK(act_named("off_her_back") == Act::off_her_back);
    CHECK(act_named("knees_chest_hips_up") == Act::knees_chest_hips_up);
    CHECK(act_named("call_for_help") == Act::none);
    CHECK(act_named("") == Act::none);
}
