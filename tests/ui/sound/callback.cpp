#include "ui/sound/callback.h"

#include "tests/ui/sound/a_labour.h"
#include "tests/ui/sound/counted.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <mutex>

using counted::allocations;

namespace {

using Kind = sim::Change::Kind;

std::vector<float> filled(ui::Callback& callback, int frames, int block = 512) {
    std::vector<float> stereo(2 * static_cast<std::size_t>(frames));
    for (int at = 0; at < frames; at += block)
        callback.fill(stereo.data() + 2 * at, std::min(block, frames - at), 0);
    return stereo;
}

float loudest(const std::vector<float>& stereo) {
    float most = 0;
    for (const float sample : stereo) most = std::max(most, std::fabs(sample));
    return most;
}

}  // namespace

TEST_CASE("the counter of allocations counts: one vector is one", "[callback]") {
    const long before = allocations;
    const std::vector<int> one(100);
    CHECK(one.size() == 100);
    CHECK(allocations == before + 1);
}

#ifndef COUNTED_BY_SANITISER
TEST_CASE("the counter of locks counts: one mutex taken is one", "[callback]") {
    std::mutex one;
    const long before = counted::locks;
    one.lock();
    one.unlock();
    CHECK(counted::locks == before + 1);
}
#endif

// All that a hand can do: instruments, places, press, tilt, gel, hands, positions, acts, modes, skips.
TEST_CASE(
    "10 min of sound, 20 changes a second of every kind: not one allocation, not one lock in the callback",
    "[callback]") {
    ui::Callback callback;
    callback.begin(*a_labour::listening(), {});
    REQUIRE(callback.send(a_labour::take(sim::Instrument::horn, 0)));
    REQUIRE(callback.send(a_labour::place(6, -7, 0)));
    std::vector<float> block(1024);
    long allocated = 0, locked = 0, applied = 0, sent = 2;
    float loudest_one = 0;
    for (int n = 0; n < 600 * 48'000 / 512; ++n) {
        if (n % 5 == 0) {
            sim::Change change = a_labour::anything(n / 5, 0);
            if (change.kind == Kind::skip) change.skip_to_us = callback.rendered().us + 5'000'000;
            sent += callback.send(change);
        }
        if (n % 1000 == 500) callback.set_volume(static_cast<float>(n % 7) / 7);
        if (n % 10'000 == 7000) callback.pause(true);
        if (n % 10'000 == 7010) callback.pause(false);
        if (n % 20'000 == 9000) callback.set_mode(sim::OutputMode::assisted);
        const long before = allocations, locks_before = counted::locks;
        callback.fill(block.data(), 512, n);
        allocated += allocations - before;
        locked += counted::locks - locks_before;
        loudest_one = std::max(loudest_one, loudest(block));
        while (callback.applied()) ++applied;
    }
    CHECK(allocated == 0);
    CHECK(locked == 0);
    CHECK(sent > 10'000);
    CHECK(applied == sent);
    CHECK(callback.rendered().us > 590'000'000);
    CHECK(loudest_one > 0.05f);
}

// Safe start: at most -20 dBFS RMS over any second, whatever is done in the loudest labour there may be.
TEST_CASE("at the starting volume no second is louder than -20 dBFS RMS, whatever is done", "[callback]") {
    for (const auto mode :
         {sim::OutputMode::true_sound, sim::OutputMode::assisted, sim::OutputMode::shifted}) {
        ui::Callback callback;
        sim::Patient loud = a_labour::patient();
        loud.babies[0].movements_per_10min = 40;
        loud.surroundings.ward = {0};
        loud.surroundings.knocks_per_min = 10;
        loud.surroundings.bowel_per_min = 20;
        loud.surroundings.souffle = loud.surroundings.vessel = {0};
        callback.begin(*std::make_unique<sim::Listening>(loud, sim::Seed{3}, mode), a_labour::script(20));
        double most = 0;
        for (int second = 0; second < 20; ++second) {
            const std::vector<float> stereo = filled(callback, 48'000);
            double power = 0;
            for (const float s : stereo)
                power += static_cast<double>(s * s) / static_cast<double>(stereo.size());
            most = std::max(most, std::sqrt(power));
        }
        CHECK(most <= 0.1);
        CHECK(most > 0.005);
    }
}

TEST_CASE("handing over 20 labours one after another allocates and frees nothing in the callback",
          "[callback]") {
    ui::Callback callback;
    std::vector<float> block(1024);
    long inside = 0;
    for (int n = 0; n < 20; ++n) {
        callback.begin(*a_labour::listening(static_cast<std::uint64_t>(n)), a_labour::script(4));
        if (n % 4 == 3) callback.stop();
        for (int k = 0; k < 10; ++k) {
            const long before = allocations;
            callback.fill(block.data(), 512, 0);
            inside += allocations - before;
        }
    }
    CHECK(inside == 0);
}

TEST_CASE("blocks of 512, 256, 64, 101 and 1000 frames give the same 6 s of samples", "[callback]") {
    std::vector<float> first;
    for (const int block : {512, 256, 64, 101, 1000}) {
        ui::Callback callback;
        callback.begin(*a_labour::listening(), a_labour::script(6));
        const std::vector<float> sound = filled(callback, 6 * 48'000, block);
        if (first.empty()) {
            first = sound;
            CHECK(loudest(first) > 0.0001f);
        }
        INFO("block of " << block);
        CHECK(sound == first);
    }
}

// The listening alone, given each change one sample before its tick, is the reference.
TEST_CASE("through the callback a change takes effect at the same tick as in the listening itself",
          "[callback]") {
    const std::vector<sim::Change> script = a_labour::script(5);
    ui::Callback callback;
    callback.set_volume(1);
    callback.begin(*a_labour::listening(), script);
    (void)filled(callback, 1024);  // the fade and the volume have settled long before the instrument is on
    const std::vector<float> stereo = filled(callback, 5 * 48'000 - 1024);

    auto alone = a_labour::listening();
    std::vector<float> mono(5 * 48'000);
    std::size_t at = 0;
    for (const sim::Change& change : script) {
        const auto tick = static_cast<std::size_t>((change.at_us + 1999) / 2000 * 96);
        alone->render(std::span(mono).subspan(at, tick - at));
        at = tick;
        CHECK(alone->apply(change).at_us == static_cast<std::int64_t>(tick) / 96 * 2000);
    }
    alone->render(std::span(mono).subspan(at));
    std::size_t different = 0;
    for (std::size_t n = 5000; n < mono.size(); ++n)
        if (std::fabs(stereo[2 * (n - 1024)] - mono[n] * ui::Callback::cap) > 1e-6f) ++different;
    CHECK(different == 0);
}

TEST_CASE("a sent change comes back with its ticket and the tick at which it took effect", "[callback]") {
    ui::Callback callback;
    callback.begin(*a_labour::listening(), {});
    (void)filled(callback, 4800);  // 100 ms
    sim::Change late = a_labour::take(sim::Instrument::horn, 0), ahead = a_labour::place(6, -7, 150'001);
    late.ticket = 11;
    ahead.ticket = 12;
    REQUIRE(callback.send(late));
    REQUIRE(callback.send(ahead));
    (void)filled(callback, 512);
    auto back = callback.applied();
    REQUIRE(back);
    CHECK(back->ticket == 11);
    CHECK(back->at_us == 100'000);
    CHECK_FALSE(callback.applied());
    (void)filled(callback, 4800);
    back = callback.applied();
    REQUIRE(back);
    CHECK(back->ticket == 12);
    CHECK(back->at_us == 152'000);
}

TEST_CASE("256 changes at once are all applied and come back, the 257th is refused", "[callback]") {
    ui::Callback callback;
    callback.begin(*a_labour::listening(), {});
    (void)filled(callback, 512);
    for (int n = 0; n < 256; ++n) REQUIRE(callback.send(a_labour::moving(n, 0)));
    CHECK_FALSE(callback.send(a_labour::moving(256, 0)));
    (void)filled(callback, 4800, 100);
    int back = 0;
    std::int64_t last = 0;
    while (const auto change = callback.applied()) {
        CHECK(change->at_us >= last);
        last = change->at_us;
        ++back;
    }
    CHECK(back == 256);
}

TEST_CASE("nobody reads what was applied: after 1,024 changes the next wait unapplied and none is lost",
          "[callback]") {
    ui::Callback callback;
    callback.begin(*a_labour::listening(), {});
    int sent = 0;
    for (int n = 0; n < 1300; ++n) {
        sent += callback.send(a_labour::moving(n, 0));
        (void)filled(callback, 256);
    }
    CHECK(sent == 1024 + 256);
    int back = 0;
    for (int rounds = 0; rounds < 20; ++rounds) {
        while (callback.applied()) ++back;
        (void)filled(callback, 4800);
    }
    CHECK(back == sent);
}

TEST_CASE("paused, labour time stands still within 10 ms and goes on where it was", "[callback]") {
    ui::Callback callback;
    callback.begin(*a_labour::listening(), a_labour::script(4));
    (void)filled(callback, 2 * 48'000);
    CHECK(callback.rendered().us == 2'000'000);
    callback.pause(true);
    (void)filled(callback, 480);
    const std::int64_t stood = callback.rendered().us;
    CHECK(stood == 2'005'000);  // 240 samples to fade
    CHECK(loudest(filled(callback, 48'000)) == 0);
    CHECK(callback.rendered().us == stood);
    callback.pause(false);
    (void)filled(callback, 4800);
    CHECK(callback.rendered().us == stood + 100'000);
    callback.hold_still(true);  // the device is gone: the same
    (void)filled(callback, 4800);
    CHECK(callback.rendered().us == stood + 105'000);
}

TEST_CASE("at full volume no sample passes -6 dBFS, both ears get the same, and nothing jumps at a stop",
          "[callback]") {
    ui::Callback callback;
    callback.set_volume(5);  // more than there is
    callback.begin(*a_labour::listening(), a_labour::script(8));
    std::vector<float> sound = filled(callback, 8 * 48'000);
    callback.stop();
    const std::vector<float> tail = filled(callback, 480);
    sound.insert(sound.end(), tail.begin(), tail.end());
    CHECK(loudest(sound) <= 0.50119f);  // 10^(-6/20)
    float ears = 0, jump = 0;
    for (std::size_t n = 0; n + 3 < sound.size(); n += 2) {
        ears = std::max(ears, std::fabs(sound[n] - sound[n + 1]));
        jump = std::max(jump, std::fabs(sound[n + 2] - sound[n]));
    }
    CHECK(ears == 0);
    CHECK(jump < 0.05f);
    CHECK(sound.back() == 0);
    CHECK(loudest(filled(callback, 4800)) == 0);
}

TEST_CASE("what is heard lags what is rendered by the device's delay, never passes it and never goes back",
          "[callback]") {
    ui::Callback callback;
    callback.begin(*a_labour::listening(), {});
    std::vector<float> block(1024);
    constexpr std::int64_t delay_us = 21'333;
    CHECK(callback.heard(0, delay_us).us == 0);
    for (int n = 0; n < 10; ++n) callback.fill(block.data(), 480, 1'000'000'000 + 10'000'000LL * n);
    CHECK(callback.rendered().us == 100'000);
    const std::int64_t last_ns = 1'090'000'000;
    CHECK(callback.heard(last_ns, delay_us).us == 100'000 - 21'333);
    CHECK(callback.heard(last_ns + 5'000'000, delay_us).us == 105'000 - 21'333);
    CHECK(callback.heard(last_ns + 1'000'000, delay_us).us == 105'000 - 21'333);
    CHECK(callback.heard(last_ns + 900'000'000, delay_us).us == 100'000);  // a callback is overdue
}

TEST_CASE("changes meant for the labour before are dropped when another begins", "[callback]") {
    ui::Callback callback;
    callback.begin(*a_labour::listening(), {});
    (void)filled(callback, 512);
    REQUIRE(callback.send(a_labour::take(sim::Instrument::horn, 0)));
    callback.begin(*a_labour::listening(2), {});
    sim::Change mine = a_labour::take(sim::Instrument::bell, 0);
    mine.ticket = 5;
    REQUIRE(callback.send(mine));
    CHECK(callback.rendered().us == 0);
    (void)filled(callback, 1024);
    const auto back = callback.applied();
    REQUIRE(back);
    CHECK(back->ticket == 5);
    CHECK_FALSE(callback.applied());
}

TEST_CASE("a labour begun from a copy at 3 s goes on from 3 s with the rest of its script", "[callback]") {
    const std::vector<sim::Change> script = a_labour::script(6);
    ui::Callback whole;
    whole.begin(*a_labour::listening(), script);
    const std::vector<float> all = filled(whole, 6 * 48'000);

    auto listening = a_labour::listening();
    std::vector<float> scrap(3 * 48'000);
    std::size_t at = 0;
    for (const sim::Change& change : script) {
        if (change.at_us >= 3'000'000) break;
        const auto tick = static_cast<std::size_t>((change.at_us + 1999) / 2000 * 96);
        listening->render(std::span(scrap).subspan(at, tick - at));
        at = tick;
        listening->apply(change);
    }
    listening->render(std::span(scrap).subspan(at));
    ui::Callback part;
    part.begin(*listening, script);
    const std::vector<float> rest = filled(part, 3 * 48'000);
    CHECK(part.rendered().us == 6'000'000);
    std::size_t different = 0;
    for (std::size_t n = 2 * 4800; n < rest.size(); ++n)  // after fade and volume have come up
        if (rest[n] != all[n + 2 * 3 * 48'000]) ++different;
    CHECK(different == 0);
}
