// What to do next time: what endangers her first, then the cause, then the rest of what was missed, then
// polish.
#include "engine/scoring/acts_again.h"
#include "engine/scoring/advice.h"
#include "engine/scoring/aspects.h"
#include "engine/scoring/decision_judge.h"

#include <algorithm>

namespace engine {

namespace {

constexpr std::size_t most_said = 5;  // sentences in the whole debrief, the grave line above them included

// The aspects whose fault is on the list of what must not be missed, beyond a heart called normal.
bool critical(const ScoreSheet& sheet, Aspect aspect) {
    if (aspect == Aspect::record)
        return std::any_of(sheet.critical_missed.begin(), sheet.critical_missed.end(),
                           [](const std::string& c) { return c.find("written") != std::string::npos; });
    if (aspect == Aspect::action)
        return std::any_of(sheet.acts.begin(), sheet.acts.end(), [](const ActScore& act) {
            return act.critical && (act.verdict == "not_done" || act.verdict == "late");
        });
    return aspect == Aspect::whose &&
           std::any_of(sheet.critical_missed.begin(), sheet.critical_missed.end(), [](const std::string& c) {
               return c.find("pulse") != std::string::npos || c.find("no heart") != std::string::npos;
           });
}

// A doubt that was left standing is the listener's own fault, whatever made it hard to hear.
bool unsure_and_on(const Evidence& e, const ScoreSheet& sheet) {
    const AspectScore* decision = aspect_in(sheet, Aspect::decision);
    if (!decision || decision->verdict != Verdict::missed) return false;
    const GravestDecision gravest = gravest_decision(e, sheet);
    return gravest.decision && gravest.decision->said.decision.unsure;
}

}  // namespace

std::vector<std::string> critical_told_apart(const ScoreSheet& sheet) {
    std::vector<std::string> apart;
    for (const std::string& c : sheet.critical_missed)
        if (c.rfind("unsafe here: ", 0) != 0) apart.push_back(c);
    return apart;
}

std::vector<NextTime> next_time(const Evidence& e, const ScoreSheet& sheet) {
    std::vector<NextTime> says;
    std::vector<Aspect> said;
    const std::size_t most = most_said - (critical_told_apart(sheet).empty() ? 0 : 1);
    const auto say = [&](std::optional<NextTime> next) {
        if (!next || next->says.empty() || says.size() >= most) return;
        next->at_s = heard_near_s(e.played, next->at_s);
        if (std::none_of(says.begin(), says.end(), [&](const NextTime& n) { return n.says == next->says; }))
            says.push_back(std::move(*next));
    };
    const auto add = [&](Aspect aspect) {
        if (std::find(said.begin(), said.end(), aspect) != said.end()) return;
        said.push_back(aspect);
        say(advice_on(e, sheet, aspect));
    };
    for (NextTime& never : never_here(e, sheet)) say(std::move(never));
    if (const auto normal = called_normal(e, sheet)) {
        say(normal);
        said.push_back(Aspect::decision);
    }
    for (const AspectScore& a : sheet.aspects)
        if (faulty(a) && !a.follows_from && critical(sheet, a.aspect)) add(a.aspect);
    if (unsure_and_on(e, sheet)) add(Aspect::decision);
    if (sheet.primary) add(*sheet.primary);
    for (Verdict v : {Verdict::missed, Verdict::partly})
        for (const AspectScore& a : sheet.aspects)
            if (a.verdict == v && a.aspect != Aspect::care && !a.follows_from) add(a.aspect);
    say(come_back_in_time(e));
    say(nearly_exact(e, sheet));
    if (faulty(sheet, Aspect::care)) add(Aspect::care);
    if (says.empty())
        for (NextTime& never : never_here(e, sheet, true)) say(std::move(never));
    return says;
}

}  // namespace engine
