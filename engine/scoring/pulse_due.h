// When a protocol asks for her pulse again: every so often by stage, or at each listening.
#pragma once

#include "engine/attempt/attempt.h"
#include "engine/protocol/protocol.h"
#include "engine/scenario/scenario.h"

#include <optional>

namespace engine {

struct PulseOverdue {
    sim::LabourTime due;
    std::optional<sim::LabourTime> felt;  // late; none: not at all
};

// The first time her pulse was felt later than due, or not at that listening; none where the protocol has no
// such rule. Felt is `pulse_felt_for` or longer. Counts from the first pulse felt: the first listening has a
// rule of its own.
std::optional<PulseOverdue> pulse_overdue(const Scenario&, const Protocol&, const Played&);

}  // namespace engine
