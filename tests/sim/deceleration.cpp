#include "sim/course/deceleration.h"

#include "sim/course/course.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace sim;

namespace {

// Contractions like a clock, the first at 120 s, so that one slowing can be looked at alone.
Patient woman() {
    Patient p;
    Baby b;
    b.baseline = {142.4};
    b.drift = {0};
    b.variability = Variability::quiet;  // no rises of its own
    p.babies.add(b);
    p.labour.irregular = 0;
    p.labour.contractions_per_10min = 2.5;
    p.labour.first_contraction = {120};
    return p;
}

// What the events alone do to the rate: the same chance with and without them.
std::vector<double> effect(const Patient& p, std::uint64_t seed, double length_s) {
    Patient without = p;
    without.babies[0].events.size = 0;
    const auto with_events = course_over(p, Seed{seed}, {}, {length_s});
    const auto plain = course_over(without, Seed{seed}, {}, {length_s});
    std::vector<double> difference;
    for (std::size_t k = 0; k < plain.size(); ++k)
        difference.push_back(with_events[k].fhr_bpm[0] - plain[k].fhr_bpm[0]);
    return difference;
}

struct Dip {
    double depth = 0, onset_s = -1, nadir_s = 0,
           back_s = 0;  // onset, back: 1 bpm; nadir: nine tenths of depth first
};

Dip dip_between(const std::vector<double>& effect, double from_s, double to_s, double back_level = 1) {
    Dip dip;
    const auto first = static_cast<std::size_t>(from_s * 4), last = static_cast<std::size_t>(to_s * 4);
    for (std::size_t k = first; k < last && k < effect.size(); ++k) {
        const double t = static_cast<double>(k) * 0.25;
        if (-effect[k] > dip.depth) {
            dip.depth = -effect[k];
            dip.nadir_s = t;
        }
        if (dip.onset_s < 0 && effect[k] < -1) dip.onset_s = t;
        if (effect[k] < -back_level) dip.back_s = t;
    }
    return dip;
}

BabyEvent event(BabyEvent::Kind kind, double depth) {
    BabyEvent e;
    e.kind = kind;
    e.depth = {depth};
    return e;
}

}  // namespace

TEST_CASE(
    "late slowing of the published constants: nadir 27 s after the peak, 30 s from onset, about 73 s in all",
    "[deceleration]") {
    // Threshold 20 mmHg, delay 8 s, lag 10 s on 45 mmHg with widths 20 and 28 s: 27 / 30 / 73 s; delay 15,
    // lag 12: 36 / 32 / 81 s; no threshold, no delay, lag 3: nadir 7 s after the peak [computed].
    const ContractionShape usual{45, 20, 28};
    const auto a = LateShape{20, 8, 10, 1}.dip(usual, 0.08);
    CHECK(a.nadir_s == Approx(27).margin(1.5));
    CHECK(a.nadir_s - a.onset_s == Approx(30).margin(3));
    CHECK(a.back_s - a.onset_s == Approx(73).margin(8));
    const auto b = LateShape{20, 15, 12, 1}.dip(usual, 0.08);
    CHECK(b.nadir_s == Approx(36).margin(2));
    CHECK(b.nadir_s - b.onset_s == Approx(32).margin(3));
    CHECK(LateShape{0, 0, 3, 1}.dip(usual, 0.08).nadir_s == Approx(7).margin(1.5));
    // Share of the full drive that is reached: 0.62 to 0.98 for such values [computed].
    CHECK((a.peak > 0.62 && a.peak < 0.98));
}

