#include "sim/instrument/rate_display.h"

#include "sim/random.h"
#include "tests/sim/scene.h"

#include <catch2/catch.hpp>

#include <array>
#include <memory>

using namespace sim;

namespace {

// Bursts of noise at a rate, `second` of them a given share of the interval later; 0 = one burst a beat.
int shown_after(double seconds, double bpm, double second_share = 0, double burst = 1, double hiss = 0.03) {
    RateDisplay display;
    std::array<float, source_samples_per_tick> tick{};
    const auto ticks = static_cast<std::int64_t>(seconds * 500);
    const double rr = 60 / bpm;
    for (std::int64_t t = 0; t < ticks; ++t) {
        for (int i = 0; i < source_samples_per_tick; ++i) {
            const std::int64_t n = t * source_samples_per_tick + i;
            const double at = static_cast<double>(n) / source_rate, in_beat = std::fmod(at, rr);
            double loud = in_beat < 0.05 ? burst : 0;
            if (second_share > 0 && in_beat >= second_share * rr && in_beat < second_share * rr + 0.05)
                loud = burst;
            tick[static_cast<std::size_t>(i)] = static_cast<float>(
                (loud + hiss) * (2 * uniform({5}, Stream::events, static_cast<std::uint64_t>(n)) - 1) * 0.2);
        }
        display.hear(tick, t);
    }
    return display.shown_bpm(ticks);
}

}  // namespace

TEST_CASE("Display: 61, 97, 137, 163 and 181 bpm read within 2 after 8 s", "[rate_display]") {
    for (double bpm : {61.3, 97.4, 137.3, 163.2, 181.1}) CHECK(shown_after(8, bpm) == Approx(bpm).margin(2));
}

TEST_CASE("Display: nothing before 3.75 s have been heard, dashes for hiss alone", "[rate_display]") {
    CHECK(shown_after(3.5, 140) == 0);
    CHECK(shown_after(8, 140, 0, 0, 0.5) == 0);
}

// Above the lag floor of 240 bpm the earliest peak left is every second beat (reference run of the method:
// 250 bpm is never read right and read as half).
TEST_CASE("Display: 250 bpm, above its search, is halved to 125", "[rate_display]") {
    CHECK(shown_after(8, 250) == Approx(125).margin(2));
}

// Two equal bursts about half an interval apart are taken for two beats when the double lies inside the
// search; at 140 never, since 280 is outside (reference run of the method).
TEST_CASE("Display: two equal bursts a beat double 85 bpm to 170, but never 140 to 280", "[rate_display]") {
    CHECK(shown_after(8, 85, 0.5) == Approx(170).margin(3));
    CHECK(shown_after(8, 140, 0.5) == Approx(140).margin(3));
}

TEST_CASE("Display: the last number stays 2 s after the sound is lost, then dashes", "[rate_display]") {
    auto l = std::make_unique<Listening>(scene::quiet_labour(), Seed{7}, OutputMode::true_sound);
    scene::place(*l, Instrument::doppler, 6, -7);
    scene::heard(*l, 8);
    const Patient p = scene::quiet_labour();
    const auto train = beats_over(p, {7}, Who::fetal, course_over(p, {7}, {}, {9}));
    CHECK(l->displayed_bpm() ==
          Approx(rate_between(train, labour_time({4}), labour_time({8})).value).margin(6));
    Change away = scene::change(Change::Kind::move, 8);
    away.x_cm = 14;
    away.y_cm = 15;
    l->apply(away);
    scene::heard(*l, 10);
    CHECK(l->displayed_bpm() == 0);
}
