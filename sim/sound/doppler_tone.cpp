// What a beat sounds like to a Doppler: not the heart's own sound but bursts of noise from moving walls and
// valves.
#include "sim/exact_math.h"
#include "sim/random.h"
#include "sim/sound/ear_sound.h"
#include "sim/sound/envelopes.h"
#include "sim/sound/noise_shapes.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sim {

namespace {

struct Event {
    Echo lane;
    double ms, width_ms, size;  // against the first sound; width at half height
};

// Against the first sound (45 ms after the electrical start of the beat), at an interval of 430 ms: valve
// timing after Suzuki 1984 and Khandoker; widths and sizes [practice].
constexpr std::array<Event, 6> events = {{{Echo::filling, -100, 60, 0.45},
                                          {Echo::mitral, 0, 45, 0.8},
                                          {Echo::opening, 32, 25, 0.7},
                                          {Echo::ejection, 95, 90, 0.6},
                                          {Echo::closing, 190, 25, 0.6},
                                          {Echo::filling, 240, 60, 0.5}}};
constexpr double largest = 0.8;
constexpr double reaches_us = 340'000;

}  // namespace

// The beam drifts over the heart: sometimes clicks lead, sometimes walls. New weights each 8 s, straight
// between.
void EarSound::draw_aim(std::int64_t cell, const CourseTick& now) {
    constexpr std::int64_t node = 32;
    const double part = static_cast<double>(cell % node) / node;
    for (std::uint32_t i = 0; i < 6; ++i) {
        const auto n = static_cast<std::uint64_t>(cell / node);
        const double drift =
            (1 - part) * gaussian(seed_, Stream::aim, n, i) + part * gaussian(seed_, Stream::aim, n + 1, i);
        aim_[i] = std::clamp(exact_exp2(0.6 * drift), 0.3, 2.0);
    }
    // Lost for 1 to 4 s, once in a while, more often while she contracts or the baby moves [practice].
    const auto spell = static_cast<std::uint64_t>(cell / 20);
    const double chance = now.in_contraction || now.moving ? 0.15 : 0.08;
    const double lost_cells = 4 + 12 * uniform(seed_, Stream::dropout, spell, 1);
    dropped_out_ =
        uniform(seed_, Stream::dropout, spell, 0) < chance && static_cast<double>(cell % 20) < lost_cells;
}

void EarSound::plan_doppler(std::int64_t us, const Hearts& hearts) {
    constexpr double under_peak = 0.5;
    std::array<double, lane_count> amount{};
    const double lost = dropped_out_ ? 0.06 : 1;
    for (std::size_t b = 0; b < 2; ++b) {
        const double gain = gain_[b] * lost;  // Source::baby, Source::baby2
        if (gain < 1e-5) continue;
        const BeatQueue& beats = *hearts.baby[b];
        for (int i = beats.size() - 1; i >= 0; --i) {
            const NearBeat& near = beats[i];
            const double since = static_cast<double>(us - near.beat.at_us);
            if (since > reaches_us) break;
            if (since < -reaches_us || near.beat.kind == BeatKind::dropped) continue;
            const double rr_s = 60 / std::max(50.0, near.bpm);
            const double squeezed = 1 - 0.25 * std::clamp((0.43 - rr_s) / 0.43, -0.6, 0.6);
            for (std::uint32_t e = 0; e < events.size(); ++e) {
                const Event& event = events[e];
                const double shape = bell_shape(since - event.ms * 1e3 * squeezed, event.width_ms * 1e3);
                if (shape <= 0) continue;
                const double chance =
                    exact_exp(0.2 * gaussian(seed_, for_baby(Stream::doppler_tone, static_cast<int>(b)),
                                             static_cast<std::uint64_t>(near.beat.number), e));
                amount[static_cast<std::size_t>(event.lane)] +=
                    gain * shape * event.size / largest * aim_[e] * chance;
            }
        }
    }
    // An artery sweeps down from its peak: the high band dies first. The womb's bed is a soft low blow.
    const double artery = gain_[static_cast<std::size_t>(Source::vessel)];
    const double bed = gain_[static_cast<std::size_t>(Source::souffle)];
    const double cord = gain_[static_cast<std::size_t>(Source::cord_souffle)];
    double low = 0, high = 0;
    if (artery > 1e-5) {
        low += artery * blow_now(*hearts.mother, us, 100'000, 70'000, 320'000);
        high += artery * blow_now(*hearts.mother, us, 100'000, 60'000, 170'000);
    }
    if (bed > 1e-5) low += bed * (0.3 + 0.7 * blow_now(*hearts.mother, us, 120'000, 120'000, 350'000));
    if (cord > 1e-5) {
        const double blow = blow_now(*hearts.baby[0], us, 60'000, 50'000, 220'000);
        low += cord * blow;
        high += 0.5 * cord * blow;
    }
    amount[static_cast<std::size_t>(Echo::artery_low)] = low;
    amount[static_cast<std::size_t>(Echo::artery_high)] = high;

    for (std::size_t lane = 0; lane < lane_count; ++lane)
        plan_.noise_gain[lane] = static_cast<float>(under_peak * amount[lane] * doppler_.unit[lane]);
    const auto hiss = static_cast<std::size_t>(Echo::hiss);
    plan_.noise_gain[hiss] = static_cast<float>((noise_ * 0.5 + 0.02 * rub_) * doppler_.unit[hiss]);
    plan_.tone_gain = {0, 0, 0, static_cast<float>(events_)};
}

}  // namespace sim
