#include "engine/store/counted.h"

#include "engine/competency/count_columns.h"
#include "engine/scoring/evidence.h"

#include <charconv>
#include <chrono>
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

long long class_number(const Protocol& protocol, double bpm) {
    switch (classify(protocol, sim::Bpm{bpm})) {
        case BaselineClass::fast: return static_cast<long long>(RateClass::fast);
        case BaselineClass::slow: return static_cast<long long>(RateClass::slow);
        case BaselineClass::normal: break;
    }
    return static_cast<long long>(RateClass::normal);
}

RateClass class_said(BaselineIs said) {
    switch (said) {
        case BaselineIs::normal: return RateClass::normal;
        case BaselineIs::fast: return RateClass::fast;
        case BaselineIs::slow: return RateClass::slow;
        case BaselineIs::rising: return RateClass::rising;
        case BaselineIs::not_said:
        case BaselineIs::not_checked: break;
    }
    return RateClass::not_known;
}

// The decision that stands and rests on a count belongs to that count, with what its listening showed.
void put_decisions(std::vector<CountedRow>& rows, const JudgedAttempt& judged) {
    if (judged.played.decisions.empty() || judged.played.windows.size() != rows.size()) return;
    const Evidence evidence(judged.scenario, judged.protocol, judged.played);
    for (const StandingDecision& d : evidence.decisions) {
        if (d.counted == nullptr) continue;
        const RateClass said = class_said(d.said.decision.baseline);
        const double settled_bpm = d.heard.settled_bpm[d.counted->site.baby == 1 ? 1 : 0];
        if (said == RateClass::not_known || settled_bpm <= 0) continue;
        CountedRow& row = rows[static_cast<std::size_t>(d.counted - evidence.windows.data())];
        row.said_class = static_cast<long long>(said);
        row.settled_class = class_number(judged.protocol, settled_bpm);
        if (row.settled_class == static_cast<long long>(RateClass::normal) && d.heard.has("rising"))
            row.settled_class = static_cast<long long>(RateClass::rising);
    }
}

}  // namespace

void put_class(CountedRow& row, const Protocol& protocol, bool scenario_on_limit) {
    const double bpm = static_cast<double>(row.true_mbpm) / 1000;
    if (bpm <= 0) return;
    row.true_class = class_number(protocol, bpm);
    // One beat is 60/plan bpm: within two beats and a bit of a limit a faultless count may fall on its other
    // side.
    const double near_bpm = row.method > 0 ? 2 * 60.0 / static_cast<double>(row.method) + 1 : 0;
    const double off =
        std::fmin(std::fabs(bpm - protocol.low.bpm.value), std::fabs(bpm - protocol.high.bpm.value));
    row.boundary = scenario_on_limit || off <= near_bpm;
}

long long number_of_mode(std::string_view output_mode) {
    if (output_mode == "true") return static_cast<long long>(sim::OutputMode::true_sound);
    if (output_mode == "assisted") return static_cast<long long>(sim::OutputMode::assisted);
    if (output_mode == "shifted") return static_cast<long long>(sim::OutputMode::shifted);
    return -1;
}

long long number_of_heart(std::string_view followed) {
    if (followed == "baby") return static_cast<long long>(HeartCounted::baby);
    if (followed == "mother") return static_cast<long long>(HeartCounted::mother);
    if (followed == "nobody") return static_cast<long long>(HeartCounted::nobody);
    return static_cast<long long>(HeartCounted::not_known);
}

long long seconds_of_utc(std::string_view utc) {
    constexpr std::string_view shape = "0000-00-00T00:00:00";
    if (utc.size() <= shape.size() || utc.back() != 'Z') return -1;
    for (std::size_t at = 0; at < shape.size(); ++at) {
        const bool digit = utc[at] >= '0' && utc[at] <= '9';
        if (shape[at] == '0' ? !digit : utc[at] != shape[at]) return -1;
    }
    const auto number = [&](std::size_t from, std::size_t digits) {
        int value = 0;
        std::from_chars(utc.data() + from, utc.data() + from + digits, value);
        return value;
    };
    const std::chrono::year_month_day day{std::chrono::year{number(0, 4)},
                                          std::chrono::month{static_cast<unsigned>(number(5, 2))},
                                          std::chrono::day{static_cast<unsigned>(number(8, 2))}};
    if (!day.ok()) return -1;
    return std::chrono::sys_days{day}.time_since_epoch().count() * 86400LL + number(11, 2) * 3600LL +
           number(14, 2) * 60LL + number(17, 2);
}

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
        row.task = static_cast<long long>(judged.scenario.task);
        row.mode = number_of_mode(judged.attempt.header.output_mode);
        row.judged = window.judged;
        row.followed = number_of_heart(window.followed);
        put_class(row, judged.protocol, judged.scenario.boundary || window.boundary);
        rows.push_back(row);
    }
    put_decisions(rows, judged);
    return rows;
}

}  // namespace engine
