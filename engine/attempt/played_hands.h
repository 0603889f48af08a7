// What the walk through the events leaves for the parts that are worked out afterwards.
#pragma once

#include "engine/attempt/attempt.h"

#include <vector>

namespace engine {

struct Stretch {
    sim::LabourTime from, to;
    friend bool operator==(const Stretch&, const Stretch&) = default;
};

// Where the instrument stood at a moment: at every place, place again and move.
struct Placing {
    sim::LabourTime at;
    double x_cm = 0, y_cm = 0;
    sim::Instrument instrument = sim::Instrument::none;
    bool put_on = false;  // after having been lifted, or for the first time
};

// When the trainee's hands lay where; time jumped over by a skip is left out.
struct Hands {
    std::vector<Stretch> wrist, belly;  // either hand; no overlaps, in time order
    std::vector<Placing> placings;
};

// Pressure and time of each contraction, as a hand could feel it.
std::vector<Contraction> contractions_in(const std::vector<sim::CourseTick>& course);

// Acts that hands, ears and clock show, in no order. Reads spells, windows, contractions, records and notes.
std::vector<TimedAct> seen_acts(const Scenario&, const Protocol&, const Played&, const Hands&);

// The length meant by a count of `own_s` seconds: the nearest of 60, 30, 15, 10, 6 s if within 15 % of it, or
// none.
std::optional<double> plan_meant(double own_s);

}  // namespace engine
