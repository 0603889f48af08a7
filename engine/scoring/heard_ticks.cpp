#include "engine/scoring/heard_ticks.h"

#include "engine/scoring/steps.h"

#include <algorithm>

namespace engine {

std::vector<HeardTick> heard_ticks(const Protocol& protocol, const Played& played,
                                   const std::vector<Slowing>& falls, const std::vector<HeardPiece>& heard,
                                   int baby, sim::LabourTime from, sim::LabourTime to) {
    std::vector<HeardTick> ticks;
    double classed_bpm = -1;
    BaselineClass kind = BaselineClass::normal;
    for (const HeardPiece& h : heard) {
        if (!has_baby(h.what) || h.baby != baby) continue;
        const std::int64_t a = std::max(h.from.us, from.us), b = std::min(h.to.us, to.us);
        const std::int64_t first = (a + sim::course_tick_us - 1) / sim::course_tick_us * sim::course_tick_us;
        for (std::int64_t us = first; us < b; us += sim::course_tick_us) {
            HeardTick tick;
            tick.t = {us};
            tick.spell = h.spell;
            tick.base_bpm = settled_as_counted(played, baby, tick.t);
            if (tick.base_bpm != classed_bpm) {  // settled: mostly the same from tick to tick
                classed_bpm = tick.base_bpm;
                kind = classify(protocol, sim::Bpm{to_thousandth(classed_bpm)});
            }
            tick.kind = kind;
            tick.lasting_fall = lasting_fall_bpm(played, baby, tick.t) >= protocol.slowing_depth.value;
            tick.fallen =
                tick.lasting_fall || std::any_of(falls.begin(), falls.end(), [us](const Slowing& s) {
                    return s.from.us <= us && us <= s.deep_until.us;
                });
            ticks.push_back(tick);
        }
    }
    return ticks;
}

}  // namespace engine