TEST_CASE("late: true depth, nadir after the peak, gradual, back when the author said within 5 s",
          "[deceleration]") {
    // Gradual = 30 s or more from onset to nadir, nadir after the peak (NICHD 2008).
    const double wombs[][2] = {{30, 44}, {45, 60}, {70, 80}};  // mmHg, felt for s
    for (double depth : {19.0, 28.0, 40.0})
        for (double back_after : {5.0, 20.0, 30.0, 45.0, 70.0}) {
            for (const auto& womb : wombs) {
                Patient p = woman();
                p.labour.strength = {womb[0]};
                p.labour.contraction_length = {womb[1]};
                BabyEvent e = event(BabyEvent::Kind::late, depth);
                e.back_after = {back_after};
                p.babies[0].events.add(e);
                const auto course = course_over(p, Seed{3}, {}, {350});
                const auto change = effect(p, 3, 350);
                INFO("depth " << depth << ", back after " << back_after << ", womb " << womb[0]);
                const Dip dip = dip_between(change, 50, 320, 5);
                CHECK(dip.depth == Approx(depth).epsilon(0.03));
                CHECK(dip.nadir_s > 120);
                // A short weak contraction that must be over within 5 s leaves no room for 30 s.
                if (womb[1] > 44 || back_after > 5) CHECK(dip.nadir_s - dip.onset_s >= 29.5);
                double felt_until = 0;
                for (std::size_t k = 0; k < 1000; ++k)
                    if (course[k].in_contraction) felt_until = static_cast<double>(k) * 0.25;
                CHECK(dip.back_s - felt_until == Approx(back_after).margin(5));
            }
        }
}

TEST_CASE("early: mirrors the contraction, nadir with the peak within 5 s, gradual, back at its end",
          "[deceleration]") {
    // Onset, nadir and recovery with beginning, peak and end; onset to nadir 30 s or more (NICHD 2008); 2 to
    // 5 s behind the pressure [practice].
    Patient p = woman();
    p.babies[0].events.add(event(BabyEvent::Kind::early, 18));
    const Dip dip = dip_between(effect(p, 5, 300), 60, 220);
    CHECK(dip.depth == Approx(18).margin(0.3));
    CHECK(std::fabs(dip.nadir_s - 120) <= 5);
    CHECK(dip.nadir_s - dip.onset_s >= 30);
    CHECK(dip_between(effect(p, 5, 300), 60, 220, 5).back_s < 120 + 33.7 + 5);
}

TEST_CASE("variable: down in under 30 s, at least 15 bpm for 15 s, under two minutes, true depth and length",
          "[deceleration]") {
    // NICHD 2008: abrupt, onset to nadir under 30 s; 15 bpm or more, 15 s or more, less than 2 min.
    for (std::uint64_t s = 1; s <= 8; ++s) {
        Patient p = woman();
        BabyEvent e = event(BabyEvent::Kind::variable, 50);
        e.length = {35};
        p.babies[0].events.add(e);
        const auto change = effect(p, s, 300);
        const Dip dip = dip_between(change, 60, 240);
        // Half as much again of the middle swing while it holds: 0.3 bpm rms here.
        CHECK(dip.depth == Approx(50).margin(1.2));
        CHECK(dip.nadir_s - dip.onset_s < 30);
        CHECK(dip.back_s - dip.onset_s == Approx(35).margin(3));
        int under = 0;
        for (double d : change) under += d < -15;
        CHECK(under * 0.25 >= 15);
    }
}

TEST_CASE("prolonged: two minutes or more under by 15 bpm, back within 5 bpm when its length is over",
          "[deceleration]") {
    // NICHD 2008: 2 to 10 min.
    Patient p = woman();
    BabyEvent e = event(BabyEvent::Kind::prolonged, 55);
    e.by = BabyEvent::Brought_on_by::time;
    e.at = {200};
    e.length = {240};
    p.babies[0].events.add(e);
    const auto change = effect(p, 4, 700);
    const Dip dip = dip_between(change, 0, 700, 5);
    CHECK(dip.depth == Approx(55).margin(1));
    CHECK(dip.onset_s == Approx(200).margin(5));
    CHECK(dip.back_s == Approx(440).margin(3));
    int under = 0;
    for (double d : change) under += d < -15;
    CHECK(under * 0.25 >= 120);
}

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

TEST_CASE("one contraction in three answered with `every`, and about four in ten with a share of 0.4",
          "[deceleration]") {
    Patient p = woman();
    BabyEvent e = event(BabyEvent::Kind::late, 30);
    e.every = 3;
    p.babies[0].events.add(e);
    const auto change = effect(p, 2, 240 * 9 + 200);
    for (int n = 0; n < 9; ++n) {
        const double depth = dip_between(change, 60 + n * 240, 290 + n * 240).depth;
        if ((n + 1) % 3 == 0)
            CHECK(depth > 28);
        else
            CHECK(depth < 0.5);
    }
    p.babies[0].events[0].every = 1;
    p.babies[0].events[0].share = 0.4;
    int answered = 0, all = 0;
    for (std::uint64_t s = 1; s <= 6; ++s) {
        const auto some = effect(p, s, 240 * 14 + 200);
        for (int n = 0; n < 14; ++n, ++all)
            answered += dip_between(some, 60 + n * 240, 290 + n * 240).depth > 15;
    }
    CHECK(static_cast<double>(answered) / all == Approx(0.4).margin(0.16));  // three standard errors
}

