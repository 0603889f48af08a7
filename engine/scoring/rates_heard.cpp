// One baby's settled rate and rhythm, as far as they were heard.
#include "engine/scoring/painter.h"

#include "engine/scoring/steps.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace engine {

namespace {

constexpr int odd_beats_heard = 3;  // [practice]
constexpr int inside_ends_it = 60;  // ticks: 15 s inside the limits [practice]

}  // namespace

std::string bpm_word(double bpm) { return fmt::format("{:.1f}", bpm); }

std::string Painter::settled_rate_of(int baby) const {
    if (played_.patient.babies.size < 2) return "The settled rate";
    return baby == 0 ? "The settled rate of the first baby" : "The settled rate of the second baby";
}

void Painter::one_baby(int b) {
    const auto i = static_cast<std::size_t>(b);
    heard_of_[i] = heard_stretches(listened_.heard, b, from_, to_);
    picture_.heard_s[i] = static_cast<double>(ticks_in(heard_of_[i])) * 0.25;
    if (heard_of_[i].empty()) return;
    settled(b);
    rates(b);
    around(b);
    held(b);
    rhythm(b);
}

void Painter::settled(int b) {
    const auto i = static_cast<std::size_t>(b);
    const HeartRun& heart_b = heart(b);
    const auto wanted = static_cast<std::size_t>(protocol_.baseline_needs.value * 4);
    const std::size_t all = ticks_in(heard_of_[i]);
    std::size_t before = all > wanted ? all - wanted : 0;
    double sum = 0, sum_fallen = 0;
    std::size_t n = 0, fallen = 0, down = 0;
    for (const HeardStretch& heard : heard_of_[i]) {
        const std::size_t passed = std::min(before, heard.end - heard.first);
        before -= passed;
        for (std::size_t k = heard.first + passed; k < heard.end; ++k) {
            const HeartTick& tick = heart_b.at(k);
            const sim::LabourTime t = time_of_tick(k);
            (tick.lasting_fall ? sum_fallen : sum) += tick.base_bpm;
            ++(tick.lasting_fall ? fallen : n);
            if (tick.lasting_fall ||
                std::any_of(heart_b.falls.begin(), heart_b.falls.end(), [&](const Slowing& s) {
                    return s.contraction < 0 && s.from <= t && t <= s.deep_until;
                }))
                ++down;
        }
    }
    picture_.settled_bpm[i] =
        to_thousandth(fallen > n ? sum_fallen / static_cast<double>(fallen) : sum / static_cast<double>(n));
    picture_.down_at_end[i] = down >= 60;
}

// Neither falling nor coming back: within 2 bpm of half a minute before [practice].
bool Painter::steady(int b, sim::LabourTime t) const {
    return t.us >= 30'000'000 && std::fabs(base(b, t) - base(b, {t.us - 30'000'000})) < 2;
}

