// Taps laid on beats. Expected distances and pairs: computed outside in Python, and agreeing with an
// independent fast implementation of the metric (the open-source Elephant library) on every row and on 300
// random trains.
#include "engine/scoring/tap_alignment.h"

#include <catch2/catch.hpp>
#include <rapidcheck.h>

#include <algorithm>
#include <vector>

using namespace engine;

namespace {

using Times = std::vector<std::int64_t>;

const Times six_beats = {0, 430'000, 860'000, 1'290'000, 1'720'000, 2'150'000};
constexpr std::int64_t k_10 = 200'000;  // k = 10 a second: reach 2 / k

// The recurrence as it is printed, cell by cell: no band, no savings.
std::int64_t printed_recurrence(const Times& beats, const Times& taps, std::int64_t shift,
                                std::int64_t reach) {
    std::vector<Times> d(beats.size() + 1, Times(taps.size() + 1));
    for (std::size_t i = 0; i <= beats.size(); ++i)
        for (std::size_t j = 0; j <= taps.size(); ++j) {
            if (i == 0 || j == 0) {
                d[i][j] = static_cast<std::int64_t>(i + j) * reach;
                continue;
            }
            const std::int64_t off = taps[j - 1] - shift - beats[i - 1];
            d[i][j] = std::min(
                {d[i - 1][j - 1] + 2 * (off < 0 ? -off : off), d[i - 1][j] + reach, d[i][j - 1] + reach});
        }
    return d.back().back();
}

Times random_times(int most, int least_gap_us) {
    Times times;
    std::int64_t t = *rc::gen::inRange(0, 500'000);
    const int n = *rc::gen::inRange(0, most);
    for (int i = 0; i < n; ++i) {
        times.push_back(t);
        t += *rc::gen::inRange(least_gap_us, 900'000);
    }
    return times;
}

}  // namespace

TEST_CASE("Six beats at 0.43 s, lag 0.05: distance, missed and extra of the worked rows", "[taps]") {
    struct Row {
        Times taps;
        double distance;
        std::vector<std::size_t> missed, extra;
        std::int64_t lag = 50'000;
    };
    for (const Row& row : {
             Row{{50'000, 480'000, 910'000, 1'340'000, 1'770'000, 2'200'000}, 0, {}, {}},
             Row{{50'000, 500'000, 900'000, 1'780'000, 2'220'000}, 1.6, {3}, {}},
             Row{{40'000, 260'000, 490'000, 920'000, 1'330'000, 1'780'000, 2'190'000}, 1.6, {}, {1}},
             Row{{900'000, 920'000}, 6.1, {0, 1, 3, 4, 5}, {0}},
             Row{{}, 6, {0, 1, 2, 3, 4, 5}, {}},
             Row{{50'000, 500'000, 900'000, 1'780'000, 2'220'000}, 3.9, {3}, {}, 0},
         }) {
        CAPTURE(row.taps, row.lag);
        const TapAlignment a = align_taps(six_beats, row.taps, row.lag, k_10);
        CHECK(a.distance() == Approx(row.distance).margin(1e-12));
        CHECK(a.missed == row.missed);
        CHECK(a.extra == row.extra);
        CHECK(a.caught.size() + a.missed.size() == six_beats.size());
    }
}

TEST_CASE("Searching the lag of the second row finds 0.060 s and distance 1.5", "[taps]") {
    const Times taps = {50'000, 500'000, 900'000, 1'780'000, 2'220'000};
    const TapAlignment a = align_taps(six_beats, taps, k_10);
    CHECK(a.shift_us == 60'000);
    CHECK(a.distance() == Approx(1.5).margin(1e-12));
    CHECK(a.missed == std::vector<std::size_t>{3});
}

TEST_CASE("A tap 0.2 s from the only beat is its, one 0.2001 s away is not; both cost 2", "[taps]") {
    const Times beat = {200'000}, at_reach = {400'000}, beyond = {400'100};
    CHECK(align_taps(beat, at_reach, 0, k_10).distance() == 2);
    CHECK(align_taps(beat, at_reach, 0, k_10).caught.size() == 1);
    CHECK(align_taps(beat, beyond, 0, k_10).distance() == 2);
    CHECK(align_taps(beat, beyond, 0, k_10).caught.empty());
}

TEST_CASE("No beats: every tap is extra; nothing at all: distance 0", "[taps]") {
    const Times taps = {0, 300'000, 700'000};
    CHECK(align_taps({}, taps, 0, k_10).distance() == 3);
    CHECK(align_taps({}, taps, 0, k_10).extra.size() == 3);
    CHECK(align_taps(Times{}, Times{}, k_10).distance() == 0);
}

TEST_CASE("The reach is 0.45 of the middle gap, at most 0.25 s; the lag is clipped to it", "[taps]") {
    CHECK(tap_reach_us(six_beats) == 193'500);                     // 0.45 x 0.43 s
    CHECK(tap_reach_us(Times{0, 700'000, 1'400'000}) == 250'000);  // 86 bpm: 0.315 s, held to 0.25
    CHECK(tap_reach_us(Times{0, 300'000, 700'000}) == 157'500);    // middle of 0.3 and 0.4 s
    CHECK(tap_reach_us(Times{5}) == 250'000);
    // 180 bpm: gaps of 0.333 s, so half a beat is 0.167 s; a lag of 0.18 s lies beyond 0.45 x 0.333 = 0.150 s
    // and reads as the next beat tapped early.
    Times fast, late;
    for (int i = 0; i < 30; ++i) fast.push_back(i * 333'333), late.push_back(i * 333'333 + 180'000);
    const TapAlignment a = align_taps(fast, late, tap_reach_us(fast));
    CHECK(a.shift_us >= -150'000);
    CHECK(a.shift_us <= 149'999);
}

TEST_CASE("Two taps under 60 ms apart are one press: the second is dropped", "[taps]") {
    CHECK(without_bounce(Times{0, 59'999, 60'000, 119'999, 400'000}) == Times{0, 60'000, 400'000});
    CHECK(without_bounce(Times{5, 5, 5}) == Times{5});
    CHECK(without_bounce(Times{}).empty());
}

TEST_CASE(
    "Any beats, any taps: the printed recurrence's distance; caught + missed = beats, caught + extra = taps",
    "[taps]") {
    const bool held = rc::check("pairs and distance", [] {
        const Times beats = random_times(40, 1), taps = random_times(40, 1);
        const std::int64_t reach = *rc::gen::inRange(1, 300'000),
                           shift = *rc::gen::inRange(-150'000, 200'000);
        const TapAlignment a = align_taps(beats, taps, shift, reach);
        RC_ASSERT(a.cost_us == printed_recurrence(beats, taps, shift, reach));
        RC_ASSERT(a.caught.size() + a.missed.size() == beats.size());
        RC_ASSERT(a.caught.size() + a.extra.size() == taps.size());
        // The pairs themselves cost what was said, in order, none beyond reach.
        std::int64_t cost = static_cast<std::int64_t>(a.missed.size() + a.extra.size()) * reach;
        for (std::size_t n = 0; n < a.caught.size(); ++n) {
            const std::int64_t off = taps[a.caught[n].tap] - shift - beats[a.caught[n].beat];
            RC_ASSERT((off < 0 ? -off : off) <= reach);
            cost += 2 * (off < 0 ? -off : off);
            if (n > 0)
                RC_ASSERT(a.caught[n].beat > a.caught[n - 1].beat && a.caught[n].tap > a.caught[n - 1].tap);
        }
        RC_ASSERT(cost == a.cost_us);
    });
    CHECK(held);
}

TEST_CASE("Any beats, any taps: no lag on the 5 ms grid agrees better than the one found", "[taps]") {
    const bool held = rc::check("best lag", [] {
        const Times beats = random_times(20, 200'000), taps = random_times(20, 60'000);
        const std::int64_t reach = tap_reach_us(beats);
        const TapAlignment a = align_taps(beats, taps, reach);
        for (std::int64_t lag = -150'000; lag <= 200'000; lag += 5'000) {
            const bool clipped = beats.size() > 1 && (lag < 0 ? -lag : lag) > reach && reach < 250'000;
            if (!clipped) RC_ASSERT(printed_recurrence(beats, taps, lag, reach) >= a.cost_us);
        }
    });
    CHECK(held);
}
