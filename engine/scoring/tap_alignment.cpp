#include "engine/scoring/tap_alignment.h"

#include <algorithm>
#include <cassert>
#include <optional>

namespace engine {

namespace {

constexpr std::int64_t most_reach_us = 250'000, bounce_us = 60'000;
constexpr std::int64_t lag_step_us = 5'000, earliest_lag_steps = -30, latest_lag_steps = 40;

bool ascending(std::span<const std::int64_t> times) {
    return std::adjacent_find(times.begin(), times.end(), [](auto a, auto b) { return a >= b; }) ==
           times.end();
}

// 0.45 of the middle gap; none with fewer than two beats.
std::optional<std::int64_t> most_of_a_gap_us(std::span<const std::int64_t> beats_us) {
    if (beats_us.size() < 2) return std::nullopt;
    std::vector<std::int64_t> gaps;
    for (std::size_t i = 1; i < beats_us.size(); ++i) gaps.push_back(beats_us[i] - beats_us[i - 1]);
    std::sort(gaps.begin(), gaps.end());
    const std::size_t n = gaps.size();
    return (gaps[(n - 1) / 2] + gaps[n / 2]) * 9 / 40;
}

// The most that pairing can save over leaving every beat and tap alone. A pair saves two gaps and costs twice
// its distance, so only pairs within reach save anything; both lists ascend, so these lie in a band.
class Savings {
public:
    Savings(std::span<const std::int64_t> beats, std::span<const std::int64_t> taps, std::int64_t shift,
            std::int64_t reach)
        : beats_(beats), taps_(taps), shift_(shift), reach_(reach) {
        std::size_t first = 0, last = 0;
        for (std::size_t i = 0; i < beats.size(); ++i) {
            while (first < taps.size() && taps[first] - shift < beats[i] - reach) ++first;
            last = std::max(last, first);
            while (last < taps.size() && taps[last] - shift <= beats[i] + reach) ++last;
            rows_.push_back({first, last, saved_.size()});
            for (std::size_t j = first; j <= last; ++j) {
                std::int64_t most = at(i, j);
                if (j > first) most = std::max({most, saved_.back(), at(i, j - 1) + saving(i, j - 1)});
                saved_.push_back(most);
            }
        }
    }

    // With the first i beats and j taps.
    std::int64_t at(std::size_t i, std::size_t j) const {
        for (; i > 0; --i) {
            const Row& row = rows_[i - 1];
            if (j >= row.first) return saved_[row.saved + std::min(j, row.last) - row.first];
        }
        return 0;
    }
    std::int64_t most() const { return at(beats_.size(), taps_.size()); }
    std::int64_t saving(std::size_t beat, std::size_t tap) const {
        const std::int64_t off = taps_[tap] - shift_ - beats_[beat];
        return 2 * (reach_ - (off < 0 ? -off : off));
    }

private:
    struct Row {
        std::size_t first, last;  // taps within reach of this beat: [first, last)
        std::size_t saved;        // where its last - first + 1 savings begin
    };
    std::span<const std::int64_t> beats_, taps_;
    std::int64_t shift_, reach_;
    std::vector<Row> rows_;
    std::vector<std::int64_t> saved_;
};

}  // namespace

TapAlignment align_taps(std::span<const std::int64_t> beats_us, std::span<const std::int64_t> taps_us,
                        std::int64_t shift_us, std::int64_t reach_us) {
    assert(ascending(beats_us) && ascending(taps_us) && reach_us > 0);
    const Savings savings(beats_us, taps_us, shift_us, reach_us);
    TapAlignment a;
    a.shift_us = shift_us;
    a.reach_us = reach_us;
    a.cost_us = static_cast<std::int64_t>(beats_us.size() + taps_us.size()) * reach_us - savings.most();
    std::size_t i = beats_us.size(), j = taps_us.size();
    while (i > 0 || j > 0) {
        const std::int64_t here = savings.at(i, j);
        if (i > 0 && j > 0 && savings.saving(i - 1, j - 1) >= 0 &&
            here == savings.at(i - 1, j - 1) + savings.saving(i - 1, j - 1)) {
            a.caught.push_back({--i, --j});
        } else if (i > 0 && here == savings.at(i - 1, j)) {
            a.missed.push_back(--i);
        } else {
            a.extra.push_back(--j);
        }
    }
    std::reverse(a.caught.begin(), a.caught.end());
    std::reverse(a.missed.begin(), a.missed.end());
    std::reverse(a.extra.begin(), a.extra.end());
    return a;
}

TapAlignment align_taps(std::span<const std::int64_t> beats_us, std::span<const std::int64_t> taps_us,
                        std::int64_t reach_us) {
    const std::int64_t farthest =
        most_of_a_gap_us(beats_us).value_or(latest_lag_steps * lag_step_us) / lag_step_us;
    std::int64_t best_step = 0, most = Savings(beats_us, taps_us, 0, reach_us).most();
    const auto try_step = [&](std::int64_t step) {
        if (step < earliest_lag_steps || step > latest_lag_steps) return;
        const std::int64_t saved = Savings(beats_us, taps_us, step * lag_step_us, reach_us).most();
        if (saved > most) {
            most = saved;
            best_step = step;
        }
    };
    for (std::int64_t size = 1; size <= std::min(farthest, latest_lag_steps); ++size) {
        try_step(size);
        try_step(-size);
    }
    return align_taps(beats_us, taps_us, best_step * lag_step_us, reach_us);
}

std::int64_t tap_reach_us(std::span<const std::int64_t> beats_us) {
    return std::clamp<std::int64_t>(most_of_a_gap_us(beats_us).value_or(most_reach_us), 1, most_reach_us);
}

std::vector<std::int64_t> without_bounce(std::span<const std::int64_t> taps_us) {
    assert(std::is_sorted(taps_us.begin(), taps_us.end()));
    std::vector<std::int64_t> stand;
    for (std::int64_t t : taps_us)
        if (stand.empty() || t - stand.back() >= bounce_us) stand.push_back(t);
    return stand;
}

}  // namespace engine
