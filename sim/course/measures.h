// What helps against each trouble, how much and how soon; what makes it worse. One row a measure, each with
// its source. What an act is worth belongs to the protocol; here is only what it does to the body.
#pragma once

#include "sim/hold.h"
#include "sim/patient.h"

#include <cstdint>
#include <span>
#include <string_view>

namespace sim {

// What has to be so for a measure to count as done.
enum class Done : std::uint8_t {
    by_act,        // the act itself
    lies_another,  // she lies or stands otherwise than when it began, and not flat
    not_flat       // any position but flat
};

// What has to be there for an act to take away anything.
enum class Needs : std::uint8_t { nothing, drip_running, pushing };

struct Measure {
    Trouble trouble;
    Done done;
    Act act;             // Act::none when it is a position
    double takes_away;   // of the fall, of the slowings it explains and of her own pulse's change, 0..1
    Seconds works_over;  // nine tenths of that this long after the act is done (see `act_takes`), 0..3600
    Needs needs;
    std::string_view source;
};

// Several together leave the product of what each leaves. A trouble without a row answers to nothing.
std::span<const Measure> measures();

struct Harm {
    Trouble trouble;
    Act act;
    double leaves_of_relief;  // of what the measures have taken away, 0..1
    double deepens;           // by this part of the fall
    std::string_view source;
};

std::span<const Harm> harms();

}  // namespace sim
