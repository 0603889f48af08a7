// Window, count, arithmetic: the number, taken apart.
#include "engine/scoring/aspects.h"
#include "engine/scoring/breakdown.h"
#include "engine/scoring/steps.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace engine {

namespace {

// The watch: within a second of the length meant; past 15 % another length was counted [practice].
constexpr double window_met_s = 1.0, window_missed_share = 0.15;
// The ear: exact to 2 bpm is met (60 s: two beats, 30 s: one; at 15 s and under one beat is already 4 bpm or more and
// only partly); right at all within two beats or 5 bpm, whichever is more [practice; trade review of the bands].
constexpr double count_met_bpm = 2.0, count_right_beats = 2, count_right_bpm = 5.0;
constexpr double arithmetic_met = 0.5, arithmetic_partly_bpm = 2.0;

double own_s(const CountedWindow& w) { return w.score.to_s - w.score.from_s; }

bool length_allowed(const Evidence& e, const CountedWindow& w) {
    if (e.scenario.task == Task::quick || e.protocol.record_lengths.empty()) return true;
    return std::any_of(e.protocol.record_lengths.begin(), e.protocol.record_lengths.end(),
                       [&](sim::Seconds s) { return w.score.plan_s + 0.5 >= s.value; });
}

Verdict of_length(const Evidence& e, const CountedWindow& w) {
    const double off = std::fabs(own_s(w) - w.score.plan_s);
    if (off > window_missed_share * w.score.plan_s) return Verdict::missed;
    if (off > window_met_s + 1e-9) return Verdict::partly;
    return length_allowed(e, w) ? Verdict::met : Verdict::partly;
}

Verdict of_count(const CountedWindow& w) {
    const double off = std::fabs(w.error_bpm().value_or(0));
    if (off <= count_met_bpm + 1e-9) return Verdict::met;
    return off <= std::max(count_right_beats * w.factor, count_right_bpm) + 1e-9 ? Verdict::partly : Verdict::missed;
}

std::string beats_off(int beats) {
    if (beats == 0) return "not one beat off";
    return fmt::format("{} beat{} {}", std::abs(beats), std::abs(beats) == 1 ? "" : "s", beats > 0 ? "extra" : "missed");
}

std::string signed_bpm(double v) { return fmt::format("{:+.1f}", v); }

}  // namespace

AspectScore judge_window(const Evidence& e, const ScoreSheet& so_far) {
    AspectScore a{Aspect::window, Verdict::not_asked, {}, {}, {}};
    const CountedWindow* worst = nullptr;
    for (const CountedWindow& w : e.windows)
        if (w.score.judged && (!worst || of_length(e, w) > of_length(e, *worst))) worst = &w;
    if (!worst) {
        if (!e.windows.empty()) {
            a.why = "The counts of the mother's beat do not stand.";
            return a;
        }
        if (!heart_beats(e.played) || !e.listened_at_all()) {
            a.why = "There was nothing to count.";
            return a;
        }
        if (!e.scenario.place.watch) {
            a.why = "There was no watch to count by.";
            return a;
        }
        a.verdict = Verdict::missed;
        a.why = "No count was made.";
        if (faulty(so_far, Aspect::site)) a.follows_from = Aspect::site;
        return a;
    }
    a.verdict = of_length(e, *worst);
    a.figures["own_s"] = own_s(*worst);
    a.figures["plan_s"] = worst->score.plan_s;
    a.figures["watch_bpm"] = worst->score.terms.watch;
    const double off = own_s(*worst) - worst->score.plan_s;
    if (std::fabs(off) <= window_met_s + 1e-9 && a.verdict == Verdict::partly)
        a.why = fmt::format("{:.0f} s is shorter than this protocol takes for a record.", worst->score.plan_s);
    else if (a.verdict == Verdict::met)
        a.why = fmt::format("You counted over {:.1f} s of the {:.0f} s meant; the watch moved the rate by {} bpm.",
                            own_s(*worst), worst->score.plan_s, signed_bpm(worst->score.terms.watch));
    else
        a.why = fmt::format("The count was meant for {:.0f} s and ran {:.1f} s, {:.1f} s {}: the watch moved the rate by "
                            "{} bpm.", worst->score.plan_s, own_s(*worst), std::fabs(off),
                            off < 0 ? "short, started late or stopped early" : "long",
                            signed_bpm(worst->score.terms.watch));
    return a;
}

