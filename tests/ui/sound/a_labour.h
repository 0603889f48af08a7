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

// The n-th of an endless row of everything a hand, a screen or an act can change; every third puts the
// instrument back.
inline sim::Change anything(int n, std::int64_t at_us) {
    if (n % 3 == 0) {
        sim::Change c = place(6 - 0.1 * (n % 50), -7 + 0.1 * (n % 40), at_us);
        c.press_n = 6;
        return c;
    }
    sim::Change c = change(static_cast<sim::Change::Kind>(n % 12), at_us);
    if (c.kind == sim::Change::Kind::skip && n % 36 != 11) c.kind = sim::Change::Kind::move;
    c.instrument = static_cast<sim::Instrument>(1 + n / 12 % 4);
    c.x_cm = -8 + 0.1 * (n % 160);
    c.y_cm = -12 + 0.1 * (n % 180);
    c.press_n = static_cast<float>(n % 25);
    c.tilt_deg = static_cast<float>(n % 45);
    c.gel = n % 7 != 0;
    c.hand = static_cast<sim::Hand>(n / 5 % 2);
    c.on = static_cast<sim::On>(n / 7 % 4);
    c.position = static_cast<sim::Position>(n / 11 % 8);
    c.act = static_cast<sim::Act>(n / 13 % static_cast<int>(sim::Act::count_));
    c.mode = static_cast<sim::OutputMode>(n / 17 % 3);
    c.skip_to_us = 0;  // the past: an empty skip, unless the sender says where to
    return c;
}

inline std::vector<sim::Change> script(int seconds) {
    std::vector<sim::Change> list{take(sim::Instrument::horn, 500'000), place(6, -7, 1'000'123)};
    for (int n = 0; n < 20 * (seconds - 2); ++n) list.push_back(moving(n, 2'000'000 + 50'000 * n + 333));
    return list;
}

}  // namespace a_labour
