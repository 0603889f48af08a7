// Worked example W49 of a Doppler's number [memory: no published source was read]: a display near twice her
// pulse is to be suspected of doubling, and the ear's count decides. The ear here is arithmetic: bursts of
// one heart at 73 a minute.
#include "sim/instrument/rate_display.h"
#include "sim/random.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>

TEST_CASE("W49: two equal bursts of a beat at 73 a minute show 146, exactly twice what an ear counts",
          "[worked]") {
    sim::RateDisplay display;
    std::array<float, 16> tick{};  // 2 ms at 8 kHz
    const double gap = 60.0 / 73;
    constexpr std::int64_t ticks = 8 * 500;
    for (std::int64_t t = 0; t < ticks; ++t) {
        for (std::size_t i = 0; i < tick.size(); ++i) {
            const auto n = static_cast<std::uint64_t>(t) * tick.size() + i;
            const double half = std::fmod(static_cast<double>(n) / 8000, gap / 2);
            const double noise = 2 * sim::uniform({5}, sim::Stream::events, n) - 1;
            tick[i] = static_cast<float>((half < 0.05 ? 1.03 : 0.03) * noise * 0.2);
        }
        display.hear(tick, t);
    }
    CHECK(display.shown_bpm(ticks) == Approx(2 * 73).margin(3));
}
