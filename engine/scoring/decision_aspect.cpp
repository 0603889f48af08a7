// The decision, part by part, only as far as the listening behind it could support.
#include "engine/scoring/decision_judge.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>

namespace engine {

namespace {

// As a midwife says it.
std::string in_words(SourceIs source) {
    switch (source) {
        case SourceIs::not_found: return "heart not found";
        case SourceIs::two_babies: return "two babies";
        default: return std::string(name_of(source));
    }
}

}  // namespace

DecisionJudge::Part DecisionJudge::judge() {
    Part whole = source();
    for (Part part : {baseline(), around(), rhythm()}) {
        if (part.verdict == Verdict::not_asked) continue;
        const bool replaces = worse(whole.verdict, part.verdict) != whole.verdict ||
                              whole.verdict == Verdict::not_asked;
        if (replaces) {
            part.why = whole.verdict == Verdict::met || whole.verdict == Verdict::not_asked
                           ? part.why : part.why + " " + whole.why;
            whole = part;
        } else {
            whole.why += whole.why.empty() ? part.why : " " + part.why;
        }
    }
    return unsure(std::move(whole));
}

DecisionJudge::Part DecisionJudge::source() const {
    if (said_.source == SourceIs::not_said) {
        if (d_.source_there == SourceIs::not_found && !heart_beats(e_.played) && said_.baseline != BaselineIs::not_said &&
            said_.baseline != BaselineIs::not_checked)
            return {Verdict::missed, "No baby's heart was to be heard, and you gave it a rate.", Aspect::whose};
        return {};
    }
    const SourceIs there = d_.source_there;
    if (said_.source == there) return {Verdict::met, "", {}};
    if (said_.source == SourceIs::doubtful) {
        if (there == SourceIs::mother || there == SourceIs::not_found) return {Verdict::met, "", {}};
        return {Verdict::partly, "You left open whose heart it was; it could be told.", {}};
    }
    if (there == SourceIs::doubtful && said_.source == SourceIs::baby) {
        if (faulty(sheet_, Aspect::whose))
            return {Verdict::partly, "It was not sure whose heart this was.", Aspect::whose};
        if (faulty(sheet_, Aspect::site))
            return {Verdict::partly, "At that place the baby was not clear enough to be sure.", Aspect::site};
        return {Verdict::met, "", {}};
    }
    if (said_.source == SourceIs::not_found && heart_beats(e_.played)) {
        if (there == SourceIs::not_found || there == SourceIs::not_said)
            return {Verdict::met, "You said what you had heard: nothing yet.", {}};
        return {Verdict::missed, "The baby was to be heard there.", {}};
    }
    if (said_.source == SourceIs::baby && there == SourceIs::not_found && heart_beats(e_.played))
        return {Verdict::partly, "The baby could not be heard there.", Aspect::site};
    if (there == SourceIs::not_said) return {Verdict::partly, "Nothing had been listened to.", {}};
    if (there == SourceIs::two_babies && said_.source == SourceIs::baby)
        return {Verdict::partly, "There were two hearts to tell apart.", {}};
    return {Verdict::missed, fmt::format("You named \"{}\"; it was \"{}\".", in_words(said_.source), in_words(there)),
            Aspect::whose};
}

// Unsure is a safe answer when a safe step follows; carrying on as usual is not one.
DecisionJudge::Part DecisionJudge::unsure(Part whole) const {
    if (!said_.unsure) return whole;
    const sim::LabourTime at = d_.said.at;
    constexpr std::array<std::string_view, 8> safe = {
        "move_and_search", "second_listener", "call_for_help", "inform_senior",
        "change_instrument", "listen_three_contractions", "start_plan", "get_scan_or_monitor"};
    bool step = std::any_of(safe.begin(), safe.end(), [&](std::string_view act) {
        return e_.done_at_or_after(act, at).us >= 0;
    });
    for (const Spell& s : e_.played.spells) step = step || s.to.us > at.us + 15'000'000;
    const sim::LabourTime on = e_.done_at_or_after("continue_routine", at);
    if (!step && on.us >= 0)
        return {Verdict::missed, "You were unsure and carried on as usual.", whole.follows};
    if (step && (whole.verdict == Verdict::missed || whole.verdict == Verdict::not_asked))
        return {Verdict::partly, "You were unsure and took a safe step. " + whole.why, whole.follows};
    if (step) return whole;
    return {worse(whole.verdict, Verdict::partly), "You were unsure, and no step followed. " + whole.why, whole.follows};
}

AspectScore judge_decision(const Evidence& e, const ScoreSheet& so_far) {
    AspectScore a{Aspect::decision, Verdict::not_asked, {}, {}, {}};
    if (e.decisions.empty()) {
        a.verdict = Verdict::missed;
        a.why = "Nothing was decided.";
        return a;
    }
    const bool each = e.scenario.task == Task::pattern || e.scenario.task == Task::labour;
    const StandingDecision* judged = nullptr;
    for (std::size_t i = each ? 0 : e.decisions.size() - 1; i < e.decisions.size(); ++i) {
        const DecisionJudge::Part part = DecisionJudge(e, so_far, e.decisions[i]).judge();
        if (judged && worse(a.verdict, part.verdict) == a.verdict && a.verdict != Verdict::met) continue;
        judged = &e.decisions[i];
        a.verdict = part.verdict;
        a.why = part.why;
        a.follows_from = faulty(a) ? part.follows : std::nullopt;
    }
    if (a.verdict == Verdict::not_asked) a.verdict = Verdict::met;
    if (a.why.empty()) a.why = "The decision is what this listening could show.";
    a.figures["at_s"] = judged->said.at.seconds();
    a.figures["heard_s"] = std::max(judged->heard.heard_s[0], judged->heard.heard_s[1]);
    a.figures["baseline_bpm"] = judged->heard.baseline_bpm[0];
    a.figures["contractions_listened_through"] = judged->heard.around[0].listened_through;
    a.figures["slow_after"] = judged->heard.around[0].slow_after;
    return a;
}

}  // namespace engine
