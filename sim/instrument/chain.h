// What an instrument does to a sound on its way from the skin to the ear: contact, seal and four filters.
// The same chain gives the levels that are judged and the coefficients the sound runs through.
#pragma once

#include "sim/hold.h"
#include "sim/sound/filters.h"

#include <array>

namespace sim {

struct Chain {
    std::array<FilterShape, 4> stages{};  // run in this order
    double contact = 1;                   // amplitude from skin to instrument, 1 = at 6 N, square, hands off
    double leak = 0;                      // 0 = rim sealed, 1 = open: lets the room in
    double tremor = 0;                    // share of the amplitude that a hand on it shakes at 10 Hz
};

Chain horn(const Hold& hold);
Chain bell(const Hold& hold);
Chain diaphragm(const Hold& hold);
Chain doppler_speaker(const Hold& hold);

// The chain of the instrument held; nothing held lets nothing through (contact 0).
Chain chain_of(const Hold& hold);

double amplitude_at(const Chain& chain, double f_hz);  // filters only, without contact

// The same instrument held as well as can be: 6 N, square, hands off, with gel.
Hold held_well(Instrument instrument, double x_cm, double y_cm);

}  // namespace sim
