#include "ui/sound/timed_ring.h"

#include "ui/sound/latest_value.h"

#include <catch2/catch.hpp>

#include <cstdint>
#include <thread>

TEST_CASE("a ring of 4 holds 4, refuses the 5th, and gives them back in order", "[ring]") {
    ui::TimedRing<int, 4> ring;
    CHECK(ring.front() == nullptr);
    for (int n = 1; n <= 4; ++n) CHECK(ring.push(n));
    CHECK(ring.full());
    CHECK_FALSE(ring.push(5));
    for (int n = 1; n <= 4; ++n) {
        REQUIRE(ring.front() != nullptr);
        CHECK(*ring.front() == n);
        ring.pop();
    }
    CHECK(ring.front() == nullptr);
    CHECK_FALSE(ring.full());
}

TEST_CASE("a ring of 8 passes 100,000 entries between two threads, none lost, none twice", "[ring]") {
    struct Entry {
        std::int64_t n, check;
    };
    ui::TimedRing<Entry, 8> ring;
    constexpr std::int64_t many = 100'000;
    std::thread producer([&] {
        for (std::int64_t n = 0; n < many;)
            if (ring.push({n, ~n}))
                ++n;
            else
                std::this_thread::yield();
    });
    std::int64_t wrong = 0;
    for (std::int64_t n = 0; n < many;) {
        const Entry* entry = ring.front();
        if (entry == nullptr) {
            std::this_thread::yield();
            continue;
        }
        if (entry->n != n || entry->check != ~n) ++wrong;
        ring.pop();
        ++n;
    }
    producer.join();
    CHECK(wrong == 0);
    CHECK(ring.front() == nullptr);
}

TEST_CASE("the newest of 100,000 values is read whole and never an older one after a newer", "[ring]") {
    struct Pair {
        std::int64_t a = 0, b = 0;
    };
    ui::LatestValue<Pair> latest;
    CHECK(latest.read().a == 0);
    std::thread writer([&] {
        for (std::int64_t n = 1; n <= 100'000; ++n) latest.write({n, -n});
    });
    std::int64_t last = 0, torn = 0, back = 0;
    while (last < 100'000) {
        const Pair now = latest.read();
        if (now.a != -now.b) ++torn;
        if (now.a < last) ++back;
        last = now.a;
    }
    writer.join();
    CHECK(torn == 0);
    CHECK(back == 0);
}
