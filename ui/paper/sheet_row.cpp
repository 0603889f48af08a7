#include "ui/paper/sheet_page.h"

#include "engine/attempt/event.h"
#include "engine/scoring/heard.h"
#include "engine/scoring/key.h"
#include "sim/body/abdomen.h"
#include "sim/listening.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace ui {
namespace {

constexpr double settle_s = 2;  // the instrument lies there this long before the sound is taken

// Where the minute begins whose rate is furthest from the middle of the whole labour.
double minute_that_differs(const std::vector<sim::CourseTick>& course, double length_s) {
    std::vector<double> rates;
    for (const sim::CourseTick& tick : course) rates.push_back(tick.fhr_bpm[0]);
    std::vector<double> sorted = rates;
    std::nth_element(sorted.begin(), sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2),
                     sorted.end());
    const double middle = sorted[sorted.size() / 2];
    const auto ticks = static_cast<std::size_t>(sheet_minute_s * 4), step = static_cast<std::size_t>(20);
    double best_s = 0, most = -1;
    for (std::size_t k = 0;
         static_cast<double>(k) / 4 + sheet_minute_s <= length_s && k + ticks < rates.size(); k += step) {
        double off = 0;
        for (std::size_t i = k; i < k + ticks; ++i) off += std::fabs(rates[i] - middle);
        if (off > most + 1e-6) {
            most = off;
            best_s = static_cast<double>(k) / 4;
        }
    }
    return best_s;
}

sim::Change change(sim::Change::Kind kind, double at_s) {
    sim::Change c;
    c.kind = kind;
    c.at_us = sim::labour_time(sim::Seconds{at_s}).us;
    return c;
}

std::vector<float> heard(const sim::Patient& patient, sim::Seed seed, sim::Instrument with, double x_cm,
                         double y_cm, double from_s, double for_s) {
    sim::Listening listening(patient, seed, sim::OutputMode::true_sound);
    const double placed_s = std::max(0.0, from_s - settle_s);
    std::vector<float> unheard(4800);
    if (placed_s > 0) {
        sim::Change skip = change(sim::Change::Kind::skip, 0);
        skip.skip_to_us = sim::labour_time(sim::Seconds{placed_s}).us;
        listening.apply(skip);
        while (listening.now().seconds() < placed_s) listening.render({unheard.data(), 96});
    }
    const double now_s = listening.now().seconds();
    sim::Change take = change(sim::Change::Kind::take, now_s), gel = change(sim::Change::Kind::gel, now_s),
                place = change(sim::Change::Kind::place, now_s);
    take.instrument = with;
    place.x_cm = x_cm;
    place.y_cm = y_cm;
    for (const sim::Change& c : {take, gel, place}) listening.apply(c);
    while (listening.now().seconds() < from_s) {
        const double left = (from_s - listening.now().seconds()) * sim::sample_rate;
        const auto n = static_cast<std::size_t>(std::clamp(std::round(left), 1.0, 4800.0));
        listening.render({unheard.data(), n});
    }
    std::vector<float> samples(static_cast<std::size_t>(for_s * sim::sample_rate));
    listening.render(samples);
    return samples;
}

std::vector<double> happened(std::span<const sim::Beat> train, double from_s, double to_s) {
    std::vector<double> times;
    for (const sim::Beat& beat : train) {
        const double t = static_cast<double>(beat.at_us) / 1e6;
        if (beat.kind != sim::BeatKind::dropped && t >= from_s && t < to_s) times.push_back(t);
    }
    return times;
}

std::string plain_words(std::string_view id) {
    std::string words(id);
    std::replace(words.begin(), words.end(), '_', ' ');
    return words;
}

std::string truth_of(const engine::Key& key) {
    std::string says =
        key.baseline_bpm > 0 ? fmt::format("{:.1f} a minute, ", key.baseline_bpm) : std::string();
    for (const std::string_view part :
         {engine::name_of(key.decision.source), engine::name_of(key.decision.baseline),
          engine::name_of(key.decision.around), engine::name_of(key.decision.rhythm)})
        says += plain_words(part) + ", ";
    std::string level(engine::name_of(key.level));
    for (char& c : level) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    return says + level;
}

}  // namespace

SheetRow sheet_row(const engine::Scenario& scenario, const engine::Protocol& protocol, sim::Seed seed,
                   std::optional<double> from_s) {
    SheetRow row;
    const engine::Played played = engine::untouched(scenario, seed);
    const double length_s = scenario.length.value;
    row.id = scenario.id;
    row.heading = fmt::format("{}   {}", scenario.id, scenario.title);
    row.truth = fmt::format("{}, level {}, {}. Key by {}: {}.", plain_words(engine::name_of(scenario.task)),
                            scenario.level, scenario.place.name, protocol.id,
                            truth_of(engine::key_of(scenario, protocol, seed)));
    const bool twins = played.patient.babies.size > 1;
    for (const sim::CourseTick& tick : played.course) {
        row.strip.baby.push_back(tick.fhr_bpm[0]);
        if (twins) row.strip.second_baby.push_back(tick.fhr_bpm[1]);
        row.strip.mother.push_back(tick.mhr_bpm);
        row.strip.pressure_mmhg.push_back(tick.uc_mmhg);
    }
    row.strip.length_s = length_s;
    row.strip.band = {protocol.low.bpm.value, protocol.high.bpm.value, ""};
    row.from_s = std::clamp(from_s.value_or(minute_that_differs(played.course, length_s)), 0.0,
                            std::max(0.0, length_s - sheet_minute_s));
    row.dots = {beat_dots(played.fetal, row.from_s, row.from_s + sheet_minute_s),
                beat_dots(played.fetal2, row.from_s, row.from_s + sheet_minute_s),
                beat_dots(played.maternal, row.from_s, row.from_s + sheet_minute_s),
                row.from_s,
                row.from_s + sheet_minute_s,
                protocol.low.bpm.value,
                protocol.high.bpm.value};
    const double sound_s = row.from_s + (sheet_minute_s - sheet_sound_s) / 2;
    const sim::CourseTick& now = engine::tick_at(played, sim::labour_time(sim::Seconds{sound_s}));
    for (const sim::Instrument with : scenario.place.instruments) {
        const sim::BestSpot best = sim::best_spot(played.patient, now, with);
        SheetSound sound{with, best.x_cm, best.y_cm, sound_s, -120, {}, {}};
        const std::vector<float> samples =
            heard(played.patient, seed, with, best.x_cm, best.y_cm, sound_s, sheet_sound_s);
        float peak = 0;
        for (const float v : samples) peak = std::max(peak, std::fabs(v));
        if (peak > 0) sound.peak_db = 20 * std::log10(static_cast<double>(peak));
        sound.spectrogram = spectrogram_of(samples, sound_s);
        const double to_s = sound_s + sheet_sound_s;
        sound.marks = {happened(played.fetal, sound_s, to_s), happened(played.fetal2, sound_s, to_s),
                       happened(played.maternal, sound_s, to_s)};
        row.sounds.push_back(std::move(sound));
    }
    row.strip.listened.push_back({sound_s, sound_s + sheet_sound_s});
    const sim::Surroundings& around = played.patient.surroundings;
    if (around.souffle.value > -20)
        row.rivals.push_back({false, around.souffle_x.value, around.souffle_y.value});
    if (around.vessel.value > -20) row.rivals.push_back({true, around.vessel_x.value, around.vessel_y.value});
    row.map.instrument = scenario.place.instruments.front();
    row.map.loudness = loudness_of(played.patient, now, row.map.instrument);
    row.map.heart = engine::heart_beats(played);
    return row;
}

}  // namespace ui
