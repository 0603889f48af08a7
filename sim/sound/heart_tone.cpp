#include "sim/sound/heart_tone.h"

#include "sim/exact_math.h"
#include "sim/random.h"
#include "sim/sound/beat_queue.h"

#include <algorithm>
#include <cmath>

namespace sim {

namespace {

constexpr double first_over_second =
    1.70;  // peak of the first sound over the second's (arXiv:2507.10783's source)
constexpr double later_valve = 0.6, later_valve_lower = 0.15;  // of the first one's pitch [practice]
// Phase of the later valve against the earlier one, in turns: as it is at every pitch, so that they colour
// each other alike whatever the week.
constexpr double first_apart_us = 18'000, first_turned = -0.12;
constexpr double second_apart_us = 9'000, second_turned = 0;
constexpr double first_leads_us = 5'800,
                 second_leads_us = 4'000;  // so that the middle of both is the sound's time
constexpr double first_sweep_hz = -8, second_sweep_hz = -12;   // [practice]
constexpr double snap = 0.18, snap_pitch = 2.8, snap_ms = 30;  // energy to 200 Hz, 15 to 25 dB down [memory]

struct Chance {
    double first, second, pitch, shift_ms;
};

// How much stronger than usual the second sound is, as a natural logarithm: an AR(1) over twenty beats, drawn
// at every tenth (e^-1/2 from one to the next), straight between.
double second_drift(const HeartVoice& voice, std::uint64_t n) {
    constexpr double kept = 0.60653066, fresh = 0.79506010, size = 0.10;
    constexpr int nodes = 6;  // what lies further back weighs under 4 %
    const auto at_node = [&](int node) {
        return gaussian(voice.seed, voice.stream, n / 10 + 8 - static_cast<std::uint64_t>(node), 8);
    };
    double before = 0, after = at_node(-1), weight = 1;
    for (int j = 0; j < nodes; ++j) {
        const double g = at_node(j);
        before += weight * g;
        weight *= kept;
        after += weight * g;
    }
    const double part = static_cast<double>(n % 10) / 10;
    return size * fresh * ((1 - part) * before + part * after);
}

// Each beat's own: size of both its sounds lognormal 0.17, pitch 5 %, systole 4 ms; second against first
// drifts over twenty beats [practice].
Chance chance_of(const HeartVoice& voice, const Beat& beat) {
    const auto n = static_cast<std::uint64_t>(beat.number);
    const auto g = four_gaussians(voice.seed, voice.stream, n);
    Chance c{};
    c.first = exact_exp(0.17 * g[0] - 0.0145);
    c.second = c.first * exact_exp(second_drift(voice, n));
    c.pitch = std::clamp(1 + 0.05 * g[1], 0.85, 1.15);
    c.shift_ms = std::clamp(4 * g[2], -10.0, 10.0);
    if (beat.kind == BeatKind::ectopic) {
        c.first *= 1.1;
        c.second *= 0.6;
    }
    return c;
}

double second_middle_us(const HeartVoice& voice, const Beat& beat, double bpm, const Chance& chance) {
    return static_cast<double>(beat.at_us) +
           1e3 * (systole_ms(voice.systole_offset_ms, bpm) + chance.shift_ms);
}

struct TwoValves {
    double hz, length_ms, sweep_hz, apart_us, turned, leads_us, snap_ms;
};

// Carriers may be raised, the envelope stays: so does the beating of the two valves.
void strike_valves(ToneRing& ring, const TwoValves& v, double at_us, double carrier, double peak,
                   double crisp) {
    const double hz = v.hz * carrier, later_hz = hz - v.hz * later_valve_lower;
    at_us -= v.leads_us;
    strike(ring, Tone{at_us, hz, v.length_ms, v.sweep_hz * carrier, peak});
    strike(ring, Tone{at_us + v.apart_us, later_hz, v.length_ms, 0, peak * later_valve,
                      hz * v.apart_us * 1e-6 + v.turned});
    strike(ring, Tone{at_us, hz * snap_pitch, v.snap_ms, 0, peak * snap * crisp});
}

void first_tones(ToneRing& ring, const HeartVoice& voice, double at_us, double pitch, double peak,
                 double crisp) {
    strike_valves(ring,
                  {voice.pitch.first_hz * first_valve_over_centre * pitch, voice.pitch.first_ms,
                   first_sweep_hz, first_apart_us, first_turned, first_leads_us, snap_ms},
                  at_us, voice.carrier, peak, crisp);
}

void second_tones(ToneRing& ring, const HeartVoice& voice, double at_us, double pitch, double peak,
                  double crisp) {
    strike_valves(ring,
                  {voice.pitch.second_hz * first_valve_over_centre * pitch, voice.pitch.second_ms,
                   second_sweep_hz, second_apart_us, second_turned, second_leads_us, snap_ms * 0.7},
                  at_us, voice.carrier, peak, crisp);
}

double peak_of(const ToneRing& ring) {
    float most = 0;
    for (float s : ring.samples) most = std::max(most, std::fabs(s));
    return static_cast<double>(most);
}

}  // namespace

HeartVoice heart_voice(const Patient& patient, int baby, Seed seed, OutputMode mode) {
    HeartVoice voice;
    voice.pitch = heart_pitch(patient.gestation_weeks);
    voice.systole_offset_ms = baby < patient.babies.size ? patient.babies[baby].systole_offset_ms : 255;
    voice.carrier = mode == OutputMode::shifted ? raised_times : 1;
    voice.seed = seed;
    voice.stream = for_baby(Stream::heart_tone, baby);
    ToneRing first, second;
    first_tones(first, voice, 100'000, 1, 1, 1);
    second_tones(second, voice, 100'000, 1, 1, 1);
    voice.first_scale = 1 / peak_of(first);
    voice.second_scale = 1 / peak_of(second) / first_over_second;
    return voice;
}

double systole_ms(double offset_ms, double bpm) { return std::clamp(offset_ms - 0.5 * bpm, 100.0, 240.0); }

std::int64_t first_sound_starts_us(const HeartVoice& voice, const Beat& beat) {
    return starts_us(Tone{static_cast<double>(beat.at_us) - first_leads_us, 1, voice.pitch.first_ms});
}

std::int64_t second_sound_starts_us(const HeartVoice& voice, const Beat& beat, double bpm) {
    // The beat's own shift is at most 10 ms.
    const double middle =
        static_cast<double>(beat.at_us) + 1e3 * (systole_ms(voice.systole_offset_ms, bpm) - 10);
    return starts_us(Tone{middle - second_leads_us, 1, voice.pitch.second_ms});
}

void strike_first(ToneRing& ring, const HeartVoice& voice, const Beat& beat, double gain, double crisp) {
    if (!is_heard(beat)) return;
    const Chance c = chance_of(voice, beat);
    first_tones(ring, voice, static_cast<double>(beat.at_us), c.pitch, gain * c.first * voice.first_scale,
                crisp);
}

void strike_second(ToneRing& ring, const HeartVoice& voice, const Beat& beat, double bpm, double gain,
                   double crisp) {
    if (!is_heard(beat)) return;
    const Chance c = chance_of(voice, beat);
    second_tones(ring, voice, second_middle_us(voice, beat, bpm, c), c.pitch,
                 gain * c.second * voice.second_scale, crisp);
}

double mother_systole_ms(double bpm) { return 0.2 * 60e3 / bpm + 160; }

std::int64_t mother_first_starts_us(const Beat& beat) {
    return starts_us(Tone{static_cast<double>(beat.at_us), 1, mother_first_ms});
}

std::int64_t mother_second_starts_us(const Beat& beat, double bpm) {
    return starts_us(
        Tone{static_cast<double>(beat.at_us) + 1e3 * mother_systole_ms(bpm), 1, mother_second_ms});
}

void strike_mother_first(ToneRing& ring, const Beat& beat, double gain) {
    strike(ring, Tone{static_cast<double>(beat.at_us), mother_first_hz, mother_first_ms, 0, gain});
}

void strike_mother_second(ToneRing& ring, const Beat& beat, double bpm, double gain) {
    const double at = static_cast<double>(beat.at_us) + 1e3 * mother_systole_ms(bpm);
    strike(ring, Tone{at, mother_second_hz, mother_second_ms, 0, gain / mother_first_over_second});
}

std::int64_t thump_starts_us(const Beat& beat) {
    return starts_us(Tone{static_cast<double>(beat.at_us + pulse_way_us), 1, 110});
}

void strike_thump(ToneRing& ring, const Beat& beat, Seed seed, double carrier) {
    const auto n = static_cast<std::uint64_t>(beat.number);
    const double size = exact_exp(0.1 * gaussian(seed, Stream::vessel, n, 16));
    const double at = static_cast<double>(beat.at_us + pulse_way_us);
    strike(ring, Tone{at, vessel_hz * carrier, 110, -10 * carrier, size});
}

}  // namespace sim
