// What a population of simulated babies looks like, against published populations.
#include "sim/beats/beat_train.h"
#include "sim/course/course.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace sim;

namespace {

struct Variation {
    double short_ms = 0, long_ms = 0;
};

Variation variation(Variability set, double baseline, int seeds) {
    Variation sum;
    for (int s = 1; s <= seeds; ++s) {
        Patient p;
        Baby b;
        b.variability = set;
        b.baseline = {baseline};
        p.babies.add(b);
        p.labour.contractions_per_10min = 0;
        const Seed seed{static_cast<std::uint64_t>(100 + s)};
        const auto train = beats_over(p, seed, Who::fetal, course_over(p, seed, {}, {2410}));
        std::vector<double> epochs;
        for (std::int64_t e = 0; e < 640; ++e)
            epochs.push_back(
                60'000 / rate_between(train, {4'000'000 + e * 3'750'000}, {7'750'000 + e * 3'750'000}).value);
        double steps = 0, ranges = 0;
        for (std::size_t e = 1; e < epochs.size(); ++e) steps += std::fabs(epochs[e] - epochs[e - 1]);
        for (int m = 0; m < 40; ++m) {
            const auto [low, high] =
                std::minmax_element(epochs.begin() + m * 16, epochs.begin() + (m + 1) * 16);
            ranges += *high - *low;
        }
        sum.short_ms += steps / 639 / seeds;
        sum.long_ms += ranges / 40 / seeds;
    }
    return sum;
}

}  // namespace

TEST_CASE("term babies, 60/30/10 active, quiet and awake: near the published medians of 9.2 and 54 ms",
          "[population]") {
    // Reference ranges of 224 records, 29 pregnancies (1998, abstract): at 40 weeks STV 9.2, LTV 54.2 ms. The mixture
    // is our reading of Pillai and James 1990 (58 % active, 30 % quiet, 9 % awake), so a fifth is allowed.
    const Variation active = variation(Variability::active, 137, 6),
                    quiet = variation(Variability::quiet, 135, 6),
                    awake = variation(Variability::awake, 150, 6);
    CHECK(0.6 * active.short_ms + 0.3 * quiet.short_ms + 0.1 * awake.short_ms == Approx(9.2).epsilon(0.2));
    CHECK(0.6 * active.long_ms + 0.3 * quiet.long_ms + 0.1 * awake.long_ms == Approx(54.2).epsilon(0.2));
}

TEST_CASE("published classes of variation: active over 5 ms, quiet 3 to 5 ms, minimal under 3 ms short term",
          "[population]") {
    // Dawes-Redman practice: under 3 ms very abnormal, 3 to 5 doubtful, over 5 usual [memory].
    CHECK(variation(Variability::active, 137, 3).short_ms > 5);
    CHECK(variation(Variability::labour, 138, 3).short_ms > 5);
    const double quiet = variation(Variability::quiet, 135, 3).short_ms;
    CHECK((quiet > 3 && quiet < 5));
    CHECK(variation(Variability::minimal, 145, 3).short_ms < 3);
}

TEST_CASE("in labour a minute's mean scatters 2 to 4 bpm about its ten minutes, five seconds' 4 to 6.5",
          "[population]") {
    // Scatter of window means in the labour set: 5.2 / 4.7 / 4.3 / 3.6 / 2.9 bpm for 5 / 10 / 15 / 30 / 60 s [computed
    // elsewhere, for the same set with twenty-five-second memory; ours has its minutes steadied a little].
    const double lengths[] = {5, 60};
    double scatter[2] = {0, 0};
    int n[2] = {0, 0};
    for (std::uint64_t s = 1; s <= 6; ++s) {
        Patient p;
        p.babies.add(Baby{});
        p.labour.contractions_per_10min = 0;
        const auto course = course_over(p, Seed{s}, {}, {2400});
        for (std::size_t ten = 0; ten < 4; ++ten) {
            std::vector<double> rates;
            for (std::size_t k = ten * 2400; k < (ten + 1) * 2400; ++k) rates.push_back(course[k].fhr_bpm[0]);
            std::vector<double> sorted = rates;
            std::nth_element(sorted.begin(), sorted.begin() + 1200, sorted.end());
            for (int i = 0; i < 2; ++i) {
                const auto ticks = static_cast<std::size_t>(lengths[i] * 4);
                for (std::size_t k = 0; k + ticks <= rates.size(); k += ticks) {
                    double mean = 0;
                    for (std::size_t j = 0; j < ticks; ++j) mean += rates[k + j] / static_cast<double>(ticks);
                    scatter[i] += (mean - sorted[1200]) * (mean - sorted[1200]);
                    ++n[i];
                }
            }
        }
    }
    const double five = std::sqrt(scatter[0] / n[0]), minute = std::sqrt(scatter[1] / n[1]);
    CHECK((five > 4 && five < 6.5));
    CHECK((minute > 2 && minute < 4));
}

TEST_CASE("second stage: her pulse passes 100 while she pushes and comes back under it between",
          "[population]") {
    // van Veen 2012: 88 +-14 at rest to 123 +-17 with each push; persistent over 100 in a quarter only.
    Patient p;
    p.babies.add(Baby{});
    p.mother.pulse = {88};
    p.labour.pushing = true;
    p.labour.strength = {60};
    p.labour.contraction_length = {75};
    double highest = 0, rest = 0;
    int contractions = 0, resting = 0;
    for (std::uint64_t s = 1; s <= 6; ++s) {
        const auto course = course_over(p, Seed{s}, {}, {1800});
        double most = 0;
        for (std::size_t k = 1; k < course.size(); ++k) {
            if (course[k].in_contraction) most = std::max(most, course[k].mhr_bpm);
            if (!course[k].in_contraction && course[k - 1].in_contraction) {
                highest += most;
                ++contractions;
                most = 0;
            }
            if (course[k].uc_above_tone_mmhg < 1) {
                rest += course[k].mhr_bpm;
                ++resting;
            }
        }
    }
    CHECK((highest / contractions > 123 - 17 && highest / contractions < 123 + 17));
    CHECK((rest / resting > 88 - 14 && rest / resting < 88 + 14));
}
