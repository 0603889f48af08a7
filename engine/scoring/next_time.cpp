#include "engine/scoring/aspects.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace engine {

namespace {

constexpr std::size_t most_said = 5;

double start_of(const CountedWindow* w) { return w ? w->score.from_s : 0; }

std::string quoted(const Evidence& e, const std::string& act) {
    const ActWords* words = e.protocol.act(act.substr(0, act.find(" or ")));
    return "\"" + (words && !words->words.empty() ? words->words : act) + "\"";
}

// What was unsafe is left out next time; else what comes first: the critical ones, then what was late or left out.
std::string action_advice(const Evidence& e, const ScoreSheet& sheet) {
    std::string never, first, routine;
    int named = 0;
    for (const ActScore& act : sheet.acts)
        if (act.verdict == "unsafe" && never.empty()) never = "Never here: " + quoted(e, act.act) + ".";
    for (bool critical : {true, false})
        for (const ActScore& act : sheet.acts) {
            const bool left = act.verdict == "not_done" || act.verdict == "late";
            if (act.act == "continue_routine" && left) routine = quoted(e, act.act);
            if (!left || act.critical != critical || named >= 3 || act.act == "continue_routine") continue;
            ++named;
            first += (first.empty() ? "" : ", then ") + quoted(e, act.act);
        }
    if (first.empty() && never.empty() && !routine.empty())
        return "This heart was normal, and this was enough: " + routine + ".";
    if (first.empty() && never.empty()) {
        const AspectScore* a = aspect_in(sheet, Aspect::action);
        return a ? a->why : std::string();
    }
    if (first.empty()) return never;
    return never + (never.empty() ? "" : " ") + "As soon as you know: " + first + ".";
}

std::string decision_advice(const Evidence& e, const ScoreSheet& sheet) {
    const AspectScore* a = aspect_in(sheet, Aspect::decision);
    if (!a || e.decisions.empty()) return "Say what you heard before you act on it.";
    const StandingDecision& last = e.decisions.back();
    const Decision& said = last.said.decision;
    if (said.unsure && a->verdict == Verdict::missed) return "When you are unsure: move and search, ask for a second listener, or call. " + a->why;
    const std::optional<double> own = last.counted ? last.counted->own_bpm() : std::nullopt;
    const bool named = said.baseline == BaselineIs::normal || said.baseline == BaselineIs::fast ||
                       said.baseline == BaselineIs::slow;
    const BaselineClass by_number = own ? classify(e.protocol, sim::Bpm{*own}) : BaselineClass::normal;
    const BaselineIs fits = by_number == BaselineClass::fast   ? BaselineIs::fast
                            : by_number == BaselineClass::slow ? BaselineIs::slow
                                                               : BaselineIs::normal;
    if (named && own && fits != said.baseline)
        return fmt::format("Hold your number against the limits before you decide: {:.0f} to {:.0f} here. ",
                           e.protocol.low.bpm.value, e.protocol.high.bpm.value) + a->why;
    return "Say what your own listening showed, no more and no less. " + a->why;
}

std::string advice(const Evidence& e, const ScoreSheet& sheet, Aspect aspect) {
    const CountedWindow* w = e.last_judged();
    switch (aspect) {
        case Aspect::whose:
            if (!heart_beats(e.played))
                return "What keeps step with her wrist is her own, wherever you hear it. When no place gives another "
                       "heart, say so, call, and ask for a scan.";
            if (w && w->score.followed == "mother")
                return "These beats were the mother's. Keep your fingers on her wrist while you listen; if they beat "
                       "together, move on and search.";
            return "Keep your fingers on her wrist while you listen, until you can say that the two hearts differ.";
        case Aspect::site:
            return "Feel for the back and move until one two-tone beat stands clear of every other sound, then count.";
        case Aspect::window:
            if (!w) return "Count one whole minute by the clock.";
            if (std::fabs(w->score.to_s - w->score.from_s - w->score.plan_s) <= 1)
                return fmt::format("Count one whole minute by the clock before you write and decide: {:.0f} s is {}.",
                                   w->score.plan_s, w->score.plan_s < 10 ? "a look" : "too short for the record");
            return fmt::format("Look at the second hand first and count from it: this count ran {:.1f} s for {:.0f} s meant.",
                               w->score.to_s - w->score.from_s, w->score.plan_s);
        case Aspect::count:
            if (w && w->score.counted && *w->score.counted < w->followed_beats && w->score.true_bpm > 150)
                return "At this speed count one to ten over and over, a finger for each ten: long number words lose beats.";
            if (w && w->score.plan_s < 30)
                return fmt::format("One beat in a {:.0f} s count is {:g} bpm. Count the whole minute for the record.",
                                   w->score.plan_s, w->factor);
            return "Listen to this minute again and count it aloud, a finger for each ten.";
        case Aspect::arithmetic:
            if (w && w->score.counted)
                return fmt::format("Write the beats down first, then multiply: {} x {:g} is {:g}.", *w->score.counted,
                                   w->factor, *w->score.counted * w->factor);
            return "Write the beats down first, then multiply.";
        case Aspect::decision: return decision_advice(e, sheet);
        case Aspect::action: return action_advice(e, sheet);
        case Aspect::record: {
            const AspectScore* a = aspect_in(sheet, aspect);
            if (w && w->score.plan_s < 10)
                return "A look tells you whether to hurry. Count a whole minute before you write a number.";
            return "Write the whole line on the chart. " + (a ? a->why : std::string());
        }
        case Aspect::care: return "Ask her leave before you touch her, and tell her what you heard.";
    }
    return "";
}

double place_of(const Evidence& e, const ScoreSheet& sheet, Aspect aspect) {
    if (aspect == Aspect::decision || aspect == Aspect::record) {
        const AspectScore* a = aspect_in(sheet, aspect);
        if (a && a->figures.count("at_s")) return a->figures.at("at_s");
    }
    if (aspect == Aspect::action)
        for (const ActScore& act : sheet.acts)
            if (act.verdict == "not_done" || act.verdict == "late" || act.verdict == "unsafe" ||
                act.verdict == "out_of_scope")
                return act.verdict == "unsafe" || act.verdict == "out_of_scope" ? act.done_s : act.known_from_s;
    if (aspect == Aspect::care || aspect == Aspect::site) return e.played.spells.empty() ? 0 : e.played.spells.front().from.seconds();
    return start_of(e.last_judged());
}

}  // namespace

