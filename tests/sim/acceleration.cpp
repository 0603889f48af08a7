// Rises of the rate: the author's own and those of a variability set, their shape and the movement they come
// with.
#include "sim/course/deceleration.h"

#include "tests/sim/effect_of_events.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace events;

TEST_CASE("acceleration: 15 bpm for 15 s from an author's 20 bpm and 40 s, up in under 30 s",
          "[deceleration]") {
    // NICHD 2008, 32 weeks or more.
    Patient p = woman();
    BabyEvent e = event(BabyEvent::Kind::acceleration, 20);
    e.by = BabyEvent::Brought_on_by::time;
    e.at = {100};
    e.length = {40};
    p.babies[0].events.add(e);
    const auto change = effect(p, 4, 200);
    double most = 0, top_s = 0, over = 0;
    for (std::size_t k = 0; k < change.size(); ++k) {
        if (change[k] > most + 1e-9) {
            most = change[k];
            top_s = static_cast<double>(k) * 0.25;
        }
        over += change[k] >= 15 ? 0.25 : 0;
        if (k < 400) CHECK(change[k] == 0);
    }
    CHECK(most == Approx(20).margin(0.1));
    CHECK(top_s - 100 < 30);
    CHECK(over >= 15);
    CHECK(change[4 * 141] == 0);
}

TEST_CASE("acceleration with a lead of 20 s: begins 20 s before each contraction can be felt",
          "[deceleration]") {
    Patient p = woman();
    BabyEvent e = event(BabyEvent::Kind::acceleration, 18);
    e.lead = {20};
    e.length = {30};
    p.babies[0].events.add(e);
    const auto course = course_over(p, Seed{2}, {}, {1500});
    const auto change = effect(p, 2, 1500);
    int seen = 0;
    for (std::size_t k = 1; k < course.size(); ++k) {
        if (!course[k].in_contraction || course[k - 1].in_contraction) continue;
        ++seen;
        CHECK(change[k - 4 * 16] > 0.2);
        CHECK(change[k - 4 * 21] == Approx(0).margin(0.01));
    }
    CHECK(seen >= 5);
}

TEST_CASE("rises that come with movement: the baby moves in the 6 s before each begins", "[deceleration]") {
    Patient p = woman();
    p.babies[0].movements_per_10min = 0;
    BabyEvent e = event(BabyEvent::Kind::acceleration, 20);
    e.by = BabyEvent::Brought_on_by::movement;
    e.rate_per_10min = {4};
    e.length = {30};
    p.babies[0].events.add(e);
    double rises = 0;
    for (std::uint64_t s = 1; s <= 4; ++s) {
        const auto course = course_over(p, Seed{s}, {}, {3600});
        const auto change = effect(p, s, 3600);
        for (std::size_t k = 40; k < change.size(); ++k) {
            if (change[k] <= 1e-6 || change[k - 1] > 1e-6) continue;
            ++rises;
            bool moved = false;
            for (std::size_t i = k - 26; i <= k; ++i) moved = moved || course[i].moving;
            CHECK(moved);
        }
    }
    CHECK(rises / 24 == Approx(4).epsilon(0.3));
}

TEST_CASE("movements come as often as the author said, six in ten minutes", "[deceleration]") {
    Patient p = woman();
    double bursts = 0;
    for (std::uint64_t s = 1; s <= 4; ++s) {
        const auto course = course_over(p, Seed{s}, {}, {3600});
        for (std::size_t k = 1; k < course.size(); ++k) bursts += course[k].moving && !course[k - 1].moving;
    }
    CHECK(bursts / 24 == Approx(6).epsilon(0.2));
}

TEST_CASE("acceleration: up by half a cosine in 0.3 of its length, there for 0.2, down in 0.5",
          "[acceleration]") {
    // A {c(t / 0.3 D); 1 for 0.2 D; c(1 - ...) over 0.5 D}, c(x) = (1 - cos(pi x)) / 2; A 15 to 25, D 20 to
    // 60 s [practice]; up in under 30 s (NICHD 2008).
    const auto c = [](double x) {
        return x <= 0 ? 0 : x >= 1 ? 1 : 0.5 - 0.5 * std::cos(3.14159265358979 * x);
    };
    for (const auto& [size, length] : {std::pair{15.0, 20.0}, {20.0, 40.0}, {25.0, 60.0}}) {
        Patient p = woman();
        BabyEvent e = event(BabyEvent::Kind::acceleration, size);
        e.by = BabyEvent::Brought_on_by::time;
        e.at = {100};
        e.length = {length};
        p.babies[0].events.add(e);
        const auto change = effect(p, 4, 200);
        for (std::size_t k = 0; k < change.size(); ++k) {
            const double t = static_cast<double>(k) * 0.25 - 100;
            CHECK(change[k] ==
                  Approx(size * c(t / (0.3 * length)) * (1 - c((t - 0.5 * length) / (0.5 * length))))
                      .margin(1e-6));
        }
    }
}

namespace {

struct Rises {
    double per_10min = 0, with_movement = 0, mean_bpm = 0;
};

// The rises a set makes by itself: the same baby with and without a trouble that moves no rate but lets none
// come.
Rises rises_of(Variability set, int seeds) {
    Patient p = woman();
    p.babies[0].variability = set;
    p.babies[0].movements_per_10min = 0;
    Patient ill = p;
    ill.cause.trouble = Trouble::unknown;
    ill.cause.at = {0};
    ill.cause.falls_to = p.babies[0].baseline;
    ill.cause.falls_over = {5};
    Rises all;
    double rises = 0, coupled = 0;
    for (int s = 1; s <= seeds; ++s) {
        const auto well = course_over(p, Seed{static_cast<std::uint64_t>(s)}, {}, {7200});
        const auto none = course_over(ill, Seed{static_cast<std::uint64_t>(s)}, {}, {7200});
        const auto more = [&](std::size_t k) { return well[k].fhr_bpm[0] - none[k].fhr_bpm[0]; };
        for (std::size_t k = 60; k < well.size(); ++k) {
            if (more(k) <= 1e-6 || more(k - 1) > 1e-6) continue;
            ++rises;
            bool moved = false;
            for (std::size_t i = k - 21; i <= k; ++i) moved = moved || well[i].moving;
            coupled += moved;
            double most = 0;
            for (std::size_t i = k; i < well.size() && more(i) > 1e-6; ++i) most = std::max(most, more(i));
            all.mean_bpm += most;
        }
    }
    all.per_10min = rises / seeds / 12;
    all.with_movement = coupled / rises;
    all.mean_bpm /= rises;
    return all;
}

}  // namespace

TEST_CASE("seven to nine in ten rises of a lively baby follow a movement by up to 5 s", "[acceleration]") {
    // 70 to 90 % within 0 to 5 s [practice].
    const Rises active = rises_of(Variability::active, 8);
    CHECK((active.with_movement > 0.7 && active.with_movement < 0.9));
    // 5 in ten minutes by the table; those that run into one another count once here.
    CHECK((active.per_10min > 3.5 && active.per_10min < 5.5));
    CHECK(active.mean_bpm == Approx(20).epsilon(0.2));
    const Rises labour = rises_of(Variability::labour, 8);
    CHECK(labour.per_10min == Approx(2).epsilon(0.2));
    CHECK(labour.mean_bpm == Approx(18).epsilon(0.15));
    CHECK((labour.with_movement > 0.65 && labour.with_movement < 0.95));
}
