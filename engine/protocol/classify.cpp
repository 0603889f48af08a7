#include "engine/protocol/protocol.h"

#include <cassert>

namespace engine {

BaselineClass classify(const Protocol& p, sim::Bpm rate) {
    if (rate < p.low.bpm || (rate == p.low.bpm && !p.low.limit_is_normal)) return BaselineClass::slow;
    if (rate > p.high.bpm || (rate == p.high.bpm && !p.high.limit_is_normal)) return BaselineClass::fast;
    return BaselineClass::normal;
}

bool alerts(const Protocol& p, sim::Bpm rate) {
    if (!p.alert_given) return false;
    return rate < p.alert_low.bpm || (rate == p.alert_low.bpm && !p.alert_low.limit_is_normal) ||
           rate > p.alert_high.bpm || (rate == p.alert_high.bpm && !p.alert_high.limit_is_normal);
}

bool too_many_contractions(const Protocol& p, double per_10min) {
    return per_10min > p.too_many.per_10min ||
           (per_10min >= p.too_many.per_10min && !p.too_many.limit_is_normal);
}

bool alerts_at_contractions(const Protocol& p, double per_10min) {
    return p.contraction_alerts_given &&
           (per_10min <= p.contraction_alerts.few_per_10min || too_many_contractions(p, per_10min));
}

bool alerts_at_contraction_length(const Protocol& p, sim::Seconds length) {
    return p.contraction_alerts_given &&
           (length < p.contraction_alerts.short_below || length > p.contraction_alerts.long_above);
}

OwnPulse classify_own_pulse(const Protocol& p, sim::Bpm pulse) {
    if (pulse < p.pulse_slow_below) return OwnPulse::slow;
    return pulse >= p.pulse_fast_from ? OwnPulse::fast : OwnPulse::usual;
}

const ActWords* Protocol::act(std::string_view act_id) const {
    for (const ActWords& a : acts)
        if (a.id == act_id) return &a;
    return nullptr;
}

const ListeningRule& Protocol::rule_for(Stage stage) const {
    for (const ListeningRule& r : listening)
        if (r.stage == stage) return r;
    assert(!listening.empty());  // the reader lets no protocol pass without all three stages
    return listening.front();
}

const Situation* Protocol::situation(std::string_view situation_id) const {
    for (const Situation& s : situations)
        if (s.id == situation_id) return &s;
    return nullptr;
}

}  // namespace engine
