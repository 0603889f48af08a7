// The words for quantities: a number that crosses a header is one of these or its name ends in its unit.
#pragma once

#include <cfloat>
#include <compare>
#include <cstdint>

static_assert(FLT_EVAL_METHOD == 0, "excess precision would give other beats on other machines");

namespace sim {

// A number with its unit in the type. Adding different units does not compile; scaling by a plain number
// does.
template <typename Unit>
struct Quantity {
    double value = 0.0;

    friend constexpr Quantity operator+(Quantity a, Quantity b) { return {a.value + b.value}; }
    friend constexpr Quantity operator-(Quantity a, Quantity b) { return {a.value - b.value}; }
    friend constexpr Quantity operator-(Quantity a) { return {-a.value}; }
    friend constexpr Quantity operator*(Quantity a, double k) { return {a.value * k}; }
    friend constexpr Quantity operator*(double k, Quantity a) { return {k * a.value}; }
    friend constexpr Quantity operator/(Quantity a, double k) { return {a.value / k}; }
    friend constexpr double operator/(Quantity a, Quantity b) { return a.value / b.value; }
    friend constexpr auto operator<=>(Quantity, Quantity) = default;
};

using Seconds = Quantity<struct SecondsUnit>;
using Bpm = Quantity<struct BpmUnit>;  // beats a minute
using Hertz = Quantity<struct HertzUnit>;
using Decibels = Quantity<struct DecibelsUnit>;
using Centimetres = Quantity<struct CentimetresUnit>;
using Newtons = Quantity<struct NewtonsUnit>;  // how hard the instrument is pressed
using Millimetres_Hg = Quantity<struct MillimetresHgUnit>;

// Labour time: whole microseconds since the start of the attempt. The only time inside sim and engine.
struct LabourTime {
    std::int64_t us = 0;

    constexpr double seconds() const { return static_cast<double>(us) / 1e6; }
    friend constexpr auto operator<=>(LabourTime, LabourTime) = default;
};

// Rounds to the nearest microsecond; s between -9e6 and 9e6 seconds.
constexpr LabourTime labour_time(Seconds s) {
    const double us = s.value * 1e6;
    return {static_cast<std::int64_t>(us < 0 ? us - 0.5 : us + 0.5)};
}

// The three grids, each a whole multiple of the next.
inline constexpr std::int64_t course_tick_us = 250'000;
inline constexpr std::int64_t sound_tick_us = 2'000;
inline constexpr int sample_rate = 48'000;
inline constexpr int samples_per_sound_tick = 96;

// The attempt's seed: 0 to 2^53 - 1, so that it survives every JSON reader.
struct Seed {
    std::uint64_t value = 1;
    static constexpr std::uint64_t largest = (std::uint64_t{1} << 53) - 1;
};

}  // namespace sim
