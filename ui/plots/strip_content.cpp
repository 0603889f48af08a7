#include "ui/plots/strip.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace ui {
namespace {

std::string band_words(const engine::Protocol& protocol) {
    return fmt::format("normal {:g} to {:g}: {}", protocol.low.bpm.value, protocol.high.bpm.value,
                       protocol.title.empty() ? protocol.id : protocol.title);
}

std::string window_words(const engine::WindowScore& window) {
    if (window.reported_bpm) return fmt::format("you: {}", *window.reported_bpm);
    if (window.counted) return fmt::format("you: {} beats", *window.counted);
    return "you: nothing written";
}

std::string series_words(const engine::SeriesScore& series) {
    return fmt::format("you: {} x {:g} s, together {:.0f}", series.counts(), series.plan_s,
                       series.shown.per_minute_bpm);
}

void put_taps(const engine::TapScore& taps, std::vector<StripContent::TapMark>& marks) {
    using Kind = StripContent::TapMark::Kind;
    const std::size_t before = marks.size();
    for (const double s : taps.caught_s) marks.push_back({s, Kind::caught});
    for (const double s : taps.missed_s) marks.push_back({s, Kind::missed});
    for (const double s : taps.extra_s) marks.push_back({s, Kind::extra});
    std::sort(marks.begin() + static_cast<std::ptrdiff_t>(before), marks.end(),
              [](const auto& a, const auto& b) { return a.at_s < b.at_s; });
}

const std::string& act_words(const engine::Protocol& protocol, const std::string& id) {
    const engine::ActWords* act = protocol.act(id);
    return act != nullptr && !act->words.empty() ? act->words : id;
}

}  // namespace

StripContent strip_of(const engine::JudgedAttempt& judged) {
    const engine::Played& played = judged.played;
    StripContent strip;
    const bool twins = played.patient.babies.size > 1;
    for (const sim::CourseTick& tick : played.course) {
        strip.baby.push_back(tick.fhr_bpm[0]);
        if (twins) strip.second_baby.push_back(tick.fhr_bpm[1]);
        strip.mother.push_back(tick.mhr_bpm);
        strip.pressure_mmhg.push_back(tick.uc_mmhg);
    }
    strip.length_s = std::max(played.end.seconds(), 1.0);
    strip.band = {judged.protocol.low.bpm.value, judged.protocol.high.bpm.value, band_words(judged.protocol)};
    for (const engine::WindowScore& window : judged.sheet.windows) {
        strip.windows.push_back({window.from_s, window.to_s, window_words(window)});
        if (window.taps) put_taps(*window.taps, strip.taps);
    }
    for (const engine::SeriesScore& series : judged.sheet.series) {
        strip.windows[series.first].says = series_words(series);
        for (std::size_t i = series.first; i <= series.last; ++i) {
            if (i > series.first) strip.windows[i].says.clear();
            const engine::WindowScore& window = judged.sheet.windows[i];
            strip.series.push_back(
                {window.from_s, window.to_s, series.rates_bpm[i - series.first], i > series.first});
        }
    }
    for (const engine::Spell& spell : played.spells)
        strip.listened.push_back({spell.from.seconds(), spell.to.seconds()});
    for (const engine::SkipDone& skip : played.skips)
        strip.skipped.push_back({skip.from.seconds(), skip.to.seconds()});
    int number = 0;
    for (const engine::TimedAct& act : played.acts)
        if (!act.seen) strip.acts.push_back({act.at.seconds(), ++number, act_words(judged.protocol, act.id)});
    return strip;
}

StripView whole(const StripContent& content) { return {0, std::max(content.length_s, 10.0)}; }

std::string minutes_and_seconds(double s) {
    const auto whole_s = static_cast<long long>(std::floor(std::max(0.0, s) + 1e-6));
    return fmt::format("{}:{:02}", whole_s / 60, whole_s % 60);
}

double label_step_s(double seconds_shown, double width, double label_width) {
    for (const double step : {1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 300.0, 600.0, 1200.0, 1800.0})
        if (width * step / seconds_shown >= label_width * 1.6) return step;
    return 3600.0;
}

}  // namespace ui
