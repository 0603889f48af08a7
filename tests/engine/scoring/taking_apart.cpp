// One count taken apart. Expected values: arithmetic tables of counting methods (step 60/T, a regular heart),
// and the worked case of a 15 s count with every kind of slip, computed by hand and in Python from the same
// beat list.
#include "engine/protocol/protocol.h"
#include "engine/scoring/breakdown.h"
#include "engine/scoring/steps.h"

#include <catch2/catch.hpp>
#include <rapidcheck.h>

#include <cmath>
#include <vector>

using namespace engine;

namespace {

sim::LabourTime at(double s) { return sim::labour_time(sim::Seconds{s}); }

// A regular heart, one beat at `first`, from well before to well after.
std::vector<sim::Beat> regular(double first_s, double bpm, int n = 400) {
    std::vector<sim::Beat> train;
    for (int i = -20; i < n; ++i)
        train.push_back(
            {sim::labour_time(sim::Seconds{first_s + i * 60.0 / bpm}).us, i + 20, sim::BeatKind::normal});
    return train;
}

double sum(const Breakdown& b) {
    return b.source + b.method + b.watch + b.fencepost + b.ear + b.tally + b.arithmetic + b.unexplained;
}

}  // namespace

// Beats at 0.10 + 0.43 i from the call; own window 0.60 to 15.20; one beat too few at the fence, one missed,
// 32 tapped, 33 counted, 130 written.
struct CaseA {
    std::vector<sim::Beat> train;
    CountMade made{at(20.60), at(35.20), 15, 33, 130, at(20.0)};
    CaseA() {
        for (int i = -20; i < 60; ++i)
            train.push_back({at(20 + 0.10 + 0.43 * i).us, i + 20, sim::BeatKind::normal});
    }
};

TEST_CASE("15 s x 4, every slip at once: +0.465 -4 -4 -4 +4 -2 make -9.535, in the order of cause",
          "[breakdown]") {
    // Readings 139.534884, 140, 136, 132, 128, 132, 130 [Python, from the beat list].
    CaseA a;
    a.made.taps = 32;
    a.made.fencepost_beats = -1;
    const Breakdown b = break_down(a.train, a.train, a.made);
    CHECK(b.true_bpm == Approx(139.534884).margin(0.0006));
    CHECK(b.method == Approx(0.465116).margin(0.0006));
    CHECK(b.watch == -4);
    CHECK(expected_watch_bpm(a.made, b.true_bpm) == Approx(-3.720930).margin(1e-5));  // [Python]
    CHECK(b.fencepost == -4);
    CHECK(b.ear == -4);
    CHECK(b.tally == 4);
    CHECK(b.arithmetic == -2);
    CHECK(b.reported_bpm == 130);
    CHECK(sum(b) == Approx(-9.534884).margin(0.0006));
    CHECK(terms_in_order == std::array<std::string_view, 8>{"source", "method", "watch", "fencepost", "ear",
                                                            "tally", "arithmetic", "unexplained"});
}

TEST_CASE(
    "The same count with taps and no more: fence and ear are one term of -8; without taps all three are -4",
    "[breakdown]") {
    CaseA a;
    a.made.taps = 32;
    const Breakdown tapped = break_down(a.train, a.train, a.made);
    CHECK(tapped.fencepost == 0);
    CHECK(tapped.ear == -8);
    CHECK(tapped.tally == 4);
    a.made.taps.reset();
    const Breakdown plain = break_down(a.train, a.train, a.made);
    CHECK(plain.ear == -4);
    CHECK(plain.tally == 0);
    CHECK(plain.arithmetic == -2);
    CHECK(sum(plain) == Approx(sum(tapped)).margin(1e-9));
}

TEST_CASE("Tapped and written, no count of beats: the ear stands by the taps, the rest is unexplained",
          "[breakdown]") {
    CaseA a;
    a.made.taps = 32;
    a.made.beats.reset();
    const Breakdown b = break_down(a.train, a.train, a.made);
    CHECK(b.ear == -8);
    CHECK(b.tally == 0);
    CHECK(b.arithmetic == 0);
    CHECK(b.unexplained == 2);  // 130 written, 32 x 4 tapped
}

