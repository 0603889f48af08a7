// When a blow comes and goes, what a vein, an artery, a ward and a rubbing horn sound like: measured in
// rendered samples or in what the Doppler plans. Figures [memory] and [practice] as in sim/sound.
#include "sim/random.h"
#include "sim/sound/doppler_tone.h"
#include "sim/sound/level.h"
#include "tests/sim/without_a_beat.h"

#include <catch2/catch.hpp>

#include <array>

using namespace sim;

namespace {

constexpr Seed seed{5};  // of scene::thinned

Patient bare(double pulse) {
    Patient p = scene::quiet_labour();
    p.babies[0].heart_beats = false;
    p.mother.pulse = {pulse};
    p.surroundings.souffle = {-60};
    p.surroundings.vessel = {-60};
    return p;
}

std::vector<double> her_beats(const Patient& p, double seconds) {
    std::vector<double> at;
    for (const Beat& b : beats_over(p, seed, Who::maternal, course_over(p, seed, {}, {seconds})))
        at.push_back(static_cast<double>(b.at_us) * 1e-6);
    return at;
}

// Power at one frequency in 40 ms from a moment on (Goertzel 1958, Hann's window).
double power_at_hz(const std::vector<double>& x, double from_s, double hz) {
    constexpr std::size_t many = 240;
    const auto at = static_cast<std::size_t>(from_s * scene::thin_rate);
    const double turn = 2 * std::cos(2 * pi * hz / scene::thin_rate);
    double one = 0, two = 0;
    for (std::size_t n = 0; n < many && at + n < x.size(); ++n) {
        const double window = 0.5 - 0.5 * std::cos(2 * pi * static_cast<double>(n) / many);
        const double now = window * x[at + n] + turn * one - two;
        two = one;
        one = now;
    }
    return one * one + two * two - turn * one * two;
}

}  // namespace

// Rise 80 ms, decay 200 to 300 ms, after her first sound and the pulse's way of 100 to 200 ms [memory].
TEST_CASE("Womb blow: begins 100-200 ms after her beat, highest 80 +-25 ms later, gone 200-300 after",
          "[blows_and_ward]") {
    Patient with = bare(58.3), without = with;  // slow, so that one is over before the next
    with.surroundings.souffle = {0};
    with.surroundings.souffle_x = {6};
    with.surroundings.souffle_y = {-7};
    const auto blow = scene::added(with, without, 120);
    const auto beats = her_beats(with, 120);
    constexpr std::size_t bins = 80;  // of 10 ms
    std::array<double, bins> power{};
    int many = 0;
    for (std::size_t b = 2; b + 2 < beats.size(); ++b, ++many)
        for (std::size_t k = 0; k < bins; ++k)
            power[k] += std::pow(scene::rms_of(blow, beats[b] + 0.01 * static_cast<double>(k),
                                               beats[b] + 0.01 * static_cast<double>(k + 1)),
                                 2);
    REQUIRE(many > 100);
    const auto top = static_cast<std::size_t>(std::max_element(power.begin(), power.end()) - power.begin());
    std::size_t first = 0, last = top;
    while (power[first] < 0.01 * power[top]) ++first;                         // a tenth of its height
    while (last + 1 < bins && power[last + 1] > 0.0005 * power[top]) ++last;  // a fortieth
    CAPTURE(first, top, last);
    CHECK((first >= 10 && first <= 20));
    CHECK((top >= first + 5 && top <= first + 11));
    CHECK((last >= top + 18 && last <= top + 30));
}

