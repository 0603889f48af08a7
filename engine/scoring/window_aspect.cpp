// Window: own start and stop, and the length that was counted.
#include "engine/scoring/aspects.h"
#include "engine/scoring/breakdown.h"
#include "engine/scoring/counted_words.h"
#include "engine/scoring/series.h"
#include "engine/scoring/steps.h"
#include "engine/scoring/which_count.h"

#include <algorithm>
#include <cmath>

namespace engine {

namespace {

// The watch: within a second of the length meant; past 15 % another length was counted [practice].
constexpr double window_met_s = 1.0, window_missed_share = 0.15;

// One count, or a series as if it were one: its starts and stops late or early may make up for each other.
struct Length {
    double own = 0, plan = 0;
    bool allowed = true;
    Verdict verdict = Verdict::not_asked;
};

bool length_allowed(const Evidence& e, double plan_s) {
    if (e.scenario.task == Task::quick || e.protocol.record_lengths.empty()) return true;
    return std::any_of(e.protocol.record_lengths.begin(), e.protocol.record_lengths.end(),
                       [&](sim::Seconds s) { return plan_s + 0.5 >= s.value; });
}

Verdict of_length(double own, double plan, bool allowed) {
    const double off = std::fabs(own - plan);
    if (off > window_missed_share * plan) return Verdict::missed;
    if (off > window_met_s + 1e-9) return Verdict::partly;
    return allowed ? Verdict::met : Verdict::partly;
}

Length length_of(const Evidence& e, const CountedWindow& w) {
    Length l{own_s(w), w.score.plan_s, length_allowed(e, w.score.plan_s), {}};
    l.verdict = of_length(l.own, l.plan, l.allowed);
    return l;
}

// Never worse than the worst of its counts taken singly.
Length length_of(const Evidence& e, const SeriesScore& s) {
    const double plan = s.plan_s * static_cast<double>(s.counts());
    Length l{s.own_s, plan, length_allowed(e, plan), {}};
    Verdict singly = Verdict::met;
    for (std::size_t i = s.first; i <= s.last; ++i)
        singly = std::max(singly, of_length(own_s(e.windows[i]), s.plan_s, l.allowed));
    l.verdict = std::min(of_length(l.own, l.plan, l.allowed), singly);
    return l;
}

double shortest_record_s(const Evidence& e) {
    const auto& lengths = e.protocol.record_lengths;
    const auto least = std::min_element(lengths.begin(), lengths.end(),
                                        [](sim::Seconds a, sim::Seconds b) { return a.value < b.value; });
    return least == lengths.end() ? 60 : least->value;
}

// `watch_bpm` absent: no number was given that a watch could have moved.
std::string words_of(const Length& l, const SeriesScore* series, std::optional<double> watch_bpm,
                     double record_s) {
    const double off = l.own - l.plan;
    const std::string moved =
        watch_bpm ? fmt::format("; the watch moved the rate by {} bpm", signed_bpm(*watch_bpm)) : "";
    const std::string what = series ? fmt::format("{} counts of {:.0f} s in a row, {:.0f} s in all",
                                                  series->counts(), series->plan_s, l.plan)
                                    : fmt::format("{:.0f} s", l.plan);
    if (std::fabs(off) <= window_met_s + 1e-9 && l.verdict == Verdict::partly)
        return what + fmt::format(" is shorter than the {:.0f} s this protocol counts for.", record_s);
    if (l.verdict == Verdict::met)
        return series ? fmt::format("{}: you counted {:.1f} s of them, at most {:.1f} s apart.", what, l.own,
                                    series->longest_gap_s)
                      : fmt::format("You counted over {:.1f} s of the {} meant{}.", l.own, what, moved);
    const std::string ran = fmt::format("ran {:.1f} s, {:.1f} s {}", l.own, std::fabs(off),
                                        off < 0 ? "short, started late or stopped early" : "long");
    if (series) return fmt::format("{}: they {}.", what, ran);
    return fmt::format("The count was meant for {} and {}{}.", what, ran, moved);
}

}  // namespace

AspectScore judge_window(const Evidence& e, const ScoreSheet& so_far) {
    AspectScore a{Aspect::window, Verdict::not_asked, {}, {}, {}};
    const CountedWindow* worst = nullptr;
    const SeriesScore* series = nullptr;
    Length length;
    for (std::size_t i = 0; i < e.windows.size(); ++i) {
        const CountedWindow& w = e.windows[i];
        const SeriesScore* of = series_of(e.series, i);
        if (of ? !of->judged || i != of->last : !w.score.judged) continue;
        const Length l = of ? length_of(e, *of) : length_of(e, w);
        if (worst && l.verdict <= length.verdict) continue;
        worst = &w;
        series = of;
        length = l;
    }
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
    a.verdict = length.verdict;
    a.figures["own_s"] = length.own;
    a.figures["plan_s"] = length.plan;
    if (series) a.figures["counts"] = static_cast<double>(series->counts());
    std::optional<double> watch_bpm;
    if (!series && worst->own_bpm()) {
        a.figures["watch_bpm"] = *(watch_bpm = worst->score.terms.watch);
        a.figures["watch_expected_bpm"] = to_thousandth(expected_watch_bpm(
            {worst->window->from, worst->window->to, worst->score.plan_s, {}, {}}, worst->score.true_bpm));
    }
    a.why = (series ? of_series(e, *series) : of_count(e, *worst)) +
            words_of(length, series, watch_bpm, shortest_record_s(e));
    return a;
}

}  // namespace engine
