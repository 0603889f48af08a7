// What was there around contractions, and falls that stay.
#include "engine/scoring/painter.h"

#include <fmt/core.h>

#include <algorithm>

namespace engine {

namespace {

constexpr double contraction_end_slack_s = 3;  // a hand notices the end this late [practice]

}  // namespace

bool Painter::covered(int b, sim::LabourTime a, sim::LabourTime z) const {
    std::int64_t us = 0;
    for (const HeardPiece& h : listened_.heard)
        if (has_baby(h.what) && h.baby == b)
            us += std::max<std::int64_t>(0, std::min(h.to.us, z.us) - std::max(h.from.us, a.us));
    return us + 2'000'000 >= z.us - a.us;
}

void Painter::around(int b) {
    AroundHeard& around = picture_.around[static_cast<std::size_t>(b)];
    const std::int64_t on = sim::labour_time(protocol_.rule_for(scenario_.labour.stage).after_end).us;
    const std::int64_t slack = sim::labour_time(sim::Seconds{contraction_end_slack_s}).us;
    for (std::size_t c = 0; c < played_.contractions.size(); ++c) {
        const Contraction& womb = played_.contractions[c];
        const sim::LabourTime until{womb.to.us + on};
        if (!womb.ended || until > to_ || womb.to.us + slack < from_.us) continue;
        if (!covered(b, {womb.to.us + slack}, until)) continue;
        const bool was_over_half = around.over_half();
        ++around.listened_through;
        listened_through_of_[static_cast<std::size_t>(b)].push_back(until);
        bool in = false, after = false;
        for (const Slowing& s : heart(b).falls) {
            if (s.contraction != static_cast<int>(c)) continue;
            (s.after ? after : in) = true;
        }
        if (after && around.slow_after++ == 0) around.slow_after_known = until;
        if (in && !after && covered(b, womb.peak, until) && around.slow_in++ == 0)
            around.slow_in_known = until;
        if (around.over_half() && !was_over_half) around.over_half_known = until;
    }
    if (around.slow_after > 0)
        know(
            "slow_after_contraction", around.slow_after_known,
            fmt::format("Still at least {:.0f} below the settled rate after the end of {} of {} contractions "
                        "listened through.",
                        protocol_.slowing_depth.value, around.slow_after, around.listened_through));
    if (around.over_half()) {
        if (!picture_.over_half || around.over_half_known < picture_.over_half_from)
            picture_.over_half_from = around.over_half_known;
        picture_.over_half = true;
    }
    stays_down(b, around);
}

void Painter::stays_down(int b, AroundHeard& around) {
    const HeartRun& heart_b = heart(b);
    if (!heart_b.ever_fallen) return;
    const std::vector<HeardStretch>& heard = heard_of_[static_cast<std::size_t>(b)];
    constexpr std::int64_t never = -1, lost_touch_us = 60'000'000;
    std::int64_t first = never, last = never;
    for (const HeardStretch& stretch : heard)
        for (std::size_t k = stretch.first; k < stretch.end; ++k) {
            const sim::LabourTime t = time_of_tick(k);
            if (!heart_b.at(k).fallen) {
                first = never;
                continue;
            }
            if (first == never || t.us - last > lost_touch_us) first = t.us;
            last = t.us;
            if (!fall_heard_ || t < *fall_heard_) fall_heard_ = t;  // of twins the earlier
            if (!around.stays_down && t.us - first >= sim::labour_time(protocol_.stays_down).us) {
                around.stays_down = true;
                around.stays_down_known = t;
            }
        }
    if (const auto sure =
            heard_for(heard, protocol_.baseline_needs, [&](std::size_t k) { return heart_b.at(k).fallen; }))
        fall_sure_ = fall_sure_ ? std::min(*fall_sure_, *sure) : *sure;
    if (around.stays_down)
        know("stays_down", around.stays_down_known,
             fmt::format("A fall that had not come back after {:.0f} s.", protocol_.stays_down.value));
}

}  // namespace engine
