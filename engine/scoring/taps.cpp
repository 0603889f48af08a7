#include "engine/scoring/taps.h"

#include "engine/scoring/tap_alignment.h"

#include <algorithm>
#include <cmath>

namespace engine {

namespace {

using Times = std::vector<std::int64_t>;

constexpr std::size_t fewest_taps = 5;
// Share of the worst distance (nothing paired). Taps at random over a heart they do not follow lie near 0.5;
// a hand with 30 ms of jitter on the right heart near 0.15. Hers must fit, and twice as well as the baby's
// [practice].
constexpr double fits_share = 0.35, clearly_better = 0.5;
constexpr double near_ratio = 0.15, near_half = 0.05;  // of 2 and of 0.5
constexpr double alternating_share = 0.8;

double misfit(const TapAlignment& a, std::size_t beats, std::size_t taps) {
    return beats + taps == 0 ? 1 : a.distance() / static_cast<double>(beats + taps);
}

TapAlignment laid(const Times& beats, const Times& taps) {
    return align_taps(beats, taps, tap_reach_us(beats));
}

double in_seconds(std::int64_t us) { return static_cast<double>(us) / 1e6; }

// Middle and spread of tap - beat.
void lag_of(const TapAlignment& a, const Times& beats, const Times& taps, TapScore& score) {
    Times lags;
    for (const TapOnBeat& pair : a.caught) lags.push_back(taps[pair.tap] - beats[pair.beat]);
    if (lags.empty()) return;
    std::sort(lags.begin(), lags.end());
    const std::size_t n = lags.size();
    const double middle = static_cast<double>(lags[(n - 1) / 2] + lags[n / 2]) / 2;
    score.lag_s = std::floor(middle + 0.5) / 1e6;
    if (n < 2) return;
    double squares = 0;
    for (std::int64_t lag : lags)
        squares += (static_cast<double>(lag) - middle) * (static_cast<double>(lag) - middle);
    score.jitter_s = std::floor(std::sqrt(squares / static_cast<double>(n)) + 0.5) / 1e6;
}

}  // namespace

Times beats_within(std::span<const sim::Beat> train, sim::LabourTime from, sim::LabourTime to) {
    Times times;
    for (const sim::Beat& beat : train)
        if (beat.kind != sim::BeatKind::dropped && beat.at_us >= from.us && beat.at_us < to.us)
            times.push_back(beat.at_us);
    return times;
}

Times taps_of(const Window& window) {
    Times all;
    for (const sim::LabourTime& t : window.taps) all.push_back(t.us);
    return without_bounce(all);
}

std::string tapped_pattern(std::span<const std::int64_t> beats_us, std::span<const std::int64_t> taps_us) {
    const Times beats(beats_us.begin(), beats_us.end()), taps(taps_us.begin(), taps_us.end());
    const TapAlignment a = laid(beats, taps);
    if (a.caught.size() < fewest_taps) return "";
    std::size_t doubled = 0, halved = 0;
    for (std::size_t n = 1; n < a.caught.size(); ++n) {
        const std::size_t beats_on = a.caught[n].beat - a.caught[n - 1].beat,
                          taps_on = a.caught[n].tap - a.caught[n - 1].tap;
        if (beats_on == 1 && taps_on == 2) ++doubled;
        if (beats_on == 2 && taps_on == 1) ++halved;
    }
    const double steps = static_cast<double>(a.caught.size() - 1);
    const std::string ratio = ratio_pattern(static_cast<int>(taps.size()), static_cast<int>(beats.size()));
    if (ratio == "both sounds" && static_cast<double>(doubled) >= alternating_share * steps) return ratio;
    if (ratio == "every second beat" && static_cast<double>(halved) >= alternating_share * steps)
        return ratio;
    return "";
}

std::string ratio_pattern(int counted, int beats) {
    if (beats <= 0) return "";
    const double ratio = static_cast<double>(counted) / beats;
    if (std::fabs(ratio - 2) < near_ratio) return "both sounds";
    if (std::fabs(ratio - 0.5) < near_half) return "every second beat";
    return "";
}

std::optional<TapScore> tap_score(std::span<const sim::Beat> baby, std::span<const sim::Beat> mother,
                                  const Window& window, bool number_is_hers) {
    const Times taps = taps_of(window);
    const Times babys = beats_within(baby, window.from, window.to),
                hers = beats_within(mother, window.from, window.to);
    const double counted = window.beats ? *window.beats : static_cast<double>(babys.size());
    if (taps.size() < fewest_taps || static_cast<double>(taps.size()) < 0.4 * counted) return std::nullopt;

    const TapAlignment on_baby = laid(babys, taps), on_her = laid(hers, taps);
    const double baby_misfit = misfit(on_baby, babys.size(), taps.size());
    const double her_misfit = misfit(on_her, hers.size(), taps.size());
    const bool mothers = her_misfit < fits_share && her_misfit < clearly_better * baby_misfit;
    const bool babys_own = !mothers && ((baby_misfit < fits_share && baby_misfit < her_misfit) ||
                                        !tapped_pattern(babys, taps).empty());
    const bool on_hers = mothers || (!babys_own && number_is_hers);
    const TapAlignment& a = on_hers ? on_her : on_baby;
    const Times& beats = on_hers ? hers : babys;

    TapScore score;
    score.taps = static_cast<int>(taps.size());
    score.bounced = static_cast<int>(window.taps.size() - taps.size());
    for (const TapOnBeat& pair : a.caught) score.caught_s.push_back(in_seconds(beats[pair.beat]));
    for (std::size_t beat : a.missed) score.missed_s.push_back(in_seconds(beats[beat]));
    for (std::size_t tap : a.extra) score.extra_s.push_back(in_seconds(taps[tap]));
    score.distance = std::floor(a.distance() * 1000 + 0.5) / 1000;
    score.shift_s = in_seconds(a.shift_us);
    lag_of(a, beats, taps, score);
    score.follows = mothers ? "mother" : babys_own ? "baby" : "unclear";
    return score;
}

}  // namespace engine
