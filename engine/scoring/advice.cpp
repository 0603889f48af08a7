#include "engine/scoring/advice.h"

#include "engine/scoring/aspects.h"
#include "engine/scoring/series.h"
#include "engine/scoring/which_count.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace engine {

namespace {

constexpr double lead_in_s = 20;  // a place to hear again begins this long before what is to be heard

double start_of(const CountedWindow* w, double otherwise) { return w ? w->score.from_s : otherwise; }

const CountedWindow* worst_site(const Evidence& e) {
    const CountedWindow* worst = nullptr;
    for (const CountedWindow& w : e.windows)
        if (w.score.judged && (!worst || w.site.countable > worst->site.countable)) worst = &w;
    return worst;
}

const CountedWindow* furthest_off(const Evidence& e) {
    const CountedWindow* worst = nullptr;
    for (const CountedWindow& w : e.windows)
        if (w.score.judged && w.error_bpm() &&
            (!worst || std::fabs(*w.error_bpm()) > std::fabs(*worst->error_bpm())))
            worst = &w;
    return worst;
}

// "15 s is"; of counts in a row all of them: "the 2 counts of 15 s are".
std::string too_short(const Evidence& e, const CountedWindow& w) {
    if (const SeriesScore* s = series_of(e.series, number_of(e, w) - 1))
        return fmt::format("the {} counts of {:.0f} s are{}", s->counts(), s->plan_s,
                           s->plan_s < 10 ? " each" : "");
    return fmt::format("{}{:.0f} s is",
                       e.windows.size() > 1 ? "the " + ordinal(number_of(e, w)) + " count's " : "",
                       w.score.plan_s);
}

NextTime on_window(const Evidence& e) {
    const CountedWindow* w = e.last_judged();
    if (!w) return {"Count one whole minute by the clock.", first_heard_s(e)};
    const auto off = [](const CountedWindow& one) {
        return std::fabs(one.score.to_s - one.score.from_s - one.score.plan_s);
    };
    const bool any_length = e.scenario.task == Task::quick;  // only the watch can be wrong there
    for (std::size_t i = 0; any_length && i < e.windows.size(); ++i) {
        const SeriesScore* series = series_of(e.series, i);
        if ((series ? series->judged : e.windows[i].score.judged) && off(e.windows[i]) > off(*w))
            w = &e.windows[i];
    }
    if (!any_length && off(*w) <= 1)
        return {fmt::format("Count one whole minute by the clock before you write and decide: {} {}.",
                            too_short(e, *w), w->score.plan_s < 10 ? "a look" : "too short for the record"),
                w->score.from_s};
    const double own = w->score.to_s - w->score.from_s;
    return {
        fmt::format("Look at the second hand first and count from it: {} ran {:.1f} s for {:.0f} s meant.",
                    which_count(e, *w, "this count"), own, w->score.plan_s),
        w->score.from_s};
}

// The ear caught the beats, the number did not: a beat or two off by ear, more by the tally.
bool slip_of_tally(const CountedWindow& w) {
    const TapScore& t = *w.score.taps;
    return t.missed_s.size() + t.extra_s.size() <= 2 &&
           std::fabs(w.score.terms.tally) > std::fabs(w.score.terms.ear) + 1e-9;
}

NextTime on_count(const Evidence& e) {
    const CountedWindow* w = furthest_off(e);
    if (!w)
        return {
            "You ran the watch for a whole count and gave no number: say the beats as you stop, before "
            "anything else, and write them down.",
            start_of(e.last_judged(), first_heard_s(e))};
    const double at_s = w->score.from_s;
    if (w->score.pattern == "both sounds")
        return {of_count(e, *w) +
                    "it comes to double: each beat has two sounds, lub and dub; say one number for the pair.",
                at_s};
    if (w->score.pattern == "every second beat")
        return {of_count(e, *w) +
                    "it comes to half: every beat gets a number, also when they come fast; count in tens, a "
                    "finger for each ten.",
                at_s};
    if (w->score.pattern == "half the beats" || w->score.pattern == "double the beats")
        return {
            of_count(e, *w) +
                fmt::format(
                    "{}over it, count by ear for a whole minute and write that: a display that {} shows a "
                    "fine number of no heart.",
                    e.windows.size() > 1 ? "c" : "C",
                    w->score.pattern == "half the beats" ? "halves" : "doubles"),
            at_s};
    if (w->score.taps && w->score.taps->follows == "unclear")
        return {of_count(e, *w) + "tap each beat as you hear it: these taps kept step with no heart.", at_s};
    if (w->score.taps && w->score.counted && slip_of_tally(*w))
        return {of_count(e, *w) +
                    fmt::format("your taps kept {} of {} beats and {} were written: the slip is in keeping "
                                "count, so fold a finger for each ten.",
                                w->score.taps->caught_s.size(), w->followed_beats, *w->score.counted),
                at_s};
    if (w->score.counted && *w->score.counted < w->followed_beats && w->score.true_bpm > 150)
        return {of_count(e, *w) +
                    "at this speed count one to ten over and over, a finger for each ten: long number words "
                    "lose beats.",
                at_s};
    if (w->score.plan_s < 30)
        return {of_count(e, *w) +
                    fmt::format("one beat in a {:.0f} s count is {:g} bpm; count the whole minute for the "
                                "record.",
                                w->score.plan_s, w->factor),
                at_s};
    return {fmt::format("Listen to {} again and count it aloud, a finger for each ten.",
                        which_count(e, *w, "this minute")),
            at_s};
}

NextTime on_arithmetic(const Evidence& e) {
    const CountedWindow* worst = nullptr;
    for (const CountedWindow& w : e.windows)
        if (w.score.judged && w.score.counted && w.score.reported_bpm &&
            (!worst || std::fabs(w.score.terms.arithmetic) > std::fabs(worst->score.terms.arithmetic)))
            worst = &w;
    if (!worst) return {"Write the beats down first, then multiply.", first_heard_s(e)};
    if (worst->factor == 1)
        return {of_count(e, *worst) +
                    fmt::format("the beats of a whole minute are the rate: {} counted is {} written.",
                                *worst->score.counted, *worst->score.counted),
                worst->score.from_s};
    return {of_count(e, *worst) + fmt::format("write the beats down first, then multiply: {} x {:g} is {:g}.",
                                              *worst->score.counted, worst->factor,
                                              *worst->score.counted * worst->factor),
            worst->score.from_s};
}

NextTime advice_about(const Evidence& e, const ScoreSheet& sheet, Aspect aspect) {
    switch (aspect) {
        case Aspect::whose: return advice_on_whose(e);
        case Aspect::site:
            if (const CountedWindow* w = worst_site(e);
                w ? without_gel(e.played, w->window->from, w->window->to)
                  : without_gel(e.played, {0}, e.played.end))
                return {"Gel first: a Doppler hears through it, and next to nothing without.",
                        start_of(w, first_heard_s(e))};
            return {
                "Feel for the back and move until one two-tone beat stands clear of every other sound, then "
                "count.",
                start_of(worst_site(e), first_heard_s(e))};
        case Aspect::window: return on_window(e);
        case Aspect::count: return on_count(e);
        case Aspect::arithmetic: return on_arithmetic(e);
        case Aspect::decision: return advice_on_decision(e, sheet);
        case Aspect::action: return advice_on_action(e, sheet);
        case Aspect::record: return advice_on_record(e);
        case Aspect::care:
            return {"Ask her leave before you touch her, and tell her what you heard.", first_heard_s(e)};
    }
    return {};
}

std::optional<NextTime> within_what_is_asked(const Evidence& e, const ScoreSheet& sheet) {
    const CountedWindow* w = e.last_judged();
    if (!w || !w->score.counted || faulty(sheet, Aspect::count)) return std::nullopt;
    const int off = *w->score.counted - w->followed_beats;
    if (off == 0) return std::nullopt;
    if (w->score.taps && w->score.terms.ear == 0 && w->score.terms.tally != 0)
        return NextTime{
            of_count(e, *w) + fmt::format("every beat had its tap, {} of them, and {} were written: keep "
                                          "the number until it stands on paper.",
                                          w->followed_beats, *w->score.counted),
            w->score.from_s};
    return NextTime{fmt::format("{} beat{} {} in {}: within what is asked, listen to it once more.",
                                std::abs(off), std::abs(off) == 1 ? "" : "s", off > 0 ? "extra" : "missed",
                                which_count(e, *w, "this count")),
                    w->score.from_s};
}

}  // namespace

double first_heard_s(const Evidence& e) {
    return e.played.spells.empty() ? 0 : e.played.spells.front().from.seconds();
}

double heard_near_s(const Played& played, double t_s) {
    const Spell* before = nullptr;
    for (const Spell& spell : played.spells) {
        if (spell.from.seconds() <= t_s && t_s < spell.to.seconds()) return t_s;
        if (spell.to.seconds() <= t_s && spell.to > spell.from) before = &spell;
    }
    if (before) return std::max(before->from.seconds(), before->to.seconds() - lead_in_s);
    return played.spells.empty() ? 0 : played.spells.front().from.seconds();
}

NextTime advice_on(const Evidence& e, const ScoreSheet& sheet, Aspect aspect) {
    NextTime next = advice_about(e, sheet, aspect);
    next.says = with_capital(std::move(next.says));
    return next;
}

std::optional<NextTime> nearly_exact(const Evidence& e, const ScoreSheet& sheet) {
    std::optional<NextTime> next = within_what_is_asked(e, sheet);
    if (next) next->says = with_capital(std::move(next->says));
    return next;
}

}  // namespace engine
