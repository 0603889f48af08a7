// The ticks of the course that somebody heard of one baby, worked out once for everything that is asked of
// them.
#pragma once

#include "engine/protocol/protocol.h"
#include "engine/scoring/heard.h"
#include "engine/scoring/slowing.h"

#include <optional>
#include <vector>

namespace engine {

struct HeardTick {
    sim::LabourTime t;
    int spell = 0;
    double base_bpm = 0;  // the settled rate
    BaselineClass kind = BaselineClass::normal;
    bool lasting_fall = false;  // by the cause, at least `slowing_depth`
    bool fallen = false;        // a lasting fall or a slowing
};

// In the order heard, spell by spell.
std::vector<HeardTick> heard_ticks(const Protocol&, const Played&, const std::vector<Slowing>& falls,
                                   const std::vector<HeardPiece>& heard, int baby, sim::LabourTime from,
                                   sim::LabourTime to);

// First moment at which `holds` was heard for `needed` in one spell.
template <typename Holds>
std::optional<sim::LabourTime> heard_for(const std::vector<HeardTick>& ticks, sim::Seconds needed,
                                         Holds holds) {
    const std::int64_t enough = sim::labour_time(needed).us;
    std::int64_t sum = 0;
    int spell = -1;
    for (const HeardTick& tick : ticks) {
        if (tick.spell != spell) sum = 0;
        spell = tick.spell;
        if (holds(tick)) sum += sim::course_tick_us;
        if (sum >= enough) return sim::LabourTime{tick.t.us + sim::course_tick_us};
    }
    return std::nullopt;
}

}  // namespace engine
