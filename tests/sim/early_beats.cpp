// Early, blocked and silent beats: where they fall, how early, and that no rhythm breaks the limits of a
// heart.
#include "sim/beats/beat_train.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <rapidcheck.h>

using namespace sim;

namespace {

Patient woman(const Rhythm& rhythm) {
    Patient p;
    p.babies.add(Baby{});
    p.babies[0].rhythm = rhythm;
    return p;
}

std::vector<CourseTick> steady(double bpm, double length_s) {
    std::vector<CourseTick> course(static_cast<std::size_t>(length_s * 4) + 1);
    for (CourseTick& tick : course) tick.fhr_bpm[0] = bpm;
    return course;
}

std::vector<Beat> train_of(const Rhythm& rhythm, double bpm, double length_s, std::uint64_t seed = 5) {
    return beats_over(woman(rhythm), Seed{seed}, Who::fetal, steady(bpm, length_s));
}

// From beat i to the next in intervals of the rate.
double after(const std::vector<Beat>& train, std::size_t i, double bpm) {
    return static_cast<double>(train[i + 1].at_us - train[i].at_us) / 1e6 * bpm / 60;
}

}  // namespace

TEST_CASE("in pairs: every second beat at 0.55 to 0.75 of an interval, the next after 1.0 to 1.3",
          "[rhythm]") {
    // Conducted early beats, bigeminy [memory].
    Rhythm r;
    r.early_every = 2;
    const auto train = train_of(r, 138, 300);
    for (std::size_t i = 2; i + 1 < train.size(); ++i) {
        CHECK((train[i].kind == BeatKind::ectopic) == (i % 2 == 1));
        const double wait = after(train, i - 1, 138);
        if (i % 2 == 1)
            CHECK((wait >= 0.5499 && wait <= 0.7501));
        else
            CHECK((wait >= 0.9999 && wait <= 1.3001));
    }
}

TEST_CASE("in threes: one early beat in three, always nearly as early", "[rhythm]") {
    Rhythm r;
    r.early_every = 3;
    const auto train = train_of(r, 138, 300);
    double least = 2, most = 0;
    for (std::size_t i = 2; i + 1 < train.size(); ++i) {
        CHECK((train[i].kind == BeatKind::ectopic) == (i % 3 == 2));
        if (i % 3 != 2) continue;
        least = std::min(least, after(train, i - 1, 138));
        most = std::max(most, after(train, i - 1, 138));
    }
    CHECK(most - least < 0.021);  // fixed coupling [practice]
}

TEST_CASE("from a lower chamber: at 0.6 to 0.8, and the full pause makes two intervals of both", "[rhythm]") {
    // Ventricular early beat: 0.6 to 0.8 of an interval, both together two [memory].
    for (const std::int32_t every : {0, 4}) {
        Rhythm r;
        r.from_chamber = true;
        r.early_every = every;
        r.early_beat = every == 0 ? 0.08 : 0;
        const auto train = train_of(r, 140, 600);
        int early = 0;
        for (std::size_t i = 1; i + 1 < train.size(); ++i) {
            if (train[i].kind != BeatKind::ectopic) continue;
            ++early;
            CHECK((after(train, i - 1, 140) >= 0.5999 && after(train, i - 1, 140) <= 0.8001));
            CHECK(after(train, i - 1, 140) + after(train, i, 140) == Approx(2).margin(1e-4));
        }
        CHECK(early > 60);
        // The full pause keeps the heart in step: as many beats as without them.
        CHECK(std::abs(static_cast<double>(train.size()) - 1400) <= 2);
    }
}

TEST_CASE("every second beat blocked at 132, 144 and 158 bpm: regular, 65 to 80 a minute", "[rhythm]") {
    // Blocked atrial bigeminy: regular 65 to 80 bpm [memory].
    for (const double bpm : {132.0, 144.0, 158.0}) {
        Rhythm r;
        r.drop_every = 2;
        const auto train = train_of(r, bpm, 300);
        std::int64_t last = -1;
        for (const Beat& b : train) {
            if (b.kind == BeatKind::dropped) continue;
            if (last >= 0) {
                const double heard = 60e6 / static_cast<double>(b.at_us - last);
                CHECK((heard > 65 && heard < 80));
                CHECK(heard == Approx(bpm / 2).margin(0.01));
            }
            last = b.at_us;
        }
    }
}

TEST_CASE("silent beats: 4 in 100, they happened, count, and move no other beat", "[rhythm]") {
    Rhythm r;
    r.silent_beat = 0.04;
    const auto plain = train_of({}, 140, 1200), some = train_of(r, 140, 1200);
    REQUIRE(plain.size() == some.size());
    double silent = 0;
    for (std::size_t i = 0; i < some.size(); ++i) {
        CHECK(some[i].at_us == plain[i].at_us);
        CHECK_FALSE(plain[i].silent);
        silent += some[i].silent;
    }
    CHECK(beats_between(some, {0}, {1'200'000'000}) == static_cast<std::int64_t>(plain.size()));
    // 2,800 beats: 112 expected, standard error 10.4; three of them.
    CHECK(silent == Approx(112).margin(31));
}

TEST_CASE("a rate that falls from 60 to 31 within one blocked beat's pause: still no pause over 2 s",
          "[rhythm]") {
    Rhythm r;
    r.dropped_beat = 0.5;
    int pauses_at_the_limit = 0;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        auto course = steady(60, 40);
        for (std::size_t k = 0; k < course.size(); ++k)
            course[k].fhr_bpm[0] = std::max(31.0, 60 - 40 * std::fmod(static_cast<double>(k) / 4, 8.0));
        std::int64_t last_us = -1;
        for (const Beat& beat : beats_over(woman(r), Seed{seed}, Who::fetal, course)) {
            if (beat.kind == BeatKind::dropped) continue;
            if (last_us >= 0) {
                CHECK(beat.at_us - last_us <= 2'000'001);
                pauses_at_the_limit += beat.at_us - last_us == 2'000'000;
            }
            last_us = beat.at_us;
        }
    }
    CHECK(pauses_at_the_limit > 0);
}

TEST_CASE("any rhythm at any rate: beats ascend, none closer than 300 a minute nor further than 30",
          "[rhythm]") {
    CHECK(rc::check([] {
        Rhythm r;
        r.early_beat = *rc::gen::inRange(0, 21) * 0.01;
        r.dropped_beat = *rc::gen::inRange(0, 21) * 0.01;
        r.drop_every = *rc::gen::inRange(0, 51);
        r.early_every = *rc::gen::inRange(0, 51);
        if (*rc::gen::arbitrary<bool>()) r.drop_every = *rc::gen::inRange(0, 4);
        if (*rc::gen::arbitrary<bool>()) r.early_every = *rc::gen::inRange(0, 4);
        r.from_chamber = *rc::gen::arbitrary<bool>();
        r.silent_beat = *rc::gen::inRange(0, 6) * 0.01;
        const double bpm = *rc::gen::inRange(36, 281);
        std::int64_t last = -1;
        for (const Beat& b : train_of(r, bpm, 120, *rc::gen::inRange<std::uint64_t>(0, 1000))) {
            RC_ASSERT(!(b.kind == BeatKind::dropped && b.silent));
            if (b.kind == BeatKind::dropped) continue;
            if (last >= 0) {
                RC_ASSERT(b.at_us - last >= 199'999);
                RC_ASSERT(b.at_us - last <= 2'000'001);
            }
            last = b.at_us;
        }
    }));
}
