// What to do next time: what endangers her first, then the cause, then the rest of what was missed, then
// polish.
#include "engine/scoring/acts_again.h"
#include "engine/scoring/advice.h"
#include "engine/scoring/aspects.h"

#include <algorithm>

namespace engine {

namespace {

constexpr std::size_t most_said = 5;

// The aspects whose fault is on the list of what must not be missed, beyond a heart called normal.
bool critical(const ScoreSheet& sheet, Aspect aspect) {
    if (aspect == Aspect::action)
        return std::any_of(sheet.acts.begin(), sheet.acts.end(), [](const ActScore& act) {
            return act.critical && (act.verdict == "not_done" || act.verdict == "late");
        });
    return aspect == Aspect::whose &&
           std::any_of(sheet.critical_missed.begin(), sheet.critical_missed.end(), [](const std::string& c) {
               return c.find("pulse") != std::string::npos || c.find("no heart") != std::string::npos;
           });
}

}  // namespace

std::vector<NextTime> next_time(const Evidence& e, const ScoreSheet& sheet) {
    std::vector<NextTime> says;
    std::vector<Aspect> said;
    const auto say = [&](std::optional<NextTime> next) {
        if (!next || next->says.empty() || says.size() >= most_said) return;
        next->at_s = heard_near_s(e.played, next->at_s);
        if (std::none_of(says.begin(), says.end(), [&](const NextTime& n) { return n.says == next->says; }))
            says.push_back(std::move(*next));
    };
    const auto add = [&](Aspect aspect) {
        if (std::find(said.begin(), said.end(), aspect) != said.end()) return;
        said.push_back(aspect);
        say(advice_on(e, sheet, aspect));
    };
    say(never_here(e, sheet));
    if (const auto normal = called_normal(e, sheet)) {
        say(normal);
        said.push_back(Aspect::decision);
    }
    for (const AspectScore& a : sheet.aspects)
        if (faulty(a) && !a.follows_from && critical(sheet, a.aspect)) add(a.aspect);
    if (sheet.primary) add(*sheet.primary);
    for (Verdict v : {Verdict::missed, Verdict::partly})
        for (const AspectScore& a : sheet.aspects)
            if (a.verdict == v && a.aspect != Aspect::care && !a.follows_from) add(a.aspect);
    say(come_back_in_time(e));
    say(nearly_exact(e, sheet));
    if (faulty(sheet, Aspect::care)) add(Aspect::care);
    return says;
}

}  // namespace engine
