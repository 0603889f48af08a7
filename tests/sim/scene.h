// Small scenes to listen to in tests, and the plainest measures of a sound.
#pragma once

#include "sim/beats/beat_train.h"
#include "sim/listening.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <vector>

namespace scene {

// Head down, back in front on her left, steady 138, her pulse steady enough at 84; nothing else moves or
// gurgles.
inline sim::Patient quiet_labour() {
    sim::Patient p;
    sim::Baby baby;
    baby.variability = sim::Variability::quiet;
    baby.movements_per_10min = 0;
    p.babies.add(baby);
    p.labour.first_contraction = {1e6};
    p.labour.contractions_per_10min = 0;
    p.surroundings.bowel_per_min = 0;
    p.surroundings.ward = {-60};
    return p;
}

inline sim::Change change(sim::Change::Kind kind, double at_s) {
    sim::Change c;
    c.kind = kind;
    c.at_us = sim::labour_time({at_s}).us;
    return c;
}

inline void place(sim::Listening& l, sim::Instrument instrument, double x, double y, double at_s = 0,
                  float press = 6) {
    auto c = change(sim::Change::Kind::take, at_s);
    c.instrument = instrument;
    l.apply(c);
    l.apply(change(sim::Change::Kind::gel, at_s));
    c = change(sim::Change::Kind::place, at_s);
    c.x_cm = x;
    c.y_cm = y;
    c.press_n = press;
    l.apply(c);
}

inline std::vector<float> heard(sim::Listening& l, double seconds, std::size_t block = 512) {
    std::vector<float> out(static_cast<std::size_t>(seconds * sim::sample_rate));
    for (std::size_t at = 0; at < out.size(); at += block)
        l.render(std::span(out).subspan(at, std::min(block, out.size() - at)));
    return out;
}

inline double peak(std::span<const float> x) {
    float most = 0;
    for (float v : x) most = std::max(most, std::fabs(v));
    return static_cast<double>(most);
}

inline double rms(std::span<const float> x) {
    double power = 0;
    for (float v : x) power += static_cast<double>(v) * static_cast<double>(v);
    return std::sqrt(power / static_cast<double>(x.size()));
}

inline double largest_step(std::span<const float> x) {
    double most = 0;
    for (std::size_t i = 1; i < x.size(); ++i)
        most = std::max(most, std::fabs(static_cast<double>(x[i]) - static_cast<double>(x[i - 1])));
    return most;
}

inline double in_db(double amplitude) { return 20 * std::log10(amplitude); }

inline sim::Hold hold_at(sim::Instrument instrument, double x, double y, double press = 6) {
    sim::Hold h;
    h.instrument = instrument;
    h.placed = true;
    h.gel = true;
    h.x_cm = x;
    h.y_cm = y;
    h.press_n = press;
    return h;
}

}  // namespace scene
