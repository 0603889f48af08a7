#include "engine/scoring/key.h"

#include "engine/scoring/expected.h"
#include "engine/scoring/heard.h"
#include "engine/scoring/key_of_picture.h"
#include "engine/scoring/situations.h"

#include <fmt/core.h>

#include <algorithm>

namespace engine {

std::size_t baby_in_question(const Protocol& protocol, const Picture& picture) {
    const auto worry = [&](std::size_t b) {
        if (picture.settled_bpm[b] <= 0) return -1;
        int w = classify(protocol, sim::Bpm{picture.settled_bpm[b]}) == BaselineClass::normal ? 0 : 1;
        if (picture.around[b].slow_after > 0) w += 2;
        if (picture.around[b].stays_down) w += 4;
        return w;
    };
    return worry(1) > worry(0) ? 1 : 0;
}

namespace {

SourceIs source_in(const Played& played, const Listened& listened, const Picture& picture,
                   sim::LabourTime from, sim::LabourTime to) {
    if (!heart_beats(played)) return listened.heard.empty() ? SourceIs::not_said : SourceIs::not_found;
    if (picture.heard_s[0] > 0 && picture.heard_s[1] > 0) return SourceIs::two_babies;
    if (picture.has("source_doubtful")) return SourceIs::doubtful;
    double by_what[4] = {};
    for (const HeardPiece& h : listened.heard) {
        const std::int64_t us = std::min(h.to.us, to.us) - std::max(h.from.us, from.us);
        if (us > 0) by_what[static_cast<int>(h.what)] += static_cast<double>(us);
    }
    const auto most = std::max_element(std::begin(by_what), std::end(by_what)) - std::begin(by_what);
    if (by_what[most] <= 0) return SourceIs::not_said;
    switch (static_cast<HeardWhat>(most)) {
        case HeardWhat::baby: return SourceIs::baby;
        case HeardWhat::unclear: return SourceIs::doubtful;
        case HeardWhat::mother: return SourceIs::mother;
        case HeardWhat::nothing: return SourceIs::not_found;
    }
    return SourceIs::not_said;
}

BaselineIs baseline_in(const Protocol& protocol, const Picture& picture, double bpm, double heard_s) {
    if (bpm <= 0 || heard_s < protocol.baseline_needs.value) return BaselineIs::not_checked;
    switch (classify(protocol, sim::Bpm{bpm})) {
        case BaselineClass::fast: return BaselineIs::fast;
        case BaselineClass::slow: return BaselineIs::slow;
        case BaselineClass::normal: break;
    }
    return picture.has("rising") ? BaselineIs::rising : BaselineIs::normal;
}

Around around_in(const AroundHeard& around) {
    if (around.stays_down) return Around::stays_down;
    if (around.slow_after > 0) return Around::slow_after_contraction;
    if (around.listened_through == 0) return Around::not_listened;
    return around.slow_in > 0 ? Around::slows_in_contraction : Around::no_slowing;
}

// What the situations do not say of the decision by themselves.
std::vector<std::string> more_of_decision(const Protocol& protocol, const Key& key, const Picture& picture,
                                          std::size_t b) {
    std::vector<std::string> more;
    if (key.decision.baseline == BaselineIs::normal && !picture.has("normal"))
        more.push_back(fmt::format("The settled rate{} is {:.1f}, within {:.0f} to {:.0f}.",
                                   key.twin == 0   ? ""
                                   : key.twin == 1 ? " of the first baby"
                                                   : " of the second baby",
                                   key.baseline_bpm, protocol.low.bpm.value, protocol.high.bpm.value));
    if (key.decision.baseline == BaselineIs::normal && alerts(protocol, sim::Bpm{key.baseline_bpm}))
        more.push_back(fmt::format(
            "{:.1f} is inside the limits, and an alert in this protocol's other column.", key.baseline_bpm));
    const AroundHeard& around = picture.around[b];
    if (key.decision.around == Around::slows_in_contraction)
        more.push_back(
            fmt::format("It slowed in {} of {} contractions listened through, and was back when they ended.",
                        around.slow_in, around.listened_through));
    if (key.decision.around == Around::no_slowing)
        more.push_back(fmt::format("No slowing in or after {} contraction{} listened through.",
                                   around.listened_through, around.listened_through == 1 ? "" : "s"));
    return more;
}

Key key_from(const Scenario& scenario, const Protocol& protocol, const Played& played,
             const Listened& listened, sim::LabourTime from, sim::LabourTime to) {
    return key_of_picture(scenario, protocol, played, listened,
                          picture_of(scenario, protocol, played, listened, from, to), from, to);
}

}  // namespace

Key key_of_picture(const Scenario& scenario, const Protocol& protocol, const Played& played,
                   const Listened& listened, const Picture& picture, sim::LabourTime from,
                   sim::LabourTime to) {
    Key key;
    const std::size_t b = baby_in_question(protocol, picture);
    if (played.patient.babies.size > 1) key.twin = static_cast<int>(b) + 1;
    key.baseline_bpm = picture.settled_bpm[b];
    key.decision.source = source_in(played, listened, picture, from, to);
    key.decision.baseline = baseline_in(protocol, picture, key.baseline_bpm, picture.heard_s[b]);
    key.decision.around = around_in(picture.around[b]);
    key.decision.rhythm = picture.heard_s[b] <= 0    ? RhythmIs::not_said
                          : picture.has("irregular") ? RhythmIs::irregular
                                                     : RhythmIs::regular;
    key.level = picture.level;
    bool known_set = false;
    for (const Known& k : picture.known) {
        key.situations.push_back(k.situation);
        if (!k.why.empty()) key.why.push_back(k.why);
        if (k.situation != "always" && !known_set) {
            key.known_from_s = k.from.seconds();
            known_set = true;
        }
    }
    for (std::string& said : more_of_decision(protocol, key, picture, b)) key.why.push_back(std::move(said));
    const std::vector<Bound> expected = bound_rules(scenario, protocol, played, picture, Grade::expected);
    for (const Asked& asked : asked_once(expected)) {
        const double within_s = asked.shortest_within_s();
        const auto soonest = std::find_if(asked.by.begin(), asked.by.end(), [&](const Bound* rule) {
            return rule->rule->within.value == within_s;
        });
        key.expected.push_back({asked.acts, within_s, asked.critical(), (*soonest)->rule->situation,
                                asked.situations(), asked.sources(), asked.conflict()});
    }
    for (const Bound& bound : bound_rules(scenario, protocol, played, picture, Grade::unsafe))
        for (const std::string& act : bound.acts)
            if (std::find(key.unsafe.begin(), key.unsafe.end(), act) == key.unsafe.end())
                key.unsafe.push_back(act);
    return key;
}

Key key_of(const Scenario& scenario, const Protocol& protocol, sim::Seed seed) {
    const Played played = untouched(scenario, seed);
    return key_from(scenario, protocol, played, everything(scenario, played), {0}, {played.end.us + 1});
}

Key key_of_spell(const Scenario& scenario, const Protocol& protocol, const Played& played,
                 sim::LabourTime from, sim::LabourTime to) {
    Listened listened;
    listened.heard = played.spells.empty() ? heard_throughout(played, from, to) : what_was_heard(played);
    for (const Revealed& r : played.revealed)
        if (r.at < to) listened.found.push_back(r);
    return key_from(scenario, protocol, played, listened, from, to);
}

Key key_of_spell(const Scenario& scenario, const Protocol& protocol, sim::Seed seed, sim::LabourTime from,
                 sim::LabourTime to) {
    return key_of_spell(scenario, protocol, untouched(scenario, seed), from, to);
}

}  // namespace engine
