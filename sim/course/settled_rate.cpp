#include "sim/course/settled_rate.h"

#include <algorithm>

namespace sim {

namespace {

constexpr double bpm_per_degree = 10.0;  // baby's rate with her fever [memory]
constexpr std::uint64_t before_time = std::uint64_t{1} << 40;
constexpr int ticks_a_step = 4;  // the wander moves once a second: a tenth of a beat a minute

}  // namespace

// A baseline wanders over 10 to 20 min, an Ornstein-Uhlenbeck process [memory]; the spread is the author's.
SettledRate::SettledRate(const Patient& patient, int baby, Seed seed)
    : baby_(patient.babies[baby]), cause_falls_to_(patient.cause.falls_to), seed_(seed), which_(baby) {
    const Stream stream = for_baby(Stream::baseline_drift, baby);
    const double forgets_s = 600.0 + 600.0 * uniform(seed, stream, before_time, 1);
    drift_ = Wander(forgets_s / ticks_a_step, baby_.drift.value);
    drift_.value = baby_.drift.value * gaussian(seed, stream, before_time);
}

double SettledRate::step(std::int64_t tick, const Response& response) {
    if (tick > 0 && tick % ticks_a_step == 0)
        drift_.step(
            gaussian(seed_, for_baby(Stream::baseline_drift, which_), static_cast<std::uint64_t>(tick)));
    const double now_s = static_cast<double>(tick) * course_step_s;
    double settled = baby_.baseline.value;
    if (baby_.rise.value != 0)
        settled += baby_.rise.value * std::min(1.0, now_s / std::max(1.0, baby_.rise_over.value));
    settled += drift_.value;
    settled += bpm_per_degree * response.warmer_c();
    if (cause_falls_to_.value > 0) settled += (cause_falls_to_.value - settled) * response.fall(which_);
    return std::clamp(settled, 40.0, 260.0);
}

}  // namespace sim
