// Clean and safe whatever a hand does: no step above 0.05 of full scale from sample to sample, nothing above
// -1 dBFS (own requirement, sound acceptance list).
#include "sim/listening.h"

#include "tests/sim/scene.h"

#include <catch2/catch.hpp>
#include <rapidcheck.h>

#include <memory>
#include <sstream>

using namespace sim;
using Kind = Change::Kind;

namespace {

constexpr double loudest_allowed = 0.8913;  // -1 dBFS

Patient loud_labour() {
    Patient p;
    p.babies.add(Baby{});
    p.babies[0].movements_per_10min = 40;
    p.surroundings.cord_souffle = {-8};
    p.surroundings.souffle = {0};
    p.surroundings.vessel = {0};
    p.surroundings.bowel_per_min = 20;
    p.surroundings.knocks_per_min = 10;
    p.surroundings.ward = {0};
    return p;
}

// What a hand can do, each with figures drawn from `n`.
Change anything(int n, double at_s) {
    const auto part = [n](int of, int step) { return static_cast<double>((n * step) % of) / of; };
    Change c = scene::change(static_cast<Kind>((n * 7) % 12), at_s);
    c.x_cm = -15 + std::round(3'000 * part(97, 31)) / 100;
    c.y_cm = -17 + std::round(3'600 * part(89, 17)) / 100;
    if (n % 3 == 0) c.x_cm = 6, c.y_cm = -7;
    c.press_n = static_cast<float>(std::round(2'500 * part(13, 5)) / 100);
    c.tilt_deg = static_cast<float>(std::round(400 * part(11, 3)) / 10);
    c.instrument = static_cast<Instrument>(1 + n % 4);
    c.hand = static_cast<Hand>(n % 2);
    c.on = static_cast<On>(n % 4);
    c.position = static_cast<Position>(n % 8);
    c.act = static_cast<Act>(n % static_cast<int>(Act::count_));
    c.mode = static_cast<OutputMode>((n / 5) % 3);
    c.gel = n % 5 != 0;
    c.skip_to_us = c.at_us + 1'000'000 * (n % 40);
    return c;
}

// `order`: which of the orders of changes.
void check_all_controls(Ladder ladder, Seed seed, int order) {
    Patient p = loud_labour();
    p.surroundings.ladder = ladder;
    auto l = std::make_unique<Listening>(p, seed, OutputMode::true_sound);
    float last = 0;
    double step = 0, peak = 0;
    int heard_blocks = 0;
    for (int n = 0; n < 30 * 20; ++n) {
        // A change each 20 to 100 ms, and after a lift or a take the instrument comes back.
        const double now = static_cast<double>(l->now().us) * 1e-6;
        Change c = anything(n + 601 * order, now + 0.0013);
        if (c.kind == Kind::skip && n % 24 != 0) c.kind = Kind::move;
        if (n % 4 == 1) c.kind = Kind::place, c.press_n = 6;
        if (l->hold().instrument == Instrument::none) c.kind = Kind::take;
        l->apply(c);
        const auto block = scene::heard(*l, n % 5 == 4 ? 0.4 : 0.02 + 0.02 * (n % 3));
        for (const float sample : block) {
            const double now_step = std::fabs(static_cast<double>(sample) - static_cast<double>(last));
            if (now_step > step) step = now_step;
            last = sample;
        }
        peak = std::max(peak, scene::peak(block));
        heard_blocks += scene::peak(block) > 0.01;
    }
    CAPTURE(static_cast<int>(ladder), seed.value, order);
    CHECK(step <= 0.05);
    CHECK(peak <= loudest_allowed);
    CHECK(heard_blocks > 300);
}

}  // namespace

TEST_CASE(
    "All controls in any order for 60 s: instruments, places, press, tilt, hands, gel, modes, skips; no step "
    "over 0.05",
    "[no_steep_step]") {
    for (Ladder ladder : {Ladder::easy, Ladder::very_hard}) check_all_controls(ladder, {8}, 0);
}

TEST_CASE("All controls for 60 s in 50 orders over 50 seeds, easy and very hard: no step over 0.05",
          "[no_steep_step][.slow]") {
    for (int order = 1; order <= 50; ++order)
        for (Ladder ladder : {Ladder::easy, Ladder::very_hard})
            check_all_controls(ladder, {static_cast<std::uint64_t>(order) * 7919}, order);
}

TEST_CASE("A skip while listening fades out over 10 ms and comes back from silence", "[no_steep_step]") {
    auto l = std::make_unique<Listening>(loud_labour(), Seed{8}, OutputMode::true_sound);
    scene::place(*l, Instrument::horn, 6, -7);
    Change skip = scene::change(Kind::skip, 1.0);
    skip.skip_to_us = 400'000'000;
    l->apply(skip);
    scene::heard(*l, 1.0);
    const auto around = scene::heard(*l, 0.5);
    CHECK(scene::peak(std::span(around).first(240)) > 0);
    CHECK(scene::largest_step(around) <= 0.05);
    CHECK(scene::peak(std::span(around).last(9'600)) > 0.02);  // placed still, so it sounds again
    CHECK(l->now().us > 400'000'000);
}

namespace {

// Any labour a scenario file may describe, any order of changes.
void check_any_labour(int renders) {
    const auto holds = [](const Patient& p, Seed seed, const std::vector<Change>& changes, OutputMode mode) {
        auto l = std::make_unique<Listening>(p, seed, mode);
        scene::place(*l, changes.empty() ? Instrument::horn : static_cast<Instrument>(1 + changes.size() % 4),
                     6, -7);
        float last = 0;
        for (const Change& change : changes) {
            Change c = change;
            c.at_us += l->now().us;
            c.skip_to_us += c.at_us;
            l->apply(c);
            for (const float sample : scene::heard(*l, 0.06)) {
                RC_ASSERT(std::isfinite(sample));
                RC_ASSERT(std::fabs(sample) <= static_cast<float>(loudest_allowed));
                RC_ASSERT(std::fabs(sample - last) <= 0.05f);
                last = sample;
            }
        }
    };
    const auto tenth = [](int from, int to) {
        return rc::gen::map(rc::gen::inRange(10 * from, 10 * to + 1), [](int v) { return v / 10.0; });
    };
    const auto one = [&] {
        Patient p;
        const int babies = *rc::gen::inRange(1, 3);
        p.gestation_weeks = *tenth(34, 42);
        for (int b = 0; b < babies; ++b) {
            Baby baby;
            baby.heart_beats = *rc::gen::weightedElement<bool>({{5, true}, {1, false}});
            baby.baseline = {*tenth(50, 240)};
            baby.variability = static_cast<Variability>(*rc::gen::inRange(0, 6));
            baby.rise = {*tenth(0, 40)};
            baby.sinusoid = {*tenth(0, 15)};
            baby.rhythm.early_beat = *rc::gen::inRange(0, 21) / 100.0;
            baby.rhythm.dropped_beat = *rc::gen::inRange(0, 21) / 100.0;
            baby.rhythm.silent_beat = *rc::gen::inRange(0, 6) / 100.0;
            baby.rhythm.drop_every = *rc::gen::inRange(0, 5);
            baby.presentation = static_cast<Presentation>(*rc::gen::inRange(0, 3));
            baby.back = static_cast<Back>(*rc::gen::inRange(0, 8));
            baby.depth = {*tenth(4, 12)};
            baby.systole_offset_ms = *tenth(210, 270);
            baby.movements_per_10min = *tenth(0, 40);
            baby.beam_meets = static_cast<BeamMeets>(*rc::gen::inRange(0, 2));
            p.babies.add(baby);
        }
        p.mother.pulse = {*tenth(40, 180)};
        p.mother.fat = {*tenth(1, 8)};
        p.mother.extra_fluid_cm = *tenth(0, 4);
        p.labour.contractions_per_10min = *tenth(0, 9);
        p.labour.strength = {*tenth(15, 100)};
        p.labour.first_contraction = {*tenth(0, 20)};
        p.labour.pushing = *rc::gen::arbitrary<bool>();
        Surroundings& s = p.surroundings;
        s.ladder = static_cast<Ladder>(*rc::gen::inRange(0, 4));
        s.ward = {*tenth(-60, 0)};
        s.souffle = {*tenth(-60, 0)};
        s.vessel = {*tenth(-60, 0)};
        s.cord_souffle = {*tenth(-60, 0)};
        s.bowel_per_min = *tenth(0, 20);
        s.knocks_per_min = *tenth(0, 10);
        s.doppler_mhz = *tenth(1, 3);
        std::vector<Change> changes;
        const int many = *rc::gen::inRange(4, 12);
        for (int i = 0; i < many; ++i) changes.push_back(anything(*rc::gen::inRange(0, 100'000), 0.003));
        holds(p, {*rc::gen::inRange<std::uint64_t>(0, Seed::largest)}, changes,
              static_cast<OutputMode>(*rc::gen::inRange(0, 3)));
    };
    rc::detail::TestParams params = rc::detail::configuration().testParams;
    params.maxSuccess = renders;
    const auto result = rc::detail::checkTestable(one, rc::detail::TestMetadata{}, params);
    std::ostringstream told;
    rc::detail::printResultMessage(result, told);
    INFO(told.str());
    CHECK(result.is<rc::detail::SuccessResult>());
}

}  // namespace

TEST_CASE("Any labour, any controls: 100 renders are finite, within -1 dBFS, without a step above 0.05",
          "[no_steep_step]") {
    check_any_labour(100);
}

TEST_CASE("Any labour, any controls: 3,000 renders are finite, within -1 dBFS, without a step above 0.05",
          "[no_steep_step][.slow]") {
    check_any_labour(3'000);
}
