// Coming back later: where a jump ahead really stops.
#include "engine/attempt/attempt.h"

#include <algorithm>

namespace engine {

namespace {

constexpr std::int64_t own_watch_us = 2'000'000;

std::string_view called_out(CallOut::Kind kind) {
    switch (kind) {
        case CallOut::Kind::waters_break: return "her waters break";
        case CallOut::Kind::pain_changes: return "her pain changes";
        case CallOut::Kind::bleeding: return "she bleeds";
        case CallOut::Kind::wants_to_push: return "she wants to push";
        case CallOut::Kind::feels_unwell: return "she feels unwell";
        case CallOut::Kind::interrupted: break;
    }
    return "she calls out";
}

}  // namespace

SkipRule::SkipRule(const Scenario& scenario, const Protocol& protocol) {
    for (const CallOut& call : scenario.call_outs) {
        if (call.kind == CallOut::Kind::interrupted) continue;
        calls.emplace_back(sim::labour_time(call.at),
                           std::string(called_out(call.kind)) + (call.says.empty() ? "" : ": " + call.says));
    }
    std::stable_sort(calls.begin(), calls.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    for (const ListeningRule& rule : protocol.listening)
        if (rule.stage == scenario.labour.stage) {
            every = sim::labour_time(rule.every_most);
            long_enough.us = sim::labour_time(rule.length).us - own_watch_us;
            break;
        }
    if (scenario.chart.empty()) return;
    double ago = scenario.chart.front().minutes_ago;
    for (const ChartLine& line : scenario.chart) ago = std::min(ago, line.minutes_ago);
    listened_before = sim::labour_time({-60.0 * ago});
}

bool SkipRule::is_listening(sim::LabourTime placed, sim::LabourTime lifted) const {
    return lifted.us - placed.us >= long_enough.us;
}

SkipDone SkipRule::stop(sim::LabourTime from, sim::LabourTime asked, sim::LabourTime listened_until) const {
    SkipDone done{from, asked, asked, ""};
    for (const auto& [at, why] : calls)
        if (at > from) {
            if (at < done.to) {
                done.to = at;
                done.why = why;
            }
            break;
        }
    if (every.us <= 0) return done;
    const std::int64_t since = listened_until.us >= 0 ? listened_until.us : listened_before.us;
    const std::int64_t missed = (from.us - since) / every.us;
    const std::int64_t due = since + (missed + 1) * every.us;
    if (due < done.to.us) {
        done.to.us = due;
        done.why = "a listening falls due";
    }
    return done;
}

SkipDone skip_stop(const Scenario& scenario, const Protocol& protocol, sim::LabourTime from,
                   sim::LabourTime asked, sim::LabourTime listened_until) {
    return SkipRule(scenario, protocol).stop(from, asked, listened_until);
}

}  // namespace engine
