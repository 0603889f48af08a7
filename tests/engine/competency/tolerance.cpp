// How far off a perfect counter may read. All [Py]; those marked [R] also by simulations of 2,000,000 runs.
#include "engine/competency/tolerance.h"

#include "tests/engine/competency/near.h"

#include <rapidcheck.h>

#include <array>

using namespace engine;

namespace {

struct Method {
    double window_s;
    std::array<double, 9> k95;  // at 100, 110, ... 180
    double worst95, worst99, sd, worst95_exact_watch, worst95_loose_watch;
};

const std::array<Method, 5> methods{{
    {60, {1, 1, 1, 1, 1, 1, 1, 1, 1}, 1.6, 2.0, 0.726, 0.9, 2.1},
    {30, {2, 2, 2, 2, 2, 2, 2, 2, 2}, 3.2, 4.0, 1.451, 1.8, 4.2},
    {15, {4, 2, 4, 6, 4, 6, 4, 6, 4}, 6.3, 8.1, 2.903, 3.7, 8.4},
    {10, {4, 4, 6, 8, 8, 6, 8, 8, 6}, 9.5, 12.2, 4.354, 5.6, 12.6},
    {6, {10, 10, 10, 10, 10, 10, 10, 10, 10}, 15.8, 20.4, 7.257, 9.4, 20.9},
}};

}  // namespace

TEST_CASE("distance that holds 95 % of readings, five windows by nine rates, and the worst of 100 to 180",
          "[competency]") {
    for (const Method& m : methods) {
        INFO(m.window_s << " s");
        for (std::size_t i = 0; i < 9; ++i)
            CHECK(value(holds({m.window_s}, 100 + 10.0 * static_cast<double>(i))) == near(m.k95[i]));
        CHECK(worst_between({m.window_s}, 100, 180).distance_bpm == near(m.worst95, 0.05));
        CHECK(worst_between({m.window_s}, 100, 180, 0.99).distance_bpm == near(m.worst99, 0.05));
        CHECK(worst_between({m.window_s}, 100, 180).reading_sd_bpm == near(m.sd, 5e-4));
        CHECK(worst_between({m.window_s, 0}, 100, 180).distance_bpm == near(m.worst95_exact_watch, 0.05));
        CHECK(worst_between({m.window_s, 0.3}, 100, 180).distance_bpm == near(m.worst95_loose_watch, 0.05));
    }
    CHECK(value(holds({60}, 140)) == near(1.0));  // [R]
}

TEST_CASE("the rule of two beats in the window: 2, 4, 8, 12, 20 bpm", "[competency]") {
    const double allowed[] = {2, 4, 8, 12, 20};
    for (std::size_t i = 0; i < 5; ++i) CHECK(allowed_bpm({methods[i].window_s}) == near(allowed[i]));
}

TEST_CASE("chance that a perfect counter reads within so much of the rate", "[competency]") {
    CHECK(chance_within({15}, 142, 6) == near(.99980337));  // [R]
    CHECK(chance_within({10}, 130, 8) == near(.98825331));  // [R]
    CHECK(chance_within({6}, 138, 12) == near(.99170732));  // [R]
    CHECK(chance_within({30}, 125, 4) == near(.99996741));
    CHECK(chance_within({15}, 160, 6) == near(.98744313));
}

TEST_CASE("against the true beats of the same window: one beat off at most 99.8 % of the time at 120",
          "[competency]") {
    CHECK(chance_same_window({15}, 120, 1) == near(.998397));
    CHECK(chance_same_window({60}, 140, 1) == near(.994643));
    CHECK(chance_same_window({60}, 180, 1) == near(.976343));
    CHECK(chance_same_window({30}, 140, 0) == near(.633013));
    for (double rate = 60; rate <= 180; rate += 10)
        CHECK(chance_same_window({60}, rate, 2) >= .999866 - 5e-7);
    CHECK(chance_same_window({60}, 180, 2) == near(.999866));
}

TEST_CASE("chance that a perfect counter lands on the wrong side of 110 to 160", "[competency]") {
    struct Row {
        double rate;
        std::array<double, 5> chance;  // 60, 30, 15, 10, 6 s
    };
    for (const Row& r :
         {Row{106, {.0000, .0002, .0125, .0327, .5837}}, Row{108, {.0003, .1433, .1433, .1433, .7364}},
          Row{110, {.1459, .1459, .5000, .6355, .1459}}, Row{112, {.0000, .0004, .1485, .3658, .0697}},
          Row{158, {.0000, .0058, .0479, .3917, .1230}}, Row{160, {.2065, .2065, .2065, .6073, .2065}},
          Row{162, {.0067, .2087, .5000, .2087, .6865}}})
        for (std::size_t i = 0; i < 5; ++i) {
            INFO(r.rate << " bpm over " << methods[i].window_s << " s");
            CHECK(chance_wrong_side({methods[i].window_s}, r.rate, 110, 160) == near(r.chance[i], 5e-5));
        }
}

TEST_CASE("less than one beat in the window: the method is refused", "[competency]") {
    CHECK(holds({1}, 50).why() == "less than one beat in the window");
    CHECK(holds({6}, 140).known());
}

TEST_CASE("any rate, window and watch: chances of all counts sum to 1, and their mean is the rate",
          "[competency]") {
    CHECK(rc::check([] {
        const CountingMethod m{*rc::gen::element(60.0, 30.0, 15.0, 10.0, 6.0),
                               *rc::gen::inRange(0, 50) / 100.0};
        const double rate = *rc::gen::inRange(500, 2400) / 10.0;
        double sum = 0, mean = 0;
        for (int c = 0; c < 400; ++c) {
            const double p = chance_of_count(m, rate, c);
            RC_ASSERT(p >= 0 && p <= 1);
            sum += p;
            mean += p * c * m.factor();
        }
        RC_ASSERT(std::fabs(sum - 1) < 1e-9);
        RC_ASSERT(std::fabs(mean - rate) < 1e-6);
    }));
}
