#include "engine/scoring/labour_run.h"

#include "engine/scoring/steps.h"

#include <cmath>

namespace engine {

namespace {

std::size_t tick_at_or_after(std::int64_t us) {
    return static_cast<std::size_t>((us + sim::course_tick_us - 1) / sim::course_tick_us);
}

void mark_fallen(HeartRun& heart) {
    for (const Slowing& fall : heart.falls)
        for (std::size_t k = tick_at_or_after(fall.from.us);
             k < heart.ticks.size() && time_of_tick(k) <= fall.deep_until; ++k)
            heart.ticks[k].fallen = true;
}

HeartRun heart_run(const Protocol& protocol, const Played& played, int baby) {
    HeartRun heart;
    if (!played.patient.babies[baby].heart_beats) return heart;
    heart.falls = slowings(protocol, played, baby);
    heart.ticks.resize(played.course.size() + 1);
    double classed_bpm = -1;
    BaselineClass kind = BaselineClass::normal;
    for (std::size_t k = 0; k < heart.ticks.size(); ++k) {
        const sim::LabourTime t = time_of_tick(k);
        HeartTick& tick = heart.ticks[k];
        tick.base_bpm = settled_as_counted(played, baby, t);
        tick.from_hers_bpm = std::fabs(tick.base_bpm - tick_at(played, t).mhr_bpm);
        if (tick.base_bpm != classed_bpm) {  // settled: mostly the same from tick to tick
            classed_bpm = tick.base_bpm;
            kind = classify(protocol, sim::Bpm{to_thousandth(classed_bpm)});
        }
        tick.kind = kind;
        tick.lasting_fall = tick.fallen = lasting_fall_bpm(played, baby, t) >= protocol.slowing_depth.value;
    }
    mark_fallen(heart);
    heart.nearest_to_hers_bpm = heart.ticks.front().from_hers_bpm;
    for (const HeartTick& tick : heart.ticks) {
        heart.ever_fast |= tick.kind == BaselineClass::fast;
        heart.ever_slow |= tick.kind == BaselineClass::slow;
        heart.ever_fallen |= tick.fallen;
        heart.highest_bpm = std::max(heart.highest_bpm, tick.base_bpm);
        heart.nearest_to_hers_bpm = std::min(heart.nearest_to_hers_bpm, tick.from_hers_bpm);
    }
    return heart;
}

}  // namespace

LabourRun labour_run(const Protocol& protocol, const Played& played) {
    LabourRun run;
    for (int b = 0; b < played.patient.babies.size && b < 2; ++b)
        run.babies[static_cast<std::size_t>(b)] = heart_run(protocol, played, b);
    run.mother = her_rest(played);
    return run;
}

std::vector<HeardStretch> heard_stretches(const std::vector<HeardPiece>& heard, int baby,
                                          sim::LabourTime from, sim::LabourTime to) {
    std::vector<HeardStretch> stretches;
    for (const HeardPiece& h : heard) {
        if (!has_baby(h.what) || h.baby != baby) continue;
        const std::size_t first = tick_at_or_after(std::max(h.from.us, from.us)),
                          end = tick_at_or_after(std::min(h.to.us, to.us));
        if (first < end) stretches.push_back({first, end, h.spell});
    }
    return stretches;
}

std::size_t ticks_in(const std::vector<HeardStretch>& stretches) {
    std::size_t n = 0;
    for (const HeardStretch& stretch : stretches) n += stretch.end - stretch.first;
    return n;
}

}  // namespace engine
