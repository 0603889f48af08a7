#include "sim/sound/ear_sound.h"

#include "sim/random.h"
#include "sim/sound/envelopes.h"
#include "sim/sound/level.h"
#include "sim/sound/noise_shapes.h"

#include <algorithm>
#include <cmath>

namespace sim {

namespace {

constexpr double glide_share = 0.125;  // 15 ms at 2 ms a tick
constexpr double rub_fades = 0.975;    // 80 ms
constexpr double pulse_way = 100'000;  // from the mother's beat to the start of a blow, us
// Against a first sound: friction at its loudest has its peaks 6 dB over it; breathing lies 30 dB under it,
// and swings.
constexpr double loudest_rub = 0.55, breath_rms = 0.032;
// Sensor and far surroundings: 16 dB under the noise of the ladder, so that on its harder steps it lies in
// the published range of -29 to -6 dB under a first sound, and under it on the easy ones.
constexpr double hiss_share = 0.16;
constexpr double blow_hz = 220, ward_hz = 600;  // where most of it lies

// What goes with the step of the ladder. `mother`: her own two sounds against a first sound at its best
// place, 17 dB under it to level with it (published range -17 to +3, source accompanying arXiv:2507.10783).
// `noise`: share of the step's noise that is left to the body's own, so that with her heart and breathing it
// comes to the step.
struct Hides {
    double mother, noise;
};

Hides hides(Ladder ladder) {
    switch (ladder) {
        case Ladder::easy: return {0.14, 0.88};
        case Ladder::normal: return {0.28, 1.045};
        case Ladder::hard: return {0.56, 1.075};
        case Ladder::very_hard: return {1.0, 1.07};
    }
    return {0.14, 0.88};
}

constexpr std::size_t at(Source s) { return static_cast<std::size_t>(s); }
constexpr std::size_t at(Noise n) { return static_cast<std::size_t>(n); }

}  // namespace

EarSound::EarSound(const Patient& patient, Seed seed, OutputMode mode)
    : patient_(patient), seed_(seed), mode_(mode), doppler_(patient, seed) {
    plan_.key_low = static_cast<std::uint32_t>(seed.value);
    plan_.key_high = static_cast<std::uint32_t>(seed.value >> 32);
    set_mode(mode);
}

void EarSound::set_mode(OutputMode mode) {
    mode_ = mode;
    for (int baby = 0; baby < 2; ++baby)
        voices_[static_cast<std::size_t>(baby)] = heart_voice(patient_, baby, seed_, mode);
    acoustic_ = acoustic_noises(mode);
}

void EarSound::start() {
    display_.reset();
    gain_ = wanted_;
    noise_ = wanted_noise_;
    ward_ = wanted_ward_;
    events_ = wanted_events_;
    contact_ = wanted_contact_;
    rub_ = 0;
    look_again_us_ = 0;
    doppler_.start(aim_);
    mix_.reset(beam_ ? doppler_.shapes(hold_.tilt_deg) : acoustic_, chain_);
}

void EarSound::hear(const EarLevels& levels, const Hold& hold, double moved_cm, std::int64_t tick) {
    beam_ = hold.instrument == Instrument::doppler;
    const double peak = first_sound_peak(patient_.surroundings.ladder);
    // A diaphragm weakens the heart's low sound: it stays weaker at the ear, though not by as much as in
    // life. A Doppler's bursts reach further up, where the same size makes steeper steps.
    const double through = hold.instrument == Instrument::diaphragm ? 0.5 : beam_ ? 0.6 : 1;
    const double scale = peak * through / levels.heart_through;
    plan_.first_sound_peak = static_cast<float>(peak);
    chain_ = levels.chain;
    aim_ = levels.aim;
    for (std::size_t b = 0; b < 2; ++b) crisp_[b] = amplitude(levels.crisp_db[b]);
    for (std::size_t s = 0; s < source_count; ++s) wanted_[s] = scale * amplitude(levels.into_db[s]);
    wanted_noise_ = scale * amplitude(levels.body_noise_into_db) *
                    (beam_ ? 1 : hides(patient_.surroundings.ladder).noise);
    wanted_ward_ = scale * amplitude(levels.ward_into_db);
    if (mode_ == OutputMode::shifted && !beam_) {
        // The instrument's colours go up with the carriers, so that it is still told by ear. Blows and the
        // ward stay where they are, at the level they have at the ear.
        for (FilterShape& stage : chain_.stages) stage = raised(stage, raised_times);
        const auto past = [&](double hz) { return peak * through / std::max(0.1, amplitude_at(chain_, hz)); };
        for (Source s : {Source::souffle, Source::cord_souffle})
            wanted_[at(s)] = past(blow_hz) * amplitude(levels.at_ear_db[at(s)]);
        wanted_ward_ = past(ward_hz) * amplitude(levels.ward_db);
    }
    wanted_events_ = peak * through * std::min(1.0, levels.chain.contact);
    mix_.set_chain(chain_);

    if (beam_ && hold.tilt_deg != hold_.tilt_deg) mix_.set_shapes(doppler_.shapes(hold.tilt_deg));
    if (moved_cm > 0) rub(moved_cm, hold.left == On::instrument || hold.right == On::instrument, tick);
    hold_ = hold;
}

void EarSound::add_single(const Tone& tone) {
    if (singles_.full()) return;
    Single s;
    s.starts_us = starts_us(tone);
    s.tone = tone;
    singles_.add(s);
}

void EarSound::add_single(const Ping& ping) {
    if (singles_.full()) return;
    Single s;
    s.starts_us = static_cast<std::int64_t>(ping.start_us);
    s.rings = true;
    s.ping = ping;
    singles_.add(s);
}

void EarSound::pass_cell(const CourseTick& now, std::int64_t cell) {
    if (now.moving &&
        !moved_) {  // it shoves the instrument: 3 to 10 dB less contact for half a second [practice]
        const double u = uniform(seed_, Stream::movement_sound, static_cast<std::uint64_t>(cell), 24);
        wanted_contact_ = exact_pow10(-(3 + 7 * u) / 20);
        shoved_until_ = cell + 2;
    }
    if (cell >= shoved_until_) wanted_contact_ = 1;
    moved_ = now.moving;
    doppler_.pass_cell(now, cell);
}

void EarSound::enter_cell(const CourseTick& now, std::int64_t cell) {
    // What should have sounded before now was not heard.
    int kept = 0;
    for (int i = 0; i < singles_.size; ++i)
        if (singles_[i].starts_us >= cell * course_tick_us) singles_[kept++] = singles_[i];
    singles_.size = kept;
    look_again_us_ = 0;
    pass_cell(now, cell);
    draw_ward(cell);
    if (beam_) {
        doppler_.look(aim_);
        if (!hold_.gel) draw_crackle(cell);
    } else {
        draw_bowel(cell);
        draw_knocks(cell);
        if (now.moving) draw_movement(cell);
    }
}

// Struck when their first sample lies in the tick; those that began before the instrument was placed are left
// out.
void EarSound::strike(std::int64_t tick, const Hearts& hearts) {
    const std::int64_t from = tick * sound_tick_us, until = from + sound_tick_us;
    if (!beam_ && until > look_again_us_) {
        look_again_us_ = from + course_tick_us;  // each new cell looks again anyway
        const auto due = [&](std::int64_t starts, bool& struck) {
            if (struck) return false;
            if (starts >= until) {
                look_again_us_ = std::min(look_again_us_, starts);
                return false;
            }
            struck = true;
            return starts >= from;
        };
        const double breathes = 1 + 0.17 * shake(from);  // 1.5 dB either way
        for (std::size_t b = 0; b < 2; ++b) {
            const HeartVoice& voice = voices_[b];
            for (int i = 0; i < hearts.baby[b]->size(); ++i) {
                NearBeat& near = (*hearts.baby[b])[i];
                if (due(first_sound_starts_us(voice, near.beat), near.first_struck))
                    strike_first(mix_.rings[b], voice, near.beat, breathes, crisp_[b]);
                if (due(second_sound_starts_us(voice, near.beat, near.bpm), near.second_struck))
                    strike_second(mix_.rings[b], voice, near.beat, near.bpm, breathes, crisp_[b]);
            }
        }
        const double hers = hides(patient_.surroundings.ladder).mother;
        for (int i = 0; i < hearts.mother->size(); ++i) {
            NearBeat& near = (*hearts.mother)[i];
            if (due(mother_first_starts_us(near.beat), near.first_struck))
                strike_mother_first(mix_.rings[3], near.beat, hers);
            if (due(mother_second_starts_us(near.beat, near.bpm), near.second_struck))
                strike_mother_second(mix_.rings[3], near.beat, near.bpm, hers);
            if (due(thump_starts_us(near.beat), near.thump_struck))
                strike_thump(mix_.rings[2], near.beat, seed_,
                             mode_ == OutputMode::shifted ? raised_times : 1);
        }
    }
    for (int i = 0; i < singles_.size; ++i) {
        Single& s = singles_[i];
        if (s.starts_us < from || s.starts_us >= until) continue;
        if (s.rings)
            sim::strike(mix_.rings[3], s.ping);
        else
            sim::strike(mix_.rings[3], s.tone);
    }
}

// Her breathing, -1..1, a sine of parabolas.
double EarSound::shake(std::int64_t us) const {
    const double breaths = static_cast<double>(us) * 1e-6 * patient_.mother.breaths_per_min / 60;
    const double u = 2 * (breaths - std::floor(breaths)) - 1;
    return 4 * u * (1 - std::fabs(u));
}

void EarSound::glide() {
    for (std::size_t s = 0; s < source_count; ++s) gain_[s] += glide_share * (wanted_[s] - gain_[s]);
    noise_ += glide_share * (wanted_noise_ - noise_);
    ward_ += glide_share * (wanted_ward_ * speech_ - ward_);
    events_ += glide_share * (wanted_events_ - events_);
    contact_ += glide_share * (wanted_contact_ - contact_);
    rub_ *= rub_fades;
}

void EarSound::plan_acoustic(std::int64_t us, const Hearts& hearts) {
    constexpr double under_peak = 0.70710678;  // a blow has the RMS of the tone it is as loud as
    double trembles = contact_;
    if (chain_.tremor > 0) {
        const double u = static_cast<double>(us % 100'000) / 50'000 - 1;  // 10 Hz
        trembles *= 1 - chain_.tremor * std::fabs(u);
    }
    const auto noise = [&](Noise n, double amount) {
        plan_.noise_gain[at(n)] = static_cast<float>(amount * acoustic_.unit[at(n)]);
    };
    const double blow = blow_now(*hearts.mother, us, pulse_way, 80'000, 260'000);
    noise(Noise::souffle, trembles * under_peak * gain_[at(Source::souffle)] * blow);
    noise(Noise::vessel, trembles * 0.12 * gain_[at(Source::vessel)] * blow);
    double cord = 0;
    if (gain_[at(Source::cord_souffle)] > 0) {
        const double rr = hearts.baby[0]->size() > 0 ? 6e7 / std::max(50.0, (*hearts.baby[0])[0].bpm) : 4e5;
        for (int i = hearts.baby[0]->size() - 1; i >= 0; --i) {
            const Beat& beat = (*hearts.baby[0])[i].beat;
            const double since = static_cast<double>(us - beat.at_us) - 50'000;
            if (since > 0.6 * rr) break;
            if (is_heard(beat)) cord = std::max(cord, arch_shape(since, 0.6 * rr));
        }
    }
    noise(Noise::cord, trembles * under_peak * gain_[at(Source::cord_souffle)] * cord);
    noise(Noise::body, noise_);
    noise(Noise::ward, ward_);
    noise(Noise::friction, loudest_rub * rub_ * events_);
    const double breath = shake(us);  // 6 dB up and down: 2^breath, within 0.1
    noise(Noise::breath, breath_rms * events_ * (1 + breath * (0.75 + 0.25 * breath)));
    noise(Noise::hiss, hiss_share * noise_);

    plan_.tone_gain[0] = static_cast<float>(trembles * gain_[at(Source::baby)]);
    plan_.tone_gain[1] = static_cast<float>(trembles * gain_[at(Source::baby2)]);
    plan_.tone_gain[2] = static_cast<float>(trembles * gain_[at(Source::vessel)]);
    plan_.tone_gain[3] = static_cast<float>(events_);
}

void EarSound::plan_doppler(std::int64_t us, const Hearts& hearts) {
    doppler_.plan(us, {{hearts.baby[0], hearts.baby[1]}, hearts.mother}, gain_, 0.5 * noise_ + 0.02 * rub_,
                  plan_);
    plan_.tone_gain = {0, 0, 0, static_cast<float>(events_)};
}

void EarSound::tick(std::int64_t tick, const Hearts& hearts, float fade, float* out) {
    const std::int64_t us = tick * sound_tick_us;
    glide();
    strike(tick, hearts);
    if (beam_)
        plan_doppler(us + sound_tick_us, hearts);
    else
        plan_acoustic(us + sound_tick_us, hearts);
    plan_.sample = tick * source_samples_per_tick;
    plan_.fade = fade;
    plan_.assisted = mode_ == OutputMode::assisted && !beam_;
    make_tick(mix_, plan_, out);
    if (beam_) display_.hear(mix_.heard, tick);
}

}  // namespace sim