std::vector<NextTime> next_time(const Evidence& e, const ScoreSheet& sheet) {
    std::vector<NextTime> says;
    const auto add = [&](Aspect aspect) {
        if (says.size() < most_said) says.push_back({advice(e, sheet, aspect), place_of(e, sheet, aspect)});
    };
    if (sheet.primary) add(*sheet.primary);
    for (Verdict v : {Verdict::missed, Verdict::partly})
        for (const AspectScore& a : sheet.aspects)
            if (a.verdict == v && a.aspect != Aspect::care && a.aspect != sheet.primary && !a.follows_from) add(a.aspect);
    const CountedWindow* w = e.last_judged();
    if (w && w->score.counted && !faulty(sheet, Aspect::count) && std::abs(*w->score.counted - w->followed_beats) >= 1 &&
        says.size() < most_said)
        says.push_back({fmt::format("{} beat{} {} in this count: within what is asked, listen to it once more.",
                                    std::abs(*w->score.counted - w->followed_beats),
                                    std::abs(*w->score.counted - w->followed_beats) == 1 ? "" : "s",
                                    *w->score.counted > w->followed_beats ? "extra" : "missed"), w->score.from_s});
    if (faulty(sheet, Aspect::care)) add(Aspect::care);
    return says;
}

}  // namespace engine
