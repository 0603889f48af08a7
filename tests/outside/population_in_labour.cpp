// Women and babies in labour, many of them, against published populations.
#include "sim/beats/beat_train.h"
#include "sim/course/course.h"
#include "sim/course/usual_baseline.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

using namespace sim;

namespace {

// The middle of each of n equal parts of a normal distribution: a population without a throw of the dice.
double normal_part(int i, int n, double mean, double spread) {
    return mean + spread * normal_quantile((i + 0.5) / n);
}

Patient woman(double pulse) {
    Patient p;
    p.babies.add(Baby{});
    p.mother.pulse = {pulse};
    return p;
}

double median(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

struct Spread {
    double sum = 0, squares = 0;
    int n = 0;
    void add(double x) {
        sum += x;
        squares += x * x;
        ++n;
    }
    double mean() const { return sum / n; }
    double sd() const { return std::sqrt(squares / n - mean() * mean()); }
};

// Slowings and rises of a 5-minute segment about its own median, by so many bpm for so long.
struct Segment {
    double slowings = 0, rises = 0, slow_s = 0, deepest = 0;
    void add(const Segment& one) {
        slowings += one.slowings;
        rises += one.rises;
        slow_s += one.slow_s;
        deepest += one.deepest;
    }
};

Segment found(const std::vector<double>& rates, double bpm, double seconds) {
    const double base = median(rates);
    Segment s;
    double below = 0, above = 0, depth = 0;
    for (std::size_t k = 0; k <= rates.size(); ++k) {
        const double off = k < rates.size() ? rates[k] - base : 0;
        if (off < -bpm) {
            below += 0.25;
            depth = std::max(depth, -off);
        } else {
            if (below >= seconds) {
                ++s.slowings;
                s.slow_s += below;
                s.deepest = std::max(s.deepest, depth);
            }
            below = depth = 0;
        }
        if (off > bpm) {
            above += 0.25;
        } else {
            s.rises += above >= seconds;
            above = 0;
        }
    }
    return s;
}

}  // namespace

TEST_CASE(
    "second stage, 120 women: 88 +-14 at rest, 123 +-17 in each push, over 140 in 20 %, over 100 in 27 %",
    "[population]") {
    // van Veen 2012: 88 +-14 -> 123 +-17, rise 35 +-13; above 140 in 20 %, persistently above 100 in 27 %.
    // In: rest and rise. Out: the rest of it. "Persistently" is not defined there: here, the middle rate of
    // half an hour.
    Spread rest, peak;
    double over_140 = 0, lasting = 0;
    constexpr int women = 120;
    for (int w = 0; w < women; ++w) {
        Patient p = woman(normal_part(w, women, 88, 14));
        // 37 is coprime to 120: rest and rise are paired without regard to each other.
        p.mother.with_push = {std::max(0.0, normal_part(w * 37 % women, women, 35, 13))};
        p.mother.with_contraction = {0};
        p.labour.pushing = true;
        p.labour.strength = {60};
        p.labour.contraction_length = {68};
        p.labour.contractions_per_10min = 4;
        const auto course = course_over(p, Seed{static_cast<std::uint64_t>(w + 1)}, {}, {1800});
        std::vector<double> rates;
        double most = 0, highest = 0;
        int pushes = 0;
        for (std::size_t k = 41; k < course.size(); ++k) {
            rates.push_back(course[k].mhr_bpm);
            // A monitor shows the mean of some seconds.
            double ten_s = 0;
            for (std::size_t i = k - 40; i < k; ++i) ten_s += course[i].mhr_bpm / 40;
            if (course[k].in_contraction) most = std::max(most, ten_s);
            if (course[k].in_contraction || !course[k - 1].in_contraction) continue;
            highest += most;
            ++pushes;
            most = 0;
        }
        rest.add(p.mother.pulse.value);
        peak.add(highest / pushes);
        over_140 += highest / pushes > 140;
        lasting += median(rates) > 100;
    }
    CHECK(rest.mean() == Approx(88).margin(0.5));
    CHECK(peak.mean() == Approx(123).margin(4));  // the highest of a push stands a little over its mean
    CHECK(peak.sd() == Approx(17).margin(3.5));
    CHECK(over_140 / women == Approx(0.20).margin(0.06));
    CHECK(lasting / women == Approx(0.27).margin(0.1));
}

TEST_CASE("first stage with an epidural, 40 women: 83 +-13 between contractions, 74 +-10 at their height",
          "[population]") {
    // van Veen 2012. In: 83 +-13 and a fall of 9.
    Spread between, height;
    for (int w = 0; w < 40; ++w) {
        Patient p = woman(normal_part(w, 40, 83, 13));
        p.mother.with_contraction = {-9};
        Spread low, high;
        for (const CourseTick& tick : course_over(p, Seed{static_cast<std::uint64_t>(w + 1)}, {}, {1800})) {
            if (tick.uc_above_tone_mmhg < 2) low.add(tick.mhr_bpm);
            if (tick.uc_above_tone_mmhg > 40) high.add(tick.mhr_bpm);
        }
        between.add(low.mean());
        height.add(high.mean());
    }
    CHECK(between.mean() == Approx(83).margin(1));
    CHECK(height.mean() == Approx(74).margin(1.5));
    CHECK(between.sd() == Approx(13).margin(1.5));
    CHECK(height.sd() == Approx(10).margin(3.5));
}

TEST_CASE(
    "baselines drawn for 36 to 41 weeks: mean 133, quartiles 126, 133 and 140 within 2.5, range 106 to 160",
    "[population]") {
    // 2126 records: mean 133.3, SD 9.84, quartiles 126 / 133 / 140, range 106 to 160; ours by weeks of
    // pregnancy (medians of 224 records, 1998) with a spread of 9 [practice].
    std::vector<double> drawn;
    Spread all;
    for (std::uint64_t s = 0; s < 3000; ++s) {
        drawn.push_back(drawn_baseline(36 + 5.0 * static_cast<double>(s % 50) / 49, Seed{s}, 0).value);
        all.add(drawn.back());
    }
    std::sort(drawn.begin(), drawn.end());
    CHECK(all.mean() == Approx(133.3).margin(2));
    CHECK(all.sd() == Approx(9.84).margin(1.5));
    CHECK(drawn[750] == Approx(126).margin(2.5));
    CHECK(drawn[1500] == Approx(133).margin(2.5));
    CHECK(drawn[2250] == Approx(140).margin(2.5));
    CHECK((drawn.front() >= 106 && drawn.back() <= 160));
}

// Open labour set, 5-min segments: 0.52 to 0.62 slowings, their mean depth at the deepest 13.7 to 16.6 bpm,
// 6.7 to 8.6 % of the time, 0.20 to 0.27 rises, standard deviation 8.4 to 9.8 bpm, width of the histogram 33
// to 37 bpm. Which rule made a slowing there is not known to us. Ours: 10 bpm under the segment's own median
// for 15 s; "deepest" is the mean over all segments, 0 where there is none (over those that have one it is 33
// bpm); "width" leaves out a hundredth at each end (all of it is 44). The mix, a third each of early 12, late
// 20 and variable 32 bpm of 60 s with 45 % of the contractions, is [practice]: three numbers chosen for six.
TEST_CASE(
    "a labour ward: slowings, their depth and time, rises, spread and width of five minutes, within a tenth",
    "[population]") {
    Segment own, strict;
    Spread within, width;
    double segments = 0;
    for (int w = 0; w < 60; ++w) {
        Patient p = woman(84);
        p.babies[0].baseline = {135};  // mean of 5-min means, last 90 min: about 135 (the same set)
        BabyEvent e;
        e.kind = w % 3 == 0   ? BabyEvent::Kind::early
                 : w % 3 == 1 ? BabyEvent::Kind::late
                              : BabyEvent::Kind::variable;
        e.depth = {w % 3 == 0 ? 12.0 : w % 3 == 1 ? 20.0 : 32.0};
        e.length = {60};
        e.share = 0.45;
        p.babies[0].events.add(e);
        const auto course = course_over(p, Seed{static_cast<std::uint64_t>(w + 1)}, {}, {3600});
        for (std::size_t from = 0; from + 1200 < course.size(); from += 1200) {
            std::vector<double> rates;
            Spread one;
            for (std::size_t k = from; k < from + 1200; ++k) {
                rates.push_back(course[k].fhr_bpm[0]);
                one.add(rates.back());
            }
            within.add(one.sd());
            own.add(found(rates, 10, 15));
            strict.add(found(rates, 15, 15));
            std::sort(rates.begin(), rates.end());
            width.add(rates[1187] - rates[12]);
            ++segments;
        }
    }
    const auto lies = [](double ours, double least, double most) {
        CAPTURE(ours, least, most);
        CHECK((ours > 0.9 * least && ours < 1.1 * most));
    };
    lies(own.slowings / segments, 0.52, 0.62);
    lies(own.deepest / segments, 13.7, 16.6);
    lies(100 * own.slow_s / (300 * segments), 6.7, 8.6);
    lies(within.mean(), 8.4, 9.8);
    lies(width.mean(), 33, 37);
    // Rises: by 15 bpm for 15 s no more than theirs, by 10 bpm for 15 s no fewer.
    CHECK(strict.rises / segments < 0.27);
    CHECK(own.rises / segments > 0.20);
}

// The same set: a segment's sensor has mean 23, highest 46, standard deviation 10, in units and over a zero
// of its own, so only (46 - 23) / 10 can be compared; 1.17 contractions in five minutes, 0.0044 a second in
// 2126 records. In: 2.34 in ten minutes, as there.
TEST_CASE(
    "a labour ward: the womb's highest pressure of five minutes stands 2.3 standard deviations over the mean",
    "[population]") {
    Spread stands;
    double contractions = 0, fives = 0;
    for (int w = 0; w < 60; ++w) {
        Patient p = woman(84);
        if (w % 2 == 1) p.labour.contractions_per_10min = 2.34;
        const auto course = course_over(p, Seed{static_cast<std::uint64_t>(w + 1)}, {}, {3600});
        for (std::size_t from = 0; from + 1200 < course.size(); from += 1200) {
            Spread one;
            double highest = 0;
            for (std::size_t k = from; k < from + 1200; ++k) {
                one.add(course[k].uc_mmhg);
                highest = std::max(highest, course[k].uc_mmhg);
            }
            stands.add((highest - one.mean()) / one.sd());
        }
        if (w % 2 == 0) continue;
        for (std::size_t k = 1201; k < course.size(); ++k)  // the first comes when it is told to
            contractions += course[k].in_contraction && !course[k - 1].in_contraction;
        fives += 11;
    }
    CHECK(stands.mean() == Approx(2.3).epsilon(0.15));
    CHECK(contractions / fives == Approx(1.17).epsilon(0.15));
}
