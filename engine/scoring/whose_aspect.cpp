// Whose heart it was: taken for the right one, her pulse felt when it matters and for long enough, and what
// was said of the two by ear alone.
#include "engine/scoring/aspects.h"
#include "engine/scoring/beside_her_pulse.h"
#include "engine/scoring/pulse_asked.h"
#include "engine/scoring/steps.h"
#include "engine/scoring/which_count.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace engine {

namespace {

// more than this with contractions: hers until proved otherwise (Van Veen 2012)
constexpr double mothers_rise_bpm = 20;
// a number within 5 % of twice the rate is that rate doubled [memory]
constexpr double doubled_within = 0.05;

class WhoseJudge {
public:
    explicit WhoseJudge(const Evidence& e) : e_(e), played_(e.played) {}

    AspectScore judge() {
        if (!e_.listened_at_all()) {
            a_.why = "Nothing was listened to.";
            return std::move(a_);
        }
        felt_s_ = pulse_felt_s(played_, {0}, {played_.end.us + 1});
        a_.figures["pulse_felt_s"] = to_tenth(felt_s_);
        const std::vector<BesideHerPulse> by_ear = compared(e_);
        if (!by_ear.empty()) figures(by_ear.back());
        asked_ = pulse_asked(e_);
        count_them();
        if (taken_for_another()) return std::move(a_);
        felt();
        for (const BesideHerPulse& c : by_ear) and_by_ear(c);
        reported_pulse();
        return std::move(a_);
    }

private:
    bool missed(std::string why) {
        a_.verdict = Verdict::missed;
        a_.why = std::move(why);
        return true;
    }

    // The wrong heart, by what was counted or by what was decided.
    bool taken_for_another() {
        for (const CountedWindow& w : e_.windows) {
            if (!w.score.judged) continue;
            if (w.score.followed == "mother") return missed(mother_counted(w));
            const double hers = sim::rate_between(played_.maternal, w.window->from, w.window->to).value;
            const std::optional<double> own = w.own_bpm();
            if (own && !w.score.counted && hers > 0 && std::fabs(*own / hers - 2) <= 2 * doubled_within &&
                (w.site.what == HeardWhat::mother || !heart_beats(played_)))
                return missed(
                    of_count(e_, w) +
                    fmt::format(
                        "{:.0f} is just twice her pulse of {:.0f}, and her beat was the one to be heard "
                        "there: a display that doubles. Count by ear, with her wrist in hand.",
                        *own, hers));
        }
        for (const StandingDecision& d : e_.decisions) {
            const SourceIs said = d.said.decision.source, there = d.source_there;
            if (said == SourceIs::baby && there == SourceIs::mother)
                return missed("You took the mother's beat for the baby's.");
            if (said == SourceIs::baby && there == SourceIs::not_found && !heart_beats(played_))
                return missed("No baby's heart was to be heard, and you named one.");
            if (said == SourceIs::mother && there == SourceIs::baby)
                return missed("You took the baby's beat for the mother's.");
        }
        return false;
    }

    std::string mother_counted(const CountedWindow& w) const {
        std::string why =
            fmt::format("The beats of {} were the mother's: {:.0f} a minute. ",
                        which_count(e_, w, "your count"), w.score.true_bpm + w.score.terms.source);
        why += heart_beats(played_) ? fmt::format("The baby's rate was {:.0f}.", w.score.true_bpm)
                                    : std::string("No baby's heart was to be heard.");
        double least = 1e3, most = 0;
        const Spell* spell =
            w.window->spell < 0 ? nullptr : &played_.spells[static_cast<std::size_t>(w.window->spell)];
        for (std::int64_t t = spell ? spell->from.us : 0; spell && t < spell->to.us;
             t += sim::course_tick_us) {
            const double rate = tick_at(played_, {t}).mhr_bpm;
            least = std::min(least, rate);
            most = std::max(most, rate);
        }
        if (played_.patient.labour.pushing && most - least > mothers_rise_bpm)
            why += fmt::format(
                " It rose by {:.0f} as she pushed: a rise with each push is the mother until proved "
                "otherwise.",
                most - least);
        return why;
    }

    void count_them() {
        for (const PulseAsked& p : asked_) {
            if (heart_beats(played_)) a_.figures["apart_bpm"] = to_thousandth(p.apart_bpm);
            if (p.reason == PulseAsked::nothing) continue;
            ++asked_for_;
            if (p.enough()) ++felt_for_;
            if (!worst_ || (worst_->enough() && !p.enough()) ||
                (worst_->enough() == p.enough() && p.reason > worst_->reason))
                worst_ = p;
        }
        a_.figures["pulse_needed_s"] = to_tenth(worst_ ? worst_->need_s : e_.protocol.pulse_felt_for.value);
        if (asked_for_ == 0) return;
        a_.figures["pulse_asked_for"] = asked_for_;
        a_.figures["pulse_felt_enough"] = felt_for_;
    }

    bool left_open() const {
        const StandingDecision* last = nullptr;
        for (const StandingDecision& d : e_.decisions)
            if (d.said.decision.source != SourceIs::not_said || d.said.decision.unsure) last = &d;
        return last && (last->said.decision.source == SourceIs::doubtful || last->said.decision.unsure);
    }

