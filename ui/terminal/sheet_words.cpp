#include "ui/terminal/sheet_words.h"

#include "ui/paper/verdict_words.h"
#include "ui/plots/breakdown.h"

#include <fmt/format.h>
#include <cmath>
#include <iterator>

namespace ui {
namespace {

std::string clock(double s) {
    const int whole = static_cast<int>(s);
    return fmt::format("{}:{:02}", whole / 60, whole % 60);
}

std::string mark(engine::Verdict verdict) {
    switch (verdict) {
        case engine::Verdict::met: return "[x]";
        case engine::Verdict::partly: return "[~]";
        case engine::Verdict::missed: return "[ ]";
        case engine::Verdict::not_asked: break;
    }
    return " - ";
}

std::string spaced(std::string_view id) {
    std::string words(id);
    for (char& c : words)
        if (c == '_') c = ' ';
    return words;
}

// To a tenth, with its sign; nothing is +0.0.
double tenth(double bpm) { return std::round(bpm * 10) / 10 + 0.0; }

}  // namespace

std::string sheet_in_words(const engine::JudgedAttempt& judged) {
    std::string text;
    const auto out = std::back_inserter(text);
    const engine::ScoreSheet& sheet = judged.sheet;
    fmt::format_to(out, "{}  (seed {})\n", judged.scenario.title, judged.attempt.header.seed);
    fmt::format_to(
        out, "by {}{}\n\n", judged.protocol.title,
        judged.protocol.from_memory ? " - some of its values are from memory: check before teaching" : "");
    if (sheet.boundary) text += std::string(boundary_words) + "\n\n";
    for (const engine::AspectScore& aspect : sheet.aspects)
        fmt::format_to(out, "{} {:<11} {:<10} {}\n", mark(aspect.verdict), engine::name_of(aspect.aspect),
                       spaced(engine::name_of(aspect.verdict)), aspect.why);
    for (const engine::WindowScore& window : sheet.windows) {
        fmt::format_to(out, "\ncount {} to {}: {} true beats, true rate {:.1f}", clock(window.from_s),
                       clock(window.to_s), window.true_beats, window.true_bpm);
        if (window.counted) fmt::format_to(out, ", counted {}", *window.counted);
        if (window.reported_bpm) {
            const engine::Breakdown& terms = window.terms;
            fmt::format_to(out, ", written {}\n", *window.reported_bpm);
            fmt::format_to(out, "  {:.1f} true", terms.true_bpm);
            if (terms.source != 0) fmt::format_to(out, " {:+.1f} another heart", tenth(terms.source));
            fmt::format_to(out, " {:+.1f} whole beats {:+.1f} watch", tenth(terms.method),
                           tenth(terms.watch));
            if (terms.fencepost != 0) fmt::format_to(out, " {:+.1f} fencepost", tenth(terms.fencepost));
            fmt::format_to(out, " {:+.1f} ear", tenth(terms.ear));
            if (window.taps)
                fmt::format_to(out, " (missed {:+.1f} extra {:+.1f}) {:+.1f} tally",
                               tenth(window.taps->missed_bpm), tenth(window.taps->extra_bpm),
                               tenth(terms.tally));
            fmt::format_to(out, " {:+.1f} arithmetic", tenth(terms.arithmetic));
            if (terms.unexplained != 0) fmt::format_to(out, " {:+.1f} not known", tenth(terms.unexplained));
            fmt::format_to(out, " = {:.0f}", terms.reported_bpm);
            if (!terms.slip.empty()) fmt::format_to(out, " ({})", terms.slip);
        }
        text += '\n';
        if (const std::string taps = taps_in_words(window); !taps.empty())
            fmt::format_to(out, "  {}\n", taps);
    }
    for (const engine::SeriesScore& series : sheet.series)
        fmt::format_to(out, "\nseries {} to {}: {}\n", clock(series.from_s), clock(series.to_s),
                       series_in_words(series));
    if (!sheet.acts.empty()) text += '\n';
    for (const engine::ActScore& act : sheet.acts) {
        fmt::format_to(out, "act   {}: {}{}", spaced(act.act), spaced(act.verdict),
                       act.critical ? " (critical)" : "");
        if (act.done_s >= 0) fmt::format_to(out, ", at {}", clock(act.done_s));
        if (act.within_s > 0) fmt::format_to(out, ", asked by {}", clock(act.known_from_s + act.within_s));
        if (!act.source.empty()) fmt::format_to(out, " [{}]", sources_in_words(act.source));
        text += '\n';
        if (!act.conflict.empty())
            fmt::format_to(out, "      guidance differs: {}\n", sources_in_words(act.conflict));
    }
    if (!sheet.critical_missed.empty()) {
        text += "\ncritical and missed:";
        for (const std::string& act : sheet.critical_missed) text += " " + spaced(act) + ";";
        text.back() = '\n';
    }
    if (!sheet.next_time.empty()) text += "\nNext time\n";
    for (const engine::NextTime& next : sheet.next_time)
        fmt::format_to(out, "  {}  (at {})\n", next.says, clock(next.at_s));
    if (!sheet.finished) text += "\nThe attempt was not finished: judged as far as it goes.\n";
    text += "\nFor learning only: local protocol and the licensed professional in charge decide.\n";
    return text;
}

}  // namespace ui
