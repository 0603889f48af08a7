// Pass rules: sequential with Wald's bounds, and fixed length.
#include "engine/competency/pass_rule.h"
#include "engine/competency/distributions.h"

#include "tests/engine/competency/near.h"

#include <rapidcheck.h>

using namespace engine;

namespace {

const SequentialRule wald{{0.70, 0.90}, 0.05, 0.10, 0, 0};
const SequentialRule bounded{{0.70, 0.90}, 0.05, 0.10, 10, 30};

std::vector<bool> series(const std::string& digits) {
    std::vector<bool> right;
    for (char c : digits) right.push_back(c == '1');
    return right;
}

}  // namespace

TEST_CASE("70 % against 90 %, errors 5 % and 10 %: bounds 2.890371758 and -2.251291799", "[competency]") {
    CHECK(wald.upper() == near(2.890371758));  // [Py]
    CHECK(wald.lower() == near(-2.251291799));
    CHECK(wald.on_right() == near(.251314428));
    CHECK(wald.on_wrong() == near(-1.098612289));
    // As counts: pass at .813831058 n + 2.141132346 right, fail at .813831058 n - 1.667714084.
    const double per_item = -wald.on_wrong() / (wald.on_right() - wald.on_wrong());
    CHECK(per_item == near(.813831058));
    CHECK(wald.upper() / (wald.on_right() - wald.on_wrong()) == near(2.141132346));
    CHECK(wald.lower() / (wald.on_right() - wald.on_wrong()) == near(-1.667714084));
}

TEST_CASE("Wald's approximation at five abilities; h is 1 and -1 at the two levels", "[competency]") {
    const auto check = [](double p, double fails, double items) {
        INFO("ability " << p);
        const Operating o = wald_approximation(wald, p);
        CHECK(1 - o.passes == near(fails));
        CHECK(o.items == near(items));
    };
    check(.70, .95, 12.977756554);  // [Py]
    check(.80, .644221212, 22.601836457);
    check(-wald.on_wrong() / (wald.on_right() - wald.on_wrong()), .562147197, 23.568048271);  // no drift
    check(.90, .10, 20.427867254);
    check(.95, .013072081, 15.358442033);
    CHECK(wald_approximation(wald, 0).items == near(wald.lower() / wald.on_wrong()));
    CHECK(wald_approximation(wald, 1).items == near(wald.upper() / wald.on_right()));
    CHECK(wald_approximation(wald, 1).passes == 1);
}

TEST_CASE("exact chance of passing and mean number of items, unbounded and between 10 and 30 items",
          "[competency]") {
    struct Row {
        double p, passes, items, bounded_passes, bounded_items;
    };
    for (const Row& r : {Row{.60, .004444091, 9.426830, .007996309, 12.351743},  // [Py]
                         Row{.70, .046915155, 15.842181, .083483930, 16.363627},
                         Row{.80, .378504489, 27.933582, .427240335, 21.518458},
                         Row{.90, .933209422, 22.502701, .918174775, 20.156539},
                         Row{.95, .994112082, 16.110616, .994997487, 15.937953}}) {
        INFO("ability " << r.p);
        CHECK(exact(wald, r.p).passes == near(r.passes));
        CHECK(exact(wald, r.p).items == near(r.items));
        CHECK(exact(bounded, r.p).passes == near(r.bounded_passes));
        CHECK(exact(bounded, r.p).items == near(r.bounded_items));
    }
}

TEST_CASE("a worked series passes at item 17; three wrong fail at 3, 0010 at 4", "[competency]") {
    const SequentialWalk w = walk(wald, series("11101111111111111"));  // [Py]
    CHECK(w.verdict == PassDecision::pass);
    REQUIRE(w.sum.size() == 17);
    CHECK(w.sum[3] == near(-.344669));
    CHECK(w.sum[15] == near(2.671104));
    CHECK(w.sum[16] == near(2.922419));
    const SequentialWalk wrong = walk(wald, series("0001111"));
    CHECK(wrong.verdict == PassDecision::fail);
    CHECK(wrong.sum.size() == 3);
    CHECK(wrong.sum.back() == near(-3.295837));
    const SequentialWalk four = walk(wald, series("0010"));
    CHECK(four.verdict == PassDecision::fail);
    CHECK(four.sum.size() == 4);
    CHECK(four.sum.back() == near(-3.044522));
}

TEST_CASE("no items, or too few: go on, never fail; at the 30th item 25 right pass and 24 do not",
          "[competency]") {
    CHECK(walk(wald, {}).verdict == PassDecision::go_on);
    CHECK(walk(wald, series("1101")).verdict == PassDecision::go_on);
    // Wrong answers spread so that neither bound is met before the 30th. The sum is 0 at 24.41 right of 30.
    CHECK(walk(bounded, series("111110111110111110111110111110")).verdict == PassDecision::pass);
    CHECK(walk(bounded, series("111110111110111110111110110110")).verdict == PassDecision::fail);
    CHECK(walk(bounded, series("000")).verdict == PassDecision::go_on);  // no verdict before the 10th
}