TEST_CASE("A perfect count from a random moment: spread m sqrt(f(1 - f)), largest error m max(f, 1 - f)",
          "[breakdown]") {
    // Rate, window -> part of a beat left over, SD, largest error [R].
    struct Row {
        double rate, window, sd, largest;
    };
    for (const Row& row : {Row{142, 15, 2, 2}, Row{130, 10, 2.828427125, 4}, Row{138, 6, 4, 8},
                           Row{125, 30, 1, 1}, Row{137, 60, 0, 0}}) {
        CAPTURE(row.rate, row.window);
        const double gap = 60 / row.rate;
        double squares = 0, worst = 0, total = 0;
        constexpr int phases = 3000;
        for (int step = 0; step < phases; ++step) {
            const std::vector<sim::Beat> train = regular(100 + gap * (step + 0.5) / phases, row.rate);
            const int n = static_cast<int>(sim::beats_between(train, at(100), at(100 + row.window)));
            const double e =
                break_down(train, train, {at(100), at(100 + row.window), row.window, n, {}}).method;
            total += e;
            squares += e * e;
            worst = std::max(worst, std::fabs(e));
        }
        // Beats lie on whole microseconds, so a window that holds whole beats is off by a few millionths of
        // one.
        CHECK(total / phases == Approx(0).margin(0.01));
        CHECK(std::sqrt(squares / phases) == Approx(row.sd).margin(0.01));
        CHECK(worst == Approx(row.largest).margin(0.02));
    }
}

TEST_CASE("A perfect count of a regular heart is off by whole beats only: largest error per method",
          "[breakdown]") {
    // Signal arithmetic: rate, window -> largest error k x max(f, 1 - f); 0 when the window holds whole
    // beats.
    struct Row {
        double rate, window, largest;
    };
    for (const Row& row : {Row{142, 15, 2}, Row{130, 10, 4}, Row{138, 6, 8}, Row{125, 30, 1}, Row{137, 60, 0},
                           Row{100, 5, 8}, Row{110, 5, 10}, Row{150, 5, 6}, Row{110, 15, 2}, Row{120, 10, 0},
                           Row{160, 10, 4}, Row{140, 6, 0}}) {
        CAPTURE(row.rate, row.window);
        const double gap = 60 / row.rate;
        double worst = 0;
        for (int step = 0; step < 400; ++step) {
            const std::vector<sim::Beat> train = regular(100 + gap * (step + 0.5) / 400, row.rate);
            const int n = static_cast<int>(sim::beats_between(train, at(100), at(100 + row.window)));
            const CountMade made{at(100), at(100 + row.window), row.window, n, std::nullopt};
            const Breakdown b = break_down(train, train, made);
            CHECK(b.watch == 0);
            CHECK(b.ear == 0);
            CHECK(b.arithmetic == 0);
            worst = std::max(worst, std::fabs(b.method));
        }
        CHECK(worst == Approx(row.largest).margin(0.02));
    }
}

TEST_CASE("The step of a method is 60/T and its mean square error step/sqrt(6): 4.08 at 6 s, 1.63 at 15 s",
          "[breakdown]") {
    struct Row {
        double window, rms;
    };
    for (const Row& row : {Row{60, 0.41}, Row{30, 0.82}, Row{15, 1.63}, Row{12, 2.04}, Row{10, 2.45},
                           Row{6, 4.08}, Row{5, 4.90}}) {
        CAPTURE(row.window);
        double squares = 0;
        int n = 0;
        for (int r = 0; r < 60; ++r)
            for (int step = 0; step < 20; ++step) {
                // A spread of rates that covers every fraction of a beat evenly.
                const double rate = 120 + factor_of(row.window) * (r + 0.5) / 60, gap = 60 / rate;
                const std::vector<sim::Beat> train = regular(100 + gap * (step + 0.5) / 20, rate, 250);
                const int beats = static_cast<int>(sim::beats_between(train, at(100), at(100 + row.window)));
                const double e =
                    break_down(train, train, {at(100), at(100 + row.window), row.window, beats, {}}).method;
                squares += e * e;
                ++n;
            }
        CHECK(std::sqrt(squares / n) == Approx(row.rms).epsilon(0.03));
    }
}

