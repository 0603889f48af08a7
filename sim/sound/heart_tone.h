// The two sounds of one beat: two valves each, a little apart, and a short snap that carries the first
// sound's edge.
#pragma once

#include "sim/beats/beat_train.h"
#include "sim/patient.h"
#include "sim/sound/heart_pitch.h"
#include "sim/sound/tone.h"

namespace sim {

// How one heart sounds, worked out once.
struct HeartVoice {
    HeartPitch pitch{};
    double systole_offset_ms = 255;
    double carrier = 1;  // raised_times in shifted mode: same envelopes, carriers raised
    double first_scale = 1, second_scale = 1;  // so that each sound's own peak is 1 before a beat's chance
    Seed seed;
    Stream stream = Stream::heart_tone;
};

HeartVoice heart_voice(const Patient& patient, int baby, Seed seed, OutputMode mode);

// First to second sound, milliseconds: offset - rate / 2, 100..240 (public source accompanying
// arXiv:2507.10783 for the slope; the offset fits valve timing at 36 to 40 weeks, Suzuki 1984).
double systole_ms(double offset_ms, double bpm);

// The middle of the first sound is the beat's own time.
std::int64_t first_sound_starts_us(const HeartVoice& voice, const Beat& beat);
std::int64_t second_sound_starts_us(const HeartVoice& voice, const Beat& beat, double bpm);
// `crisp`: what the way to the skin leaves of the snap against the rest, as an amplitude.
void strike_first(ToneRing& ring, const HeartVoice& voice, const Beat& beat, double gain, double crisp = 1);
void strike_second(ToneRing& ring, const HeartVoice& voice, const Beat& beat, double bpm, double gain,
                   double crisp = 1);

// The mother's own heart as it reaches the skin of her belly: felt, hardly heard. Pitches, lengths, ratio and
// systole (0.2 of the interval + 160 ms) as in the public source accompanying arXiv:2507.10783; her bpm above
// 0.
inline constexpr double mother_first_hz = 14.9, mother_second_hz = 22.4;
inline constexpr double mother_first_ms = 136, mother_second_ms = 95;
inline constexpr double mother_first_over_second = 1.54;
double mother_systole_ms(double bpm);
std::int64_t mother_first_starts_us(const Beat& beat);
std::int64_t mother_second_starts_us(const Beat& beat, double bpm);
void strike_mother_first(ToneRing& ring, const Beat& beat, double gain);
void strike_mother_second(ToneRing& ring, const Beat& beat, double bpm, double gain);

// The thump of the mother's artery, a pulse's way (0.12 s) after her heart.
inline constexpr std::int64_t pulse_way_us = 120'000;
std::int64_t thump_starts_us(const Beat& beat);
void strike_thump(ToneRing& ring, const Beat& beat, Seed seed, double carrier);

}  // namespace sim
