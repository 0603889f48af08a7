#include "sim/course/variability.h"

#include "sim/exact_math.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sim {

namespace {

constexpr std::uint64_t before_time = std::uint64_t{1} << 40;  // draws spent before the first tick
constexpr int warm_up_ticks = 1200;

// The wander is measured against its own mean over this time, so that ten minutes keep the settled rate; what
// that takes away from its size is given back.
constexpr double slow_forgets_s = 25.0;
constexpr double mean_over_s = 120.0;

// The variability sets: STV and LTV of 6 x 60 min were tuned to Dawes-Redman medians (reference
// ranges of 224 records, 1998) [computed].
constexpr std::array<VariabilitySet, 5> sets{{
    {135, 1.2, 1.2, 0.6, 0.35, 0, 0, 0},    // quiet
    {137, 2.5, 2.8, 1.0, 0.5, 5, 20, 30},   // active
    {150, 5.0, 3.5, 1.4, 0.7, 12, 25, 45},  // awake
    {138, 3.5, 2.6, 1.0, 0.5, 2, 18, 25},   // labour
    {145, 0.5, 0.5, 0.25, 0.15, 0, 0, 0},   // minimal
}};

// Long- and short-term variation grow from 34.5 and 6.2 ms at 24 weeks to 54.2 and 9.2 ms at 40 (medians of
// 224 records, 1998). Part of it is the higher rate of the young, which shortens every interval; what is left
// is the size of the swings, straight over the weeks [computed].
constexpr double wide_less_a_week = 0.24 / 16, quick_less_a_week = 0.12 / 16;

}  // namespace

Wander::Wander(double forgets_s, double sd)
    : keep(exact_exp(-course_step_s / forgets_s)), add(sd * std::sqrt(1.0 - keep * keep)) {}

Swing::Swing(double frequency_hz, double width_hz, double sd) {
    const double rho = exact_exp(-pi * width_hz * course_step_s);
    a1 = 2.0 * rho * exact_cos(2.0 * pi * frequency_hz * course_step_s);
    a2 = -rho * rho;
    const double gain = (1.0 - a2) / ((1.0 + a2) * (1.0 - a1 - a2) * (1.0 + a1 - a2));
    add = sd / std::sqrt(gain);
}

const VariabilitySet& variability_set(Variability which) {
    return sets[which == Variability::by_state ? 1 : static_cast<std::size_t>(which)];
}

VariabilitySet at_weeks(VariabilitySet set, double gestation_weeks) {
    const double weeks_young = 40.0 - std::clamp(gestation_weeks, 24.0, 40.0);
    const double wide = 1.0 - wide_less_a_week * weeks_young, quick = 1.0 - quick_less_a_week * weeks_young;
    set.slow *= wide;
    set.rise_bpm *= wide;
    set.low *= quick;
    set.middle *= quick;
    set.high *= quick;
    return set;
}

FetalVariability::FetalVariability(const Baby& baby, int which, Seed seed)
    : seed_(seed), stream_(for_baby(Stream::fetal_slow, which)) {
    const double lost = std::sqrt(mean_over_s / (slow_forgets_s + mean_over_s));
    slow_ = Wander(slow_forgets_s, 1.0 / lost);
    low_ = Swing(0.08, 0.05, 1.0);
    middle_ = Swing(0.30, 0.15, 1.0);
    high_ = Swing(0.75, 0.30, 1.0);
    if (baby.sinusoid.value > 0) {
        // 2 to 5 swings a minute, the rest of the variability nearly gone [memory: NICHD 2008 for the range].
        sine_bpm_ = baby.sinusoid.value;
        sine_hz_ = (3.0 + 1.5 * uniform(seed, for_baby(Stream::fetal_state, which), 0)) / 60.0;
        sine_turn_ = uniform(seed, for_baby(Stream::fetal_state, which), 1);
        still_ = 0.2;
    }
    for (std::uint64_t i = 0; i < warm_up_ticks; i += ticks_in_a_row) sway_on(before_time + 1 + i);
}

void FetalVariability::sway_on(std::uint64_t first) {
    const auto draws = four_gaussians_in_a_row(seed_, stream_, first);
    for (std::size_t i = 0; i < ticks_in_a_row; ++i) {
        const double slow = slow_.step(draws[i][0]);
        slow_mean_ += (slow - slow_mean_) * (course_step_s / mean_over_s);
        sways_[i] = {slow - slow_mean_, low_.step(draws[i][1]), middle_.step(draws[i][2]),
                     high_.step(draws[i][3])};
    }
}

double FetalVariability::step(std::int64_t tick, const VariabilitySet& set, double settled_bpm,
                              double squeeze, double held) {
    if (tick % ticks_in_a_row == 0) sway_on(static_cast<std::uint64_t>(tick));
    if (std::fabs(settled_bpm - settled_) > 0.5 || set.usual_bpm != usual_bpm_) {
        // A faster heart varies less (EJOG 2000;89:27: R2 0.52); exponent [practice].
        settled_ = settled_bpm;
        usual_bpm_ = set.usual_bpm;
        const double usual = std::max(usual_bpm_, 135.0);
        scale_ = settled_bpm > usual ? exact_exp(1.5 * exact_log(usual / settled_bpm)) : 1.0;
    }
    double sine = 0;
    if (sine_bpm_ > 0) {
        const double t = static_cast<double>(tick) * course_step_s;
        const double turns = t * sine_hz_ + sine_turn_;
        sine = sine_bpm_ * exact_sin(2.0 * pi * (turns - std::floor(turns)));
    }
    // Rises lift the mean; the little they lift it in labour is taken back, so that a long count finds the
    // author's baseline. A shape of 0.3 up, 0.2 there, 0.5 down fills six tenths of its length.
    const double lift_bpm = std::min(1.0, 0.6 * set.rise_bpm * set.rise_s * set.rises_per_10min / 600.0);
    // Low and high bands gain power in contractions (Cesarelli 2010: 108 contractions, p < 0.01); 1.2 to 1.5
    // times the size at their height [practice].
    const Sway& sway = sways_[static_cast<std::size_t>(tick % ticks_in_a_row)];
    const double all = set.slow * sway.slow + set.middle * sway.middle * (1.0 + 0.5 * held) +
                       (set.low * sway.low + set.high * sway.high) * (1.0 + 0.35 * squeeze);
    return scale_ * still_ * all + sine - lift_bpm;
}

}  // namespace sim