AspectScore judge_count(const Evidence& e) {
    AspectScore a{Aspect::count, Verdict::not_asked, {}, {}, {}};
    const CountedWindow* worst = nullptr;
    bool any = false;
    for (const CountedWindow& w : e.windows) {
        if (!w.score.judged) continue;
        any = true;
        if (w.own_bpm() && (!worst || std::fabs(*w.error_bpm()) > std::fabs(*worst->error_bpm()))) worst = &w;
    }
    if (!any) {
        a.why = "There was no count to judge.";
        return a;
    }
    if (!worst) {
        a.verdict = Verdict::missed;
        a.why = "You counted but gave no number.";
        return a;
    }
    const CountedWindow& w = *worst;
    a.verdict = of_count(w);
    a.figures["true_beats"] = w.followed_beats;
    a.figures["error_bpm"] = to_thousandth(*w.error_bpm());
    a.figures["right_within_bpm"] = to_thousandth(std::max(count_right_beats * w.factor, count_right_bpm));
    const std::string whose = w.score.followed == "mother" ? " of the mother, whom you followed," : "";
    if (w.score.counted) {
        const int off = *w.score.counted - w.followed_beats;
        a.figures["counted"] = *w.score.counted;
        a.figures["error_beats"] = off;
        a.why = fmt::format("You counted {}; {} beats{} fell in your own {:.1f} s: {}", *w.score.counted,
                            w.followed_beats, whose, own_s(w), beats_off(off));
        if (off != 0)
            a.why += fmt::format(", {} bpm. Without taps nobody can say whether that was the first or last beat or one "
                                 "in between", signed_bpm(off * w.factor));
        a.why += ".";
        const double ratio = w.followed_beats > 0 ? static_cast<double>(*w.score.counted) / w.followed_beats : 0;
        if (ratio > 0.45 && ratio < 0.55) a.why += " That is every second beat.";
        if (ratio > 1.85 && ratio < 2.15) a.why += " That is both sounds of each beat.";
    } else {
        a.why = fmt::format("You wrote {} and gave no count of beats; {} beats{} in your own {:.1f} s make {:.0f}. Ear and "
                            "arithmetic cannot be told apart.", *w.score.reported_bpm, w.followed_beats, whose, own_s(w),
                            w.followed_beats * w.factor);
    }
    if (a.verdict == Verdict::missed && w.score.followed != "mother" &&
        w.site.countable != sim::Countable::countable)
        a.follows_from = Aspect::site;
    return a;
}

AspectScore judge_arithmetic(const Evidence& e) {
    AspectScore a{Aspect::arithmetic, Verdict::not_asked, {}, {}, {}};
    const CountedWindow* worst = nullptr;
    for (const CountedWindow& w : e.windows)
        if (w.score.judged && w.score.counted && w.score.reported_bpm &&
            (!worst || std::fabs(w.score.terms.arithmetic) > std::fabs(worst->score.terms.arithmetic)))
            worst = &w;
    if (!worst) {
        a.why = "A count and a rate were not both given.";
        return a;
    }
    const double off = worst->score.terms.arithmetic;
    const double right = *worst->score.counted * worst->factor;
    a.figures["arithmetic_bpm"] = off;
    a.figures["counted_x_factor"] = to_thousandth(right);
    a.figures["reported_bpm"] = *worst->score.reported_bpm;
    a.verdict = std::fabs(off) <= arithmetic_met           ? Verdict::met
                : std::fabs(off) <= arithmetic_partly_bpm  ? Verdict::partly
                                                           : Verdict::missed;
    const std::string sum = worst->score.plan_s == 60
                                ? fmt::format("{} in a minute", *worst->score.counted)
                                : fmt::format("{} x {:g} is {:g}", *worst->score.counted, worst->factor, right);
    a.why = fmt::format("{}, and you wrote {}", sum, *worst->score.reported_bpm);
    if (a.verdict != Verdict::met)
        a.why += fmt::format(": {} bpm{}", signed_bpm(off),
                             worst->score.terms.slip.empty() || worst->score.terms.slip == "other"
                                 ? std::string()
                                 : ", " + worst->score.terms.slip);
    a.why += ".";
    return a;
}

}  // namespace engine
