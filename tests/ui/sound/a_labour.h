// A labour to be sounded in tests, and moving controls.
#pragma once

#include "sim/listening.h"

#include <cstdint>
#include <memory>
#include <vector>

namespace a_labour {

inline sim::Patient patient() {
    sim::Patient p;
    p.babies.add(sim::Baby{});
    return p;
}

// On the heap: a listening is too large for comfort on a stack.
inline std::unique_ptr<sim::Listening> listening(std::uint64_t seed = 1) {
    return std::make_unique<sim::Listening>(patient(), sim::Seed{seed}, sim::OutputMode::true_sound);
}

inline sim::Change change(sim::Change::Kind kind, std::int64_t at_us) {
    sim::Change c;
    c.kind = kind;
    c.at_us = at_us;
    return c;
}

inline sim::Change take(sim::Instrument instrument, std::int64_t at_us) {
    sim::Change c = change(sim::Change::Kind::take, at_us);
    c.instrument = instrument;
    return c;
}

inline sim::Change place(double x_cm, double y_cm, std::int64_t at_us) {
    sim::Change c = change(sim::Change::Kind::place, at_us);
    c.x_cm = x_cm;
    c.y_cm = y_cm;
    return c;
}

inline sim::Change move(double x_cm, double y_cm, std::int64_t at_us) {
    sim::Change c = place(x_cm, y_cm, at_us);
    c.kind = sim::Change::Kind::move;
    return c;
}

// The n-th of an endless row of moves over the belly, 20 a second, with presses and tilts between.
inline sim::Change moving(int n, std::int64_t at_us) {
    const double x = -8 + 0.05 * (n % 320), y = -12 + 0.07 * (n % 200);
    if (n % 7 == 3) {
        sim::Change c = change(sim::Change::Kind::press, at_us);
        c.press_n = static_cast<float>(n % 12);
        return c;
    }
    if (n % 7 == 5) {
        sim::Change c = change(sim::Change::Kind::tilt, at_us);
        c.tilt_deg = static_cast<float>(n % 30);
        return c;
    }
    return move(x, y, at_us);
}

inline std::vector<sim::Change> script(int seconds) {
    std::vector<sim::Change> list{take(sim::Instrument::horn, 500'000), place(6, -7, 1'000'123)};
    for (int n = 0; n < 20 * (seconds - 2); ++n) list.push_back(moving(n, 2'000'000 + 50'000 * n + 333));
    return list;
}

}  // namespace a_labour
