#include "engine/scoring/over_calling.h"

#include "engine/scoring/trouble_began.h"

#include <algorithm>
#include <array>

namespace engine {

namespace {

// Safe steps of one who is not sure.
constexpr std::array<std::string_view, 2> safe_steps = {"call_for_help", "start_plan"};

bool names(const Bound& b, std::string_view act) {
    return std::find(b.acts.begin(), b.acts.end(), act) != b.acts.end();
}

bool left_open(const Evidence& e) {
    return std::any_of(e.decisions.begin(), e.decisions.end(), [](const StandingDecision& d) {
        const Decision& said = d.said.decision;
        return said.unsure || said.source == SourceIs::doubtful || said.source == SourceIs::not_found;
    });
}

bool cried_out(const Scenario& scenario, sim::LabourTime before) {
    return std::any_of(scenario.call_outs.begin(), scenario.call_outs.end(), [&](const CallOut& call) {
        return call.kind != CallOut::Kind::interrupted && call.kind != CallOut::Kind::wants_to_push &&
               sim::labour_time(call.at) <= before;
    });
}

// Not only as far as it was heard.
bool sound_throughout(const Evidence& e) {
    if (!e.decisions.empty()) return e.decisions.back().truth.has("normal");
    Listened all;
    all.heard = heard_throughout(e.played, {0}, e.played.end);
    all.found = e.listened.found;
    return picture_of(e.scenario, e.protocol, e.played, all, e.run, {0}, {e.played.end.us + 1}).has("normal");
}

}  // namespace

std::set<const TimedAct*> over_called_acts(const Evidence& e) {
    std::set<const TimedAct*> found;
    if (!e.picture.has("normal")) return found;
    const auto rules = [&](Grade grade) {
        return bound_rules(e.scenario, e.protocol, e.played, e.picture, grade);
    };
    const auto needless = rules(Grade::not_needed), asked = rules(Grade::expected),
               fine = rules(Grade::allowed);
    const auto otherwise = [](const std::vector<Bound>& bounds, std::string_view act) {
        return std::any_of(bounds.begin(), bounds.end(), [&](const Bound& b) {
            return b.rule->situation != "normal" && b.rule->situation != "always" && names(b, act);
        });
    };
    for (const TimedAct& did : e.played.acts) {
        const bool alarm = std::any_of(needless.begin(), needless.end(), [&](const Bound& b) {
            return b.rule->situation == "normal" && names(b, did.id);
        });
        if (!alarm || did.seen || otherwise(asked, did.id) || otherwise(fine, did.id)) continue;
        if (std::find(safe_steps.begin(), safe_steps.end(), did.id) != safe_steps.end() && left_open(e))
            continue;
        if (!cried_out(e.scenario, did.at)) found.insert(&did);
    }
    if (!found.empty() && !sound_throughout(e)) found.clear();
    return found;
}

bool unsafe_beforehand(const Evidence& e, const Bound& unsafe, const TimedAct& did) {
    const std::string& situation = unsafe.rule->situation;
    // How close the birth is was known before the heart fell.
    if (situation == "close_to_birth") return did.id == "arrange_transfer";
    if (situation == "not_close_to_birth") return did.id == "assist_birth_now";
    if (situation != "bleeding" || did.id != "examine_inside") return false;
    // Who looks first sees the blood.
    const auto looked = [&](std::string_view act) {
        const auto looks = e.doings(act);
        return std::any_of(looks.begin(), looks.end(),
                           [&](const Evidence::Doing& look) { return look.done <= did.at; });
    };
    return trouble_began(e, situation) <= did.at && !looked("look_for_cord") && !looked("check_bleeding");
}

}  // namespace engine
