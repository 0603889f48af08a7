// The hearts of a labour tick by tick, heard or not: worked out once for everything that is asked of them.
#pragma once

#include "engine/protocol/protocol.h"
#include "engine/scoring/heard.h"
#include "engine/scoring/slowing.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <vector>

namespace engine {

struct HeartTick {
    double base_bpm = 0;       // the settled rate
    double from_hers_bpm = 0;  // how far that is from the mother's rate, 0 or more
    BaselineClass kind = BaselineClass::normal;
    bool lasting_fall = false;  // by the cause, at least `slowing_depth`
    bool fallen = false;        // a lasting fall or a slowing
};

// One baby's heart. No ticks where none beats.
struct HeartRun {
    std::vector<Slowing> falls;
    std::vector<HeartTick> ticks;  // one for each of the course, and a last one that holds ever after
    // Anywhere in the labour: what never comes need not be looked for in what was heard of it.
    bool ever_fast = false, ever_slow = false, ever_fallen = false;
    double highest_bpm = 0, nearest_to_hers_bpm = 0;
    const HeartTick& at(std::size_t tick) const { return ticks[std::min(tick, ticks.size() - 1)]; }
};

// Her pulse where she rests: sums over the ticks before each one of the course, and over all.
struct HerRest {
    struct Before {
        double sum_bpm = 0;
        int ticks = 0;
    };
    std::vector<Before> before;
    bool at(std::size_t tick) const { return before[tick + 1].ticks > before[tick].ticks; }
};

struct LabourRun {
    std::array<HeartRun, 2> babies;
    HerRest mother;
};
LabourRun labour_run(const Protocol&, const Played&);

// Neither in a contraction nor shortly after one: mother_known.cpp.
HerRest her_rest(const Played&);

// Ticks of the course heard without a break: [first, end).
struct HeardStretch {
    std::size_t first = 0, end = 0;
    int spell = 0;
};

inline sim::LabourTime time_of_tick(std::size_t tick) {
    return {static_cast<std::int64_t>(tick) * sim::course_tick_us};
}

// Of one baby, in the order heard, spell by spell.
std::vector<HeardStretch> heard_stretches(const std::vector<HeardPiece>& heard, int baby,
                                          sim::LabourTime from, sim::LabourTime to);
std::size_t ticks_in(const std::vector<HeardStretch>&);

// First moment at which `holds`, asked of the tick's number, was heard for `needed` in one spell.
template <typename Holds>
std::optional<sim::LabourTime> heard_for(const std::vector<HeardStretch>& heard, sim::Seconds needed,
                                         Holds holds) {
    const std::int64_t enough = sim::labour_time(needed).us;
    std::int64_t sum = 0;
    int spell = -1;
    for (const HeardStretch& stretch : heard) {
        if (stretch.spell != spell) sum = 0;
        spell = stretch.spell;
        for (std::size_t k = stretch.first; k < stretch.end; ++k) {
            if (holds(k)) sum += sim::course_tick_us;
            if (sum >= enough) return time_of_tick(k + 1);
        }
    }
    return std::nullopt;
}

}  // namespace engine
