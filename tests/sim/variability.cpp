#include "sim/beats/beat_train.h"
#include "sim/course/course.h"
#include "sim/course/usual_baseline.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace sim;

namespace {

Patient quiet_labour(Variability set, double baseline) {
    Patient p;
    Baby b;
    b.variability = set;
    b.baseline = {baseline};
    b.drift = {0};
    p.babies.add(b);
    p.labour.contractions_per_10min = 0;
    return p;
}

struct Measures {
    double short_ms, long_ms, range_bpm;
};

// Dawes and Redman's measures: mean interval of each 3.75 s; short term = mean difference of neighbours, long
// term = range of the sixteen of a minute; and the range of the rate itself within a minute.
Measures measured(const Patient& p, int seeds, int minutes) {
    Measures sum{0, 0, 0};
    for (int s = 1; s <= seeds; ++s) {
        const Seed seed{static_cast<std::uint64_t>(s)};
        const auto course = course_over(p, seed, {}, {minutes * 60.0 + 10});
        const auto train = beats_over(p, seed, Who::fetal, course);
        std::vector<double> epochs;
        for (std::int64_t e = 0; e < minutes * 16; ++e)
            epochs.push_back(
                60'000 / rate_between(train, {4'000'000 + e * 3'750'000}, {7'750'000 + e * 3'750'000}).value);
        double steps = 0, ranges = 0, rate_ranges = 0;
        for (std::size_t e = 1; e < epochs.size(); ++e) steps += std::fabs(epochs[e] - epochs[e - 1]);
        for (int m = 0; m < minutes; ++m) {
            const auto [low, high] =
                std::minmax_element(epochs.begin() + m * 16, epochs.begin() + (m + 1) * 16);
            ranges += *high - *low;
            double least = 1e9, most = 0;
            for (int k = m * 240; k < (m + 1) * 240; ++k) {
                least = std::min(least, course[static_cast<std::size_t>(k)].fhr_bpm[0]);
                most = std::max(most, course[static_cast<std::size_t>(k)].fhr_bpm[0]);
            }
            rate_ranges += most - least;
        }
        sum.short_ms += steps / static_cast<double>(epochs.size() - 1) / seeds;
        sum.long_ms += ranges / minutes / seeds;
        sum.range_bpm += rate_ranges / minutes / seeds;
    }
    return sum;
}

double mean_rate(const std::vector<CourseTick>& course, double from_s, double to_s) {
    double sum = 0;
    for (std::size_t k = static_cast<std::size_t>(from_s * 4); k < static_cast<std::size_t>(to_s * 4); ++k)
        sum += course[k].fhr_bpm[0];
    return sum / (to_s - from_s) / 4;
}

}  // namespace

TEST_CASE("variability sets: short term, long term and range a minute within 15 % of the table, eight seeds",
          "[variability]") {
    // Table of sets: STV ms, LTV ms, bpm a minute, tuned on 6 x 60 min [computed] to reference ranges of 224
    // records (1998), in which 40 weeks have medians of 9.2 and 54 ms.
    struct Row {
        Variability set;
        double baseline, stv, ltv, range;
    };
    const Row rows[] = {{Variability::quiet, 135, 3.9, 15, 7.6},
                        {Variability::active, 137, 10.3, 54, 24},
                        {Variability::awake, 150, 11.5, 79, 45},
                        {Variability::labour, 138, 8.9, 42, 19},
                        {Variability::minimal, 145, 1.4, 5.4, 3.2}};
    for (const Row& row : rows) {
        const Measures m = measured(quiet_labour(row.set, row.baseline), 8, 40);
        INFO("set " << static_cast<int>(row.set));
        CHECK(m.short_ms == Approx(row.stv).epsilon(0.15));
        CHECK(m.long_ms == Approx(row.ltv).epsilon(0.15));
        CHECK(m.range_bpm == Approx(row.range).epsilon(0.15));
    }
}

TEST_CASE(
    "by weeks: short term 6.2 ms at 24, 7.7 at 32, 9.2 at 40 weeks; long term 34.5, 44.4, 54.2: within 15 %",
    "[variability]") {
    // Medians of 224 records (1998): 6.2 and 34.5 ms at 24 weeks to 9.2 and 54.2 at 40; 32 weeks is half way
    // between [arithmetic]. Asleep and awake in turn, at the rate usual for the weeks; 40 babies of 100
    // minutes an age.
    Measures at[3];
    const double weeks[] = {24, 32, 40}, short_ms[] = {6.2, 7.7, 9.2}, long_ms[] = {34.5, 44.35, 54.2};
    for (int i = 0; i < 3; ++i) {
        Patient p = quiet_labour(Variability::by_state, usual_baseline(weeks[i]).value);
        p.gestation_weeks = weeks[i];
        at[i] = measured(p, 40, 100);
        INFO(weeks[i] << " weeks");
        CHECK(at[i].short_ms == Approx(short_ms[i]).epsilon(0.15));
        CHECK(at[i].long_ms == Approx(long_ms[i]).epsilon(0.15));
    }
    // What the age does, whatever else may be off: 0.674 and 0.637 of what it is at 40 weeks.
    CHECK(at[0].short_ms / at[2].short_ms == Approx(6.2 / 9.2).margin(0.04));
    CHECK(at[0].long_ms / at[2].long_ms == Approx(34.5 / 54.2).margin(0.05));
}

TEST_CASE("at the height of a contraction the low and high swings are 1.2 to 1.5 times as large",
          "[variability]") {
    // Cesarelli 2010: power of both bands rises in contractions; factor [practice]. In the labour set the two
    // together are 2.65 bpm (2.6 and 0.5).
    double squares = 0;
    int n = 0;
    for (std::uint64_t s = 1; s <= 12; ++s) {
        Patient p = quiet_labour(Variability::labour, 138);
        const auto without = course_over(p, Seed{s}, {}, {3600});
        p.labour.contractions_per_10min = 3.5;
        p.labour.irregular = 0;
        const auto with = course_over(p, Seed{s}, {}, {3600});
        for (std::size_t k = 0; k < with.size(); ++k) {
            if (with[k].uc_above_tone_mmhg < 0.95 * p.labour.strength.value) continue;
            const double more = with[k].fhr_bpm[0] - without[k].fhr_bpm[0];
            squares += more * more;
            ++n;
        }
    }
    const double factor = 1 + std::sqrt(squares / n) / std::sqrt(2.6 * 2.6 + 0.5 * 0.5);
    CHECK((factor > 1.2 && factor < 1.5));
}

TEST_CASE("labour without events: every ten minutes the mean lies within 3 bpm of the author's baseline",
          "[variability]") {
    // A trainee at the first level is judged against that baseline.
    for (double baseline : {118.3, 138.4, 152.6})
        for (std::uint64_t s = 1; s <= 12; ++s) {
            Patient p = quiet_labour(Variability::labour, baseline);
            p.labour.contractions_per_10min = 3.5;
            const auto course = course_over(p, Seed{s}, {}, {1800});
            for (double from : {0.0, 600.0, 1200.0}) {
                CHECK(std::fabs(mean_rate(course, from, from + 600) - baseline) < 3);
                CHECK(course[static_cast<std::size_t>(from * 4)].fhr_base_bpm[0] == Approx(baseline));
            }
        }
}

TEST_CASE("the mean of the beats equals the mean of the course within 0.1 bpm over ten minutes", "[beats]") {
    // Acceptance list: mean rate of truth against control input under 0.1 bpm over ten minutes [practice].
    for (std::uint64_t s = 1; s <= 6; ++s) {
        const Patient p = quiet_labour(Variability::active, 137);
        const auto course = course_over(p, Seed{s}, {}, {640});
        const auto train = beats_over(p, Seed{s}, Who::fetal, course);
        CHECK(rate_between(train, {20'000'000}, {620'000'000}).value ==
              Approx(mean_rate(course, 20, 620)).margin(0.1));
    }
}

TEST_CASE("minimal variability swings 5 bpm or less a minute, labour 6 to 25", "[variability]") {
    // NICHD 2008: minimal up to 5, moderate 6 to 25.
    CHECK(measured(quiet_labour(Variability::minimal, 145), 6, 20).range_bpm <= 5);
    const double labour = measured(quiet_labour(Variability::labour, 138), 6, 20).range_bpm;
    CHECK((labour >= 6 && labour <= 25));
}

TEST_CASE("a fast heart varies less: at 175 bpm about two thirds of what it does at 138", "[variability]") {
    // Strong negative relation of rate and variation (EJOG 2000;89:27); exponent 1.5 [practice]:
    // (138/175)^1.5 = 0.70.
    const double slow = measured(quiet_labour(Variability::quiet, 138), 6, 20).range_bpm;
    const double fast = measured(quiet_labour(Variability::quiet, 175), 6, 20).range_bpm;
    CHECK(fast / slow == Approx(0.70).margin(0.06));
}

TEST_CASE("a sinusoidal pattern of 10 bpm goes 2 to 5 times a minute, with little else in it",
          "[variability]") {
    // 2 to 5 cycles a minute, 5 to 15 bpm [memory].
    Patient p = quiet_labour(Variability::labour, 140);
    p.babies[0].sinusoid = {10};
    const auto course = course_over(p, Seed{2}, {}, {1200});
    // Times between upward crossings of the baseline, small wobbles at the crossing apart.
    std::vector<double> ups;
    for (std::size_t k = 1; k < course.size(); ++k)
        if (course[k - 1].fhr_bpm[0] < 140 && course[k].fhr_bpm[0] >= 140)
            if (ups.empty() || static_cast<double>(k) * 0.25 - ups.back() > 6)
                ups.push_back(static_cast<double>(k) * 0.25);
    const double per_min = static_cast<double>(ups.size() - 1) / (ups.back() - ups.front()) * 60;
    CHECK((per_min >= 2 && per_min <= 5));
    double squares = 0;
    for (const CourseTick& tick : course) squares += (tick.fhr_bpm[0] - 140) * (tick.fhr_bpm[0] - 140);
    CHECK(std::sqrt(squares / static_cast<double>(course.size())) ==
          Approx(10 / std::sqrt(2.0)).epsilon(0.15));
}

TEST_CASE("a rising baseline goes straight up by 20 bpm in half an hour and stays there", "[variability]") {
    Patient p = quiet_labour(Variability::quiet, 135);
    p.babies[0].rise = {20};
    p.babies[0].rise_over = {1800};
    const auto course = course_over(p, Seed{2}, {}, {3600});
    CHECK(course[0].fhr_base_bpm[0] == Approx(135));
    CHECK(course[4 * 900].fhr_base_bpm[0] == Approx(145).margin(0.1));
    CHECK(course[4 * 1800].fhr_base_bpm[0] == Approx(155).margin(0.1));
    CHECK(course[4 * 3500].fhr_base_bpm[0] == Approx(155));
    CHECK(mean_rate(course, 2400, 3600) == Approx(155).margin(1.5));
}

TEST_CASE("twins share a mother and no chance: their restlessness is uncorrelated", "[variability]") {
    Patient p = quiet_labour(Variability::labour, 138);
    p.babies.add(p.babies[0]);
    double both = 0, first = 0, second = 0;
    for (std::uint64_t s = 1; s <= 4; ++s)
        for (const CourseTick& tick : course_over(p, Seed{s}, {}, {1800})) {
            both += (tick.fhr_bpm[0] - 138) * (tick.fhr_bpm[1] - 138);
            first += (tick.fhr_bpm[0] - 138) * (tick.fhr_bpm[0] - 138);
            second += (tick.fhr_bpm[1] - 138) * (tick.fhr_bpm[1] - 138);
        }
    CHECK(std::fabs(both / std::sqrt(first * second)) < 0.15);
}
