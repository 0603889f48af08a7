// Limits of agreement, and the error and its spread against the truth.
#include "engine/competency/limits.h"
#include "engine/competency/distributions.h"
#include "engine/competency/line_fit.h"

#include "tests/engine/competency/near.h"

using namespace engine;

namespace {

// Peak expiratory flow by two meters, first readings: Bland & Altman 1986 [V: as shipped with an R package]
const std::vector<double> wright{494, 395, 516, 434, 476, 557, 413, 442, 650,
                                 433, 417, 656, 267, 478, 178, 423, 427};
const std::vector<double> mini{512, 430, 520, 428, 500, 600, 364, 380, 658,
                               445, 432, 626, 260, 477, 259, 350, 451};

const std::vector<double> truths{120, 132, 140, 148, 152, 160, 110, 144};
const std::vector<double> typed{118, 130, 144, 146, 150, 156, 108, 144};

void check_factors(const LimitFactors& k, double inner, double outer) {
    CHECK(value(k.inner) == near(inner));
    CHECK(value(k.outer) == near(outer));
}

}  // namespace

TEST_CASE("17 people, two flow meters: bias -2.117647, limits -78.095905 and 73.860611, and their intervals",
          "[competency]") {
    const CountErrors e = count_errors(mini, wright);  // numbers [R] and [Py]
    CHECK(value(e.bias_bpm()) == near(-2.117647059));
    CHECK(value(e.sd_bpm()) == near(38.765129874));
    CHECK(value(e.bias_interval().low) == near(-22.048837697));
    CHECK(value(e.bias_interval().high) == near(17.813543579));
    const Limits limits = limits_of_agreement(e);
    CHECK(value(limits.low_bpm) == near(-78.095905467));
    CHECK(value(limits.high_bpm) == near(73.860611350));
    CHECK(value(limits.standard_error_bpm) == near(16.394905794));
    CHECK(value(limits.standard_error_1986_bpm) == near(16.284611795));
    CHECK(value(limits.high_approximate.low) == near(39.104963677));
    CHECK(value(limits.high_approximate.high) == near(108.616259022));
    CHECK(value(limits.high_exact.low) == near(48.859637299));
    CHECK(value(limits.high_exact.high) == near(119.925504177));
    // The lower limit mirrors the upper about the bias.
    CHECK(value(limits.low_exact.high) == near(2 * -2.1176470588235294 - 48.859637299));
    check_factors(single_limit_factors(17), 1.315029371, 3.148271440);
    check_factors(pair_limit_factors(17), 1.489991604, 3.082409918);
    CHECK(limits.worth_showing);
    CHECK(limits.remark == "wide: fewer than 30 counts");
    // Rounded as in the paper itself [M]: -2.1 and 38.8.
    CHECK(value(e.bias_bpm()) == near(-2.1, 0.05));
    CHECK(value(e.sd_bpm()) == near(38.8, 0.05));
}

TEST_CASE("eight counts: limits -5.905835 and 3.405835, not yet worth showing", "[competency]") {
    const Limits limits = limits_of_agreement(count_errors(truths, typed));  // [R]
    CHECK(value(limits.low_bpm) == near(-5.905835408));
    CHECK(value(limits.high_bpm) == near(3.405835408));
    CHECK(value(limits.high_exact.low) == near(1.342374683));
    CHECK(value(limits.high_exact.high) == near(8.829527595));
    check_factors(single_limit_factors(8), 1.091310274, 4.243172135);
    check_factors(pair_limit_factors(8), 1.345718622, 4.247787453);
    CHECK_FALSE(limits.worth_showing);
    CHECK(limits.remark == "fewer than 10 counts");
}

TEST_CASE("exact factors of one limit at 2, 5, 10, 20, 100 and 400 counts", "[competency]") {
    check_factors(single_limit_factors(2), 0.522605223, 62.557648520);  // [R] and [Py]
    check_factors(single_limit_factors(5), 0.923164860, 5.974920498);
    check_factors(single_limit_factors(10), 1.163180886, 3.800902359);
    check_factors(single_limit_factors(20), 1.356484252, 3.014003091);
    check_factors(single_limit_factors(100), 1.659063168, 2.341870744);
    // [Py], and by direct integration; R's qt gives 2.139157738 here with a warning of lost precision.
    CHECK(value(single_limit_factors(400).outer) == near(2.138170560));
}

TEST_CASE("the library's noncentral t and our integral meet at 300 degrees; a million counts stay near 1.96",
          "[competency]") {
    const double root301 = std::sqrt(301.0), root302 = std::sqrt(302.0);
    const double library = noncentral_t_quantile(0.975, 300, z95 * root301) / root301;
    const double own = noncentral_t_quantile(0.975, 301, z95 * root302) / root302;
    CHECK(library > own);
    CHECK(library - own < 5e-4);
    const LimitFactors many = single_limit_factors(1'000'000);
    // Large n: 1.96 -+ 1.96 sqrt(1/n + 1.96^2 / 2n), the 1999 form.
    CHECK(value(many.inner) == near(z95 - z95 * std::sqrt((1 + z95 * z95 / 2) / 1e6), 2e-5));
    CHECK(value(many.outer) == near(z95 + z95 * std::sqrt((1 + z95 * z95 / 2) / 1e6), 2e-5));
}

TEST_CASE("limits: none from one count; width 0 and a remark when all differences are equal",
          "[competency]") {
    const std::vector<double> t{140}, c{142};
    CHECK(limits_of_agreement(count_errors(t, c)).high_bpm.why() == "limits need 2 counts");
    CHECK_FALSE(single_limit_factors(1).inner.known());
    CHECK_FALSE(pair_limit_factors(0).outer.known());
    const std::vector<double> ts{120, 140, 160}, cs{122, 142, 162};
    const Limits limits = limits_of_agreement(count_errors(ts, cs));
    CHECK(value(limits.low_bpm) == 2);
    CHECK(value(limits.high_exact.high) - value(limits.high_exact.low) == 0);
    CHECK(limits.remark.find("whole beats") != std::string::npos);
}

TEST_CASE("error against truth: slope -0.010949834, intercept 0.263814617; SD at 140 is 2.099833827",
          "[competency]") {
    const LineFit line = error_against_truth(truths, typed);  // [R]
    CHECK(value(line.slope.value) == near(-0.010949834));
    CHECK(value(line.slope.standard_error) == near(0.057731041));
    CHECK(value(line.slope.interval.low) == near(-0.152212604));
    CHECK(value(line.slope.interval.high) == near(0.130312935));
    CHECK(value(line.intercept.value) == near(0.263814617));
    CHECK(value(spread_against_truth(truths, typed).sd_at_bpm(140)) == near(2.099833827));
    CHECK(value(count_errors(truths, typed).slope_on_truth()) == near(-0.010949834));
    const std::vector<double> flat(4, 140), any{139, 140, 142, 143};
    CHECK(error_against_truth(flat, any).slope.value.why() == "all x equal");
    CHECK_FALSE(spread_against_truth(flat, any).sd_at_bpm(140).known());
}
