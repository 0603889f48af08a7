// The decision, part by part, only as far as the listening behind it could support.
#include "engine/scoring/aspects.h"


#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace engine {

namespace {

constexpr double look_s = 10;  // a count shorter than this is a look: never a class [practice]

struct Part {
    Verdict verdict = Verdict::not_asked;
    std::string why;
    std::optional<Aspect> follows;
};

BaselineIs class_of(const Protocol& protocol, double bpm) {
    switch (classify(protocol, sim::Bpm{bpm})) {
        case BaselineClass::fast: return BaselineIs::fast;
        case BaselineClass::slow: return BaselineIs::slow;
        case BaselineClass::normal: break;
    }
    return BaselineIs::normal;
}

// As a midwife says it.
std::string in_words(BaselineIs b) {
    switch (b) {
        case BaselineIs::fast: return "too fast";
        case BaselineIs::slow: return "too slow";
        case BaselineIs::not_checked: return "not checked";
        default: return std::string(name_of(b));
    }
}
std::string in_words(SourceIs source) {
    switch (source) {
        case SourceIs::not_found: return "heart not found";
        case SourceIs::two_babies: return "two babies";
        default: return std::string(name_of(source));
    }
}
std::string in_words(Around a) {
    switch (a) {
        case Around::no_slowing: return "no slowing";
        case Around::slows_in_contraction: return "slows in the contraction, back when it ends";
        case Around::slow_after_contraction: return "still slow after the contraction";
        case Around::stays_down: return "stays down";
        default: return "not listened";
    }
}

class DecisionJudge {
public:
    DecisionJudge(const Evidence& e, const ScoreSheet& sheet, const StandingDecision& d)
        : e_(e), sheet_(sheet), d_(d), said_(d.said.decision) {
        baby_ = d.heard.heard_s[1] > d.heard.heard_s[0] ? 1 : 0;
    }

