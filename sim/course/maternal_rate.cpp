#include "sim/course/maternal_rate.h"

#include "sim/exact_math.h"

#include <algorithm>

namespace sim {

namespace {

constexpr std::uint64_t before_time = std::uint64_t{1} << 40;
constexpr double slow_bpm = 4.3;
constexpr double nine_tenths = 2.302585092994046;  // time constants to nine tenths of the way
constexpr double bpm_per_degree = 9.0;             // 8 to 10 bpm per degree of fever [memory]

}  // namespace

// Sizes are each woman's own: slow wander, blood pressure's swing (0.1 Hz), breathing. Tuned to SDNN 30 to 50
// ms and RMSSD 7 to 20 ms at 85 to 95 bpm [memory]; all three times what the author says of her.
MaternalRate::MaternalRate(const Mother& mother, Seed seed)
    : mother_(mother),
      seed_(seed),
      slow_(60.0, slow_bpm * mother.restless),
      low_(0.095, 0.05, mother.restless * (1.5 + uniform(seed, Stream::maternal_slow, before_time + 4))),
      breath_(mother.breaths_per_min / 60.0, 0.05,
              mother.restless * (0.8 + uniform(seed, Stream::maternal_slow, before_time + 5))) {
    push_rise_s_ = (8.0 + 4.0 * uniform(seed, Stream::maternal_slow, before_time + 2)) / nine_tenths;
    push_fall_s_ = 15.0 + 10.0 * uniform(seed, Stream::maternal_slow, before_time + 3);
    slow_.value = slow_bpm * mother.restless * gaussian(seed, Stream::maternal_slow, before_time + 1);
    for (std::uint64_t i = 0; i < 240; ++i) {
        const auto draws = four_gaussians(seed, Stream::maternal_low, before_time + i);
        low_.step(draws[0]);
        breath_.step(draws[1]);
    }
}

void MaternalRate::sway_on(std::uint64_t first) {
    const auto draws = four_gaussians_in_a_row(seed_, Stream::maternal_low, first);
    for (std::size_t i = 0; i < ticks_in_a_row; ++i)
        own_bpm_[i] = slow_.step(draws[i][2]) + low_.step(draws[i][0]) + breath_.step(draws[i][1]);
}

double MaternalRate::step(std::int64_t tick, double squeeze, bool push_spell, const Response& response) {
    if (tick % ticks_in_a_row == 0) sway_on(static_cast<std::uint64_t>(tick));
    const double own = own_bpm_[static_cast<std::size_t>(tick % ticks_in_a_row)];
    pain_ += (std::min(squeeze, 1.5) - pain_) * (course_step_s / 3.0);
    // Up over 8 to 12 s while she bears down, back with a time constant of 15 to 25 s [practice], each woman
    // by her own; the size is the author's, 35 by default (van Veen 2012: 88 to 123, +35 +-13).
    push_ +=
        push_spell ? (1.0 - push_) * (course_step_s / push_rise_s_) : -push_ * (course_step_s / push_fall_s_);
    const double rate = mother_.pulse.value + own + mother_.with_contraction.value * pain_ * (1.0 - push_) +
                        mother_.with_push.value * push_ + bpm_per_degree * response.warmer_c() +
                        response.pulse_change(mother_.pulse).value;
    return std::clamp(rate, 35.0, 220.0);
}

}  // namespace sim
