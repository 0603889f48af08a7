#include "sim/course/movement.h"

#include "sim/course/variability.h"
#include "sim/exact_math.h"

#include <algorithm>
#include <cmath>

namespace sim {

namespace {

constexpr std::uint64_t bursts = std::uint64_t{1} << 32;  // their place in the stream
constexpr double furthest_cm = 3;

enum Draw : std::uint32_t { lasts = 2, shifts = 3, far = 4, size = 5, direction = 6 };

}  // namespace

bool Happenings::one_happens(Seed seed, Stream stream, std::uint64_t base) {
    const bool first_look = number == -2;
    ++number;
    const std::uint64_t index = base + 16 * static_cast<std::uint64_t>(number + 1);
    const double gap = least - (1.0 - least) * exact_log(1.0 - uniform(seed, stream, index));
    // Nobody knows how long ago the one before the first was.
    next += first_look ? gap * uniform(seed, stream, index, 1) : gap;
    return !first_look;
}

Movements::Movements(const Baby& baby, int which, Seed seed) : seed_(seed), which_(which) {
    per_tick_ = baby.movements_per_10min / 600.0 * course_step_s;
    bursts_.least = std::min(0.01 * baby.movements_per_10min, 0.5);  // 6 s
    lively_ = baby.variability == Variability::active || baby.variability == Variability::awake ||
              baby.variability == Variability::by_state;
}

void Movements::also_until(double until_s) { until_s_ = std::max(until_s_, until_s); }

// A baby may shift by 1 to 3 cm with a movement [practice]. In labour the womb holds it: most shifts stay
// under 1 cm, so that a place found stays good.
void Movements::shift(double now_s) {
    const auto draw = [&](Draw what) {
        return uniform(seed_, for_baby(Stream::movement, which_),
                       bursts + 15 + 16 * static_cast<std::uint64_t>(bursts_.number + 1), what);
    };
    if (draw(shifts) >= 0.3) return;
    const bool a_big_one = draw(far) < (lively_ ? 0.4 : 0.04);
    const double cm = a_big_one ? 1.0 + 2.0 * draw(size) : 0.2 + 0.5 * draw(size);
    const double turns = draw(direction);
    from_x_cm_ = x_cm_;
    from_y_cm_ = y_cm_;
    // Half of the way back to where it lay, then on.
    to_x_cm_ = 0.5 * x_cm_ + cm * exact_cos(2.0 * pi * turns);
    to_y_cm_ = 0.5 * y_cm_ + cm * exact_sin(2.0 * pi * turns);
    const double off_cm = std::sqrt(to_x_cm_ * to_x_cm_ + to_y_cm_ * to_y_cm_);
    if (off_cm > furthest_cm) {
        to_x_cm_ *= furthest_cm / off_cm;
        to_y_cm_ *= furthest_cm / off_cm;
    }
    shift_from_s_ = now_s;
    shift_over_s_ = until_s_ - now_s;
}

bool Movements::step(double now_s, double moves) {
    if (per_tick_ <= 0) return false;
    const bool begins =
        bursts_.due(per_tick_ * moves, seed_, for_baby(Stream::movement, which_), bursts + 15);
    if (begins) {
        const std::uint64_t index = bursts + 15 + 16 * static_cast<std::uint64_t>(bursts_.number + 1);
        also_until(now_s + 2.0 + 4.0 * uniform(seed_, for_baby(Stream::movement, which_), index, lasts));
        shift(now_s);
    }
    if (shift_over_s_ > 0) {
        const double x = std::min(1.0, (now_s - shift_from_s_) / shift_over_s_);
        const double part = 0.5 - 0.5 * exact_cos(pi * x);
        x_cm_ = from_x_cm_ + part * (to_x_cm_ - from_x_cm_);
        y_cm_ = from_y_cm_ + part * (to_y_cm_ - from_y_cm_);
        if (x >= 1.0) shift_over_s_ = 0;
    }
    return begins;
}

}  // namespace sim