    Part judge() {
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

private:
    Part source() const {
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

    // Why a listening cannot carry a class of the baseline; empty when it can.
    std::string baseline_gap(std::optional<Aspect>& cause) const {
        const double need = e_.protocol.baseline_needs.value, heard = d_.heard.heard_s[baby_];
        if (faulty(sheet_, Aspect::window)) cause = Aspect::window;  // counted too briefly or not at all
        if (heard + 1 < need) {
            if (faulty(sheet_, Aspect::site)) cause = Aspect::site;
            if (faulty(sheet_, Aspect::whose)) cause = Aspect::whose;
            return fmt::format("the baby was heard for {:.0f} s, {:.0f} s are needed", heard, need);
        }
        if (!d_.counted) return "nothing had been counted";
        double counted_s = 0, longest = 0;
        for (const CountedWindow& w : e_.windows)
            if (w.own_bpm() && w.window->to <= d_.said.at && (w.window->to > d_.from || &w == d_.counted)) {
                counted_s += w.score.to_s - w.score.from_s;
                longest = std::max(longest, w.score.plan_s);
            }
        if (longest < look_s && counted_s < need - 1)
            return fmt::format("a count of {:.0f} s is a look and gives no class", longest);
        return "";
    }

    Part baseline() const {
        if (said_.baseline == BaselineIs::not_said) {
            if (!heart_beats(e_.played) || said_.source == SourceIs::mother || said_.source == SourceIs::not_found ||
                said_.unsure)
                return {};
            return {Verdict::partly, "You did not say whether the rate was normal.", {}};
        }
        if (!heart_beats(e_.played))
            return said_.baseline == BaselineIs::not_checked
                       ? Part{Verdict::met, "", {}}
                       : Part{Verdict::missed, "No baby's heart was to be heard, and you gave it a rate.", Aspect::whose};
        if (said_.source == SourceIs::mother || said_.source == SourceIs::not_found) return {};
        std::optional<Aspect> gap_cause;
        const std::string gap = baseline_gap(gap_cause);
        if (said_.baseline == BaselineIs::not_checked) {
            if (!gap.empty() || said_.unsure) return {Verdict::met, "You said that the rate was not checked yet.", {}};
            return {Verdict::partly, "You had listened long enough to say whether the rate was normal.", {}};
        }
        const double truth_bpm = d_.heard.recent_bpm[baby_] > 0 ? d_.heard.recent_bpm[baby_]
                                                                : d_.truth.recent_bpm[baby_];
        const bool fallen = d_.heard.down_at_end[baby_];
        if (fallen && said_.baseline == BaselineIs::slow)
            return {Verdict::met, fmt::format("It had fallen to {:.0f} and you said so.", truth_bpm), {}};
        BaselineIs truth = class_of(e_.protocol, truth_bpm);
        if (truth == BaselineIs::normal && d_.heard.has("rising")) truth = BaselineIs::rising;
        const std::optional<double> own = d_.counted ? d_.counted->own_bpm() : std::nullopt;
        const BaselineIs own_class = own ? class_of(e_.protocol, *own) : BaselineIs::not_said;
        const bool right = (said_.baseline == truth && !(fallen && truth == BaselineIs::normal)) ||
                           (truth == BaselineIs::fast && said_.baseline == BaselineIs::rising && d_.truth.has("rising"));
        const std::string numbers = own ? fmt::format("your number {:.0f}, the settled rate {:.1f}", *own, truth_bpm)
                                        : fmt::format("the settled rate was {:.1f}", truth_bpm);
        if (right) {
            if (!gap.empty())
                return {Verdict::partly, fmt::format("\"{}\" is right, but {}.", in_words(said_.baseline), gap), gap_cause};
            if (own && own_class != said_.baseline && said_.baseline != BaselineIs::rising) {
                const std::optional<Aspect> number = number_fault();
                return {Verdict::partly, fmt::format("\"{}\" is right, but not what your own number says ({}).",
                                                     in_words(said_.baseline), numbers), number};
            }
            return {Verdict::met, fmt::format("\"{}\" fits ({}).", in_words(said_.baseline), numbers), {}};
        }
        if (own && said_.baseline == own_class) {
            if (number_fault())  // judged with the number, never twice
                return {gap.empty() ? Verdict::met : Verdict::partly,
                        fmt::format("\"{}\" fits your own number ({}); the number is judged apart.",
                                    in_words(said_.baseline), numbers), gap.empty() ? std::nullopt : gap_cause};
            // A correct count whose minute is not the settled rate, or a rate at the very limit.
            return {Verdict::partly, fmt::format("\"{}\" fits the seconds you counted but not the settled rate ({}).",
                                                 in_words(said_.baseline), numbers), {}};
        }
        return {Verdict::missed, fmt::format("You decided \"{}\": {}, which is {}.", in_words(said_.baseline), numbers,
                                             fallen ? "a fall" : in_words(truth)), gap.empty() ? std::nullopt : gap_cause};
    }

    // The aspect that made their own number differ from the truth.
    std::optional<Aspect> number_fault() const {
        if (!d_.counted) return std::nullopt;
        const Breakdown& t = d_.counted->score.terms;
        for (Aspect a : {Aspect::whose, Aspect::site, Aspect::window, Aspect::count, Aspect::arithmetic})
            if (faulty(sheet_, a) && (a != Aspect::window || std::fabs(t.watch) >= 1)) return a;
        if (std::fabs(t.ear) >= 1) return Aspect::count;
        if (std::fabs(t.watch) >= 1) return Aspect::window;
        return std::nullopt;
    }

    Part around() const {
        if (!heart_beats(e_.played) || said_.source == SourceIs::mother || said_.source == SourceIs::not_found) return {};
        const AroundHeard& heard = d_.heard.around[baby_];
        const AroundHeard& truth = d_.truth.around[baby_];
        const bool asked = e_.scenario.task == Task::pattern || e_.scenario.task == Task::labour;
        const bool through = heard.listened_through > 0;
        const auto is = [](const AroundHeard& a) {
            if (a.stays_down) return Around::stays_down;
            if (a.slow_after > 0) return Around::slow_after_contraction;
            return a.slow_in > 0 ? Around::slows_in_contraction : Around::no_slowing;
        };
        const Around there = through || heard.stays_down ? is(heard) : is(truth);
        const std::string count = fmt::format("{} contraction{} listened through to the end and after, slowing after {}",
                                              heard.listened_through, heard.listened_through == 1 ? "" : "s",
                                              heard.slow_after);
        if (said_.around == Around::not_said || said_.around == Around::not_listened) {
            if (!asked) return {};
            if (d_.heard.down_at_end[baby_] && said_.baseline == BaselineIs::slow) return {};  // one trouble at a time
            if (heard.stays_down || heard.slow_after > 0)
                return {Verdict::missed, fmt::format("You did not say that it slows: {}.", count), {}};
            const bool more_came = d_.said.at < e_.decisions.back().said.at;
            if (said_.around == Around::not_said && (said_.unsure || (!through && more_came))) return {};
            if (through && said_.around == Around::not_said)
                return {Verdict::partly, fmt::format("You did not say what it does around contractions: {}.", count), {}};
            if (said_.around == Around::not_listened && !through && e_.scenario.task == Task::pattern && !more_came)
                return {Verdict::partly, "Here a contraction is to be heard to its end and on; none was.", {}};
            if (said_.around == Around::not_listened && !through)
                return {Verdict::met, "You said that you had not listened around a contraction.", {}};
            if (!through && d_.truth.around[baby_].listened_through == 0) return {};  // there was none to listen through
            return {Verdict::partly, "What it does around contractions is still to be said.", {}};
        }
        const bool whole = through || heard.stays_down;
        if (!whole && truth.listened_through == 0 && !truth.stays_down && said_.around != Around::stays_down)
            return {Verdict::partly, fmt::format("\"{}\": no contraction had come to its end and gone on; nobody could "
                                                 "know yet.", in_words(said_.around)), {}};
        if (said_.around == there) {
            if (!whole) {
                std::optional<Aspect> cause;
                if (faulty(sheet_, Aspect::site)) cause = Aspect::site;
                return {Verdict::partly, fmt::format("\"{}\" is right, but no contraction was heard through its end and "
                                                     "on: this listening could not show it.", in_words(said_.around)), cause};
            }
            return {Verdict::met, fmt::format("\"{}\" fits: {}.", in_words(said_.around), count), {}};
        }
        // A fall that was heard and named for what it was before three minutes had passed.
        if (said_.around == Around::stays_down && (heard.stays_down || truth.stays_down || d_.heard.has("slow")))
            return {Verdict::met, "It was down and you said so.", {}};
        if (there == Around::stays_down && said_.around == Around::slow_after_contraction)
            return {Verdict::partly, "It was down for more than three minutes, not only after contractions.", {}};
        if (said_.around == Around::slows_in_contraction && there == Around::no_slowing)
            return {Verdict::partly, fmt::format("No slowing was there: {}.", count), {}};
        if (said_.around == Around::no_slowing && there == Around::slows_in_contraction)
            return {Verdict::partly, "It slowed in the contraction and was back at its end.", {}};
        std::optional<Aspect> cause;
        if (!through && faulty(sheet_, Aspect::site)) cause = Aspect::site;
        return {Verdict::missed, fmt::format("You decided \"{}\"; it was \"{}\": {}.", in_words(said_.around),
                                             in_words(there), count), cause};
    }

    Part rhythm() const {
        if (!heart_beats(e_.played)) return {};
        const bool odd = d_.heard.has("irregular");
        if (said_.rhythm == RhythmIs::not_said) {
            if (!odd) return {};
            return {Verdict::missed, fmt::format("{} early or missing beats were there and not named.",
                                                 d_.heard.odd_beats[baby_]), {}};
        }
        if ((said_.rhythm == RhythmIs::irregular) == odd) return {Verdict::met, "", {}};
        return {odd ? Verdict::missed : Verdict::partly, odd ? "The rhythm was irregular." : "The rhythm was regular.", {}};
    }

    // Unsure is a safe answer when a safe step follows; carrying on as usual is not one.
    Part unsure(Part whole) const {
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

    const Evidence& e_;
    const ScoreSheet& sheet_;
    const StandingDecision& d_;
    const Decision& said_;
    std::size_t baby_ = 0;
};

}  // namespace

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
        const Part part = DecisionJudge(e, so_far, e.decisions[i]).judge();
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