TEST_CASE("the shortest fixed check for twelve pairs of levels, at 10 % and at 5 % false passes",
          "[competency]") {
    struct Row {
        double pass, fail;
        int items, mark;
        double passes, false_pass;
        int items5, mark5;
    };
    for (const Row& r : {Row{.90, .50, 9, 7, .947027862, .089843750, 11, 9},  // [Py]; .90/.70 also [R]
                         Row{.95, .60, 9, 8, .928788604, .070543872, 10, 9},
                         Row{.90, .60, 15, 12, .944444370, .090501902, 17, 14},
                         Row{.95, .70, 16, 14, .957062147, .099359680, 19, 17},
                         Row{.90, .70, 25, 21, .902006379, .090471919, 37, 31},
                         Row{.95, .75, 20, 18, .924516326, .091260432, 29, 26},
                         Row{.95, .80, 32, 29, .926194508, .093093091, 44, 40},
                         Row{.90, .75, 40, 34, .900483576, .096224593, 55, 47},
                         Row{.85, .60, 21, 16, .917265249, .095740165, 27, 21},
                         Row{.85, .70, 53, 42, .909331260, .090559115, 69, 55},
                         Row{.90, .80, 86, 74, .914183742, .098997824, 112, 97},
                         Row{.98, .90, 52, 50, .914065897, .096633285, 76, 73}}) {
        INFO(r.pass << " against " << r.fail);
        const Design ten = design_fixed({r.fail, r.pass}), five = design_fixed({r.fail, r.pass}, 0.05);
        CHECK(value(ten.items) == r.items);
        CHECK(ten.rule.rule.mark == r.mark);
        CHECK(1 - ten.rule.false_fail == near(r.passes));
        CHECK(ten.rule.false_pass == near(r.false_pass));
        CHECK(five.rule.rule.items == r.items5);
        CHECK(five.rule.rule.mark == r.mark5);
    }
}

TEST_CASE("20 items with 17 to pass miss both errors: .867046677 and .107086805", "[competency]") {
    CHECK(FixedRule{20, 17}.passes(.90) == near(.867046677));  // [Py]
    CHECK(FixedRule{20, 17}.passes(.70) == near(.107086805));
    CHECK(all_critical_right(0.9, 5) == near(0.59049));  // 0.9^5
}

TEST_CASE("10 items cannot separate .90 from .75: whatever the mark, one of the errors is above 10 %",
          "[competency]") {
    for (int mark = 0; mark <= 11; ++mark) {
        const FixedRule rule{10, mark};
        INFO("mark " << mark);
        CHECK((rule.passes(.75) > .10 || rule.passes(.90) < .90));
    }
    CHECK(value(design_fixed({.75, .90}).items) == 40);  // [Py]
}

TEST_CASE("levels that cannot be told apart in 2000 items, or make no sense, are refused in words",
          "[competency]") {
    CHECK(design_fixed({0.90, 0.91}).items.why() == "more than 2000 items");
    CHECK(design_fixed({0.9, 0.7}).items.why() ==
          "the level that must fail must be below the one that must pass");
    CHECK_FALSE(design_fixed({0, 0.7}).items.known());
    CHECK_FALSE(design_fixed({0.5, 1}).items.known());
    CHECK_FALSE(design_fixed({0.5, 0.9}, 0, 0.1).items.known());
}

TEST_CASE("any ability: binomial chances sum to 1, the chance of passing rises with it and lies in 0..1",
          "[competency]") {
    CHECK(rc::check([] {
        const int n = *rc::gen::inRange(1, 60), mark = *rc::gen::inRange(0, n + 2);
        const double p = *rc::gen::inRange(0, 1001) / 1000.0;
        double sum = 0;
        for (int x = 0; x <= n; ++x) sum += binomial_exactly(x, n, p);
        RC_ASSERT(std::fabs(sum - 1) < 1e-9);
        const double passes = FixedRule{n, mark}.passes(p);
        RC_ASSERT(passes >= 0 && passes <= 1);
        RC_ASSERT((FixedRule{n, mark}.passes(std::min(1.0, p + 0.05)) >= passes - 1e-12));
        const Operating o = exact(bounded, p);
        RC_ASSERT(o.passes >= -1e-12 && o.passes <= 1 + 1e-12 && o.items >= 10 - 1e-9 &&
                  o.items <= 30 + 1e-9);
    }));
}