void Painter::rates(int b) {
    const HeartRun& heart_b = heart(b);
    const auto hears = [&](bool ever, auto holds) {
        return ever ? heard_for(heard_of_[static_cast<std::size_t>(b)], protocol_.baseline_needs,
                                [&](std::size_t k) { return holds(heart_b.at(k), time_of_tick(k)); })
                    : std::nullopt;
    };
    const double red = protocol_.red_below.value;
    if (const auto at = hears(heart_b.ever_fast, [](const HeartTick& k, sim::LabourTime) {
            return k.kind == BaselineClass::fast;
        }))
        know("fast", *at,
             fmt::format("{} is {}, above {:.0f}.", settled_rate_of(b), bpm_word(base(b, {at->us - 1})),
                         protocol_.high.bpm.value));
    if (const auto at = hears(heart_b.ever_slow, [&](const HeartTick& k, sim::LabourTime) {
            return k.kind == BaselineClass::slow && k.base_bpm < red;
        }))
        know(
            "slow", *at,
            fmt::format("{} is {}, below {:.0f}.", settled_rate_of(b), bpm_word(base(b, {at->us - 1})), red));
    else if (const auto low = hears(heart_b.ever_slow, [&](const HeartTick& k, sim::LabourTime t) {
                 return k.kind == BaselineClass::slow && steady(b, t);
             }))
        know("slow_steady", *low,
             fmt::format("{} is {}, below {:.0f}.", settled_rate_of(b), bpm_word(base(b, {low->us - 1})),
                         protocol_.low.bpm.value));
    const double start = rate_at_start(b), by = protocol_.rising_by.value;
    if (const auto at = hears(heart_b.highest_bpm - start >= by, [&](const HeartTick& k, sim::LabourTime) {
            return k.kind == BaselineClass::normal && k.base_bpm - start >= by;
        }))
        know("rising", *at,
             fmt::format("{} is {}, {:.1f} above {} when labour began.", settled_rate_of(b),
                         bpm_word(base(b, {at->us - 1})), base(b, {at->us - 1}) - start, bpm_word(start)));
    if (const auto at = hears(true, [](const HeartTick&, sim::LabourTime) { return true; })) {
        if (!enough_ || *at < *enough_) enough_ = *at;
    }
}

void Painter::rate_held(sim::LabourTime at) {
    if (!picture_.rate_held || at < picture_.rate_held_from) picture_.rate_held_from = at;
    picture_.rate_held = true;
}

// Held: heard outside the limits at both ends of the protocol's persistence, or after each of its number of
// contractions one after another. Heard inside for a quarter of a minute, it begins anew.
void Painter::held(int b) {
    const HeartRun& heart_b = heart(b);
    if (!heart_b.ever_fast && !heart_b.ever_slow) return;
    const std::int64_t persists = sim::labour_time(protocol_.persistence).us;
    std::int64_t first_out = -1;
    int inside = 0, contractions = 0;
    std::size_t womb = 0;
    const std::vector<sim::LabourTime>& ends = listened_through_of_[static_cast<std::size_t>(b)];
    for (const HeardStretch& heard : heard_of_[static_cast<std::size_t>(b)])
        for (std::size_t k = heard.first; k < heard.end; ++k) {
            const sim::LabourTime t = time_of_tick(k);
            const bool out = heart_b.at(k).kind != BaselineClass::normal;
            inside = out ? 0 : inside + 1;
            if (inside >= inside_ends_it) {
                first_out = -1;
                contractions = 0;
            }
            if (out && first_out < 0) first_out = t.us;
            for (; womb < ends.size() && ends[womb].us <= t.us + sim::course_tick_us; ++womb)
                if (first_out >= 0 && ++contractions >= protocol_.persistence_contractions)
                    rate_held(ends[womb]);
            if (out && t.us - first_out >= persists) rate_held(t);
        }
}

double Painter::rate_at_start(int b) const {
    double start = played_.course.empty() ? 0 : base(b, {0});
    double ago = 0;
    for (const ChartLine& line : scenario_.chart)
        if (line.bpm > 0 && line.minutes_ago > ago) {
            ago = line.minutes_ago;
            start = line.bpm;
        }
    return start;
}

void Painter::rhythm(int b) {
    int odd = 0;
    sim::LabourTime third{};
    for (const sim::Beat& beat : heart_of(played_, b)) {
        if (beat.kind == sim::BeatKind::normal) continue;
        const sim::LabourTime t{beat.at_us};
        if (t < from_ || t >= to_) continue;
        for (const HeardPiece& h : listened_.heard)
            if (has_baby(h.what) && h.baby == b && h.from <= t && t < h.to) {
                if (++odd == odd_beats_heard) third = t;
                break;
            }
    }
    picture_.odd_beats[static_cast<std::size_t>(b)] = odd;
    if (odd >= odd_beats_heard)
        know("irregular", third, fmt::format("{} early or missing beats were to be heard.", odd));
}

}  // namespace engine
