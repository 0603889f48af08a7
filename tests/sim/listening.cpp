#include "sim/listening.h"

#include "tests/sim/scene.h"

#include <catch2/catch.hpp>

#include <array>
#include <memory>

using namespace sim;
using Kind = Change::Kind;

namespace {

std::unique_ptr<Listening> listening(const Patient& p, OutputMode mode = OutputMode::true_sound,
                                     Seed seed = {7}) {
    return std::make_unique<Listening>(p, seed, mode);
}

// A scene with everything in it, whose changes fall inside blocks of any size.
void busy_script(Listening& l) {
    scene::place(l, Instrument::horn, 2, -4, 0.1003);
    for (int i = 0; i < 12; ++i) {
        Change move = scene::change(Kind::move, 0.5 + 0.0171 * i);
        move.x_cm = 2 + 0.3 * i;
        move.y_cm = -4 - 0.2 * i;
        l.apply(move);
    }
    Change press = scene::change(Kind::press, 1.23456);
    press.press_n = 3;
    l.apply(press);
    Change hand = scene::change(Kind::hand, 1.5);
    hand.on = On::instrument;
    l.apply(hand);
    l.apply(scene::change(Kind::lift, 1.9));
    Change act = scene::change(Kind::act, 1.95);
    act.act = Act::off_her_back;
    l.apply(act);
    scene::place(l, Instrument::doppler, 6, -7, 2.0);
    Change tilt = scene::change(Kind::tilt, 2.4);
    tilt.tilt_deg = 15;
    l.apply(tilt);
    scene::place(l, Instrument::bell, 6, -7, 2.8);
}

Patient busy_labour() {
    Patient p;
    p.babies.add(Baby{});
    Baby second;
    second.spot_given = true;
    second.spot_x = {-5};
    second.spot_y = {6};
    p.babies.add(second);
    p.surroundings.cord_souffle = {-12};
    p.surroundings.bowel_per_min = 20;
    p.surroundings.ward = {-6};
    return p;
}

}  // namespace

// Acceptance list of the sound (own requirement): the same samples whatever the block.
TEST_CASE("Blocks of 1, 64, 511 and 4096 samples: the same 3.5 s bit for bit, with changes inside blocks",
          "[listening]") {
    for (OutputMode mode : {OutputMode::true_sound, OutputMode::assisted, OutputMode::shifted}) {
        std::vector<float> first;
        for (std::size_t block : {1u, 64u, 511u, 4096u}) {
            auto l = listening(busy_labour(), mode);
            busy_script(*l);
            const std::vector<float> now = scene::heard(*l, 3.5, block);
            if (first.empty()) first = now;
            REQUIRE(scene::peak(now) > 0.05);
            REQUIRE(now == first);
        }
    }
}

TEST_CASE("Two modes give two sounds, and another seed a third", "[listening]") {
    const auto sound = [](OutputMode mode, Seed seed) {
        auto l = listening(busy_labour(), mode, seed);
        busy_script(*l);
        return scene::heard(*l, 1.5);
    };
    const auto plain = sound(OutputMode::true_sound, {7});
    REQUIRE(plain != sound(OutputMode::assisted, {7}));
    REQUIRE(plain != sound(OutputMode::shifted, {7}));
    REQUIRE(plain != sound(OutputMode::true_sound, {8}));
}

TEST_CASE("A copy taken in the middle of a block plays on exactly as the original", "[listening]") {
    auto l = listening(busy_labour());
    busy_script(*l);
    scene::heard(*l, 1.0013);
    auto copy = std::make_unique<Listening>(*l);
    REQUIRE(scene::heard(*l, 2) == scene::heard(*copy, 2, 77));
}