TEST_CASE("W01 to W06: beats in a window times its factor", "[breakdown]") {  // [arithmetic]
    struct Row {
        int beats;
        double window, bpm;
    };
    for (const Row& row : {Row{14, 6, 140}, Row{11, 5, 132}, Row{34, 15, 136}, Row{68, 30, 136},
                           Row{23, 10, 138}, Row{137, 60, 137}, Row{8, 6, 80}})
        CHECK(row.beats * factor_of(row.window) == Approx(row.bpm));
}

TEST_CASE("W07 to W11: what a perfect short count of a rate can read, and how often",
          "[breakdown]") {  // [arithmetic]
    struct Row {
        double rate, window, low, high, share_high;
    };
    for (const Row& row :
         {Row{137, 6, 130, 140, 0.70}, Row{164, 6, 160, 170, 0.40}, Row{110, 15, 108, 112, 0.5},
          Row{158, 5, 156, 168, 0.167}, Row{107, 6, 100, 110, 0.70}}) {
        CAPTURE(row.rate, row.window);
        int high = 0;
        const int tries = 1000;
        for (int step = 0; step < tries; ++step) {
            const std::vector<sim::Beat> train =
                regular(100 + 60 / row.rate * (step + 0.5) / tries, row.rate, 60);
            const double reading =
                static_cast<double>(sim::beats_between(train, at(100), at(100 + row.window))) *
                factor_of(row.window);
            CHECK((reading == Approx(row.low) || reading == Approx(row.high)));
            if (reading > (row.low + row.high) / 2) ++high;
        }
        CHECK(static_cast<double>(high) / tries == Approx(row.share_high).margin(0.005));
    }
}

TEST_CASE("W59: one beat more at 150 is 1 bpm in 60 s, 4 in 15 s, 10 in 6 s, and all of it is the ear",
          "[breakdown]") {
    const std::vector<sim::Beat> train = regular(100.1, 150);
    for (double window : {60.0, 15.0, 6.0}) {
        const int n = static_cast<int>(sim::beats_between(train, at(100), at(100 + window)));
        const Breakdown b = break_down(train, train, {at(100), at(100 + window), window, n + 1, {}});
        CHECK(b.ear == factor_of(window));
        CHECK(b.watch == 0);
        CHECK(b.arithmetic == 0);
    }
}

TEST_CASE("Stopping 2 s early at 140 costs the watch four or five beats, and the ear nothing",
          "[breakdown]") {
    const std::vector<sim::Beat> train = regular(100.1, 140);
    const int n = static_cast<int>(sim::beats_between(train, at(100), at(158)));
    const Breakdown b = break_down(train, train, {at(100), at(158), 60, n, n});
    CHECK((b.watch == -4 || b.watch == -5));  // 2 s at 140 hold 4.67 beats [arithmetic]
    CHECK(b.ear == 0);
}

TEST_CASE("W60: 140 by a perfect 6 s counter is within 5 bpm always, 143 reads 150 in three of ten",
          "[breakdown]") {
    for (const auto& [rate, fails] : {std::pair{140.0, 0.0}, std::pair{143.0, 0.3}}) {  // [arithmetic]
        CAPTURE(rate);
        int off = 0;
        constexpr int phases = 1000;
        for (int step = 0; step < phases; ++step) {
            const std::vector<sim::Beat> train = regular(100 + 60 / rate * (step + 0.5) / phases, rate, 60);
            const double reading = static_cast<double>(sim::beats_between(train, at(100), at(106))) * 10;
            if (std::fabs(reading - rate) > 5) ++off;
        }
        CHECK(off / double{phases} == Approx(fails).margin(0.005));
    }
}

