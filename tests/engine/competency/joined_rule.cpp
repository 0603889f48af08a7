// The rule of three parts. [Py]: the same chances summed over every number of right, over-called and missed
// stations with SciPy 1.10.1, another way of counting than the program's station by station. [practice]: the
// figures of the yearly check's own plan.
#include "engine/competency/joined_rule.h"
#include "engine/competency/distributions.h"
#include "engine/competency/pass_rule.h"

#include "tests/engine/competency/near.h"

#include <rapidcheck.h>

#include <algorithm>

using namespace engine;

namespace {

JoinedPass yearly(double ability, const WrongShares& wrong = {}, bool redraw = true) {
    return passes({21, 11, redraw}, alike_stations(ability, 14, 8, 3, wrong));
}

}  // namespace

TEST_CASE("25 stations, 14 normal, 8 critical: the chance of passing all three parts at six abilities",
          "[competency]") {
    struct Row {
        double ability, harshest, half_and_half, no_redraw, usual;
    };
    for (const Row& r : {Row{.60, .005106998, .008359429, .001554154, .009423864},  // [Py]
                         Row{.70, .058811444, .082777123, .017878439, .090149322},
                         Row{.80, .327262713, .399012312, .112436594, .419772843},
                         Row{.90, .829833077, .885710367, .409982010, .901335170},
                         Row{.95, .971456048, .987860577, .660517146, .992632701},
                         Row{.98, .996581919, .999073042, .850644460, .999845957}}) {
        INFO("ability " << r.ability);
        CHECK(yearly(r.ability).passes == near(r.harshest));
        CHECK(yearly(r.ability, {.5, .5}).passes == near(r.half_and_half));
        CHECK(yearly(r.ability, {}, false).passes == near(r.no_redraw));
        CHECK(yearly(r.ability, {.25, .1}).passes == near(r.usual));
    }
}

TEST_CASE("a 3 % slip at 8 critical stations: .784 get through clean, .993 with one redraw; at 30 % .470",
          "[competency]") {
    const auto clean = [](double slip, bool redraw) {
        return passes({21, 11, redraw}, alike_stations(1 - slip, 14, 8, 3)).no_confirmed_miss;
    };
    CHECK(clean(.03, false) == near(.784, 5e-4));  // [practice], and .97^8, (1 - .03^2)^8, (1 - .3^2)^8
    CHECK(clean(.03, true) == near(.993, 5e-4));
    CHECK(clean(.30, true) == near(.470, 5e-4));
}

TEST_CASE("at least 11 of 14 normals: at .95 right this stops .004, at .90 .044", "[competency]") {
    CHECK(1 - yearly(.95).enough_normals_passed == near(.004173238));  // [Py]; [practice] .004 and .044
    CHECK(1 - yearly(.90).enough_normals_passed == near(.044132924));
}

TEST_CASE("without critical and normal stations the joined rule is the plain 21 of 25", "[competency]") {
    for (const double ability : {.70, .80, .90}) {
        const auto plain = alike_stations(ability, 0, 0, 25);
        CHECK(passes({21, 0, true}, plain).passes == near((FixedRule{25, 21}.passes(ability)), 1e-12));
        CHECK(yearly(ability).enough_right == near((FixedRule{25, 21}.passes(ability)), 1e-12));
        CHECK(yearly(ability, {0, 0}).passes == near((FixedRule{25, 21}.passes(ability)), 1e-12));
    }
}

TEST_CASE("stations of unlike difficulty: 3 stations counted by hand", "[competency]") {
    // Normal .8 right .1 over-called, critical .7 right .2 missed .5 again, plain .9. At least 2 right, the
    // normal not over-called, no confirmed miss (.2 x .5 = .1):
    //   RRR .8 x .7 x .9 = .504; normal wrong .1 x .7 x .9 = .063; critical wrong .8 x (.3 - .1) x .9 = .144;
    //   plain
    //   wrong .8 x .7 x .1 = .056. Together .767.
    const std::vector<StationChances> three{{StationKind::normal, .8, .1, 0, 0},
                                            {StationKind::critical, .7, 0, .2, .5},
                                            {StationKind::plain, .9, 0, 0, 0}};
    const JoinedPass p = passes({2, 1, true}, three);
    CHECK(p.passes == near(.767, 1e-12));
    CHECK(p.no_confirmed_miss == near(.9, 1e-12));
    CHECK(p.enough_normals_passed == near(.9, 1e-12));
}

TEST_CASE("rules that cannot be applied are refused in words", "[competency]") {
    const auto stations = alike_stations(.9, 14, 8, 3);
    CHECK(fault_of({21, 11, true}, stations).empty());
    CHECK(fault_of({21, 11, true}, {}) == "no stations");
    CHECK(fault_of({26, 11, true}, stations) == "the mark must be 1 to the number of stations, 25");
    CHECK(fault_of({0, 11, true}, stations) == "the mark must be 1 to the number of stations, 25");
    CHECK(fault_of({21, 15, true}, stations) ==
          "the normals to be passed must be 0 to the number of normal stations, 14");
    const std::vector<StationChances> beyond{{StationKind::normal, .9, .2, 0, 0}};
    CHECK(fault_of({1, 1, true}, beyond) ==
          "chances of one station must lie inside 0 to 1 and not sum to more than 1");
}

TEST_CASE(
    "any stations: the joined chance lies in 0..1, never above any of its parts, and order does not matter",
    "[competency]") {
    CHECK(rc::check([] {
        std::vector<StationChances> stations;
        for (int i = *rc::gen::inRange(1, 30); i > 0; --i) {
            StationChances s;
            s.kind = *rc::gen::element(StationKind::plain, StationKind::normal, StationKind::critical);
            s.right = *rc::gen::inRange(0, 101) / 100.0;
            s.over_called = (1 - s.right) * *rc::gen::inRange(0, 101) / 100.0;
            s.missed = (1 - s.right) * *rc::gen::inRange(0, 101) / 100.0;
            s.missed_again = *rc::gen::inRange(0, 101) / 100.0;
            stations.push_back(s);
        }
        const auto normals = std::count_if(stations.begin(), stations.end(),
                                           [](const auto& s) { return s.kind == StationKind::normal; });
        const JoinedRule rule{*rc::gen::inRange(1, static_cast<int>(stations.size()) + 1),
                              *rc::gen::inRange(0, static_cast<int>(normals) + 1),
                              *rc::gen::arbitrary<bool>()};
        const JoinedPass p = passes(rule, stations);
        RC_ASSERT(p.passes >= 0 && p.passes <= 1 + 1e-12);
        RC_ASSERT(p.passes <=
                  std::min({p.enough_right, p.no_confirmed_miss, p.enough_normals_passed}) + 1e-12);
        std::reverse(stations.begin(), stations.end());
        RC_ASSERT(std::fabs(passes(rule, stations).passes - p.passes) < 1e-12);
    }));
}
