#include "sim/sound/mix.h"

#include "sim/dice_lanes.h"
#include "sim/sound/level.h"
#include "sim/two_copies.h"

#include <cmath>
#include <cstring>

namespace sim {

namespace {

constexpr int n16 = source_samples_per_tick;
constexpr float quiet = 1e-15f;  // keeps recursive memories out of the denormal range

// Eight samples for eight lanes: sample s is 16-bit half s of the call.
[[gnu::always_inline]] inline void spread(const Pair* word, Lanes& low, Lanes& high) {
    constexpr float scale = 1.0f / 32768;
    const Packed halves[2] = {packed(word[0], word[1]), packed(word[2], word[3])};
    LaneInts whole;
    std::memcpy(&whole, halves, sizeof whole);
    low = __builtin_convertvector((whole << 16) >> 16, Lanes) * scale;
    high = __builtin_convertvector(whole >> 16, Lanes) * scale;
}

[[gnu::always_inline]] inline void white(const Mix& mix, const TickPlan& plan, Lanes* noise) {
    for (int half = 0; half < 2; ++half) {
        const auto index = static_cast<std::uint64_t>(plan.sample / 8 + half);
        FourWords<lane_count / 2> c;  // {index, index high, stream, 0}, one a lane
        for (int i = 0; i < 4; ++i) {
            c.w0[i] = both(static_cast<std::uint32_t>(index));
            c.w1[i] = both(static_cast<std::uint32_t>(index >> 32));
            c.w2[i] = pair(mix.streams[2 * i], mix.streams[2 * i + 1]);
            c.w3[i] = both(0);
        }
        draw(c, plan.key_low, plan.key_high);
        Lanes* to = noise + 8 * half;
        spread(c.w0, to[0], to[1]);
        spread(c.w1, to[2], to[3]);
        spread(c.w2, to[4], to[5]);
        spread(c.w3, to[6], to[7]);
    }
}

[[gnu::always_inline]] inline float run(SingleFilter& f, float x) {
    x += quiet;
    const float y = f.b0 * x + f.z1;
    f.z1 = f.b1 * x - f.a1 * y + f.z2;
    f.z2 = f.b2 * x - f.a2 * y;
    return y;
}

[[gnu::always_inline]] inline void glide(SingleFilter& f, const SingleFilter& to) {
    constexpr float share = 0.065f;  // 30 ms
    f.b0 += share * (to.b0 - f.b0);
    f.b1 += share * (to.b1 - f.b1);
    f.b2 += share * (to.b2 - f.b2);
    f.a1 += share * (to.a1 - f.a1);
    f.a2 += share * (to.a2 - f.a2);
}

// Straight up to 0.6, then bends towards -1 dBFS and never reaches it.
[[gnu::always_inline]] inline float limited(float x) {
    constexpr float straight = 0.6f, room = static_cast<float>(loudest) - straight;
    const float size = std::fabs(x), over = size - straight;
    const float bent = straight + room * over / (room + over);
    return std::copysign(size > straight ? bent : size, x);
}

// No step above 0.05 of full scale at 48 kHz, whatever comes: the raise makes of steps of at most 1 here
// steps of at most 0.3811 there (the sum of the sizes of its own weights, the worst phase). Looked for first,
// all at once, since it is hardly ever there.
[[gnu::always_inline]] inline void hold_back(float* y) {
    constexpr float most_step = 0.05f * 2.62f;
    int steep = 0;
    for (int i = 0; i < n16; ++i) steep |= std::fabs(y[i] - y[i - 1]) > most_step;
    if (steep == 0) return;
    for (int i = 0; i < n16; ++i) {
        const float low = y[i - 1] - most_step, high = y[i - 1] + most_step;
        y[i] = y[i] > high ? high : y[i] < low ? low : y[i];
    }
}

// Missing fundamental: the band of the heart tones, opened by its own strength (so that noise between beats
// makes none), bent hard, and the harmonics between 180 and 700 Hz added.
[[gnu::always_inline]] inline void add_harmonics(Mix& mix, float peak, float* y) {
    const float size = 1 / peak;
    float follows = mix.assist_follows;
    for (int i = 0; i < n16; ++i) {
        const float u = size * run(mix.assist[1], run(mix.assist[0], y[i]));
        follows += 0.015f * (std::fabs(u) - follows) + quiet;
        const float strength = follows * (1.5f + 5 * follows);
        const float open = strength > 1 ? 1.0f : strength;
        float x = 4 * open * (u + 0.35f * std::fabs(u));
        x = x > 3 ? 3.0f : x < -3 ? -3.0f : x;
        // Bending alone would make both sounds of a beat equally loud, and the ear would count two.
        const float size_kept = 2 * follows > 1.0f ? 1.0f : 2 * follows;
        const float bent = size_kept * x * (27 + x * x) / (27 + 9 * x * x);
        y[i] += peak * 5.5f * run(mix.assist[3], run(mix.assist[2], bent));
    }
    mix.assist_follows = follows;
}

SIM_TWO_COPIES void tick(Mix& mix, const TickPlan& plan, float* out) {
    Lanes noise[n16];
    white(mix, plan, noise);

    // Noises: two filters in lanes, gain on a straight line, eight lanes added as a fixed tree.
    alignas(32) float sum[n16];
    {
        const LaneFilter a = mix.lane_filters[0], b = mix.lane_filters[1];
        Lanes a1 = mix.lane_memory[0][0], a2 = mix.lane_memory[0][1];
        Lanes b1 = mix.lane_memory[1][0], b2 = mix.lane_memory[1][1];
        Lanes gain = mix.noise_gain, to;
        std::memcpy(&to, plan.noise_gain.data(), sizeof to);
        const Lanes step = (to - gain) * (1.0f / n16);
        for (int i = 0; i < n16; ++i) {
            const Lanes x = noise[i] + quiet;
            const Lanes y = a.b0 * x + a1;
            a1 = a.b1 * x - a.a1 * y + a2;
            a2 = a.b2 * x - a.a2 * y;
            const Lanes z = b.b0 * y + b1;
            b1 = b.b1 * y - b.a1 * z + b2;
            b2 = b.b2 * y - b.a2 * z;
            gain += step;
            const Lanes s = z * gain;
            sum[i] = ((s[0] + s[4]) + (s[2] + s[6])) + ((s[1] + s[5]) + (s[3] + s[7]));
        }
        mix.lane_memory[0][0] = a1;
        mix.lane_memory[0][1] = a2;
        mix.lane_memory[1][0] = b1;
        mix.lane_memory[1][1] = b2;
        mix.noise_gain = to;
    }

    const auto at = static_cast<std::size_t>(plan.sample & (ToneRing::length - 1));
    for (std::size_t v = 0; v < voice_count; ++v) {
        float* ring = &mix.rings[v].samples[at];
        const float gain = mix.tone_gain[v], step = (plan.tone_gain[v] - gain) * (1.0f / n16);
        for (int i = 0; i < n16; ++i) {
            sum[i] += ring[i] * (gain + step * static_cast<float>(i + 1));
            ring[i] = 0;
        }
        mix.tone_gain[v] = plan.tone_gain[v];
    }

    {
        for (std::size_t i = 0; i < mix.chain.size(); ++i) glide(mix.chain[i], mix.chain_wanted[i]);
        SingleFilter f0 = mix.chain[0], f1 = mix.chain[1], f2 = mix.chain[2], f3 = mix.chain[3];
        for (int i = 0; i < n16; ++i) sum[i] = run(f3, run(f2, run(f1, run(f0, sum[i]))));
        mix.chain = {f0, f1, f2, f3};
    }
    for (int i = 0; i < n16; ++i) mix.heard[static_cast<std::size_t>(i)] = sum[i];
    if (plan.assisted) add_harmonics(mix, plan.first_sound_peak, sum);

    float* history = mix.history.data();
    const float fade_step = (plan.fade - mix.fade) * (1.0f / n16);
    for (int i = 0; i < n16; ++i)
        history[Mix::taps + i] = limited(sum[i] * (mix.fade + fade_step * static_cast<float>(i + 1)));
    mix.fade = plan.fade;
    hold_back(history + Mix::taps);

    // Raise to 48 kHz: for each sample six phases side by side; two sums so that neither waits for the other.
    alignas(32) float raised[6 * n16 + 8];
    for (int i = 0; i < n16; ++i) {
        const float* x = history + Mix::taps + i;
        Lanes even = mix.raise[0] * x[0], odd = mix.raise[1] * x[-1];
        for (int k = 2; k < Mix::taps; k += 2) {
            even += mix.raise[static_cast<std::size_t>(k)] * x[-k];
            odd += mix.raise[static_cast<std::size_t>(k + 1)] * x[-k - 1];
        }
        const Lanes y = even + odd;
        std::memcpy(raised + 6 * i, &y, sizeof y);
    }
    std::memcpy(history, history + n16, Mix::taps * sizeof(float));
    constexpr float most = static_cast<float>(loudest);
    for (int i = 0; i < 6 * n16; ++i)
        out[i] = raised[i] > most ? most : raised[i] < -most ? -most : raised[i];
}

}  // namespace

void make_tick(Mix& mix, const TickPlan& plan, float* out) { tick(mix, plan, out); }

}  // namespace sim
