#include "engine/store/counted.h"

#include <cmath>
#include <cstddef>

namespace engine {
namespace {

long long verdict_bits(const ScoreSheet& sheet) {
    long long bits = 0;
    for (const AspectScore& aspect : sheet.aspects)
        bits |= static_cast<long long>(aspect.verdict) << (2 * static_cast<int>(aspect.aspect));
    return bits;
}

sim::Instrument instrument_of(const Played& played, const WindowScore& scored) {
    for (const Window& window : played.windows) {
        if (std::llround(scored.from_s * 1e6) != window.from.us) continue;
        if (window.spell >= 0 && static_cast<std::size_t>(window.spell) < played.spells.size())
            return played.spells[static_cast<std::size_t>(window.spell)].instrument;
    }
    return sim::Instrument::none;
}

}  // namespace

std::vector<CountedRow> counted_rows(const JudgedAttempt& judged) {
    std::vector<CountedRow> rows;
    for (const WindowScore& window : judged.sheet.windows) {
        CountedRow row;
        row.method = std::llround(window.plan_s);
        row.instrument = static_cast<long long>(instrument_of(judged.played, window));
        row.true_beats = window.true_beats;
        row.counted = window.counted.value_or(-1);
        row.true_mbpm = std::llround(window.true_bpm * 1000);
        row.written_mbpm = window.reported_bpm ? 1000LL * *window.reported_bpm : -1;
        row.verdicts = verdict_bits(judged.sheet);
        rows.push_back(row);
    }
    return rows;
}

}  // namespace engine
