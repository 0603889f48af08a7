#include "engine/scoring/slowing.h"

#include "engine/scoring/heard.h"
#include "engine/scoring/steps.h"

#include <algorithm>

namespace engine {

namespace {

constexpr int smooth_ticks = 20;  // each side: 10 s in all, about what one short count averages
// A contraction's end felt by a hand is not sharp: a fall counts as "after" from this long past it
// [practice].
constexpr std::int64_t end_is_soft_us = 5'000'000;

std::vector<double> depth_below_settled(const Played& played, int baby) {
    const auto b = static_cast<std::size_t>(baby);
    const std::size_t n = played.course.size();
    std::vector<double> sum(n + 1, 0.0), depth(n, 0.0);
    for (std::size_t k = 0; k < n; ++k)
        sum[k + 1] = sum[k] + played.course[k].fhr_base_bpm[b] - played.course[k].fhr_bpm[b];
    for (std::size_t k = 0; k < n; ++k) {
        const std::size_t lo = k >= smooth_ticks ? k - smooth_ticks : 0,
                          hi = std::min(n, k + smooth_ticks + 1);
        depth[k] = (sum[hi] - sum[lo]) / static_cast<double>(hi - lo);
    }
    return depth;
}

// Without anything that slows this heart, a low stretch is variability: no ear and no guideline calls it a
// slowing.
bool can_slow(const sim::Baby& baby) {
    return std::any_of(baby.events.begin(), baby.events.end(),
                       [](const sim::BabyEvent& e) { return e.kind != sim::BabyEvent::Kind::acceleration; });
}

sim::LabourTime at_tick(std::size_t k) { return {static_cast<std::int64_t>(k) * sim::course_tick_us}; }

// The contraction a fall belongs to: the last one that began before the fall was deepest and ended less than
// a minute and a half before it began.
int contraction_of(const Played& played, sim::LabourTime from, sim::LabourTime deepest) {
    int found = -1;
    for (std::size_t c = 0; c < played.contractions.size(); ++c)
        if (played.contractions[c].from <= deepest && played.contractions[c].to.us + 90'000'000 > from.us)
            found = static_cast<int>(c);
    return found;
}

}  // namespace

std::vector<Slowing> slowings(const Protocol& protocol, const Played& played, int baby) {
    std::vector<Slowing> found;
    if (baby >= played.patient.babies.size) return found;
    const sim::Baby& of = played.patient.babies[baby];
    if (!of.heart_beats || !can_slow(of)) return found;
    const std::vector<double> depth = depth_below_settled(played, baby);
    const double deep = protocol.slowing_depth.value, edge = deep / 3;
    for (std::size_t k = 0; k < depth.size();) {
        if (depth[k] <= edge) {
            ++k;
            continue;
        }
        Slowing s;
        s.from = at_tick(k);
        std::size_t deepest = k, last_deep = k;
        for (; k < depth.size() && depth[k] > edge; ++k) {
            if (depth[k] > depth[deepest]) deepest = k;
            if (depth[k] >= deep) last_deep = k;
        }
        s.to = at_tick(k);
        s.deep_until = at_tick(last_deep);
        s.depth_bpm = to_thousandth(depth[deepest]);
        if (depth[deepest] < deep || (s.to.us - s.from.us) < sim::labour_time(protocol.slowing_length).us)
            continue;
        s.contraction = contraction_of(played, s.from, at_tick(deepest));
        if (s.contraction >= 0) {
            const auto& c = played.contractions[static_cast<std::size_t>(s.contraction)];
            s.after = s.deep_until.us >= c.to.us + end_is_soft_us;
        }
        found.push_back(s);
    }
    return found;
}

double lasting_fall_bpm(const Played& played, int baby, sim::LabourTime t) {
    const auto& cause = played.patient.cause;
    if (cause.falls_to.value <= 0 || t < sim::labour_time(cause.at) || baby >= played.patient.babies.size)
        return 0;
    const auto b = static_cast<std::size_t>(baby);
    const double before = tick_at(played, sim::labour_time(cause.at)).fhr_base_bpm[b];
    const double fall = before - tick_at(played, t).fhr_base_bpm[b];
    return fall > 0 ? fall : 0;
}

bool fallen_at(const Protocol& protocol, const Played& played, const std::vector<Slowing>& falls, int baby,
               sim::LabourTime t) {
    if (lasting_fall_bpm(played, baby, t) >= protocol.slowing_depth.value) return true;
    return std::any_of(falls.begin(), falls.end(),
                       [&](const Slowing& s) { return s.from <= t && t <= s.deep_until; });
}

}  // namespace engine
