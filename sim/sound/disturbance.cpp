// What comes from outside: knocks, the ward, and the instrument rubbing on the skin.
#include "sim/exact_math.h"
#include "sim/random.h"
#include "sim/sound/ear_sound.h"

#include <algorithm>
#include <cmath>

namespace sim {

namespace {

constexpr int longest_knock = 6;         // cells: 1.5 s
constexpr double grain_ms = 140;         // a long tone is made of short ones laid over each other in step
constexpr double grain_sum_us = 81'770;  // over how far apart they are: what they add up to

double start_of(std::int64_t cell) { return static_cast<double>(cell * course_tick_us); }

}  // namespace

// Loud disturbances: a tone of 80 to 500 Hz for 0.5 to 1.5 s, 3 dB over a first sound at most (source
// accompanying arXiv:2507.10783; there one in 20 s).
void EarSound::draw_knocks(std::int64_t cell) {
    const double chance = patient_.surroundings.knocks_per_min / 60 * 0.25;
    if (chance <= 0) return;
    for (int back = 0; back <= longest_knock && back <= cell; ++back) {
        const auto n = static_cast<std::uint64_t>(cell - back);
        const auto u = [&](std::uint32_t draw) { return uniform(seed_, Stream::ward, n, draw); };
        if (u(32) >= chance) continue;
        const double hz = 80 + 420 * u(33), lasts_us = 1e6 * (0.5 + u(34)), loud = 1.41 * (0.5 + 0.5 * u(35));
        const double first = start_of(cell - back) + 200'000 * u(36) + 100'000;
        // Whole periods apart, so that they are in step.
        const double apart = std::ceil(0.05 * hz) / hz * 1e6;
        for (double at = first; at < first + lasts_us - 100'000; at += apart) {
            if (at < start_of(cell) + 100'000 || at >= start_of(cell + 1) + 100'000) continue;
            const double part = (at - first) / lasts_us;  // loud at once, then away
            add_single(Tone{at, hz, grain_ms, 0, height(loud * (1 - 0.6 * part), hz) * apart / grain_sum_us});
        }
    }
}

// Voices at four syllables a second with pauses; in some spells of 16 s a monitor's far beeps, or a trolley
// goes by.
void EarSound::draw_ward(std::int64_t cell) {
    speech_ = 0;
    if (patient_.surroundings.ward.value <= -60) return;
    const auto n = static_cast<std::uint64_t>(cell);
    const bool pause = uniform(seed_, Stream::ward, n / 6, 18) < 0.3;
    speech_ = pause ? 0.1
                    : std::min(1.2, 0.3 + 1.4 * uniform(seed_, Stream::ward, n, 16) *
                                              uniform(seed_, Stream::ward, n / 4, 17));
    if (events_ <= 0 || beam_) return;

    constexpr std::int64_t spell = 64;
    const auto k = static_cast<std::uint64_t>(cell / spell);
    const auto u = [&](std::uint64_t index, std::uint32_t draw) {
        return uniform(seed_, Stream::ward, index, draw);
    };
    const double loud = wanted_ward_ / events_;
    const auto since = [&](std::uint32_t draw) {  // cells since the spell's own beginning
        return cell - static_cast<std::int64_t>(k) * spell - static_cast<std::int64_t>(36 * u(k, draw));
    };
    if (u(k, 40) < 0.35) {
        const std::int64_t beep = since(41);
        if (beep >= 0 && beep < 12 && beep % 3 == 0)  // four of them, 0.75 s apart
            add_single(Tone{start_of(cell) + 110'000, 880, 120, 0, height(0.8 * loud, 880)});
    }
    if (u(k, 42) < 0.3) {
        const std::int64_t passes = since(43);
        if (passes < 0 || passes > 24) return;
        const double near = 1 - std::fabs(static_cast<double>(passes) - 12) / 12.5;
        speech_ = std::max(speech_, 1.3 * near);
        for (std::uint32_t i = 0; i < 2; ++i) {
            const double hz = 250 + 450 * u(n, 44 + 4 * i);
            add_single(Ping{start_of(cell) + 240'000 * u(n, 45 + 4 * i), hz, 6,
                            height(loud * near * (0.3 + 0.7 * u(n, 46 + 4 * i)), hz)});
        }
    }
}

// A probe without gel crackles.
void EarSound::draw_crackle(std::int64_t cell) {
    const auto n = static_cast<std::uint64_t>(cell);
    const auto u = [&](std::uint32_t draw) { return uniform(seed_, Stream::friction, n, draw); };
    const double dry =
        1 / std::max(0.02, chain_.contact);  // single sounds are scaled by the contact a crackle lacks
    for (std::uint32_t i = 0; i < 3; ++i)
        add_single(Ping{start_of(cell) + 250'000 * u(24 + 4 * i), 300 + 500 * u(25 + 4 * i), 3,
                        dry * (0.05 + 0.2 * u(26 + 4 * i))});
}

// Friction goes with the speed to the power 0.7: its peaks lie 10 dB under a first sound at 1 cm/s, 6 dB over
// it from 14 cm/s on; four times as much with a hand on the instrument; crackles of 5 ms in it, up to 6 dB
// over a first sound like its own peaks [practice].
void EarSound::rub(double moved_cm, bool hand_on, std::int64_t tick) {
    const double took_s = std::clamp(static_cast<double>(tick - moved_tick_) * 0.002, 0.016, 0.25);
    const double cm_per_s = std::max(0.01, moved_cm / took_s);
    const double now =
        std::min(1.0, 0.158 * exact_exp2(0.7 * exact_log2(cm_per_s)) * (hand_on && !beam_ ? 4 : 1));
    rub_ = std::max(rub_, now);
    moved_tick_ = tick;
    const double at = static_cast<double>(tick * sound_tick_us);
    const auto n = static_cast<std::uint64_t>(tick);
    const auto u = [&](std::uint32_t draw) { return uniform(seed_, Stream::friction, n, draw); };
    if (beam_)  // a probe dragged over skin thumps
        add_single(Tone{at + 30'000, 110, 40, 0, 0.5 * now});
    else if (u(40) < 0.4) {
        const double hz = 500 + 500 * u(41);
        add_single(Ping{at + 2'000 + 10'000 * u(42), hz, hz / 145, height(now * (0.6 + 1.4 * u(43)), hz)});
    }
}

}  // namespace sim
