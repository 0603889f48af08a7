#include "ui/plots/breakdown.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace ui {
namespace {

std::string rate_words(double bpm) {
    const double tenth = std::round(bpm * 10) / 10;
    return std::fabs(tenth - std::round(tenth)) < 0.05 ? fmt::format("{:.0f}", tenth)
                                                       : fmt::format("{:.1f}", tenth);
}

constexpr double row_h = 34;

// Missed and extra apart when the beats were tapped; together they are the ear's term.
void put_ear(const engine::WindowScore& window, std::vector<BreakdownLine>& lines) {
    const engine::Breakdown& t = window.terms;
    if (t.fencepost != 0) lines.push_back({"first or last beat", t.fencepost, false});
    if (!window.taps) {
        lines.push_back({"ear: beats missed or extra", t.ear, false});
        return;
    }
    const engine::TapScore& taps = *window.taps;
    lines.push_back({fmt::format("ear: {} missed", taps.missed_s.size()), taps.missed_bpm, false});
    lines.push_back({fmt::format("ear: {} extra", taps.extra_s.size()), taps.extra_bpm, false});
    if (window.counted)
        lines.push_back(
            {fmt::format("tally: {} tapped, {} written", taps.taps, *window.counted), t.tally, false});
}

}  // namespace

std::string signed_rate(double bpm) {
    const double tenth = std::round(bpm * 10) / 10;
    if (tenth == 0) return "0";
    return (tenth > 0 ? "+" : "\xE2\x88\x92") + rate_words(std::fabs(tenth));
}

std::vector<BreakdownLine> breakdown_lines(const engine::WindowScore& window) {
    const engine::Breakdown& t = window.terms;
    std::vector<BreakdownLine> lines;
    lines.push_back({fmt::format("the baby, true in your {:g} s", window.plan_s), t.true_bpm, true});
    if (!window.reported_bpm) {
        lines.push_back({"no rate was written", 0, false, true});
        return lines;
    }
    if (t.source != 0)
        lines.push_back({window.followed == "mother" ? "source: her own pulse was followed"
                                                     : "source: another heart was followed",
                         t.source, false});
    if (window.counted) {
        lines.push_back({"method: whole beats only", t.method, false});
        lines.push_back({"watch: your start and stop", t.watch, false});
        put_ear(window, lines);
        lines.push_back({t.slip.empty() ? "arithmetic" : "arithmetic: " + t.slip, t.arithmetic, false});
    } else {
        if (window.taps) {
            lines.push_back({"method: whole beats only", t.method, false});
            lines.push_back({"watch: your start and stop", t.watch, false});
            put_ear(window, lines);
        }
        lines.push_back({"no beats written: cannot be split", t.unexplained, false});
    }
    lines.push_back({"you wrote", t.reported_bpm, true});
    return lines;
}

std::string taps_in_words(const engine::WindowScore& window) {
    if (!window.taps) {
        if (window.pattern == "both sounds")
            return "About double: as if both sounds of each beat were counted.";
        if (window.pattern == "every second beat") return "About half: as if every second beat was counted.";
        if (window.pattern == "half the beats") return "Just half: a display can halve a heart.";
        if (window.pattern == "double the beats") return "Just double: a display can double a heart.";
        return "";
    }
    const engine::TapScore& taps = *window.taps;
    std::string says = fmt::format("Taps: {} of {} beats caught", taps.caught_s.size(),
                                   taps.caught_s.size() + taps.missed_s.size());
    if (taps.lag_s)
        says +=
            fmt::format(", {:.2f} s {} them", std::fabs(*taps.lag_s), *taps.lag_s < 0 ? "before" : "after");
    if (taps.jitter_s) says += fmt::format(", give or take {:.2f} s", *taps.jitter_s);
    says += ".";
    if (taps.follows == "mother") says += " They keep step with her pulse.";
    if (taps.follows == "unclear") says += " They keep step with neither heart.";
    if (window.pattern == "both sounds") says += " Both sounds of each beat were tapped.";
    if (window.pattern == "every second beat") says += " Every second beat was tapped.";
    return says;
}

namespace {

std::string fall_in_words(const engine::SeriesScore::Shows& shows) {
    if (shows.slowing_s <= 0) return "no slowing";
    return fmt::format("a slowing to {:.0f}, {:.0f} s long{}", shows.lowest_bpm, shows.slowing_s,
                       shows.after ? ", still there after the contraction" : "");
}

}  // namespace

std::string series_in_words(const engine::SeriesScore& series) {
    std::string says = fmt::format(
        "{} counts of {:g} s in a row, at most {:.0f} s apart: together {:.0f} a "
        "minute where {:.0f} were there. In order they show {}",
        series.counts(), series.plan_s, series.longest_gap_s, series.shown.per_minute_bpm,
        series.there.per_minute_bpm, fall_in_words(series.shown));
    const std::string there = fall_in_words(series.there);
    says +=
        there == fall_in_words(series.shown) ? "; so did the beats." : "; the beats showed " + there + ".";
    if (series.fell && series.there.slowing_s <= 0)
        says += " A fall lay there that counts placed so do not show.";
    return says;
}

double breakdown_height(const std::vector<BreakdownLine>& lines, const Theme& theme) {
    return static_cast<double>(lines.size()) * theme.px(row_h);
}

double draw_breakdown(Canvas& canvas, Box box, const std::vector<BreakdownLine>& lines, const Theme& theme) {
    double most = 5;
    for (const auto& line : lines)
        if (!line.whole) most = std::max(most, std::fabs(line.bpm));
    double y = box.y;
    for (const auto& line : lines) {
        const bool off = !line.whole && std::round(line.bpm * 10) != 0;
        const Colour colour = off          ? theme.colour.attention
                              : line.whole ? theme.colour.ink
                                           : theme.colour.soft_ink;
        const Words how{.size = theme.px(TypeScale::text), .colour = theme.colour.ink, .bold = line.whole};
        const Words number{
            .size = theme.px(TypeScale::text), .colour = colour, .bold = true, .align = Align::right};
        const double base = y + theme.px(17);
        const std::string value = line.none ? "" : line.whole ? rate_words(line.bpm) : signed_rate(line.bpm);
        canvas.text({box.right(), base}, value, number);
        canvas.short_text({box.x, base}, line.says, how, box.w - theme.px(56));
        if (off)
            canvas.round_fill({box.x, y + theme.px(23),
                               std::max(theme.px(4), std::fabs(line.bpm) / most * box.w * 0.75), theme.px(6)},
                              theme.px(3), theme.colour.attention);
        y += theme.px(row_h);
    }
    return y - box.y;
}

}  // namespace ui
