#include "sim/random.h"

#include <catch2/catch.hpp>

using Four = std::array<std::uint32_t, 4>;

TEST_CASE("Philox 4x32-10 gives the three published known answers", "[random]") {
    // Random123, kat_vectors, "philox4x32 10" (Salmon et al., SC 2011).
    CHECK(sim::philox({0, 0, 0, 0}, {0, 0}) == Four{0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8});
    CHECK(sim::philox({0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff}, {0xffffffff, 0xffffffff}) ==
          Four{0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd});
    // Digits of pi.
    CHECK(sim::philox({0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344}, {0xa4093822, 0x299f31d0}) ==
          Four{0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1});
}

TEST_CASE("the normal quantile gives AS 241's own three check values to 1e-15", "[random]") {
    // Wichura 1988, Applied Statistics 37:477, the values printed for testing PPND16.
    CHECK(sim::normal_quantile(0.25) == Approx(-0.6744897501960817).epsilon(1e-15));
    CHECK(sim::normal_quantile(0.001) == Approx(-3.090232306167814).epsilon(1e-15));
    CHECK(sim::normal_quantile(1e-20) == Approx(-9.262340089798408).epsilon(1e-15));
}
