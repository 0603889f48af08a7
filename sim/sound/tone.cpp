#include "sim/sound/tone.h"

#include "sim/exact_math.h"
#include "sim/sound/lanes.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace sim {

namespace {

constexpr double samples_per_us = source_rate * 1e-6;
constexpr double window_sd_of_length = 1 / 4.2919320526;  // 2 sqrt(2 ln 10): -20 dB to -20 dB

struct Turn {  // a rotation in the plane
    double re, im;
};

Turn turn(double angle) { return {exact_cos(angle), exact_sin(angle)}; }
Turn times(Turn a, Turn b) { return {a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re}; }

constexpr int longest = 1'600;  // 200 ms; the ring must hold it and the tick it starts in

void add(ToneRing& ring, std::int64_t first, int count, const float* tone) {
    int at = static_cast<int>(first & (ToneRing::length - 1));
    const int until_end = std::min(count, ToneRing::length - at);
    for (int i = 0; i < until_end; ++i) ring.samples[static_cast<std::size_t>(at + i)] += tone[i];
    for (int i = until_end; i < count; ++i) ring.samples[static_cast<std::size_t>(i - until_end)] += tone[i];
}

}  // namespace

std::int64_t starts_us(const Tone& tone) {
    return static_cast<std::int64_t>(std::floor(tone.middle_us - tone_half_width * 1e3 * tone.length_ms));
}

std::int64_t ends_us(const Tone& tone) {
    return static_cast<std::int64_t>(std::ceil(tone.middle_us + tone_half_width * 1e3 * tone.length_ms));
}

// Eight samples at a time by recurrences: window w(n+8) = w r, r(n+8) = r c; pitch by rotations that turn
// themselves.
void strike(ToneRing& ring, const Tone& tone) {
    const double middle = tone.middle_us * samples_per_us;
    const double half = tone_half_width * tone.length_ms * source_rate / 1e3;
    const auto first = static_cast<std::int64_t>(std::ceil(middle - half));
    const int count = static_cast<int>(std::floor(middle + half - static_cast<double>(first))) + 1;
    assert(count <= longest);

    const double sd = tone.length_ms * window_sd_of_length * source_rate / 1e3;
    const double from = static_cast<double>(first) - middle;
    const double k = 1 / (2 * sd * sd);
    const double w = 2 * pi * tone.hz / source_rate;
    // Phase = w t + v t^2, v in radians per sample squared.
    const double v = pi * tone.sweep_hz / (tone.length_ms * source_rate / 1e3) / source_rate;

    Lanes window{}, ratio{}, re{}, im{}, step_re{}, step_im{};
    double wi = exact_exp(-k * from * from) * tone.peak, ri = exact_exp(-k * (2 * from + 1));
    const double shrink = exact_exp(-2 * k), shrink8 = exact_exp(-128 * k);
    double ri8 = exact_exp(-k * (16 * from + 64));
    const double shrink_first = exact_exp(-16 * k);
    Turn now = turn(w * from + v * from * from + 2 * pi * tone.turns), next = turn(w + v * (2 * from + 1));
    Turn next8 = turn(8 * w + v * (16 * from + 64));
    const Turn bend = turn(2 * v), bend_first = turn(16 * v), bend8 = turn(128 * v);
    for (int i = 0; i < lane_count; ++i) {
        window[i] = static_cast<float>(wi);
        ratio[i] = static_cast<float>(ri8);
        re[i] = static_cast<float>(now.re);
        im[i] = static_cast<float>(now.im);
        step_re[i] = static_cast<float>(next8.re);
        step_im[i] = static_cast<float>(next8.im);
        wi *= ri;
        ri *= shrink;
        ri8 *= shrink_first;
        now = times(now, next);
        next = times(next, bend);
        next8 = times(next8, bend_first);
    }
    const float shrink8f = static_cast<float>(shrink8);
    const float bend_re = static_cast<float>(bend8.re), bend_im = static_cast<float>(bend8.im);

    alignas(32) float samples[longest + lane_count];
    for (int n = 0; n < count; n += lane_count) {
        const Lanes y = window * re;
        for (int i = 0; i < lane_count; ++i) samples[n + i] = y[i];
        window *= ratio;
        ratio *= shrink8f;
        const Lanes re2 = re * step_re - im * step_im;
        im = re * step_im + im * step_re;
        re = re2;
        const Lanes s2 = step_re * bend_re - step_im * bend_im;
        step_im = step_re * bend_im + step_im * bend_re;
        step_re = s2;
    }
    add(ring, first, count, samples);
}

void strike(ToneRing& ring, const Ping& ping) {
    const double start = ping.start_us * samples_per_us;
    const auto first = static_cast<std::int64_t>(std::ceil(start));
    const double fades = pi * ping.hz / ping.q / source_rate;  // per sample
    const int count = std::min(longest, static_cast<int>(7 / fades));
    Turn at = turn(2 * pi * ping.hz / source_rate * (static_cast<double>(first) - start));
    const Turn step = turn(2 * pi * ping.hz / source_rate);
    // Soft start, 1.5 ms: (1 - e^-rt) e^-ft is at its top where e^-rt = f / (r + f).
    constexpr double rises = 0.0834, rise_share = 0.08;
    const double low = fades / (rises + fades);
    double size = ping.peak / ((1 - low) * exact_exp2(fades / rises * exact_log2(low))), rise = 0;
    const double fade = exact_exp(-fades);
    float samples[longest];
    for (int n = 0; n < count; ++n) {
        samples[n] = static_cast<float>(size * rise * at.im);
        rise += (1 - rise) * rise_share;
        size *= fade;
        at = times(at, step);
    }
    add(ring, first, count, samples);
}

}  // namespace sim
