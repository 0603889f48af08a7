// A woman while she is drawn: what is asked, the bands the rates are drawn from, the dice.
#pragma once

#include "engine/drawing/woman.h"

#include <string>
#include <string_view>

namespace engine {

// The limits of today's protocol and of the older practice: class is sure this far inside.
struct Bands {
    double normal_from, normal_to, fast_from, slow_to, steady_from, steady_to;
    explicit Bands(const Protocol& p)
        : normal_from(std::max(p.low.bpm.value, 120.0) + 2.1),  // 120: older community practice
          normal_to(p.high.bpm.value - 4),
          fast_from(p.high.bpm.value + 5),
          slow_to(p.red_below.value - 3),
          steady_from(p.red_below.value + 3),
          steady_to(p.low.bpm.value - 2.5) {}
};

struct Draft {
    const Case& c;
    bool answers;
    Bands bands;
    Dice& dice;
    int again;
    RateRange rate{};
    Woman w{};
    // A rate of the band; of that part of it the quota asks for, where it asks and the two meet.
    double rate_of_band(double from_bpm, double to_bpm);
    bool is(int trouble_wanted) const { return c[Axis::trouble] == trouble_wanted; }
    bool caused_by(int cause_wanted) const { return c[Axis::cause] == cause_wanted; }
    Task task() const { return static_cast<Task>(c[Axis::task]); }
};

// Her pulse well away from the baby's: at rest and at the height of a contraction or a push.
void pulse_apart(Draft& draft, double from_bpm, double to_bpm);
void on_her_back(Draft& draft);
void call(Draft& draft, std::string kind, int at_s, std::string says);

// What the heart does when it is not calm, and a cause that fits.
void add_trouble(Draft& draft);

}  // namespace engine