TEST_CASE("A change is stamped with the next whole 2 ms tick not before it, a late one with the next tick",
          "[listening]") {
    auto l = listening(scene::quiet_labour());
    REQUIRE(l->apply(scene::change(Kind::gel, 0.0031)).at_us == 4'000);
    REQUIRE(l->apply(scene::change(Kind::gel, 0.006)).at_us == 6'000);
    std::array<float, 480> block{};
    l->render(block);  // 10 ms
    REQUIRE(l->now().us == 10'000);
    REQUIRE(l->apply(scene::change(Kind::gel, 0.004)).at_us == 10'000);
    l->render(std::span(block).first(1));
    REQUIRE(l->apply(scene::change(Kind::gel, 0.0)).at_us == 12'000);
}

TEST_CASE("Nothing placed: silence to the last bit, while her heart and the baby's go on", "[listening]") {
    auto l = listening(scene::quiet_labour());
    REQUIRE(scene::peak(scene::heard(*l, 10)) == 0);
    REQUIRE(l->now().us == 10'000'000);
    REQUIRE(l->last_maternal_beat().us > 8'500'000);
    REQUIRE(l->last_maternal_beat().us <= 10'000'000);
    REQUIRE(l->body().fhr_bpm[0] > 100);
}

TEST_CASE("The body is the course: after 20 s with an act the same ticks as the course alone",
          "[listening]") {
    Patient p = busy_labour();
    p.cause.trouble = Trouble::lying_flat;
    p.cause.at = {5};
    p.cause.falls_to = {90};
    auto l = listening(p);
    Change act = scene::change(Kind::act, 9.3);
    act.act = Act::off_her_back;
    const Change stamped = l->apply(act);
    const auto course = course_over(p, {7}, std::span(&stamped, 1), {25});
    for (int k = 0; k < 80; ++k) {
        scene::heard(*l, 0.25);
        REQUIRE(l->body().fhr_bpm[0] == course[static_cast<std::size_t>(k)].fhr_bpm[0]);
        REQUIRE(l->body().mhr_bpm == course[static_cast<std::size_t>(k)].mhr_bpm);
    }
}

TEST_CASE("Skipping 15 min takes under 0.1 s of silence and then sounds as if one had waited",
          "[listening]") {
    auto skipped = listening(busy_labour());
    Change skip = scene::change(Kind::skip, 0.5);
    skip.skip_to_us = 900'123'000;
    skipped->apply(skip);
    scene::heard(*skipped, 0.5);
    int ticks = 0;
    std::array<float, 96> tick{};
    while (skipped->now().us < 900'124'000 && ticks < 60) {
        skipped->render(tick);
        REQUIRE(scene::peak(tick) == 0);
        ++ticks;
    }
    REQUIRE(skipped->now().us == 900'124'000);
    REQUIRE(ticks < 50);

    auto waited = std::make_unique<Listening>(busy_labour(), Seed{7}, OutputMode::true_sound);
    scene::heard(*waited, 900.124, 48'000);
    REQUIRE(waited->now().us == 900'124'000);
    scene::place(*skipped, Instrument::horn, 6, -7, 901);
    scene::place(*waited, Instrument::horn, 6, -7, 901);
    const auto a = scene::heard(*skipped, 2), b = scene::heard(*waited, 2);
    REQUIRE(scene::peak(a) > 0.05);
    REQUIRE(a == b);
}

// Both have had the probe in hand before: what it remembers of aim and loss must not differ either.
TEST_CASE(
    "Skipped to or waited for, 24 moments of a restless labour sound alike through horn and Doppler, bit for "
    "bit",
    "[listening]") {
    Patient p = busy_labour();
    p.babies[0].movements_per_10min = 40;
    p.surroundings.knocks_per_min = 6;
    auto waiting = listening(p), skipping = listening(p);
    for (Listening* l : {waiting.get(), skipping.get()}) {
        scene::place(*l, Instrument::doppler, 6, -7, 0.1);
        l->apply(scene::change(Kind::lift, 3));
        scene::heard(*l, 4);
    }
    for (int i = 0; i < 24; ++i) {
        const double from = static_cast<double>(waiting->now().us) * 1e-6, to = from + 3 + 7.377 * (i % 5);
        const std::int64_t to_us = static_cast<std::int64_t>(to * 500) * 2'000;
        Change skip = scene::change(Kind::skip, from);
        skip.skip_to_us = to_us;
        skipping->apply(skip);
        float sample = 0;
        while (skipping->now().us < to_us) skipping->render({&sample, 1});
        while (waiting->now().us < to_us) waiting->render({&sample, 1});
        REQUIRE(skipping->now().us == waiting->now().us);
        const double at = static_cast<double>(to_us) * 1e-6;
        for (Listening* l : {waiting.get(), skipping.get()}) {
            scene::place(*l, i % 3 == 0 ? Instrument::horn : Instrument::doppler, 6, -7, at);
            l->apply(scene::change(Kind::lift, at + 2));
        }
        const auto a = scene::heard(*waiting, 2.5), b = scene::heard(*skipping, 2.5, 77);
        CAPTURE(i, at);
        REQUIRE(scene::peak(a) > 0.01);
        REQUIRE(a == b);
    }
}

// No jump above 0.05 of full scale; peak at or below -1 dBFS (own requirement for a clean and safe sound).
TEST_CASE(
    "Placing, dragging, pressing, lifting, changing instrument: no step above 0.05, nothing above -1 dBFS",
    "[listening]") {
    for (OutputMode mode : {OutputMode::true_sound, OutputMode::assisted, OutputMode::shifted})
        for (Ladder ladder : {Ladder::easy, Ladder::very_hard}) {
            Patient p = busy_labour();
            p.surroundings.ladder = ladder;
            p.babies[0].movements_per_10min = 40;
            auto l = listening(p, mode);
            busy_script(*l);
            const auto sound = scene::heard(*l, 8);
            CAPTURE(static_cast<int>(mode), static_cast<int>(ladder));
            CHECK(scene::largest_step(sound) <= 0.05);
            CHECK(scene::peak(sound) <= 0.8913);
            CHECK(scene::peak(sound) > 0.05);
        }
}

TEST_CASE("Lifting fades over 10 ms and is silent 14 ms after", "[listening]") {
    auto l = listening(busy_labour());
    scene::place(*l, Instrument::horn, 6, -7);
    l->apply(scene::change(Kind::lift, 2.0));
    scene::heard(*l, 2.0);
    const auto after = scene::heard(*l, 0.1);
    REQUIRE(scene::peak(std::span(after).first(240)) > 0);
    REQUIRE(scene::peak(std::span(after).subspan(672)) == 0);
}
