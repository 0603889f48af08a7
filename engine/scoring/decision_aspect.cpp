// The decision, part by part, only as far as the listening behind it could support.
#include "engine/scoring/decision_judge.h"

#include "engine/scoring/key_of_picture.h"
#include "engine/scoring/other_limits.h"
#include "engine/scoring/over_calling.h"
#include "engine/scoring/which_count.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>

namespace engine {

namespace {

constexpr double twin_heard_s = 10;  // less than this of a twin is a passing by, not a listening [practice]

// As a midwife says it.
std::string in_words(SourceIs source) {
    switch (source) {
        case SourceIs::not_found: return "heart not found";
        case SourceIs::two_babies: return "two babies";
        default: return std::string(name_of(source));
    }
}

}  // namespace

std::size_t DecisionJudge::baby_judged() const {
    if (both_heard()) return baby_in_question(e_.protocol, d_.heard);
    return d_.heard.heard_s[1] > d_.heard.heard_s[0] ? 1 : 0;
}

void DecisionJudge::look_at(std::size_t baby) {
    baby_ = baby;
    counted_ = d_.counted;
    if (!both_heard()) return;
    counted_ = nullptr;
    for (const CountedWindow& w : e_.windows)
        if (w.window->to <= d_.said.at && w.window->to > d_.from && w.own_bpm() &&
            w.site.baby == static_cast<int>(baby))
            counted_ = &w;
}

bool DecisionJudge::both_heard() const {
    return d_.heard.heard_s[0] >= twin_heard_s && d_.heard.heard_s[1] >= twin_heard_s;
}

DecisionJudge::Part DecisionJudge::judge() {
    if (!both_heard()) return unsure(whole());
    const std::size_t in_trouble = baby_;
    Part worse_off = whole();
    if (worse_off.verdict == Verdict::missed || worse_off.verdict == Verdict::partly) {
        look_at(1 - in_trouble);
        const Part other = whole();
        look_at(in_trouble);
        if (other.verdict == Verdict::met && worse_off.verdict == Verdict::missed) {
            worse_off.verdict = Verdict::partly;
            worse_off.why =
                fmt::format("What you decided fits the {} baby; the {} one asks for more. ",
                            in_trouble == 0 ? "second" : "first", in_trouble == 0 ? "first" : "second") +
                worse_off.why;
        }
    }
    return unsure(std::move(worse_off));
}

DecisionJudge::Part DecisionJudge::whole() const {
    Part whole = source(), rate = baseline(), womb = around(), beat = rhythm();
    rate.of = Of::baseline;
    womb.of = Of::around;
    beat.of = Of::rhythm;
    for (Part part : {rate, womb, beat}) {
        if (part.verdict == Verdict::not_asked) continue;
        const bool replaces =
            worse(whole.verdict, part.verdict) != whole.verdict || whole.verdict == Verdict::not_asked;
        if (replaces) {
            if (whole.verdict != Verdict::met && whole.verdict != Verdict::not_asked && !whole.why.empty())
                part.why += (part.why.empty() ? "" : " ") + whole.why;
            whole = part;
        } else if (!part.why.empty()) {
            whole.why += (whole.why.empty() ? "" : " ") + part.why;
        }
    }
    return whole;
}

DecisionJudge::Part DecisionJudge::source() const {
    if (said_.source == SourceIs::not_said) {
        if (d_.source_there == SourceIs::not_found && !heart_beats(e_.played) &&
            said_.baseline != BaselineIs::not_said && said_.baseline != BaselineIs::not_checked)
            return {Verdict::missed, "No baby's heart was to be heard, and you gave it a rate.",
                    Aspect::whose};
        return {};
    }
    const SourceIs there = d_.source_there;
    const bool last = &d_ == &e_.decisions.back();
    if (said_.source == SourceIs::baby && there == SourceIs::baby && last && heard_one_of_two())
        return {Verdict::partly, "There are two babies, and only one was listened to.", {}};
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
    if (said_.source == SourceIs::two_babies && there == SourceIs::baby)
        return {Verdict::missed,
                e_.played.patient.babies.size > 1
                    ? "You named two babies, and only one heart was heard: the same one at each place."
                    : "You named two babies; there is one.",
                {}};
    if (there == SourceIs::not_said) return {Verdict::partly, "Nothing had been listened to.", {}};
    if (there == SourceIs::two_babies && said_.source == SourceIs::baby)
        return {Verdict::partly, "There were two hearts to tell apart.", {}};
    return {Verdict::missed,
            fmt::format("You named \"{}\"; it was \"{}\".", in_words(said_.source), in_words(there)),
            Aspect::whose};
}

// Two hearts beat and, all through the attempt, one of them was never listened to.
bool DecisionJudge::heard_one_of_two() const {
    if (e_.played.patient.babies.size < 2) return false;
    double heard_s[2] = {};
    for (const HeardPiece& h : e_.listened.heard)
        if (has_baby(h.what)) heard_s[h.baby == 1] += static_cast<double>(h.to.us - h.from.us) / 1e6;
    return (heard_s[0] < twin_heard_s) != (heard_s[1] < twin_heard_s) &&
           e_.played.patient.babies[0].heart_beats && e_.played.patient.babies[1].heart_beats;
}

bool DecisionJudge::normal_heart() const {
    const AroundHeard& around = d_.heard.around[baby_];
    return heart_beats(e_.played) && d_.heard.heard_s[baby_] + 1 >= e_.protocol.baseline_needs.value &&
           classify(e_.protocol, sim::Bpm{d_.heard.settled_bpm[baby_]}) == BaselineClass::normal &&
           !d_.heard.down_at_end[baby_] && !around.stays_down && around.slow_after == 0 &&
           !d_.heard.has("rising") && !d_.heard.has("irregular") && !d_.heard.has("slow") &&
           !d_.heard.has("fast");
}

bool DecisionJudge::over_called() const {
    const bool rate = said_.baseline == BaselineIs::fast || said_.baseline == BaselineIs::slow ||
                      said_.baseline == BaselineIs::rising;
    const bool around = said_.around == Around::slow_after_contraction || said_.around == Around::stays_down;
    return normal_heart() && (rate || around || said_.rhythm == RhythmIs::irregular);
}

// Unsure is a safe answer when a safe step follows; carrying on as usual is not one.
DecisionJudge::Part DecisionJudge::unsure(Part whole) const {
    if (!said_.unsure) return whole;
    const sim::LabourTime at = d_.said.at;
    constexpr std::array<std::string_view, 8> safe = {
        "move_and_search",   "second_listener",           "call_for_help", "inform_senior",
        "change_instrument", "listen_three_contractions", "start_plan",    "get_scan_or_monitor"};
    bool step = std::any_of(safe.begin(), safe.end(),
                            [&](std::string_view act) { return e_.done_at_or_after(act, at).us >= 0; });
    for (const Spell& s : e_.played.spells) step = step || s.to.us > at.us + 15'000'000;
    const sim::LabourTime on = e_.done_at_or_after("continue_routine", at);
    if (!step && on.us >= 0)
        return {Verdict::missed, "You were unsure and carried on as usual.", whole.follows, whole.of};
    if (step && (whole.verdict == Verdict::missed || whole.verdict == Verdict::not_asked))
        return {Verdict::partly, "You were unsure and took a safe step. " + whole.why, whole.follows,
                whole.of};
    if (step) {
        whole.why = "You were unsure and took a safe step." + (whole.why.empty() ? "" : " " + whole.why);
        return whole;
    }
    return {worse(whole.verdict, Verdict::partly), "You were unsure, and no step followed. " + whole.why,
            whole.follows, whole.of};
}

GravestDecision gravest_decision(const Evidence& e, const ScoreSheet& so_far) {
    const bool each = e.scenario.task == Task::pattern || e.scenario.task == Task::labour;
    GravestDecision gravest;
    for (std::size_t i = each || e.decisions.empty() ? 0 : e.decisions.size() - 1; i < e.decisions.size();
         ++i) {
        DecisionJudge judge(e, so_far, e.decisions[i]);
        DecisionJudge::Part part = judge.judge();
        const Verdict so = gravest.part.verdict;
        if (gravest.decision && worse(so, part.verdict) == so && so != Verdict::met) continue;
        gravest = {&e.decisions[i], std::move(part), judge.baby()};
    }
    return gravest;
}

AspectScore judge_decision(const Evidence& e, const ScoreSheet& so_far) {
    AspectScore a{Aspect::decision, Verdict::not_asked, {}, {}, {}};
    if (e.decisions.empty()) {
        a.verdict = Verdict::missed;
        a.why = "Nothing was decided.";
        return a;
    }
    const GravestDecision gravest = gravest_decision(e, so_far);
    const StandingDecision* judged = gravest.decision;
    a.verdict = gravest.part.verdict;
    if (!gravest.part.why.empty()) a.why = of_decision(e, *judged) + gravest.part.why;
    // An aspect that was met explains nothing: then the fault is the decision's own.
    if (faulty(a) && gravest.part.follows && faulty(so_far, *gravest.part.follows))
        a.follows_from = gravest.part.follows;
    if (a.verdict == Verdict::not_asked) a.verdict = Verdict::met;
    if (a.why.empty()) a.why = "The decision is what this listening could show.";
    const std::set<const TimedAct*> alarms = over_called_acts(e);
    int normal = 0, over = 0, alarmed = 0;
    sim::LabourTime before{-1};
    for (const StandingDecision& d : e.decisions) {
        const DecisionJudge one(e, so_far, d);
        normal += one.normal_heart();
        over += one.over_called();
        const bool last = &d == &e.decisions.back();
        alarmed += one.normal_heart() && !one.over_called() &&
                   std::any_of(alarms.begin(), alarms.end(), [&](const TimedAct* act) {
                       return act->at > before && (last || act->at <= d.said.at);
                   });
        before = d.said.at;
    }
    const std::size_t b = gravest.baby;
    a.figures["at_s"] = judged->said.at.seconds();
    a.figures["heard_s"] = std::max(judged->heard.heard_s[0], judged->heard.heard_s[1]);
    a.figures["baseline_bpm"] = judged->heard.settled_bpm[b];
    a.figures["contractions_listened_through"] = judged->heard.around[b].listened_through;
    a.figures["slow_after"] = judged->heard.around[b].slow_after;
    a.figures["normal_hearts"] = normal;
    a.figures["over_called"] = over + alarmed;
    if (heart_beats(e.played) && judged->heard.settled_bpm[b] > 0 && !judged->heard.down_at_end[b])
        if (const std::string elsewhere = limits_elsewhere(e.protocol, {judged->heard.settled_bpm[b]});
            !elsewhere.empty())
            a.why += " " + elsewhere;
    if (over > 0) a.why += fmt::format(" Normal hearts called abnormal: {} of {}.", over, normal);
    return a;
}

}  // namespace engine