TEST_CASE("Arithmetic slips: 34 x 4 written 146 is other, 34 forgot to multiply, 68 wrong factor, 136 none",
          "[breakdown]") {
    CHECK(arithmetic_slip(34, 136, 4) == "");
    CHECK(arithmetic_slip(34, 146, 4) == "other");
    CHECK(arithmetic_slip(34, 34, 4) == "forgot to multiply");
    CHECK(arithmetic_slip(34, 68, 4) == "wrong factor");
    CHECK(arithmetic_slip(14, 280, 10) == "wrong factor");
    CHECK(arithmetic_slip(0, 140, 4) == "");
    CHECK(arithmetic_slip(139, 139, 1) == "");
    // Each wrong factor in the list; half a beat a minute is the last that still fits.
    for (double r : {2.0, 6.0, 10.0, 20.0, 60.0}) CHECK(arithmetic_slip(7, 7 * r, 4) == "wrong factor");
    CHECK(arithmetic_slip(23, 92, 6) == "wrong factor");
    CHECK(arithmetic_slip(14, 56.5, 10) == "wrong factor");
    CHECK(arithmetic_slip(14, 56.6, 10) == "other");
    // The right factor comes first: one beat at x 1 is 1, and nobody forgot anything.
    CHECK(arithmetic_slip(1, 1, 1) == "");
}

TEST_CASE("Without a count of beats all of the rest is unexplained", "[breakdown]") {
    const std::vector<sim::Beat> train = regular(100.1, 140);
    const Breakdown b = break_down(train, train, {at(100), at(160), 60, std::nullopt, 133});
    CHECK(b.ear == 0);
    CHECK(b.arithmetic == 0);
    CHECK(b.unexplained == -7);
    CHECK(sum(b) == Approx(133 - b.true_bpm));
}

TEST_CASE("Her beats counted: the source term is her rate less the baby's", "[breakdown]") {
    const std::vector<sim::Beat> baby = regular(100.1, 140), mother = regular(100.2, 90);
    const Breakdown b = break_down(baby, mother, {at(100), at(160), 60, 90, 90});
    CHECK(b.source == Approx(-50).margin(0.002));
    CHECK(b.ear == 0);
    CHECK(sum(b) == Approx(90 - b.true_bpm));
}

TEST_CASE("Whatever is counted and written, the terms sum to written - true to the thousandth",
          "[breakdown]") {
    const bool held = rc::check("the terms sum exactly", [] {
        const double rate = *rc::gen::inRange(500, 2400) / 10.0, hers = *rc::gen::inRange(400, 1800) / 10.0;
        const double plan = *rc::gen::element(60.0, 30.0, 15.0, 10.0, 6.0, 47.3);
        const double from = 100 + *rc::gen::inRange(0, 1000) / 1000.0;
        const double own = plan * *rc::gen::inRange(60, 140) / 100.0;
        CountMade made{at(from), at(from + own), plan, std::nullopt, std::nullopt};
        if (*rc::gen::arbitrary<bool>()) made.beats = *rc::gen::inRange(0, 400);
        if (!made.beats || *rc::gen::arbitrary<bool>()) made.bpm = *rc::gen::inRange(0, 400);
        if (*rc::gen::arbitrary<bool>()) made.taps = *rc::gen::inRange(0, 400);
        if (*rc::gen::inRange(0, 3) == 0) made.fencepost_beats = *rc::gen::inRange(-1, 2);
        if (*rc::gen::inRange(0, 3) == 0) made.called_from = at(from - *rc::gen::inRange(0, 2000) / 1000.0);
        const auto baby = regular(100, rate),
                   followed = *rc::gen::arbitrary<bool>() ? baby : regular(100, hers);
        const Breakdown b = break_down(baby, followed, made);
        std::int64_t all = 0;
        for (double term :
             {b.source, b.method, b.watch, b.fencepost, b.ear, b.tally, b.arithmetic, b.unexplained})
            all += in_thousandths(term);
        RC_ASSERT(all == in_thousandths(b.reported_bpm) - in_thousandths(b.true_bpm));
    });
    CHECK(held);
}
