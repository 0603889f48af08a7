#include "engine/scoring/pulse_due.h"

#include <algorithm>

namespace engine {

namespace {

std::vector<PulseFelt> long_enough(const Protocol& protocol, const Played& played) {
    std::vector<PulseFelt> felt;
    const std::int64_t least = sim::labour_time(protocol.pulse_felt_for).us;
    std::copy_if(played.pulses.begin(), played.pulses.end(), std::back_inserter(felt),
                 [&](const PulseFelt& p) { return p.to.us - p.from.us >= least; });
    return felt;
}

}  // namespace

std::optional<PulseOverdue> pulse_overdue(const Scenario& scenario, const Protocol& protocol,
                                          const Played& played) {
    const std::vector<PulseFelt> felt = long_enough(protocol, played);
    if (protocol.pulse_at_each_listening) {
        const SkipRule listening(scenario, protocol);
        for (const Spell& spell : played.spells) {
            if (!listening.is_listening(spell.from, spell.to)) continue;
            if (std::none_of(felt.begin(), felt.end(),
                             [&](const PulseFelt& p) { return p.from < spell.to && p.to > spell.from; }))
                return PulseOverdue{spell.from, std::nullopt};
        }
    }
    const sim::Seconds every =
        scenario.labour.stage == Stage::second ? protocol.pulse_every_second : protocol.pulse_every_first;
    if (every.value <= 0) return std::nullopt;
    for (std::size_t i = 0; i < felt.size(); ++i) {
        const sim::LabourTime due{felt[i].to.us + sim::labour_time(every).us};
        if (i + 1 < felt.size() && felt[i + 1].from > due) return PulseOverdue{due, felt[i + 1].from};
        if (i + 1 == felt.size() && played.end > due) return PulseOverdue{due, std::nullopt};
    }
    return std::nullopt;
}

}  // namespace engine
