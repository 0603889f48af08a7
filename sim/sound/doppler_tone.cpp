#include "sim/sound/doppler_tone.h"

#include "sim/exact_math.h"
#include "sim/random.h"
#include "sim/sound/envelopes.h"

#include <algorithm>
#include <cmath>

namespace sim {

namespace {

struct Event {
    Echo lane;
    double ms, width_ms, size;  // after the electrical start of the beat; width at half height
};

// At an interval of 430 ms: valve timing after Suzuki 1984 and Khandoker; widths and sizes [practice]. The
// contraction of the atria belongs to the beat that follows it.
constexpr std::array<Event, 6> events = {{{Echo::atrial, -55, 60, 0.45},
                                          {Echo::wall, 45, 45, 0.8},
                                          {Echo::opening, 77, 25, 0.7},
                                          {Echo::ejection, 140, 90, 0.6},
                                          {Echo::closing, 235, 25, 0.6},
                                          {Echo::wall, 285, 60, 0.5}}};
constexpr double first_sound_ms = 45, usual_interval_s = 0.43, largest = 0.8;
constexpr double reaches_us = 600'000;

// A beam that meets walls alone: the wall goes in and comes out again, two like bursts, the second lower.
// Apart, and wide at half height, by these shares of an interval [practice].
constexpr double walls_apart = 0.47, wall_share = 0.11, wall_size = 0.6;

// The faster the heart, the less time it has to fill, and the more one beat differs from the next as a whole,
// from an interval of 375 ms down; log-normal, this from 273 ms down [practice; the size is fitted to
// published shares of halved readings, see tests/outside/doppler_number.cpp].
constexpr double fills_fully_s = 0.375, fills_little_s = 0.273, fills_unevenly = 0.3;

double unevenness(double interval_s) {
    return fills_unevenly *
           std::clamp((fills_fully_s - interval_s) / (fills_fully_s - fills_little_s), 0.0, 1.0);
}

// In a fast rhythm without any variability (a circuit) the walls move less at every other beat; the valves
// open and close as ever [memory: alternation in tachycardia; size: practice].
constexpr double circuit_under_s = 0.3, circuit_alternates = 0.36;

constexpr double under_peak = 0.5;  // a burst's RMS against a peak of its level

// The receiver's own gain: up to 18 dB more when little comes back, 6 dB less when much does; quick to turn
// down, slow to turn up [practice].
constexpr double wanted_rms = 0.055, most_gain = 8, least_gain = 0.5;
constexpr double attack = 0.0392, release = 0.00133;  // 50 ms and 1.5 s at 2 ms a tick

std::size_t at(Source s) { return static_cast<std::size_t>(s); }
std::size_t at(Echo e) { return static_cast<std::size_t>(e); }

}  // namespace

DopplerTone::DopplerTone(const Patient& patient, Seed seed)
    : seed_(seed),
      carrier_mhz_(patient.surroundings.doppler_mhz),
      square_(echo_shapes(patient.surroundings.doppler_mhz)) {
    for (int b = 0; b < patient.babies.size; ++b) {
        meets_[static_cast<std::size_t>(b)] = patient.babies[b].beam_meets;
        steady_[static_cast<std::size_t>(b)] = patient.babies[b].variability == Variability::minimal;
    }
}

NoiseShapes DopplerTone::shapes(double tilt_deg) const {
    return leaned(square_, carrier_mhz_, std::max(0.5, exact_cos(tilt_deg * pi / 180)));
}

void DopplerTone::start(double aim) {
    heard_ = wanted_rms;
    if (cell_ >= 0) look(aim);
}

void DopplerTone::pass_cell(const CourseTick& now, std::int64_t cell) {
    cell_ = cell;
    restless_[static_cast<std::size_t>(cell % cells_remembered)] =
        static_cast<std::uint8_t>((now.in_contraction ? 2 : 1) * (now.moving ? 5 : 1));
}

// Lost and found: well aimed (0.8) 40 s of good sound and 4 s without, more often lost while she contracts or
// the baby moves [practice]. Each cell's draw loses the heart, finds it or leaves it as it is, and the last
// that did either tells: two states with those mean lengths, though nothing is remembered. A beam moved onto
// the heart hears it at once.
bool DopplerTone::slipped_out(double aim) const {
    const double quality = std::clamp(aim, 0.1, 1.0) / 0.8;
    const double loses = 0.25 / 40 / quality, finds = 0.25 / 4 * quality;
    const std::int64_t first = std::max<std::int64_t>(0, cell_ - cells_remembered + 1);
    for (std::int64_t cell = cell_; cell >= first; --cell) {
        const double u = uniform(seed_, Stream::dropout, static_cast<std::uint64_t>(cell));
        if (u < loses * restless_[static_cast<std::size_t>(cell % cells_remembered)]) return true;
        if (u >= 1 - finds) return false;
    }
    return false;  // one cell in 10^6
}

void DopplerTone::look(double aim) {
    // The beam drifts over the heart: sometimes clicks lead, sometimes walls. New weights each 8 s, straight
    // between.
    constexpr std::int64_t node = 32;
    const double part = static_cast<double>(cell_ % node) / node;
    for (std::uint32_t i = 0; i < events.size(); ++i) {
        const auto n = static_cast<std::uint64_t>(cell_ / node);
        const double drift =
            (1 - part) * gaussian(seed_, Stream::aim, n, i) + part * gaussian(seed_, Stream::aim, n + 1, i);
        weights_[i] = std::clamp(exact_exp2(0.6 * drift), 0.3, 2.0);
    }
    lost_ = slipped_out(aim);
}

void DopplerTone::add_heart(std::int64_t us, int baby, const BeatQueue& beats, double gain,
                            Amounts& amounts) const {
    const bool walls = meets_[static_cast<std::size_t>(baby)] == BeamMeets::walls_only;
    const bool steady = steady_[static_cast<std::size_t>(baby)];
    for (int i = beats.size() - 1; i >= 0; --i) {
        const NearBeat& near = beats[i];
        const double since = static_cast<double>(us - near.beat.at_us);
        if (since > reaches_us) break;
        if (since < -reaches_us || !is_heard(near.beat)) continue;
        const double interval_s = 60 / std::max(50.0, near.bpm);
        const auto chance = [&](std::uint32_t e) {
            return exact_exp(0.2 * gaussian(seed_, for_baby(Stream::doppler_tone, baby),
                                            static_cast<std::uint64_t>(near.beat.number), e));
        };
        if (walls) {
            for (std::uint32_t e = 0; e < 2; ++e) {
                const double interval_us = interval_s * 1e6;
                const double shape =
                    bell_shape(since - e * walls_apart * interval_us, wall_share * interval_us);
                if (shape > 0)
                    amounts[at(e == 0 ? Echo::wall : Echo::atrial)] +=
                        gain * shape * wall_size / largest * weights_[0] * chance(e);
            }
            continue;
        }
        // Systole is squeezed less than the whole interval.
        const double squeezed =
            1 - 0.25 * std::clamp((usual_interval_s - interval_s) / usual_interval_s, -0.6, 0.6);
        const bool circuit = steady && interval_s < circuit_under_s;
        const double walls_move = circuit && near.beat.number % 2 != 0 ? 1 - circuit_alternates : 1;
        const double fills = exact_exp((circuit ? 0 : unevenness(interval_s)) *
                                       gaussian(seed_, for_baby(Stream::doppler_tone, baby),
                                                static_cast<std::uint64_t>(near.beat.number), events.size()));
        for (std::uint32_t e = 0; e < events.size(); ++e) {
            const Event& event = events[e];
            const double ms = (event.ms < 0 ? event.ms : event.ms * squeezed) - first_sound_ms * squeezed;
            const double shape = bell_shape(since - ms * 1e3, event.width_ms * 1e3);
            if (shape <= 0) continue;
            const bool click = event.lane == Echo::opening || event.lane == Echo::closing;
            amounts[at(event.lane)] += gain * fills * (click ? 1 : walls_move) * shape * event.size /
                                       largest * weights_[e] * chance(e);
        }
    }
}

// An artery's pitch runs from 200 to 900 and back to 300 Hz [memory]: the high band is the louder, rises last
// and dies first. The womb's bed is a soft low blow; a cord has its artery's blow and its vein's steady hiss,
// without clicks.
void DopplerTone::add_vessels(std::int64_t us, const Hearts& hearts,
                              const std::array<double, source_count>& gain, Amounts& amounts) const {
    const double artery = gain[at(Source::vessel)], bed = gain[at(Source::souffle)];
    const double cord = gain[at(Source::cord_souffle)];
    double low = 0, high = 0;
    if (artery > 1e-5) {
        low += 0.5 * artery * blow_now(*hearts.mother, us, 100'000, 60'000, 320'000);
        high += 1.4 * artery * blow_now(*hearts.mother, us, 130'000, 50'000, 170'000);
    }
    if (bed > 1e-5) low += bed * (0.3 + 0.7 * blow_now(*hearts.mother, us, 120'000, 120'000, 350'000));
    if (cord > 1e-5) {
        const BeatQueue& beats = *hearts.baby[0];
        const double interval = beats.size() > 0 ? 6e7 / std::max(50.0, beats[0].bpm) : 4e5;
        const double blow = blow_now(beats, us, 60'000, 50'000, 0.6 * interval);
        low += cord * (0.25 + blow);
        high += 0.5 * cord * blow;
    }
    amounts[at(Echo::artery_low)] = low;
    amounts[at(Echo::artery_high)] = high;
}

void DopplerTone::plan(std::int64_t us, const Hearts& hearts, const std::array<double, source_count>& gain,
                       double hiss, TickPlan& plan) {
    Amounts amounts{};
    const double lost = lost_ ? 0.06 : 1;
    for (int b = 0; b < 2; ++b) {
        const double heart = gain[static_cast<std::size_t>(b)] * lost;  // Source::baby, Source::baby2
        if (heart > 1e-5) add_heart(us, b, *hearts.baby[static_cast<std::size_t>(b)], heart, amounts);
    }
    add_vessels(us, hearts, gain, amounts);

    double power = hiss * hiss;
    for (double amount : amounts) power += under_peak * under_peak * amount * amount;
    const double rms = std::sqrt(power);
    heard_ += (rms > heard_ ? attack : release) * (rms - heard_);
    const double turned_up = std::clamp(wanted_rms / std::max(heard_, 1e-6), least_gain, most_gain);

    for (std::size_t lane = 0; lane < lane_count; ++lane)
        plan.noise_gain[lane] =
            static_cast<float>(turned_up * under_peak * amounts[lane] * square_.unit[lane]);
    plan.noise_gain[at(Echo::hiss)] = static_cast<float>(turned_up * hiss * square_.unit[at(Echo::hiss)]);
}

}  // namespace sim
