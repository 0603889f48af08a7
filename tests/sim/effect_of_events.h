// What events do to a rate, looked at alone: the same chance with and without them.
#pragma once

#include "sim/course/course.h"

#include <vector>

namespace events {

using namespace sim;

// Contractions like a clock, the first at 120 s, so that one slowing can be looked at alone.
inline Patient woman() {
    Patient p;
    Baby b;
    b.baseline = {142.4};
    b.drift = {0};
    b.variability = Variability::quiet;  // no rises of its own
    p.babies.add(b);
    p.labour.irregular = 0;
    p.labour.contractions_per_10min = 2.5;
    p.labour.first_contraction = {120};
    return p;
}

// What the events alone do to the rate: the same chance with and without them.
inline std::vector<double> effect(const Patient& p, std::uint64_t seed, double length_s) {
    Patient without = p;
    without.babies[0].events.size = 0;
    const auto with_events = course_over(p, Seed{seed}, {}, {length_s});
    const auto plain = course_over(without, Seed{seed}, {}, {length_s});
    std::vector<double> difference;
    for (std::size_t k = 0; k < plain.size(); ++k)
        difference.push_back(with_events[k].fhr_bpm[0] - plain[k].fhr_bpm[0]);
    return difference;
}

struct Dip {
    double depth = 0, onset_s = -1, nadir_s = 0,
           back_s = 0;  // onset, back: 1 bpm; nadir: nine tenths of depth first
};

inline Dip dip_between(const std::vector<double>& effect, double from_s, double to_s, double back_level = 1) {
    Dip dip;
    const auto first = static_cast<std::size_t>(from_s * 4), last = static_cast<std::size_t>(to_s * 4);
    for (std::size_t k = first; k < last && k < effect.size(); ++k) {
        const double t = static_cast<double>(k) * 0.25;
        if (-effect[k] > dip.depth) {
            dip.depth = -effect[k];
            dip.nadir_s = t;
        }
        if (dip.onset_s < 0 && effect[k] < -1) dip.onset_s = t;
        if (effect[k] < -back_level) dip.back_s = t;
    }
    return dip;
}

inline BabyEvent event(BabyEvent::Kind kind, double depth) {
    BabyEvent e;
    e.kind = kind;
    e.depth = {depth};
    return e;
}

}  // namespace events
