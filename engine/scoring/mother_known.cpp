// What she herself shows: her own pulse at rest and her temperature. Findings of their own, whatever the baby
// does (WHO labour care guide 2020 [second-hand]: pulse below 60 or from 120 on, temperature from 37.5 on).
#include "engine/scoring/painter.h"

#include "engine/scoring/steps.h"

#include <fmt/core.h>

#include <algorithm>

namespace engine {

namespace {

// A pulse raised by a contraction or a push needs this long to come back [practice].
constexpr std::int64_t rests_after_us = 30'000'000;
constexpr std::size_t settles_ticks = 480;  // two minutes to either side [practice]

}  // namespace

HerRest her_rest(const Played& played) {
    std::vector<bool> rest(played.course.size(), true);
    for (const Contraction& c : played.contractions) {
        const auto from =
            static_cast<std::size_t>(std::max<std::int64_t>(0, c.from.us) / sim::course_tick_us);
        const auto to = static_cast<std::size_t>((c.to.us + rests_after_us) / sim::course_tick_us);
        for (std::size_t k = from; k < std::min(to, rest.size()); ++k) rest[k] = false;
    }
    HerRest hers;
    hers.before.resize(rest.size() + 1);
    for (std::size_t k = 0; k < rest.size(); ++k) {
        hers.before[k + 1] = hers.before[k];
        if (!rest[k]) continue;
        hers.before[k + 1].sum_bpm += played.course[k].mhr_bpm;
        ++hers.before[k + 1].ticks;
    }
    return hers;
}

void Painter::mother() {
    her_pulse();
    her_temperature();
}

// Known once a hand has felt it, at rest, as long as a pulse is felt. What it settles at is a mean over some
// minutes: no pulse is fast because it swayed for a quarter of one.
void Painter::her_pulse() {
    std::vector<PulseFelt> felt = played_.pulses;
    if (listened_.throughout) felt.push_back({from_, std::min(to_, played_.end), true});
    if (felt.empty()) return;
    const HerRest& rest = run_.mother;
    const std::size_t ticks = played_.course.size();
    const auto needed = static_cast<int>(protocol_.pulse_felt_for.value * 4);
    for (const PulseFelt& p : felt) {
        const std::int64_t first = std::max(p.from.us, from_.us) / sim::course_tick_us;
        const std::int64_t last = std::min<std::int64_t>(std::min(p.to.us, to_.us) / sim::course_tick_us,
                                                         static_cast<std::int64_t>(ticks));
        int run = 0;
        for (std::int64_t tick = first; tick < last; ++tick) {
            const auto k = static_cast<std::size_t>(tick);
            run = rest.at(k) ? run + 1 : 0;
            if (run < needed) continue;
            const std::size_t a = k > settles_ticks ? k - settles_ticks : 0;
            const std::size_t z = std::min(ticks, k + settles_ticks);
            const HerRest::Before &until_a = rest.before[a], &until_z = rest.before[z];
            const double mean =
                to_thousandth((until_z.sum_bpm - until_a.sum_bpm) / (until_z.ticks - until_a.ticks));
            const OwnPulse own = classify_own_pulse(protocol_, sim::Bpm{mean});
            if (own == OwnPulse::usual) continue;
            know(own == OwnPulse::fast ? "her_pulse_fast" : "her_pulse_slow",
                 {(tick + 1) * sim::course_tick_us}, fmt::format("Her own pulse at rest is {:.0f}.", mean));
            break;
        }
    }
}

// As found by taking it; fever that a finding establishes already is not said again.
void Painter::her_temperature() {
    for (const Revealed& r : listened_.found) {
        if (r.act != "take_temperature" || r.says.empty() || r.at >= to_) continue;
        const double celsius = to_tenth(tick_at(played_, r.at).temperature_c);
        if (celsius < protocol_.warm_from_c) continue;
        const std::string why = fmt::format("Her temperature is {:.1f}.", celsius);
        if (celsius >= protocol_.fever_from_c) {
            if (!picture_.has("fever")) know("fever", r.at, why);
        } else if (const Known* fever = picture_.find("fever"); fever == nullptr || r.at < fever->from)
            know("temperature_raised", r.at, why);
    }
}

}  // namespace engine