// Vein: a steady hiss of 150 to 300 Hz; the artery of the cord beats above it, 200 to 700 Hz, without clicks.
TEST_CASE("Cord under a Doppler: between its blows a steady low hiss, 150-370 Hz, and nothing high",
          "[blows_and_ward]") {
    const Patient p = scene::quiet_labour();
    DopplerTone tone(p, seed);
    tone.start(1);
    const NoiseShapes shapes = tone.shapes(0);
    BeatQueue beats, none;
    beats.add({1'000'000, 7, BeatKind::normal, false}, 80);  // slow: 750 ms
    std::array<double, source_count> gain{};
    gain[static_cast<std::size_t>(Source::cord_souffle)] = 0.1;
    const auto low = static_cast<std::size_t>(Echo::artery_low),
               high = static_cast<std::size_t>(Echo::artery_high);
    double least = 1, most = 0, least_high = 1, most_high = 0, click = 0;
    for (std::int64_t us = 900'000; us < 1'700'000; us += sound_tick_us) {
        TickPlan plan;
        tone.plan(us, {{&beats, &none}, &none}, gain, 0, plan);
        double all = 0;  // of everything the plan lets through: the receiver's gain falls out of a share
        for (std::size_t lane = 0; lane < lane_count; ++lane)
            all += static_cast<double>(plan.noise_gain[lane]) / shapes.unit[lane];
        const double of_low = static_cast<double>(plan.noise_gain[low]) / shapes.unit[low] / all,
                     of_high = static_cast<double>(plan.noise_gain[high]) / shapes.unit[high] / all;
        least = std::min(least, of_low);
        most = std::max(most, of_low);
        least_high = std::min(least_high, of_high);
        most_high = std::max(most_high, of_high);
        click = std::max(click, 1 - of_low - of_high);
    }
    CHECK(least > 0.6);
    CHECK(most == Approx(1));
    CHECK(least_high == 0);
    CHECK((most_high > 0.2 && most_high < 0.4));
    CHECK(click < 1e-6);
    double within = 0, all = 0;
    for (double hz = 2; hz < 4'000; hz += 2) {
        const double now = power_at(shapes.filters[low][0], hz) * power_at(shapes.filters[low][1], hz);
        all += now;
        within += hz >= 150 && hz <= 370 ? now : 0;
    }
    CHECK(within > 0.45 * all);
}

// Centre 200 -> 900 -> 300 Hz, rise 60 ms, decay 250 ms, at her rate [memory].
TEST_CASE(
    "Artery under a Doppler: its middle runs from under 350 over 900 (within 60) to under 350 Hz, 60 beats",
    "[blows_and_ward]") {
    Patient p = bare(58.3);
    p.surroundings.vessel = {0};
    auto l = std::make_unique<Listening>(p, seed, OutputMode::true_sound);
    scene::place(*l, Instrument::doppler, p.surroundings.vessel_x.value, p.surroundings.vessel_y.value);
    const auto sound = scene::heard(*l, 64);
    std::vector<double> x;
    for (std::size_t i = 0; i < sound.size(); i += scene::thin) x.push_back(static_cast<double>(sound[i]));
    const auto beats = her_beats(p, 64);
    std::vector<double> middle, height;
    for (int k = 0; k < 20; ++k) {  // each 20 ms from 80 ms after the beat on
        double power = 0, sum = 0;
        for (std::size_t b = 3; b + 2 < beats.size(); ++b)
            for (double hz = 100; hz <= 1'500; hz += 50) {
                const double now = power_at_hz(x, beats[b] + 0.08 + 0.02 * k, hz);
                power += now;
                sum += now * hz;
            }
        middle.push_back(sum / power);
        height.push_back(power);
    }
    const double top = *std::max_element(height.begin(), height.end());
    std::size_t first = 0, last = height.size() - 1;
    while (height[first] < 0.004 * top) ++first;
    while (height[last] < 0.004 * top) --last;
    const auto highest =
        static_cast<std::size_t>(std::max_element(middle.begin() + static_cast<std::ptrdiff_t>(first),
                                                  middle.begin() + static_cast<std::ptrdiff_t>(last)) -
                                 middle.begin());
    CAPTURE(first, highest, last, middle, height);
    CHECK(middle[first] < 350);
    CHECK(middle[highest] == Approx(900).margin(60));
    CHECK(middle[last] < 350);
    CHECK((highest > first && highest < last));
    CHECK(
        (0.02 * static_cast<double>(last - first) > 0.2 && 0.02 * static_cast<double>(last - first) < 0.36));
}

