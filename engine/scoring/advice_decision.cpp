// What to do next time about a decision, about what was done, and about a danger called normal.
#include "engine/scoring/advice.h"

#include "engine/scoring/acts_again.h"
#include "engine/scoring/aspects.h"
#include "engine/scoring/decision_judge.h"
#include "engine/scoring/series.h"

#include <fmt/core.h>

#include <algorithm>

namespace engine {

namespace {

constexpr double lead_in_s = 20;  // a place to hear again begins this long before what is to be heard

std::string quoted(const Evidence& e, const std::string& act) {
    const ActWords* words = e.protocol.act(act.substr(0, act.find(" or ")));
    return "\"" + (words && !words->words.empty() ? words->words : act) + "\"";
}

std::string limits(const Evidence& e) {
    return fmt::format("{:.0f} to {:.0f}", e.protocol.low.bpm.value, e.protocol.high.bpm.value);
}

// Where the first slowing heard after a contraction can be heard again; else the count, else the listening.
double decided_from_s(const GravestDecision& g) {
    const AroundHeard& around = g.decision->heard.around[g.baby];
    if (g.part.of == DecisionJudge::Of::around && around.stays_down)
        return around.stays_down_known.seconds() - 60;
    if (g.part.of == DecisionJudge::Of::around && around.slow_after > 0)
        return around.slow_after_known.seconds() - 50;
    if (g.part.of == DecisionJudge::Of::around && around.slow_in > 0)
        return around.slow_in_known.seconds() - 60;
    return g.decision->counted ? g.decision->counted->score.from_s : g.decision->from.seconds();
}

std::string about_the_rate(const Evidence& e, const GravestDecision& g) {
    const Decision& said = g.decision->said.decision;
    const Picture& heard = g.decision->heard;
    if (said.baseline == BaselineIs::not_said)
        return "After every listening say whether the rate was normal.";
    if (said.baseline == BaselineIs::not_checked)
        return "A whole minute was counted: hold it against the limits, " + limits(e) +
               ", and say what it is.";
    const CountedWindow* counted = g.decision->counted;
    const std::optional<double> own = counted ? number_held(e, *counted) : std::nullopt;
    if (!own || heard.heard_s[g.baby] + 1 < e.protocol.baseline_needs.value)
        return e.scenario.place.watch
                   ? "Count one whole minute before you name the rate."
                   : "Without a clock say whose heart it is, and send for one before you name the rate.";
    const double rate = heard.settled_bpm[g.baby];
    const bool normal = classify(e.protocol, sim::Bpm{rate}) == BaselineClass::normal;
    if (heard.down_at_end[g.baby])
        return "It had fallen while you listened: a fall is not normal, wherever it started from.";
    if (normal && said.baseline != BaselineIs::normal)
        return fmt::format(
            "This heart ran at {:.0f}, and {} is normal here: she needed nothing but the next listening.",
            rate, limits(e));
    if (!normal && said.baseline == BaselineIs::normal)
        return fmt::format("This heart ran at {:.0f}, and {} is normal here: name it, and act on it.", rate,
                           limits(e));
    return fmt::format("Hold your number against the limits before you decide: {} here, and you had {:.0f}.",
                       limits(e), *own);
}

// "half a minute", "a minute", "45 s": how long the protocol listens on after a contraction.
std::string after_contraction(const Evidence& e) {
    const double s = e.protocol.rule_for(e.scenario.labour.stage).after_end.value;
    return s == 30 ? "half a minute" : s == 60 ? "a minute" : fmt::format("{:.0f} s", s);
}

std::string around_contractions(const Evidence& e, const GravestDecision& g) {
    const AroundHeard& heard = g.decision->heard.around[g.baby];
    const Around said = g.decision->said.decision.around;
    if (heard.stays_down && said != Around::stays_down)
        return "Hear it again from here: it goes down and is not back after three minutes, and that is for "
               "help, "
               "at once.";
    if (heard.slow_after > 0 && said != Around::slow_after_contraction)
        return "Hear it again from here: the contraction is over and the heart is still slow; that is slow "
               "after the contraction, and it wants an answer.";
    if (heard.listened_through == 0)
        return fmt::format(
            "Stay with it until {} after the contraction has gone before you say what it does "
            "around it.",
            after_contraction(e));
    if (said == Around::not_said || said == Around::not_listened)
        return "You had listened through a contraction: say what the heart did then.";
    if (said == Around::no_slowing && heard.slow_in > 0)
        return "Hear it again from here: it slows while the womb is hard and is back when it lets go; say "
               "and write that, to be watched and not acted on.";
    if (said == Around::slows_in_contraction)
        return "Nothing slowed in this listening: say what you heard this time, not what it did before.";
    if (said == Around::stays_down)
        return "Say \"stays down\" when it has not come back by three minutes; a fall that comes back is a "
               "fall, and is told.";
    return "Nothing slowed beyond the contraction here: before you call it slow, hear it stay low after the "
           "womb is soft.";
}

}  // namespace

NextTime advice_on_decision(const Evidence& e, const ScoreSheet& sheet) {
    const GravestDecision g = gravest_decision(e, sheet);
    if (!g.decision) return {"Say what you heard before you act on it.", first_heard_s(e)};
    const double at_s = decided_from_s(g);
    if (g.decision->said.decision.unsure && g.part.verdict == Verdict::missed)
        return {
            "When you are unsure, move and search, ask for a second listener, or call: never carry on as "
            "usual.",
            at_s};
    switch (g.part.of) {
        case DecisionJudge::Of::source:
            return {e.played.patient.babies.size > 1
                        ? "Two babies, two places, two rates: listen to both before you decide."
                        : "Name whose heart it is when her pulse under your finger has told you.",
                    at_s};
        case DecisionJudge::Of::baseline: return {about_the_rate(e, g), at_s};
        case DecisionJudge::Of::around: return {around_contractions(e, g), at_s};
        case DecisionJudge::Of::rhythm:
            return {g.decision->heard.has("irregular") ? "Listen for beats that come early or stay out: this "
                                                         "rhythm was irregular, and it is to be told."
                                                       : "This rhythm was regular: short counts differ by a "
                                                         "beat or two without any beat out of place.",
                    at_s};
    }
    return {"Say what your own listening showed, no more and no less.", at_s};
}

// Judged by another aspect, and advised there.
bool told_elsewhere(const ScoreSheet& sheet, const ActScore& act) {
    if (act.act == "record_findings" || act.act == "write_referral_note" || act.act == "count_full_minute")
        return true;
    if (act.act != "feel_pulse") return false;
    return std::all_of(act.situations.begin(), act.situations.end(), [&](const std::string& s) {
        return s == "normal" || (s == "always" && (act.within_s > 0 || faulty(sheet, Aspect::whose)));
    });
}

// What comes first: the critical ones, then what was late or left out.
NextTime advice_on_action(const Evidence& e, const ScoreSheet& sheet) {
    std::string first;
    double at_s = -1;
    int named = 0;
    const ActScore* routine = nullptr;
    for (bool critical : {true, false})
        for (const ActScore& act : sheet.acts) {
            const bool left = act.verdict == "not_done" || act.verdict == "late";
            if (act.act == "continue_routine" && left) routine = &act;
            if (!left || act.critical != critical || named >= 3 || act.act == "continue_routine" ||
                act.act == "listen_when_due" || told_elsewhere(sheet, act))
                continue;
            ++named;
            if (at_s < 0) at_s = act.known_from_s - lead_in_s;
            first += (first.empty() ? "" : ", then ") + quoted(e, act.act);
        }
    if (!first.empty()) return {"As soon as you know: " + first + ".", at_s};
    if (const auto back = come_back_in_time(e)) return *back;
    if (routine)
        return {"This heart was normal, and this was enough: " + quoted(e, routine->act) + ".",
                routine->known_from_s - lead_in_s};
    for (const ActScore& act : sheet.acts)
        if (act.verdict == "out_of_scope")
            return {"Not yours to do here, call the one who may: " + quoted(e, act.act) + ".",
                    act.done_s - lead_in_s};
    return {std::string(), first_heard_s(e)};  // what was unsafe is told apart
}

std::vector<NextTime> never_here(const Evidence& e, const ScoreSheet& sheet, bool routine_too) {
    constexpr std::size_t most_apart = 3;
    std::vector<const ActScore*> unsafe;
    // To carry on as usual after a heart was called normal follows from that, and is told there.
    const bool said_normal =
        std::find(e.own_situations.begin(), e.own_situations.end(), "normal") != e.own_situations.end();
    for (bool critical : {true, false})
        for (const ActScore& act : sheet.acts)
            if (act.verdict == "unsafe" && act.critical == critical &&
                (routine_too || !said_normal || act.act != "continue_routine") &&
                std::none_of(unsafe.begin(), unsafe.end(),
                             [&](const ActScore* other) { return other->act == act.act; }))
                unsafe.push_back(&act);
    std::vector<NextTime> says;
    for (const ActScore* act : unsafe) {
        const Situation* s = act->situation == "always" ? nullptr : e.protocol.situation(act->situation);
        std::string why = s ? s->words : std::string();
        if (!why.empty() && why[0] >= 'A' && why[0] <= 'Z') why[0] = static_cast<char>(why[0] - 'A' + 'a');
        const std::string one = quoted(e, act->act) + (why.empty() ? "" : " (" + why + ")");
        if (says.size() < most_apart) {
            says.push_back({"Never here: " + one + ".", act->done_s - lead_in_s});
        } else {
            says.back().says.pop_back();
            says.back().says += ", nor " + one + ".";
        }
    }
    return says;
}

std::optional<NextTime> called_normal(const Evidence& e, const ScoreSheet& sheet) {
    for (const std::string& c : sheet.critical_missed) {
        const bool rate = c.rfind("called normal", 0) == 0;
        const bool slowing = c.rfind("slowing after contractions", 0) == 0;
        if (!rate && !slowing) continue;
        for (const StandingDecision& d : e.decisions) {
            if (d.said.decision.unsure) continue;
            const std::size_t b = DecisionJudge(e, sheet, d).baby();
            if (slowing && d.heard.around[b].slow_after > 0 && d.said.decision.around == Around::no_slowing)
                return NextTime{
                    "Hear it again from here: the contraction is over and the heart is still slow, and you "
                    "called it no slowing.",
                    d.heard.around[b].slow_after_known.seconds() - 50};
            if (!rate || d.said.decision.baseline != BaselineIs::normal) continue;
            const double bpm = d.heard.settled_bpm[b];
            if (bpm <= 0 ||
                (classify(e.protocol, sim::Bpm{bpm}) == BaselineClass::normal && !d.heard.down_at_end[b]))
                continue;
            return NextTime{
                fmt::format("You called this heart normal; it ran at {:.0f}, and {} is normal here.", bpm,
                            limits(e)),
                d.counted ? d.counted->score.from_s : d.said.at.seconds() - 60};
        }
    }
    return std::nullopt;
}

}  // namespace engine
