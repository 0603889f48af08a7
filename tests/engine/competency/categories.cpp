// Kappa, shares and calls.
#include "engine/competency/categories.h"
#include "engine/competency/proportions.h"

#include "tests/engine/competency/near.h"

#include <rapidcheck.h>

using namespace engine;

namespace {

void check_interval(const Interval& i, double low, double high) {
    CHECK(value(i.low) == near(low));
    CHECK(value(i.high) == near(high));
}

void check_kappa(const Kappa& k, double kappa, double error, double error0) {
    CHECK(value(k.kappa) == near(kappa));
    CHECK(value(k.standard_error) == near(error));
    CHECK(value(k.standard_error_at_zero) == near(error0));
}

const CategoryTable three{{9, 1, 0}, {2, 24, 2}, {0, 3, 9}};

}  // namespace

TEST_CASE("kappa of five tables, unweighted, linear and quadratic, with both standard errors",
          "[competency]") {
    const Kappa two = kappa({{20, 5}, {10, 15}});
    check_kappa(two, 0.4, 0.126996063, 0.138564065);  // [R] vcd and [Py] statsmodels, all but the last
    check_interval(two.interval, 0.151092290, 0.648907710);
    check_kappa(kappa(three), 0.728629579, 0.089071129, 0.103119689);
    check_kappa(kappa(three, KappaWeights::linear), 0.766899767, 0.078046607, 0.103757624);
    check_kappa(kappa(three, KappaWeights::quadratic), 0.818181818, 0.063230000, 0.141163992);
    const Kappa skewed = kappa({{90, 5}, {5, 0}});  // [R]
    CHECK(value(skewed.kappa) == near(-0.052631579));
    CHECK(value(skewed.standard_error) == near(0.016620499));
    CHECK(value(skewed.raw_agreement) == near(0.9));  // 90 % agreement, kappa below 0
}

TEST_CASE("40 of 50 on the diagonal, 6 one step off and 4 two: raw .80 with any weights, linear .86",
          "[competency]") {
    // By hand: (40 + 6 / 2 + 4 * 0) / 50 and (40 + 6 * 3 / 4 + 4 * 0) / 50.
    const CategoryTable table{{10, 2, 0}, {2, 20, 2}, {4, 0, 10}};
    CHECK(value(kappa(table).raw_agreement) == near(.80));
    CHECK(value(kappa(table).weighted_agreement) == near(.80));
    CHECK(value(kappa(table, KappaWeights::linear).raw_agreement) == near(.80));
    CHECK(value(kappa(table, KappaWeights::linear).weighted_agreement) == near(.86));
    CHECK(value(kappa(table, KappaWeights::quadratic).raw_agreement) == near(.80));
    CHECK(value(kappa(table, KappaWeights::quadratic).weighted_agreement) == near(.89));
    CHECK(value(kappa({{0, 0}, {0, 12}}, KappaWeights::linear).weighted_agreement) == 1);
}

TEST_CASE("kappa is absent, raw agreement kept: no calls, one category, both all normal", "[competency]") {
    CHECK(kappa({{0, 0}, {0, 0}}).kappa.why() == "no calls");
    CHECK(kappa({{0, 1}, {0, 0}}).kappa.why() == "one call shows no agreement beyond chance");
    const Kappa perfect = kappa({{2, 0}, {0, 2}});  // 1, and nothing known of how sure
    CHECK(value(perfect.kappa) == near(1));
    CHECK(perfect.interval.low.why().find("no width") != std::string::npos);
    CHECK(kappa({{7}}).kappa.why() == "one category only");
    const Kappa all_normal = kappa({{0, 0}, {0, 12}});
    CHECK(all_normal.kappa.why() == "both used one category only");
    CHECK(value(all_normal.raw_agreement) == 1);
}

TEST_CASE("Wilson and Clopper-Pearson intervals of seven shares", "[competency]") {
    struct Row {
        long long x, n;
        double wl, wh, cl, ch;
    };
    for (const Row& r :
         {Row{81, 263, .255288520, .366209577, .252736746, .367621923},  // all [R]; the first four
          Row{15, 148, .062386400, .160487242, .057844010, .161650490},  // round to the digits of
          Row{0, 20, 0, .161125158, 0, .168433471},                      // Newcombe 1998 [M]
          Row{1, 29, .006113214, .171755219, .000872647, .177644295},
          Row{18, 20, .698966355, .972133519, .683017286, .987651473},
          Row{20, 20, .838874842, 1, .831566529, 1}, Row{1, 1, .206549314, 1, .025, 1}}) {
        INFO(r.x << "/" << r.n);
        check_interval(wilson(r.x, r.n), r.wl, r.wh);
        check_interval(clopper_pearson(r.x, r.n), r.cl, r.ch);
    }
    CHECK(*wilson(0, 20).low == 0);  // exactly
    CHECK(*wilson(20, 20).high == 1);
    CHECK(wilson(0, 0).low.why() == "a share of nothing");
    CHECK_FALSE(clopper_pearson(0, 0).high.known());
    CHECK_FALSE(clopper_pearson_at_least(0, 0).known());
    // 20 of 20: at least 0.05^(1/20), the textbook closed form.
    CHECK(value(clopper_pearson_at_least(20, 20)) == near(std::pow(0.05, 1.0 / 20)));
    CHECK(value(clopper_pearson_at_least(0, 20)) == 0);
}

