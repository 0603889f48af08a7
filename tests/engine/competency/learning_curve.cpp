// Curves of error against attempts, and of passing.
#include "engine/competency/learning_curve.h"

#include "tests/engine/competency/near.h"

using namespace engine;

namespace {

const std::vector<double> sizes{14.2, 10.1, 8.3, 7.4, 6.5, 6.1, 5.4, 5.3, 4.9, 4.6, 4.7, 4.3};
constexpr double fit = 1e-5;  // what R and SciPy agree to

}  // namespace

TEST_CASE("twelve errors: the power curve, its floor .3163 with an error of .503", "[competency]") {
    const Curve c = fit_curve(CurveShape::power, sizes);  // [R] and [Py]
    CHECK(value(c.a) == near(.316296, fit));
    CHECK(value(c.a_error) == near(.503, 5e-4));
    CHECK(value(c.b) == near(13.874362, fit));
    CHECK(value(c.c) == near(.498560, fit));
    CHECK(value(c.residual_squares) == near(.120505615));
    CHECK(value(c.aicc) == near(-41.497301, fit));
    CHECK(c.remark == "the floor is not known");
    CHECK(value(c.attempts_to(5)) == near(8.830218, fit));
    CHECK(value(c.attempts_to(4)) == near(14.294974, fit));
}

TEST_CASE("twelve errors: the exponential levels off at 4.594905 and never reaches 4", "[competency]") {
    const Curve c = fit_curve(CurveShape::exponential, sizes);  // [R] and [Py]
    CHECK(value(c.a) == near(4.594905, fit));
    CHECK(value(c.b) == near(9.275432, fit));
    CHECK(value(c.c) == near(.424283, fit));
    CHECK(value(c.residual_squares) == near(.981199148));
    CHECK(value(c.aicc) == near(-16.332352, fit));
    CHECK(value(c.attempts_to(5)) == near(8.379512, fit));
    CHECK(c.attempts_to(4).why() == "never: the curve levels off above it");
}

TEST_CASE("twelve errors: the power curve with floor 0 fits best by AICc", "[competency]") {
    const auto curves = fit_curves(sizes);  // [R] and [Py]
    REQUIRE(curves.size() == 3);
    CHECK(curves[0].shape == CurveShape::power_to_zero);
    CHECK(value(curves[0].b) == near(14.161497, fit));
    CHECK(value(curves[0].c) == near(.478954, fit));
    CHECK(value(curves[0].residual_squares) == near(.125394815));
    CHECK(value(curves[0].aicc) == near(-45.734336, fit));
    CHECK(curves[1].shape == CurveShape::power);
    CHECK(curves[2].shape == CurveShape::exponential);
}

TEST_CASE("no curve below six attempts, from equal ones, or when the rate of learning runs away",
          "[competency]") {
    const std::vector<double> five{9, 7, 6, 5, 5}, flat(8, 4), jump{20, 1, 1, 1, 1, 1, 1, 1};
    CHECK(fit_curve(CurveShape::power, five).c.why() == "a curve needs 6 attempts");
    CHECK(fit_curve(CurveShape::power, flat).a.why() == "all attempts equal");
    CHECK(fit_curve(CurveShape::exponential, jump).c.why() ==
          "the rate of learning runs to the end of what is searched");
    CHECK_FALSE(fit_curve(CurveShape::exponential, jump).attempts_to(2).known());
}

TEST_CASE("getting worse is said, and no attempt number is given; nothing beyond twice the attempts",
          "[competency]") {
    const std::vector<double> worse{2, 3.2, 4.1, 4.6, 5.1, 5.3, 5.6, 5.7};
    const Curve up = fit_curve(CurveShape::power, worse);
    CHECK(up.remark == "getting worse, not better");
    CHECK(up.attempts_to(1).why() == "getting worse, not better");
    const Curve down = fit_curve(CurveShape::power, sizes);
    CHECK(down.attempts_to(1).why() == "beyond twice the attempts seen");
    CHECK(value(down.attempts_to_anyhow(1)) > 24);
}

TEST_CASE("passing 0010010110111111: b0 -3.803065417, b1 2.279988303, 90 % at 13.8976483, not yet clear",
          "[competency]") {
    std::vector<bool> passed;
    for (char c : std::string("0010010110111111")) passed.push_back(c == '1');
    const PassingCurve p = fit_passing(passed);  // [R]
    CHECK(value(p.b0) == near(-3.803065417));
    CHECK(value(p.b1) == near(2.279988303));
    CHECK(value(p.attempts_to(0.9)) == near(13.8976483));
    CHECK(value(p.b1_p) == near(.054, 5e-4));
    CHECK(p.remark == "not yet clear");
}

TEST_CASE("passing: separated, never and always are named, not fitted", "[competency]") {
    CHECK(fit_passing({false, false, false, true, true, true}).remark ==
          "separated: all fails, then all passes");
    CHECK(fit_passing({true, true, true, false, false, false}).remark ==
          "separated: all passes, then all fails");
    CHECK(fit_passing(std::vector<bool>(8, true)).b1.why() == "every attempt passed");
    CHECK(fit_passing(std::vector<bool>(8, false)).attempts_to(0.9).why() == "no attempt passed");
    CHECK(fit_passing({true, false}).remark == "a curve needs 6 attempts");
}

// Floors and their errors by SciPy's curve_fit: -3.69 with 3.33, 1.44 with 0.71 (t of 17 degrees 2.11).
TEST_CASE("a floor below 0, or one whose interval holds 0, is not known", "[competency]") {
    const std::vector<double> below{10.871, 8.915, 7.561, 5.94,  4.868, 4.403, 4.449, 4.014,
                                    3.721,  3.415, 3.46,  3.281, 2.857, 3.206, 3.221};
    const Curve under = fit_curve(CurveShape::power, below);
    CHECK(value(under.a) == near(-3.69, 0.01));
    CHECK(under.remark == "the floor is not known: the size of an error cannot lie below 0");
    const std::vector<double> wide{10.998, 7.811, 6.641, 6.42,  4.787, 5.596, 4.547, 4.919, 4.334, 4.083,
                                   4.406,  3.947, 4.079, 3.914, 3.32,  4.058, 3.529, 3.436, 3.269, 3.144};
    const Curve around = fit_curve(CurveShape::power, wide);
    CHECK(value(around.a) == near(1.44, 0.01));
    CHECK(value(around.a_error) == near(0.71, 0.01));
    CHECK(around.remark == "the floor is not known");
}
