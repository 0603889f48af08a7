// Pass marks, consistency of decisions, retests.
#include "engine/competency/standards.h"

#include "tests/engine/competency/near.h"

using namespace engine;

TEST_CASE("five judges, six items: cut 3.87 of 6, rounded up to 4", "[competency]") {
    const AngoffCut a = angoff({{.80, .75, .60, .55, .40, .70},  // [R]
                                {.85, .70, .65, .60, .45, .75},
                                {.75, .80, .55, .50, .35, .65},
                                {.90, .75, .70, .60, .50, .80},
                                {.80, .70, .60, .50, .40, .70}});
    const double cuts[] = {3.8, 4, 3.6, 4.25, 3.7};
    for (std::size_t j = 0; j < 5; ++j) CHECK(a.judge_cuts[j] == near(cuts[j]));
    CHECK(value(a.cut) == near(3.87));
    CHECK(value(a.share) == near(.645));
    CHECK(value(a.sd) == near(.258843582));
    CHECK(value(a.standard_error) == near(.115758369));
    CHECK(value(a.interval.low) == near(3.548603243));
    CHECK(value(a.interval.high) == near(4.191396757));
    CHECK(a.mark == 4);
    CHECK(a.remark.empty());
}

TEST_CASE(
    "one judge: a cut without error, and it is said; no judge: nothing; 20.000000000001 is 20, 20.1 is 21",
    "[competency]") {
    const AngoffCut one = angoff({{.5, .5, .7}});
    CHECK(value(one.cut) == near(1.7));
    CHECK(one.standard_error.why() == "a spread needs 2 judges");
    CHECK_FALSE(one.interval.low.known());
    CHECK(one.remark == "fewer than 5 judges");
    CHECK(one.mark == 2);
    CHECK(angoff({}).cut.why() == "no ratings");
    CHECK(rounded_up(20.000000000001) == 20);
    CHECK(rounded_up(20.1) == 21);
}

TEST_CASE("ten examined, borderline 2: cut 13.438095238, its errors, the borderline group 13.333333333",
          "[competency]") {
    const std::vector<double> ratings{1, 1, 2, 2, 2, 3, 3, 3, 4, 4},
        scores{9, 11, 13, 12, 15, 16, 18, 17, 21, 20};
    const BorderlineCut b = borderline_regression(ratings, scores, 2);  // [R]
    CHECK(value(b.line.intercept.value) == near(6.390476190));
    CHECK(value(b.line.slope.value) == near(3.523809524));
    CHECK(value(b.cut) == near(13.438095238));
    CHECK(value(b.standard_error) == near(.377724419));
    CHECK(value(b.interval.low) == near(12.567061165));
    CHECK(value(b.interval.high) == near(14.309129311));
    CHECK(value(b.line.share_explained) == near(.933960977));
    CHECK(value(b.line.residual_sd) == near(1.073490080));
    CHECK(value(b.jackknife_error) == near(.460644236));
    CHECK(value(b.group_mean) == near(13.333333333));
    CHECK(b.remark.empty());
}

TEST_CASE("borderline regression refuses nine examined, equal ratings, a falling line; a loose one is named",
          "[competency]") {
    const std::vector<double> nine(9, 2), same(10, 2), up{1, 2, 3, 4, 5, 6, 7, 8, 9, 10},
        down{9, 9, 8, 8, 7, 7, 6, 6, 5, 5}, loose{1, 2, 1, 2, 1, 2, 1, 2, 1, 2},
        scores{1, 9, 8, 2, 6, 7, 3, 5, 4, 9};
    CHECK(borderline_regression(nine, nine, 2).cut.why() == "fewer than 10 were examined");
    CHECK(borderline_regression(same, up, 2).cut.why() == "all ratings equal");
    CHECK(borderline_regression(up, down, 2).cut.why() == "better ratings do not go with higher scores");
    const BorderlineCut b = borderline_regression(loose, scores, 3);
    CHECK(b.cut.known());
    CHECK(b.remark == "the ratings explain less than 40 % of the scores");
    CHECK(b.group_mean.why() == "nobody was rated borderline");
}

TEST_CASE("would the same decision fall again: three marks, by the beta-binomial", "[competency]") {
    struct Row {
        double mean, variance;
        int items, mark;
        double kr21, a, b, passes, same, kappa;
    };
    for (const Row& r :  // [R]; Huynh 1976
         {Row{20.5, 9, 25, 21, .614583333, 12.855932203, 2.822033898, .558732756, .720983315, .434159075},
          Row{20.5, 9, 25, 18, .614583333, 12.855932203, 2.822033898, .840660346, .839514789, .400953426},
          Row{7.2, 4, 10, 8, .551111111, 5.864516129, 2.280645161, .494549889, .695846095, .391619904}}) {
        const Consistency c = decision_consistency(r.mean, r.variance, {r.items, r.mark});
        CHECK(value(c.kr21) == near(r.kr21));
        CHECK(value(c.alpha) == near(r.a));
        CHECK(value(c.beta) == near(r.b));
        CHECK(value(c.passes) == near(r.passes));
        CHECK(value(c.same_decision) == near(r.same));
        CHECK(value(c.kappa) == near(r.kappa));
    }
}

TEST_CASE("no consistency without spread, with KR-21 at or below 0, or with one item", "[competency]") {
    CHECK(decision_consistency(20, 0, {25, 21}).same_decision.why() == "all totals equal");
    CHECK(decision_consistency(12.5, 2, {25, 21}).kappa.why() == "needs a KR-21 between 0 and 1");
    CHECK(decision_consistency(0.5, 0.25, {1, 1}).passes.why() == "needs 2 items");
    CHECK(value(decision_consistency(12.5, 2, {25, 21}).kr21) < 0);
}

TEST_CASE(
    "retests: at .70 three tries of 25/21 pass .247601; .10 in all leaves .051316702 or .034510615 a try",
    "[competency]") {
    const FixedRule rule{25, 21};  // [R]
    CHECK(passes_within(rule.passes(.70), 1) == near(.090472));
    CHECK(passes_within(rule.passes(.70), 2) == near(.172759));
    CHECK(passes_within(rule.passes(.70), 3) == near(.247601));
    CHECK(passes_within(rule.passes(.90), 1) == near(.902006));
    CHECK(passes_within(rule.passes(.90), 2) == near(.990397));
    CHECK(passes_within(rule.passes(.90), 3) == near(.999059));
    CHECK(rule.same_twice(.70) == near(.835426));
    CHECK(rule.same_twice(.80) == near(.512585));
    CHECK(rule.same_twice(.90) == near(.823218));
    CHECK(false_pass_a_try(.10, 2) == near(.051316702));
    CHECK(false_pass_a_try(.10, 3) == near(.034510615));
    const Design two = design_fixed({.70, .90}, false_pass_a_try(.10, 2)),
                 three = design_fixed({.70, .90}, false_pass_a_try(.10, 3));
    CHECK(two.rule.rule.items == 32);
    CHECK(two.rule.rule.mark == 27);
    CHECK(three.rule.rule.items == 39);
    CHECK(three.rule.rule.mark == 33);
}
