// How loud a blow or an echo is at a moment after its beat, 0..1. Times in microseconds. Smooth, and over
// when over.
#pragma once

#include "sim/sound/beat_queue.h"

#include <cstdint>

namespace sim {

// A bell of a given width at half its height.
inline double bell_shape(double us, double width_us) {
    const double u = us * 1.0823922 / width_us;  // (1 - u^2)^2 is one half at u = 0.5412
    const double rest = 1 - u * u;
    return rest > 0 ? rest * rest : 0;
}

// Up in `rise`, down over `fall`, quickly at first.
inline double blow_shape(double us, double rise_us, double fall_us) {
    if (us <= 0 || us >= rise_us + fall_us) return 0;
    if (us < rise_us) {
        const double t = us / rise_us;
        return t * t * (3 - 2 * t);
    }
    const double t = 1 - (us - rise_us) / fall_us;
    return t * t;
}

// Half a sine over `length`, from its usual fraction (to 0.002).
inline double arch_shape(double us, double length_us) {
    if (us <= 0 || us >= length_us) return 0;
    const double t = us / length_us, u = t * (1 - t);
    return 16 * u / (5 - 4 * u);
}

// The loudest over the beats near now, each `late_us` after its beat.
inline double blow_now(const BeatQueue& beats, std::int64_t us, double late_us, double rise_us,
                       double fall_us) {
    double most = 0;
    for (int i = beats.size() - 1; i >= 0; --i) {
        const double since = static_cast<double>(us - beats[i].beat.at_us) - late_us;
        if (since > rise_us + fall_us) break;
        if (!is_heard(beats[i].beat)) continue;
        const double now = blow_shape(since, rise_us, fall_us);
        most = now > most ? now : most;
    }
    return most;
}

}  // namespace sim
