// Count: the beats that were counted against those that fell in the trainee's own seconds.
#include "engine/scoring/aspects.h"
#include "engine/scoring/counted_words.h"
#include "engine/scoring/series.h"
#include "engine/scoring/steps.h"
#include "engine/scoring/which_count.h"

#include <algorithm>
#include <cmath>

namespace engine {

namespace {

// Good: within one beat of the method or 4 bpm, whichever is more; fair: one and a half beats or 8 bpm
// [practice, trade review and signal science]. So one beat is never a bad ear, whatever the seconds. A check
// counts right up to two beats of the method or 5 bpm: about what 99 in 100 faultless counts keep.
double good_bpm(double factor) { return std::max(factor, 4.0); }
double fair_bpm(double factor) { return std::max(1.5 * factor, 8.0); }
double right_bpm(double factor) { return std::max(2 * factor, 5.0); }

Verdict of_error(double off_bpm, double factor) {
    if (std::fabs(off_bpm) <= good_bpm(factor) + 1e-9) return Verdict::met;
    return std::fabs(off_bpm) <= fair_bpm(factor) + 1e-9 ? Verdict::partly : Verdict::missed;
}

// A series as one count over all its seconds.
double factor_of_all(const SeriesScore& s) { return 60.0 / (s.plan_s * static_cast<double>(s.counts())); }
bool shows_alike(const SeriesScore::Shows& a, const SeriesScore::Shows& b) {
    return (a.slowing_s > 0) == (b.slowing_s > 0) && a.after == b.after;
}

Verdict of_series(const SeriesScore& s) {
    Verdict v = of_error(s.error_beats * factor_of_all(s), factor_of_all(s));
    if (s.largest_error_beats > 2 + 1e-9) v = std::max(v, Verdict::partly);
    // A fall made by counting, or counted away; one that the watch made is not the ear's. One beat at the
    // edge of the rule is no more than partly.
    if (!shows_alike(s.shown, s.there) && !shows_alike(s.shown, s.faultless))
        v = std::max(v, s.largest_error_beats > 1 + 1e-9 ? Verdict::missed : Verdict::partly);
    return v;
}

std::string fall_words(const SeriesScore::Shows& s) {
    if (s.slowing_s <= 0) return "no slowing";
    return fmt::format("a slowing to {:.0f} for {:.0f} s{}", s.lowest_bpm, s.slowing_s,
                       s.after ? " that goes on after the contraction" : "");
}

std::string series_words(const Evidence& e, const SeriesScore& s) {
    std::string numbers;
    for (std::size_t i = s.first; i <= s.last; ++i) {
        const WindowScore& w = e.windows[i].score;
        numbers +=
            (i == s.first ? "" : " ") + std::to_string(w.counted ? *w.counted : w.reported_bpm.value_or(0));
    }
    std::string says =
        fmt::format("{} counts of {:.0f} s in a row, {}: together {:.0f} a minute where {:.0f} were there. ",
                    s.counts(), s.plan_s, numbers, s.shown.per_minute_bpm, s.there.per_minute_bpm);
    if (shows_alike(s.shown, s.there))
        says += fmt::format("In order they show {}, and so did the beats.", fall_words(s.shown));
    else
        says += fmt::format("In order they show {}; the beats in these seconds showed {}.",
                            fall_words(s.shown), fall_words(s.there));
    if (!shows_alike(s.shown, s.there) && shows_alike(s.shown, s.faultless))
        says += " The watch made the difference, not the ear.";
    if (s.fell && s.there.slowing_s <= 0)
        says += " A fall lay there that counts of this length, placed so, do not show.";
    return says;
}

std::string tap_words(const WindowScore& w) {
    const TapScore& t = *w.taps;
    const auto n = [](const auto& list) { return list.size(); };
    if (t.follows == "unclear") {
        std::string fits = fmt::format(" Your {} taps kept step with no heart", t.taps);
        if (w.counted && *w.counted != t.taps) fits += fmt::format(", and you wrote {}", *w.counted);
        return fits + ".";
    }
    std::string says =
        fmt::format(" Your taps caught {} of {} beats", n(t.caught_s), n(t.caught_s) + n(t.missed_s));
    if (n(t.missed_s) > 0) says += fmt::format(", {} missed", n(t.missed_s));
    if (n(t.extra_s) > 0) says += fmt::format(", {} extra", n(t.extra_s));
    if (t.lag_s)
        says += fmt::format("; they came {:.0f} ms {} the beats", std::fabs(*t.lag_s) * 1000,
                            *t.lag_s < 0 ? "before" : "after");
    if (w.counted && *w.counted != t.taps)
        says += fmt::format(". You tapped {} and wrote {}: the tally is {} beat{} off", t.taps, *w.counted,
                            std::abs(*w.counted - t.taps), std::abs(*w.counted - t.taps) == 1 ? "" : "s");
    return says + ".";
}

void say_one(const CountedWindow& w, AspectScore& a) {
    const std::string whose = w.score.followed == "mother" ? " of the mother, whom you followed," : "";
    if (!w.score.counted) {
        a.why = fmt::format(
            "You wrote {} and gave no count of beats; {} beats{} in your own {:.1f} s make {:.0f}. Ear and "
            "arithmetic cannot be told apart.",
            *w.score.reported_bpm, w.followed_beats, whose, own_s(w), w.followed_beats * w.factor);
        if (!w.score.pattern.empty())
            a.why += w.score.pattern == "half the beats"
                         ? " It is just half: a display can halve a heart as fast as this."
                         : " It is just double: a display can double a heart.";
        if (w.score.taps) a.why += tap_words(w.score);
        return;
    }
    const int off = *w.score.counted - w.followed_beats;
    a.figures["counted"] = *w.score.counted;
    a.figures["error_beats"] = off;
    a.why = fmt::format("You counted {}; {} beats{} fell in your own {:.1f} s: {}", *w.score.counted,
                        w.followed_beats, whose, own_s(w), beats_off(off));
    if (off != 0) a.why += fmt::format(", {} bpm", signed_bpm(off * w.factor));
    if (w.score.taps) {
        a.why += "." + tap_words(w.score);
        if (!w.score.pattern.empty())
            a.why += w.score.pattern == "both sounds" ? " You tapped both sounds of each beat."
                                                      : " You tapped every second beat.";
        return;
    }
    if (off != 0 && std::abs(off) <= 2)  // more than both ends can hold
        a.why += ". Without taps nobody can say whether that was the first or last beat or one in between";
    a.why += ".";
    if (w.score.pattern == "every second beat")
        a.why += " That is about half of them: as if every second beat was counted.";
    if (w.score.pattern == "both sounds")
        a.why += " That is about double: as if both sounds of each beat were counted.";
}

}  // namespace

AspectScore judge_count(const Evidence& e) {
    AspectScore a{Aspect::count, Verdict::not_asked, {}, {}, {}};
    const CountedWindow* worst = nullptr;
    const SeriesScore* series = nullptr;
    bool any = false;
    double size = 0;  // of the worst error, in steps of what is good for its method
    for (std::size_t i = 0; i < e.windows.size(); ++i) {
        const CountedWindow& w = e.windows[i];
        const SeriesScore* of = series_of(e.series, i);
        if (of ? !of->judged || i != of->last : !w.score.judged) continue;
        any = true;
        if (!w.own_bpm()) continue;
        const Verdict v = of ? of_series(*of) : of_error(*w.error_bpm(), w.factor);
        const double factor = of ? factor_of_all(*of) : w.factor;
        const double off = std::fabs(of ? of->error_beats * factor : *w.error_bpm()) / good_bpm(factor);
        if (worst && (v < a.verdict || (v == a.verdict && off <= size))) continue;
        worst = &w;
        series = of;
        size = off;
        a.verdict = v;
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
    const double factor = series ? factor_of_all(*series) : worst->factor;
    const double error = series ? series->error_beats * factor : *worst->error_bpm();
    a.figures["error_bpm"] = to_thousandth(error);
    a.figures["right_within_bpm"] = to_thousandth(right_bpm(factor));
    a.figures["right"] = std::fabs(error) <= right_bpm(factor) + 1e-9 ? 1 : 0;
    if (series) {
        a.figures["error_beats"] = series->error_beats;
        a.figures["counts"] = static_cast<double>(series->counts());
        a.figures["shown_slowing_s"] = series->shown.slowing_s;
        a.figures["true_slowing_s"] = series->there.slowing_s;
        a.why = of_series(e, *series) + series_words(e, *series);
    } else {
        a.figures["true_beats"] = worst->followed_beats;
        say_one(*worst, a);
        a.why = of_count(e, *worst) + a.why;
    }
    if (a.verdict == Verdict::missed && worst->score.followed != "mother" &&
        worst->site.countable != sim::Countable::countable)
        a.follows_from = Aspect::site;
    return a;
}

}  // namespace engine