// Monitors and a trolley, under the ward's own level.
TEST_CASE("Ward: far beeps at 880 Hz come in fours 0.75 s apart, in a third of the spells of 16 s",
          "[blows_and_ward]") {
    Patient with = bare(84), without = with;
    with.surroundings.ward = {-6};
    const auto ward = scene::added(with, without, 640);
    std::vector<double> starts;
    double before = 0, highest = 0;
    for (double t = 0.1; t < 639.8; t += 0.02) {
        const double here = power_at_hz(ward, t, 880),
                     beside = 0.5 * (power_at_hz(ward, t, 780) + power_at_hz(ward, t, 980));
        highest = std::max(highest, here);
        const bool beep = here > 12 * beside && here > 0.3 * highest;
        if (beep && t - before > 0.2) starts.push_back(t);
        if (beep) before = t;
    }
    int fours = 0;
    for (std::size_t i = 0; i + 3 < starts.size(); ++i)
        fours += starts[i + 1] - starts[i] == Approx(0.75).margin(0.045) &&
                 starts[i + 2] - starts[i] == Approx(1.5).margin(0.045) &&
                 starts[i + 3] - starts[i] == Approx(2.25).margin(0.045);
    CAPTURE(starts.size(), fours);
    CHECK((fours >= 6 && fours <= 23));  // 40 spells, 0.35: 14 within three standard deviations
    CHECK(starts.size() <= 8 * static_cast<std::size_t>(fours));  // half of them at least
}

TEST_CASE("Ward: a trolley makes it 3 dB louder in the middle of its 6 s than spells without one are",
          "[blows_and_ward]") {
    Patient with = bare(84), without = with;
    with.surroundings.ward = {-6};
    const auto ward = scene::added(with, without, 960);
    double passing = 0, else_where = 0;
    int trolleys = 0, others = 0;
    for (std::uint64_t spell = 0; spell < 60; ++spell) {
        const double start = 16 * static_cast<double>(spell);
        if (uniform(seed, Stream::ward, spell, 42) < 0.3) {  // the dice that send one
            const double from = start + 0.25 * std::floor(36 * uniform(seed, Stream::ward, spell, 43));
            passing += std::pow(scene::rms_of(ward, from + 2, from + 4.5), 2);
            ++trolleys;
        } else {
            else_where += std::pow(scene::rms_of(ward, start, start + 16), 2);
            ++others;
        }
    }
    REQUIRE((trolleys >= 8 && others >= 30));
    CHECK(10 * std::log10(passing / trolleys / (else_where / others)) > 3);
}

// Crackles of 5 ms in the friction [practice]. A difference of samples 1/6 ms apart lets their 500 to 1,000
// Hz stand out.
TEST_CASE("Horn shifted by 1 cm: where it crackles the high part is 2 dB louder for 5 ms, not 15 ms on",
          "[blows_and_ward]") {
    constexpr int moves = 120;
    const auto shifted = [](Listening& l) {
        for (int i = 0; i < moves; ++i) {
            Change c = scene::change(Change::Kind::move, 1 + 0.4 * i);
            c.x_cm = i % 2 == 0 ? 7 : 6;
            c.y_cm = -7;
            l.apply(c);
        }
    };
    const Patient p = bare(84);
    const auto x = scene::thinned(p, 50, shifted);
    const auto steep = [&](double from_s) {
        double sum = 0;
        const auto first = static_cast<std::size_t>(from_s * scene::thin_rate);
        for (std::size_t n = first + 1; n < first + 30; ++n) sum += (x[n] - x[n - 1]) * (x[n] - x[n - 1]);
        return sum;
    };
    double at_once[2] = {0, 0}, later[2] = {0, 0};
    int many[2] = {0, 0};
    for (int i = 1; i < moves; ++i) {
        const double at = 1 + 0.4 * i;
        const auto tick = static_cast<std::uint64_t>(std::llround(at * 500));
        const auto u = [&](std::uint32_t draw) { return uniform(seed, Stream::friction, tick, draw); };
        const int crackles = u(40) < 0.4;  // the dice that make one, and when
        const double starts = at + 0.002 + 0.01 * u(42) + 0.001;
        at_once[crackles] += steep(starts);
        later[crackles] += steep(starts + 0.015);
        ++many[crackles];
    }
    REQUIRE((many[0] > 40 && many[1] > 25));
    const auto louder = [&](const double* sum) {
        return 10 * std::log10(sum[1] / many[1] / (sum[0] / many[0]));
    };
    CHECK(louder(at_once) > 2);
    CHECK(louder(later) == Approx(0).margin(1.5));
}
