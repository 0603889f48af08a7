// The mix of one sound tick: eight noises in lanes and four rings of tones, through four filters of the
// instrument, softly limited, raised from 8 to 48 kHz. Everything that costs time per sample is here, in one
// function. All sums are written in a fixed order; samples depend on the plans given since the last reset and
// nothing else.
#pragma once

#include "sim/instrument/chain.h"
#include "sim/sound/filters.h"
#include "sim/sound/lanes.h"
#include "sim/sound/tone.h"

#include <array>
#include <cstdint>

namespace sim {

// Which noises fill the lanes, and through which two filters each goes. Unit: RMS 1 after the filters.
struct NoiseShapes {
    std::array<std::array<FilterShape, 2>, lane_count> filters{};
    std::array<std::uint32_t, lane_count> streams{};
    std::array<double, lane_count> unit{};  // factor that makes the RMS 1

    void settle_units();  // from the filters, by sampling their spectrum
};

inline constexpr int voice_count = 4;  // rings: baby, second baby, mother's artery, single events

// What changes from tick to tick. Gains are reached at the end of the tick, straight from where they were.
struct TickPlan {
    std::int64_t sample = 0;  // labour sample at 8 kHz of the tick's first, a multiple of 16
    std::uint32_t key_low = 0, key_high = 0;
    alignas(32) std::array<float, lane_count> noise_gain{};
    std::array<float, voice_count> tone_gain{};
    float fade = 1;
    bool assisted = false;  // harmonics for small speakers, of tones up to `first_sound_peak`
    float first_sound_peak = 0.3f;
};

// Two filters for all lanes, four in a row for the instrument: coefficients as the loop reads them.
struct LaneFilter {
    Lanes b0, b1, b2, a1, a2;
};
struct SingleFilter {
    float b0 = 1, b1 = 0, b2 = 0, a1 = 0, a2 = 0;
    float z1 = 0, z2 = 0;
};

struct Mix {
    static constexpr int taps = 16;  // of each of the six phases of the raise
    static constexpr int assist_stages = 4;

    std::array<ToneRing, voice_count> rings{};
    std::array<LaneFilter, 2> lane_filters{};
    std::array<std::array<Lanes, 2>, 2> lane_memory{};
    LaneWords streams{};
    Lanes noise_gain{};
    std::array<float, voice_count> tone_gain{};
    float fade = 0;
    std::array<SingleFilter, 4> chain{};
    std::array<SingleFilter, 4> chain_wanted{};
    std::array<SingleFilter, assist_stages> assist{};
    float assist_follows = 0;
    std::array<Lanes, taps> raise{};  // six phases side by side, two lanes spare
    alignas(32) std::array<float, taps + source_samples_per_tick> history{};
    alignas(
        32) std::array<float, source_samples_per_tick> heard{};  // after the instrument, for the rate display

    Mix();
    // Silence in every memory, fade at zero; noises and instrument as given, no gliding.
    void reset(const NoiseShapes& shapes, const Chain& through);
    // Lane filters change at once (their memories stay): for small changes of pitch.
    void set_shapes(const NoiseShapes& shapes);
    void set_chain(const Chain& through);  // glides, 30 ms
};

// [audio thread] Makes the 96 samples of one tick.
void make_tick(Mix& mix, const TickPlan& plan, float* out);

}  // namespace sim