TEST_CASE("slow and fast as abnormal: sensitivity 18/22, specificity 24/28, predictive values at 10 %",
          "[competency]") {
    // Slow called slow or fast 9+0, fast called slow or fast 0+9; missed 1 + 3; normal 24 of 28 passed. [Py]
    const CallFigures f = call_figures({18, 4, 4, 24});
    CHECK(value(f.sensitivity) == near(.818181818));
    check_interval(f.sensitivity_interval, .614833926, .926931154);
    CHECK(value(f.specificity) == near(.857142857));
    check_interval(f.specificity_interval, .685101978, .943009947);
    CHECK(value(f.youden) == near(.675324675));
    CHECK(value(predictive_at(f, 0.1).positive) == near(.388888889));
    CHECK(value(predictive_at(f, 0.1).negative) == near(.976973684));
}

TEST_CASE("a form without an abnormal item has no sensitivity, rather than 0", "[competency]") {
    const CallFigures f = call_figures({0, 0, 3, 17});
    CHECK(f.sensitivity.why() == "no abnormal item in the form");
    CHECK(value(f.specificity) == near(0.85));
    CHECK_FALSE(f.youden.known());
    CHECK_FALSE(predictive_at(f, 0.1).positive.known());
    CHECK(call_figures({2, 1, 0, 0}).specificity.why() == "no normal item in the form");
    CHECK(predictive_at(call_figures({0, 2, 0, 5}), 0.1).positive.why() == "nothing is ever called");
}

TEST_CASE("two trainees on the same items: 1 against 7 gives p = 0.0703125, 0 against 0 no test",
          "[competency]") {
    CHECK(value(mcnemar_exact(1, 7)) == near(0.0703125));  // [R]
    CHECK(value(mcnemar_exact(0, 5)) == near(0.0625));
    CHECK(value(mcnemar_exact(3, 3)) == 1);
    CHECK(mcnemar_exact(0, 0).why() == "the two never differed");
}

TEST_CASE("different items: 56/70 against 48/80 differ by 0.2, from 0.052431472 to 0.333872654",
          "[competency]") {
    const Difference d = newcombe(56, 70, 48, 80);  // [R]; Newcombe 1998
    CHECK(value(d.value) == near(.2));
    check_interval(d.interval, .052431472, .333872654);
    CHECK_FALSE(newcombe(0, 0, 1, 2).value.known());
}

TEST_CASE("any share: Wilson within 0..1 and around the share; Clopper-Pearson around it too",
          "[competency]") {
    CHECK(rc::check([] {
        const int n = *rc::gen::inRange(1, 2000), x = *rc::gen::inRange(0, n + 1);
        const double p = static_cast<double>(x) / n;
        for (const Interval& i : {wilson(x, n), clopper_pearson(x, n)}) {
            RC_ASSERT(*i.low >= 0 && *i.high <= 1);
            RC_ASSERT(*i.low <= p + 1e-12 && *i.high >= p - 1e-12);
        }
    }));
}

TEST_CASE("any table: swapping truth and call leaves kappa; a diagonal table has kappa 1", "[competency]") {
    CHECK(rc::check([] {
        CategoryTable t(3, std::vector<long long>(3)), swapped = t, diagonal = t;
        for (std::size_t i = 0; i < 3; ++i)
            for (std::size_t j = 0; j < 3; ++j) {
                t[i][j] = *rc::gen::inRange(0, 30);
                swapped[j][i] = t[i][j];
                if (i == j) diagonal[i][j] = t[i][j] + 1;
            }
        for (const KappaWeights w : {KappaWeights::none, KappaWeights::linear, KappaWeights::quadratic}) {
            const Kappa a = kappa(t, w), b = kappa(swapped, w);
            RC_ASSERT(a.kappa.known() == b.kappa.known());
            if (a.kappa) RC_ASSERT(std::fabs(*a.kappa - *b.kappa) < 1e-12);
            RC_ASSERT(std::fabs(*kappa(diagonal, w).kappa - 1) < 1e-12);
        }
    }));
}
