// The rate's restlessness: slow wander and three swings, tuned to published short- and long-term variation.
// Everything here steps on the course grid of 0.25 s.
#pragma once

#include "sim/patient.h"
#include "sim/random.h"

#include <array>
#include <cstdint>

namespace sim {

inline constexpr double course_step_s = 0.25;
// What depends on the tick alone is made for so many ticks in a row: a row of a kind is quicker than one now
// and one later.
inline constexpr std::int64_t ticks_in_a_row = 4;

// Noise that forgets over `forgets_s`, with standard deviation `sd`.
struct Wander {
    double keep = 0, add = 0, value = 0;

    Wander() = default;
    Wander(double forgets_s, double sd);
    double step(double draw) { return value = keep * value + add * draw; }
};

// Noise around one frequency (a second-order resonator), with standard deviation `sd`.
struct Swing {
    double a1 = 0, a2 = 0, add = 0, now = 0, last = 0;

    Swing() = default;
    Swing(double frequency_hz, double width_hz, double sd);
    double step(double draw) {
        const double next = a1 * now + a2 * last + add * draw;
        last = now;
        return now = next;
    }
};

// One row of the table of variability sets.
struct VariabilitySet {
    double usual_bpm;                // the baseline it was tuned at
    double slow, low, middle, high;  // standard deviations, bpm
    double rises_per_10min, rise_bpm, rise_s;
};
const VariabilitySet& variability_set(Variability which);
// The set, tuned at 40 weeks, as it is at another age: a younger heart swings less and its rises are lower.
// Weeks outside 24..40 are taken as the nearer end.
VariabilitySet at_weeks(VariabilitySet set, double gestation_weeks);

// The baby's variability about its baseline; mean zero over minutes.
class FetalVariability {
public:
    FetalVariability() = default;
    FetalVariability(const Baby& baby, int which, Seed seed);
    // bpm above or below the baseline, by the set that holds now. `squeeze` = womb pressure over its usual
    // peak, 0..1: the faster swings grow with it. `settled_bpm`: a faster heart varies less. `held`: how far
    // a variable slowing holds the rate down now, 0..1: the middle swing grows half as much again. Every tick
    // from 0 on, in order.
    double step(std::int64_t tick, const VariabilitySet& set, double settled_bpm, double squeeze,
                double held);

private:
    struct Sway {
        double slow = 0, low = 0, middle = 0, high = 0;
    };
    void sway_on(std::uint64_t first);

    Seed seed_;
    Stream stream_ = Stream::fetal_slow;
    std::array<Sway, ticks_in_a_row> sways_{};
    double still_ = 1;  // a sinusoidal pattern leaves little else
    double settled_ = 0, usual_bpm_ = 0, scale_ = 1;
    Wander slow_;  // this and the swings: of size one, the set gives the size
    double slow_mean_ = 0;
    Swing low_, middle_, high_;
    double sine_bpm_ = 0, sine_hz_ = 0, sine_turn_ = 0;
};

}  // namespace sim
