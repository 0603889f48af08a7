// When to practise again. All [Py]; the curve itself is borrowed (see the header).
#include "engine/competency/refresher.h"

#include "tests/engine/competency/near.h"

using namespace engine;

namespace {

const Forgetting curve{.95, .5, 6.5};

}  // namespace

TEST_CASE("share right after 3, 6, 6.5 and 12 months; 0.85 is due after 2.356705516 months", "[competency]") {
    CHECK(curve.share_right(3) == near(.82679514));
    CHECK(curve.share_right(6) == near(.73732237));
    CHECK(curve.share_right(6.5) == near(.725));
    CHECK(curve.share_right(12) == near(.62515979));
    CHECK(value(curve.due_months(.85)) == near(2.356705516));
    CHECK(value(Forgetting{.95, .5, 13}.due_months(.85)) == near(4.713411032));
}

TEST_CASE("a target above the trained is due now, one the untrained reach never", "[competency]") {
    CHECK(value(curve.due_months(.95)) == 0);
    CHECK(value(curve.due_months(.99)) == 0);
    CHECK_FALSE(curve.due_months(.5).known());
    CHECK(curve.due_months(.4).why() == "never: the target is not above what the untrained reach");
}

TEST_CASE("ten checks of ten items: half-life 7.884808 from them alone, 7.607487 with the prior",
          "[competency]") {
    const int right[] = {9, 10, 8, 9, 8, 7, 6, 8, 7, 6};
    const double months[] = {1, 1, 3, 3, 6, 6, 9, 9, 12, 12};
    std::vector<LaterCheck> checks;
    for (std::size_t i = 0; i < 10; ++i) checks.push_back({months[i], right[i], 10});
    const HalfLife h = half_life(curve, checks);
    CHECK(value(h.from_checks_alone) == near(7.884808, 1e-4));
    CHECK(value(h.months) == near(7.607487, 1e-4));
    CHECK(h.remark.empty());
}

TEST_CASE("one check of 7 in 10 at 9 months barely moves the assumption: 6.928181", "[competency]") {
    const std::vector<LaterCheck> one{{9, 7, 10}};
    const HalfLife h = half_life(curve, one);
    CHECK(value(h.months) == near(6.928181, 1e-4));
    CHECK(h.remark == "estimate mostly assumption");
}

TEST_CASE("no checks, all right, none right: no half-life from them alone, the assumption stands or bends",
          "[competency]") {
    CHECK(half_life(curve, {}).from_checks_alone.why() == "no checks");
    CHECK(value(half_life(curve, {}).months) == near(6.5, 1e-4));
    const std::vector<LaterCheck> all(6, LaterCheck{6, 10, 10}), none(6, LaterCheck{6, 0, 10});
    CHECK(half_life(curve, all).from_checks_alone.why() == "the checks show no forgetting");
    CHECK(value(half_life(curve, all).months) > 6.5);
    CHECK(half_life(curve, none).from_checks_alone.why() == "the checks show no skill left at any time");
    CHECK(value(half_life(curve, none).months) < 6.5);
}

TEST_CASE("from a half-life of 1.5 months, passed refreshers stretch the gaps up to 12 months' worth",
          "[competency]") {
    const auto gaps = schedule({.95, .5, 1.5}, .85, 5);
    const double expected[] = {.543855, .978939, 1.762091, 3.171763, 4.350841};
    REQUIRE(gaps.size() == 5);
    for (std::size_t i = 0; i < 5; ++i) CHECK(gaps[i] == near(expected[i]));
    CHECK(next_half_life(10, true) == 12);
    CHECK(next_half_life(30.2, true) == 30.2);  // a pass takes nothing away
    const auto slow = schedule({.95, .5, 30.2}, .85, 3);
    CHECK(slow == std::vector<double>(3, slow.front()));
    CHECK(next_half_life(6, false) == 3);
    CHECK(next_half_life(0.7, false) == 0.5);
    CHECK(schedule(curve, .4, 3).empty());
}
