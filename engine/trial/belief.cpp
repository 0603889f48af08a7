#include "engine/trial/belief.h"

#include "engine/scoring/evidence.h"
#include "engine/scoring/key.h"

#include <algorithm>
#include <array>

namespace engine {

namespace {

constexpr std::array<Around, 4> around_names = {Around::no_slowing, Around::slows_in_contraction,
                                                Around::slow_after_contraction, Around::stays_down};

void forget(Picture& picture, std::string_view situation) {
    std::erase_if(picture.known, [&](const Known& k) { return k.situation == situation; });
}

void hold(Picture& picture, std::string_view situation, sim::LabourTime at) {
    if (!picture.has(situation)) picture.known.push_back({std::string(situation), at, "", {}});
}

bool is_lie(std::string_view s) { return s == "breech" || s == "lying_across"; }

}  // namespace

BaselineIs class_of_count(const Protocol& protocol, int bpm) {
    switch (classify(protocol, sim::Bpm{static_cast<double>(bpm)})) {
        case BaselineClass::fast: return BaselineIs::fast;
        case BaselineClass::slow: return BaselineIs::slow;
        case BaselineClass::normal: break;
    }
    return BaselineIs::normal;
}

Around Belief::named(Around there) const {
    const auto at = std::find(around_names.begin(), around_names.end(), there) - around_names.begin();
    if (misread == 0 || at == static_cast<std::ptrdiff_t>(around_names.size())) return there;
    return around_names[static_cast<std::size_t>(at + misread) % around_names.size()];
}

bool Belief::notices(std::string_view situation) const {
    if (hers) return false;
    constexpr std::array<std::string_view, 5> only_counted = {"always", "normal", "fast", "slow_steady",
                                                              "rising"};
    if (std::find(only_counted.begin(), only_counted.end(), situation) != only_counted.end()) return false;
    if (situation == "slow" || situation == "stays_down" || situation == "slow_after_contraction")
        return misread == 0;
    return true;
}

Picture Belief::of(const Scenario& scenario, const Protocol& protocol, const Played& until_now) const {
    Listened listened;
    listened.heard = what_was_heard(until_now);
    listened.found = until_now.revealed;
    Picture picture = picture_of(scenario, protocol, until_now, listened, {0}, {until_now.end.us + 1});
    const sim::LabourTime at = until_now.end;
    forget(picture, "normal");
    if (hers)
        for (const char* s : {"mothers_pulse", "source_doubtful", "not_found", "irregular", "rising", "slow",
                              "slow_steady", "fast", "slow_after_contraction", "stays_down"})
            forget(picture, s);
    // The rate: by ear nothing but a deep fall, by the count its class.
    const bool below_red = picture.has("slow");
    const bool rising = picture.has("rising");
    for (const char* s : {"fast", "slow_steady", "rising"})
        if (!own_class || *own_class != (std::string_view(s) == "fast" ? BaselineIs::fast : BaselineIs::slow))
            forget(picture, s);
    if (misread != 0) forget(picture, "slow");
    if (own_class == BaselineIs::normal && rising) hold(picture, "rising", at);
    if (own_class == BaselineIs::fast) hold(picture, "fast", at);
    if (own_class == BaselineIs::slow && !picture.has("slow_steady"))
        hold(picture, below_red ? "slow" : "slow_steady", at);
    // Around contractions.
    const AroundHeard& around = picture.around[0];
    if (misread != 0) {
        Around there = around.slow_in > 0 ? Around::slows_in_contraction : Around::no_slowing;
        if (picture.has("slow_after_contraction")) there = Around::slow_after_contraction;
        if (picture.has("stays_down")) there = Around::stays_down;
        const bool anything = around.listened_through > 0 || there == Around::stays_down;
        const Around held = named(there);
        if (held != Around::slow_after_contraction) {
            forget(picture, "slow_after_contraction");
            picture.over_half = false;
        }
        if (held != Around::stays_down) forget(picture, "stays_down");
        if (judges_around && anything && held == Around::slow_after_contraction)
            hold(picture, "slow_after_contraction", at);
        if (judges_around && anything && held == Around::stays_down) hold(picture, "stays_down", at);
    }
    if (row_shows) {
        if (*row_shows != Around::slow_after_contraction) {
            forget(picture, "slow_after_contraction");
            picture.over_half = false;
        } else {
            hold(picture, "slow_after_contraction", at);
        }
        forget(picture, "stays_down");
    }
    const auto trouble = [&](const Known& k) {
        return k.situation != "always" && k.situation != "mothers_pulse" && !is_lie(k.situation);
    };
    const bool heart_in_trouble =
        std::any_of(picture.known.begin(), picture.known.end(), [&](const Known& k) {
            return trouble(k) && level_of(protocol, k.situation) >= Level::yellow &&
                   k.situation != "lying_flat" && k.situation != "close_to_birth" &&
                   k.situation != "not_close_to_birth";
        });
    if (!heart_in_trouble)
        for (const char* s : {"lying_flat", "close_to_birth", "not_close_to_birth"}) forget(picture, s);
    if (own_class && std::none_of(picture.known.begin(), picture.known.end(), trouble))
        hold(picture, "normal", at);
    return picture;
}

Decision Belief::said(const Attendant& a) const {
    Decision d;
    const BaselineIs counted = own_class.value_or(BaselineIs::not_checked);
    if (hers) return {SourceIs::baby, counted, Around::not_said, RhythmIs::not_said, false};
    // What a decision at this moment would rest on.
    std::vector<Event> events = a.events;
    Event e;
    e.t = sim::labour_time({a.t});
    e.what = Do::decide;
    e.decision.source = SourceIs::baby;
    events.push_back(e);
    e.what = Do::finish;
    events.push_back(e);
    const Played played = play(a.scenario, a.protocol, a.draws.labour(), events);
    const Evidence evidence(a.scenario, a.protocol, played);
    const StandingDecision& rests_on = evidence.decisions.back();
    const Key key = key_of_spell(a.scenario, a.protocol, played, rests_on.from, sim::labour_time({a.t}));
    d.source = rests_on.source_there == SourceIs::not_said ? key.decision.source : rests_on.source_there;
    if (d.source == SourceIs::not_found) return d;
    d.unsure = d.source == SourceIs::doubtful || !a.scenario.place.watch;
    d.baseline = counted;
    if (d.unsure) d.baseline = BaselineIs::not_checked;
    if (counted == BaselineIs::normal && key.decision.baseline == BaselineIs::rising)
        d.baseline = BaselineIs::rising;
    const bool down = rests_on.heard.down_at_end[0] || rests_on.heard.down_at_end[1];
    if (down && misread == 0 && !d.unsure) d.baseline = BaselineIs::slow;
    const Around there = key.decision.around;
    if (row_shows)
        d.around = *row_shows;
    else if (judges_around)
        d.around = named(there);
    else if (there != Around::no_slowing && there != Around::not_listened)
        d.around = there;
    if (key.decision.rhythm == RhythmIs::irregular) d.rhythm = RhythmIs::irregular;
    return d;
}

}  // namespace engine
