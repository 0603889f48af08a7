#include "engine/scoring/series.h"

#include "engine/scoring/slowing.h"
#include "engine/scoring/steps.h"

#include <algorithm>
#include <functional>

namespace engine {

namespace {

constexpr double shortest_plan_s = 5, longest_plan_s = 15, longest_gap_s = 30, settled_plan_s = 30;
// The end of a contraction under a hand is not sharp; a fall is tied to one for a minute and a half after it
// [practice].
constexpr std::int64_t end_is_soft_us = 5'000'000, tied_for_us = 90'000'000;

double mean_of_upper_half(std::span<const ShortCount> counts) {
    std::vector<double> rates;
    for (const ShortCount& c : counts) rates.push_back(c.bpm);
    std::sort(rates.begin(), rates.end(), std::greater<>());
    const std::size_t half = (rates.size() + 1) / 2;
    double sum = 0;
    for (std::size_t i = 0; i < half; ++i) sum += rates[i];
    return sum / static_cast<double>(half);
}

// Some low count has its middle between the end of a contraction and the beginning of the next.
bool goes_on_after(std::span<const ShortCount> low, std::span<const Contraction> contractions) {
    for (const ShortCount& c : low) {
        const std::int64_t middle = (c.from.us + c.to.us) / 2;
        const bool in_one = std::any_of(contractions.begin(), contractions.end(), [&](const Contraction& k) {
            return k.from.us <= middle && middle < k.to.us + end_is_soft_us;
        });
        const bool past_one =
            std::any_of(contractions.begin(), contractions.end(), [&](const Contraction& k) {
                return k.ended && k.to.us + end_is_soft_us <= middle && middle < k.to.us + tied_for_us;
            });
        if (past_one && !in_one) return true;
    }
    return false;
}

double gap_s(const CountedWindow& a, const CountedWindow& b) {
    return static_cast<double>(b.window->from.us - a.window->to.us) / 1e6;
}

// A rate may be written after each; a decision ends the series.
bool decided_between(const Played& played, sim::LabourTime a, sim::LabourTime b) {
    return std::any_of(played.decisions.begin(), played.decisions.end(),
                       [&](const TimedDecision& d) { return a < d.at && d.at <= b; });
}

bool goes_on(const Played& played, const CountedWindow& a, const CountedWindow& b) {
    return a.own_bpm() && b.own_bpm() && a.score.plan_s == b.score.plan_s &&
           a.score.plan_s >= shortest_plan_s && a.score.plan_s <= longest_plan_s &&
           a.site.baby == b.site.baby && a.window->spell == b.window->spell && gap_s(a, b) <= longest_gap_s &&
           !decided_between(played, a.window->to, b.window->from);
}

// Of the beats in it, over the seconds it ran: a count run too long has more of them and no faster heart.
double true_bpm(const CountedWindow& w) { return w.followed_beats * 60.0 / (w.score.to_s - w.score.from_s); }

double counted_bpm(const CountedWindow& w) {
    return w.score.counted ? *w.score.counted * w.factor : *w.own_bpm();
}

SeriesScore score_of(const Scenario& scenario, const Protocol& protocol, const Played& played,
                     const std::vector<CountedWindow>& windows, std::size_t first, std::size_t last) {
    SeriesScore s;
    s.first = first;
    s.last = last;
    const CountedWindow &begin = windows[first], &end = windows[last];
    s.from_s = begin.score.from_s;
    s.to_s = end.score.to_s;
    s.plan_s = begin.score.plan_s;

    std::vector<ShortCount> shown, there, faultless;
    for (std::size_t i = first; i <= last; ++i) {
        const CountedWindow& w = windows[i];
        shown.push_back({w.window->from, w.window->to, counted_bpm(w)});
        there.push_back({w.window->from, w.window->to, true_bpm(w)});
        faultless.push_back({w.window->from, w.window->to, w.followed_beats * w.factor});
        s.rates_bpm.push_back(to_thousandth(shown.back().bpm));
        s.true_rates_bpm.push_back(to_thousandth(there.back().bpm));
        s.own_s += w.score.to_s - w.score.from_s;
        s.error_beats += *w.error_bpm() / w.factor;
        s.largest_error_beats = std::max(s.largest_error_beats, std::fabs(*w.error_bpm()) / w.factor);
        if (i > first) s.longest_gap_s = std::max(s.longest_gap_s, gap_s(windows[i - 1], w));
    }
    std::optional<double> settled, settled_there, settled_faultless;
    for (std::size_t i = 0; i < first; ++i)
        if (windows[i].score.plan_s >= settled_plan_s && windows[i].window->spell == begin.window->spell &&
            windows[i].own_bpm()) {
            settled = counted_bpm(windows[i]);
            settled_there = true_bpm(windows[i]);
            settled_faultless = windows[i].followed_beats * windows[i].factor;
        }
    const auto told = [&](const std::vector<ShortCount>& counts, std::optional<double> base) {
        const SeriesReading r = read_series(protocol, counts, base, played.contractions);
        SeriesScore::Shows shows;
        shows.per_minute_bpm = to_thousandth(r.per_minute_bpm);
        shows.base_bpm = to_thousandth(r.base_bpm);
        shows.lowest_bpm = to_thousandth(r.lowest_bpm);
        shows.highest_bpm = to_thousandth(r.highest_bpm);
        if (r.fall) {
            shows.slowing_s = static_cast<double>(r.fall->to.us - r.fall->from.us) / 1e6;
            shows.after = r.after;
        }
        return shows;
    };
    s.shown = told(shown, settled);
    s.there = told(there, settled_there);
    s.faultless = told(faultless, settled_faultless);
    s.error_beats = to_thousandth(s.error_beats);
    s.largest_error_beats = to_thousandth(s.largest_error_beats);
    for (const Slowing& fall : slowings(protocol, played, begin.site.baby))
        if (fall.from < end.window->to && fall.to > begin.window->from) s.fell = true;
    const bool hers = std::any_of(windows.begin() + static_cast<std::ptrdiff_t>(first),
                                  windows.begin() + static_cast<std::ptrdiff_t>(last) + 1,
                                  [](const CountedWindow& w) { return w.recognised; });
    // A later count of a whole minute does not show what the row showed, where short counts are the task.
    s.judged = !hers && (end.score.judged || scenario.task == Task::quick);
    return s;
}

}  // namespace

SeriesReading read_series(const Protocol& protocol, std::span<const ShortCount> counts,
                          std::optional<double> settled_bpm, std::span<const Contraction> contractions) {
    SeriesReading r;
    r.base_bpm = std::max(mean_of_upper_half(counts), settled_bpm.value_or(0));
    r.lowest_bpm = r.highest_bpm = counts.front().bpm;
    for (const ShortCount& c : counts) {
        r.per_minute_bpm += c.bpm / static_cast<double>(counts.size());
        r.lowest_bpm = std::min(r.lowest_bpm, c.bpm);
        r.highest_bpm = std::max(r.highest_bpm, c.bpm);
    }
    const auto low = [&](const ShortCount& c) {
        return r.base_bpm - c.bpm >= protocol.slowing_depth.value - 1e-9;
    };
    std::int64_t longest = 0;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        if (!low(counts[i])) continue;
        std::size_t end = i;
        double lowest = counts[i].bpm;
        for (; end < counts.size() && low(counts[end]); ++end) lowest = std::min(lowest, counts[end].bpm);
        const std::int64_t lasts = counts[end - 1].to.us - counts[i].from.us;
        if (end - i >= 2 && lasts >= sim::labour_time(protocol.slowing_length).us && lasts > longest) {
            longest = lasts;
            r.fall = SeriesReading::Fall{counts[i].from, counts[end - 1].to, lowest};
            r.after = goes_on_after(counts.subspan(i, end - i), contractions);
        }
        i = end;
    }
    return r;
}

std::vector<SeriesScore> series_in(const Scenario& scenario, const Protocol& protocol, const Played& played,
                                   const std::vector<CountedWindow>& windows) {
    std::vector<SeriesScore> all;
    for (std::size_t first = 0; first < windows.size();) {
        std::size_t last = first;
        while (last + 1 < windows.size() && goes_on(played, windows[last], windows[last + 1])) ++last;
        if (last > first) all.push_back(score_of(scenario, protocol, played, windows, first, last));
        first = last + 1;
    }
    return all;
}

const SeriesScore* series_of(const std::vector<SeriesScore>& all, std::size_t window) {
    for (const SeriesScore& s : all)
        if (s.first <= window && window <= s.last) return &s;
    return nullptr;
}

std::optional<double> number_held(const Evidence& e, const CountedWindow& counted) {
    const SeriesScore* series = series_of(e.series, static_cast<std::size_t>(&counted - e.windows.data()));
    if (!series) return counted.own_bpm();
    return series->shown.slowing_s > 0 ? series->shown.base_bpm : series->shown.per_minute_bpm;
}

}  // namespace engine