    // Said only of a heart that was named.
    std::string and_named() const {
        bool named = false, right = true;
        for (const StandingDecision& d : e_.decisions) {
            if (d.said.decision.source == SourceIs::not_said) continue;
            named = true;
            right = right && d.said.decision.source == d.source_there;
        }
        return named && right ? "; the heart you named is the one that was there." : ".";
    }

    void felt() {
        if (!worst_ && felt_s_ <= 0 && (asked_.empty() ? !e_.protocol.pulse_at_first_listening : true)) {
            a_.why = "Her pulse was not asked for here.";
            return;
        }
        const bool enough = worst_ ? worst_->enough() : felt_s_ + 0.5 >= e_.protocol.pulse_felt_for.value;
        if (enough) {
            a_.verdict = Verdict::met;
            if (!heart_beats(played_))
                a_.why = fmt::format("Her pulse was felt for {:.0f} s; no heart but hers was to be heard.",
                                     felt_s_);
            else if (asked_for_ > 1)
                a_.why = fmt::format(
                    "Her pulse was felt in each of the {} listenings that asked for it, {:.0f} s in all{}",
                    asked_for_, felt_s_, and_named());
            else
                a_.why = fmt::format("Her pulse was felt for {:.0f} s{}", felt_s_, and_named());
            return;
        }
        if (left_open()) {
            a_.verdict = Verdict::met;
            a_.why = "You said that it was not sure whose heart this was.";
            return;
        }
        if (!worst_) {
            a_.verdict = Verdict::partly;
            a_.why = felt_s_ > 0
                         ? fmt::format("Her pulse was felt for {:.0f} s; {:.0f} s are asked.", felt_s_,
                                       e_.protocol.pulse_felt_for.value)
                         : std::string("Her pulse was not felt: you could not know whose heart it was.");
            return;
        }
        too_little(*worst_);
    }

    void too_little(const PulseAsked& p) {
        a_.verdict = Verdict::partly;
        const std::string felt =
            p.felt_s > 0 ? fmt::format("was felt for {:.0f} s, {:.0f} s are asked", p.felt_s, p.need_s)
                         : std::string("was not felt");
        switch (p.reason) {
            case PulseAsked::near:
                if (p.felt_s <= 0) a_.verdict = Verdict::missed;
                a_.why = fmt::format(
                    "Baby and mother were {:.1f} apart: only {:.0f} s of both together can tell them; her "
                    "pulse was felt while listening for {:.0f} s.",
                    p.apart_bpm, p.need_s, p.felt_s);
                return;
            case PulseAsked::another_place:
                a_.why = fmt::format(
                    "At the new place her pulse {}: a beat found anew is hers until the two differ.", felt);
                return;
            case PulseAsked::outside:
                a_.why = fmt::format(
                    "The rate was outside the limits, and in that listening her pulse {}: first think of her "
                    "own.",
                    felt);
                return;
            case PulseAsked::pushing:
                a_.why = fmt::format(
                    "She was pushing, and her pulse {}: with each push hers can climb to where a baby's "
                    "is.",
                    felt);
                return;
            default:
                a_.why = felt_s_ > 0 ? fmt::format("Her pulse {}.", felt)
                         : baby_was_heard()
                             ? std::string("It was the baby, but her pulse was not felt: you could not know.")
                             : std::string(
                                   "Her pulse was not felt, and the baby was not to be heard: nobody "
                                   "could know whose beat it was.");
        }
    }

    // Of what was counted, else of all that was listened to.
    bool baby_was_heard() const {
        bool counted = false;
        for (const CountedWindow& w : e_.windows) {
            if (!w.score.judged) continue;
            counted = true;
            if (w.score.followed == "baby") return true;
        }
        return !counted && std::any_of(e_.listened.heard.begin(), e_.listened.heard.end(),
                                       [](const HeardPiece& h) { return has_baby(h.what); });
    }

    void figures(const BesideHerPulse& c) {
        if (c.her_bpm <= 0 || c.heard == HeardWhat::nothing) return;
        a_.figures["compared_ratio"] = to_thousandth(c.ratio());
        a_.figures["compared_together_s"] = c.together_s;
        a_.figures["compared_needed_s"] = c.needed_s;
    }

    void and_by_ear(const BesideHerPulse& c) {
        // Right by ear and long enough says what was to be said of the pulse; it is not said twice.
        const bool replaces = a_.verdict == Verdict::met && c.verdict == Verdict::met && asked_for_ <= 1;
        a_.why = replaces ? c.why : a_.why + " " + c.why;
        a_.verdict = worse(a_.verdict, c.verdict);
    }

    void reported_pulse() {
        for (const PulseReport& r : played_.pulse_reports) {
            const double truth = pulse_nearest_bpm(e_, r);
            a_.figures["pulse_true_bpm"] = truth;
            a_.figures["pulse_reported_bpm"] = r.bpm;
            if (!pulse_misread(e_, r) || a_.verdict != Verdict::met) continue;
            a_.verdict = Verdict::partly;
            a_.why += fmt::format(" You wrote her pulse as {}; it was {:.0f}.", r.bpm, truth);
        }
    }

    const Evidence& e_;
    const Played& played_;
    AspectScore a_{Aspect::whose, Verdict::not_asked, {}, {}, {}};
    double felt_s_ = 0;
    int asked_for_ = 0, felt_for_ = 0;
    std::vector<PulseAsked> asked_;
    std::optional<PulseAsked> worst_;
};

}  // namespace

AspectScore judge_whose(const Evidence& e) { return WhoseJudge(e).judge(); }

}  // namespace engine