TEST_CASE("events keep to their time: nothing before `from`, nothing after `until`", "[deceleration]") {
    Patient p = woman();
    BabyEvent e = event(BabyEvent::Kind::late, 30);
    e.from = {500};
    e.until = {1200};
    p.babies[0].events.add(e);
    const auto change = effect(p, 2, 2400);
    CHECK(dip_between(change, 0, 500).depth < 0.01);
    CHECK(dip_between(change, 600, 800).depth > 28);
    CHECK(dip_between(change, 1400, 2400).depth < 0.5);
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

TEST_CASE("no event makes the rate jump: under 4.5 bpm in a quarter of a second, shoulders and all",
          "[deceleration]") {
    // The steepest is 50 bpm over 5 s by a raised cosine: pi / 2 x 50 / 5 x 0.25 = 3.9 bpm.
    for (BabyEvent::Kind kind : {BabyEvent::Kind::acceleration, BabyEvent::Kind::early, BabyEvent::Kind::late,
                                 BabyEvent::Kind::variable, BabyEvent::Kind::prolonged})
        for (BabyEvent::Brought_on_by by :
             {BabyEvent::Brought_on_by::contraction, BabyEvent::Brought_on_by::movement,
              BabyEvent::Brought_on_by::time}) {
            Patient p = woman();
            BabyEvent e = event(kind, 50);
            e.by = by;
            e.length = {60};
            e.at = {90};
            p.babies[0].events.add(e);
            double steepest = 0;
            for (std::uint64_t s = 1; s <= 6; ++s) {
                const auto change = effect(p, s, 1200);
                for (std::size_t k = 1; k < change.size(); ++k)
                    steepest = std::max(steepest, std::fabs(change[k] - change[k - 1]));
            }
            INFO("kind " << static_cast<int>(kind) << " by " << static_cast<int>(by));
            CHECK(steepest < 4.5);
            CHECK(steepest > 0.1);
        }
}

TEST_CASE(
    "variable slowings with shoulders of 10 bpm: 10 before and 10 after, 10 to 20 s each; without, none",
    "[deceleration]") {
    // 5 to 15 bpm for 10 to 20 s before and after [practice].
    for (BabyEvent::Brought_on_by by : {BabyEvent::Brought_on_by::contraction,
                                        BabyEvent::Brought_on_by::movement, BabyEvent::Brought_on_by::time})
        for (std::uint64_t s = 1; s <= 6; ++s) {
            Patient p = woman();
            p.labour.contractions_per_10min = 1;
            p.babies[0].movements_per_10min = 1;
            p.babies[0].events.add(event(BabyEvent::Kind::variable, 50));
            p.babies[0].events[0].length = {40};
            p.babies[0].events[0].by = by;
            p.babies[0].events[0].at = {100};
            const auto none = effect(p, s, 1500);
            p.babies[0].events[0].shoulders = {10};
            const auto change = effect(p, s, 1500);
            CHECK(*std::max_element(none.begin(), none.end()) < 0.5);
            std::size_t k = 0;
            while (k < change.size() && change[k] > -40) ++k;
            REQUIRE(k < change.size());
            const auto fall = change.begin() + static_cast<std::ptrdiff_t>(k);
            const auto most = [&](auto from, auto to) { return *std::max_element(from, to); };
            INFO("by " << static_cast<int>(by) << " seed " << s);
            CHECK(most(fall - 160, fall) == Approx(10).margin(0.6));
            CHECK(most(fall, fall + 240) == Approx(10).margin(0.6));
            const auto over = [](double d) { return d > 0.2; };
            const double before_s = 0.25 * static_cast<double>(std::count_if(fall - 160, fall, over));
            CHECK((before_s >= 8.5 && before_s <= 20));
        }
}
