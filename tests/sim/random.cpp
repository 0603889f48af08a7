#include "sim/random.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <rapidcheck.h>

using sim::Seed;
using sim::Stream;

namespace {

double normal_share_below(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

// Largest distance between the shares of a sample and of the standard normal distribution.
double kolmogorov_distance(std::vector<double> sample) {
    std::sort(sample.begin(), sample.end());
    double worst = 0;
    for (std::size_t i = 0; i < sample.size(); ++i) {
        const double share = normal_share_below(sample[i]);
        worst =
            std::max({worst, std::fabs(share - static_cast<double>(i) / static_cast<double>(sample.size())),
                      std::fabs(share - static_cast<double>(i + 1) / static_cast<double>(sample.size()))});
    }
    return worst;
}

}  // namespace

TEST_CASE("uniform: 100,000 draws have mean 1/2 and variance 1/12 within four standard errors", "[random]") {
    constexpr int n = 100'000;
    double sum = 0, squares = 0;
    for (std::uint64_t i = 0; i < n; ++i) {
        const double u = sim::uniform(Seed{7}, Stream::rhythm, i);
        REQUIRE((u >= 0 && u < 1));
        sum += u;
        squares += (u - 0.5) * (u - 0.5);
    }
    CHECK(std::fabs(sum / n - 0.5) < 4 * std::sqrt(1.0 / 12 / n));
    CHECK(std::fabs(squares / n - 1.0 / 12) < 4 * std::sqrt(1.0 / 180 / n));
}

TEST_CASE("normal draws, both kinds: Kolmogorov distance under the 0.1 % limit of 1.95 / sqrt(n)",
          "[random]") {
    std::vector<double> single, four;
    for (std::uint64_t i = 0; i < 40'000; ++i) {
        single.push_back(sim::gaussian(Seed{11}, Stream::fetal_slow, i));
        if (i % 4 == 0)
            for (double z : sim::four_gaussians(Seed{12}, Stream::fetal_slow, i)) four.push_back(z);
    }
    const double limit = 1.95 / std::sqrt(static_cast<double>(single.size()));
    CHECK(kolmogorov_distance(single) < limit);
    CHECK(kolmogorov_distance(four) < limit);
    double fourth = 0;
    for (double z : single) fourth += z * z * z * z;
    CHECK(fourth / static_cast<double>(single.size()) == Approx(3.0).margin(4 * std::sqrt(96.0 / 40'000)));
}

TEST_CASE("a row of four draws is the four draws of its indices, at the ends of the table and past 2^32",
          "[random]") {
    int far_out = 0;
    for (std::uint64_t n = 0; n < 20'000; ++n) {
        const std::uint64_t first = (std::uint64_t{1} << 32) - 40'002 + 4 * n;
        const auto row = sim::four_gaussians_in_a_row(Seed{13}, Stream::maternal_low, first);
        for (std::uint64_t i = 0; i < 4; ++i) {
            REQUIRE(row[i] == sim::four_gaussians(Seed{13}, Stream::maternal_low, first + i));
            for (const double z : row[i]) far_out += std::fabs(z) > 3.0 ? 1 : 0;
        }
    }
    // 320,000 draws, 0.27 % of them beyond three standard deviations (any table): 864, give or take 29.
    CHECK(far_out == Approx(864).margin(4 * 29));
}

TEST_CASE("the table of normal quantiles lies within 0.001 of the quantile itself, tails included",
          "[random]") {
    for (std::uint64_t i = 0; i < 20'000; ++i) {
        const double p = sim::uniform(Seed{5}, Stream::events, i);
        REQUIRE(sim::gaussian(Seed{5}, Stream::events, i) ==
                Approx(sim::normal_quantile(p + 1e-17)).margin(1e-3));
    }
}

TEST_CASE("whole_below: every number below n comes equally often (chi-square under its 0.1 % limit)",
          "[random]") {
    // Limits of chi-square at 0.999: 16.27 for 3, 22.46 for 6, 29.59 for 10 degrees of freedom (any table).
    const std::pair<std::uint32_t, double> cases[] = {{4, 16.27}, {7, 22.46}, {11, 29.59}};
    for (const auto& [n, limit] : cases) {
        std::vector<double> seen(n, 0.0);
        constexpr int draws = 44'000;
        for (std::uint64_t i = 0; i < draws; ++i) seen[sim::whole_below(n, Seed{3}, Stream::events, i)] += 1;
        const double expected = draws / static_cast<double>(n);
        double chi = 0;
        for (double s : seen) chi += (s - expected) * (s - expected) / expected;
        CHECK(chi < limit);
    }
    CHECK(sim::whole_below(1, Seed{3}, Stream::events, 0) == 0);
}

TEST_CASE("a draw depends on seed, stream, index and draw, on each of them and nothing else", "[random]") {
    CHECK(rc::check([] {
        const Seed seed{*rc::gen::inRange<std::uint64_t>(0, Seed::largest)};
        const auto index = *rc::gen::arbitrary<std::uint64_t>();
        const auto draw = *rc::gen::inRange<std::uint32_t>(0, 1000);
        const auto here = sim::words(seed, Stream::cord, index, draw);
        RC_ASSERT(here == sim::words(seed, Stream::cord, index, draw));
        RC_ASSERT(here != sim::words(Seed{seed.value ^ 1}, Stream::cord, index, draw));
        RC_ASSERT(here != sim::words(seed, Stream::vessel, index, draw));
        RC_ASSERT(here != sim::words(seed, sim::for_baby(Stream::cord, 1), index, draw));
        RC_ASSERT(here != sim::words(seed, Stream::cord, index ^ (std::uint64_t{1} << 40), draw));
        RC_ASSERT(here != sim::words(seed, Stream::cord, index, draw + 1));
    }));
}
