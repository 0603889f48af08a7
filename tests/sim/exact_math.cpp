#include "sim/exact_math.h"

#include <catch2/catch.hpp>
#include <cmath>

namespace {

// Worst difference from libm over steps of a range: relative, or absolute where the value is below one.
template <typename Ours, typename Theirs>
double worst(double from, double to, int steps, Ours ours, Theirs theirs) {
    double worst = 0;
    for (int i = 0; i <= steps; ++i) {
        const double x = from + (to - from) * (i + 0.123) / (steps + 1.0);
        const double t = theirs(x);
        worst = std::max(worst, std::fabs(ours(x) - t) / std::max(1.0, std::fabs(t)));
    }
    return worst;
}

constexpr int steps = 20'000;

}  // namespace

TEST_CASE("exponentials agree with libm to 1e-14 over their whole range", "[exact_math]") {
    CHECK(worst(-1000, 1000, steps, sim::exact_exp2, [](double x) { return std::exp2(x); }) < 1e-14);
    CHECK(worst(-690, 690, steps, sim::exact_exp, [](double x) { return std::exp(x); }) < 1e-14);
    CHECK(worst(-299, 299, steps, sim::exact_pow10, [](double x) { return std::pow(10.0, x); }) < 1e-14);
    CHECK(worst(-2, 2, steps, sim::exact_exp, [](double x) { return std::exp(x); }) < 1e-15);
}

TEST_CASE("logarithms agree with libm to 1e-14 from 1e-300 to 1e300 and close to one", "[exact_math]") {
    const auto at_power = [](auto log) { return [log](double e) { return log(std::pow(10.0, e)); }; };
    CHECK(worst(-300, 300, steps, at_power(sim::exact_log), at_power([](double x) { return std::log(x); })) <
          1e-14);
    CHECK(worst(-300, 300, steps, at_power(sim::exact_log2),
                at_power([](double x) { return std::log2(x); })) < 1e-14);
    CHECK(worst(0.5, 2, steps, sim::exact_log, [](double x) { return std::log(x); }) < 1e-15);
    for (double d : {1e-3, 1e-6, 1e-9, -1e-7})  // relative, where the logarithm is nearly nothing
        CHECK(std::fabs(sim::exact_log(1 + d) / std::log(1 + d) - 1) < 1e-14);
}

TEST_CASE("sine and cosine agree with libm to 1e-14 up to a million radians", "[exact_math]") {
    for (double reach : {1.0, 10.0, 1000.0, 1e6}) {
        CHECK(worst(-reach, reach, steps, sim::exact_sin, [](double x) { return std::sin(x); }) < 1e-14);
        CHECK(worst(-reach, reach, steps, sim::exact_cos, [](double x) { return std::cos(x); }) < 1e-14);
    }
    CHECK(sim::exact_sin(0) == 0);
    CHECK(sim::exact_cos(0) == 1);
}

TEST_CASE("tanh agrees with libm to 1e-14 and keeps the digits of small arguments", "[exact_math]") {
    CHECK(worst(-30, 30, steps, sim::exact_tanh, [](double x) { return std::tanh(x); }) < 1e-14);
    for (double x : {1e-12, 1e-6, 1e-3, 0.05, 0.0999})
        CHECK(std::fabs(sim::exact_tanh(x) / std::tanh(x) - 1) < 1e-14);
    CHECK(sim::exact_tanh(500) == 1);
    CHECK(sim::exact_tanh(-500) == -1);
}
