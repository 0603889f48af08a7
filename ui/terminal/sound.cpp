#include "engine/attempt/attempt.h"
#include "sim/body/abdomen.h"
#include "sim/listening.h"
#include "ui/terminal/commands.h"
#include "ui/terminal/input_output.h"
#include "ui/terminal/wav.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace ui {
namespace {

// "X,Y" in centimetres.
std::pair<double, double> point(const std::string& text) {
    double x = 0, y = 0;
    const char* end = text.data() + text.size();
    const auto first = std::from_chars(text.data(), end, x);
    if (first.ec == std::errc{} && first.ptr != end && *first.ptr == ',') {
        const auto second = std::from_chars(first.ptr + 1, end, y);
        if (second.ec == std::errc{} && second.ptr == end && std::abs(x) <= 16 && y >= -18 && y <= 20)
            return {std::round(x * 100) / 100, std::round(y * 100) / 100};
    }
    refuse("--at", text, "X,Y in centimetres from the navel, X -16 to 16, Y -18 to 20; or best");
}

sim::Change at(double t_s, sim::Change::Kind kind) {
    sim::Change change;
    change.kind = kind;
    change.at_us = sim::labour_time(sim::Seconds{t_s}).us;
    return change;
}

// What the hands do for one placing: skip to `from`, take, gel, place.
std::vector<sim::Change> placing(const SoundOptions& options, const sim::Patient& patient, sim::Seed seed,
                                 const engine::Scenario& scenario, double& x, double& y) {
    const sim::Instrument instrument = the_instrument(options.with);
    if (options.press_n < 0 || options.press_n > 30)
        refuse("--press", fmt::format("{:g}", options.press_n), "0 to 30 newtons");
    std::vector<sim::Change> changes = the_acts(options.acts, scenario);
    if (options.at == "best") {
        const auto ticks = sim::course_over(patient, seed, changes, scenario.length);
        const auto best =
            sim::best_spot(patient, ticks[static_cast<std::size_t>(options.from_s * 4)], instrument);
        x = best.x_cm;
        y = best.y_cm;
    } else {
        std::tie(x, y) = point(options.at);
    }
    sim::Change take = at(options.from_s, sim::Change::Kind::take);
    take.instrument = instrument;
    sim::Change gel = at(options.from_s, sim::Change::Kind::gel);
    gel.gel = true;
    sim::Change place = at(options.from_s, sim::Change::Kind::place);
    place.x_cm = x;
    place.y_cm = y;
    place.press_n = static_cast<float>(options.press_n);
    changes.insert(changes.end(), {take, gel, place});
    std::stable_sort(changes.begin(), changes.end(),
                     [](const sim::Change& a, const sim::Change& b) { return a.at_us < b.at_us; });
    return changes;
}

std::vector<float> rendered(sim::Listening& listening, const std::vector<sim::Change>& changes, double from_s,
                            double for_s) {
    constexpr std::size_t block = 4800;
    std::vector<float> unheard(block), heard;
    const auto samples_at = [](double s) {
        return static_cast<std::int64_t>(std::llround(s * sim::sample_rate));
    };
    std::int64_t now = 0;
    const std::int64_t first = samples_at(from_s), end = samples_at(from_s + for_s);
    heard.resize(static_cast<std::size_t>(end - first));
    std::size_t next = 0;
    while (now < end) {
        while (next < changes.size() && samples_at(static_cast<double>(changes[next].at_us) / 1e6) <= now)
            listening.apply(changes[next++]);
        std::int64_t until = now < first ? first : end;
        if (next < changes.size())
            until = std::min(until, samples_at(static_cast<double>(changes[next].at_us) / 1e6));
        until = std::max(until, now + 1);
        const auto count = static_cast<std::size_t>(until - now);
        if (now < first) {
            const std::size_t part = std::min(count, block);
            listening.render({unheard.data(), part});
            now += static_cast<std::int64_t>(part);
        } else {
            listening.render({heard.data() + (now - first), count});
            now = until;
        }
    }
    return heard;
}

double decibels(double x) { return x > 0 ? std::round(200 * std::log10(x)) / 10 : -120; }

}  // namespace

// What reaches the ear, from a placing or from the events of an attempt.
int sound(const SoundOptions& options) {
    const engine::Scenario scenario = the_scenario(options.scenario);
    const sim::Seed seed = the_seed(options.seed);
    const sim::OutputMode mode = the_mode(options.mode);
    const double length = scenario.length.value;
    if (options.from_s < 0 || options.from_s >= length)
        refuse("--from", fmt::format("{:g}", options.from_s), fmt::format("0 to under {:g} s", length));
    if (options.for_s <= 0 || options.from_s + options.for_s > length)
        refuse(
            "--for", fmt::format("{:g}", options.for_s),
            fmt::format("over 0 to {:g} s (the scenario ends at {:g} s)", length - options.from_s, length));
    const sim::Patient patient = scenario.patient(seed);

    double x = 0, y = 0;
    std::vector<sim::Change> changes;
    if (options.events.empty()) {
        changes = placing(options, patient, seed, scenario, x, y);
    } else {
        for (const engine::Event& event :
             or_refuse(engine::read_events(read_file(options.events), options.events)))
            if (const auto change = engine::change_of(event)) changes.push_back(*change);
    }
    sim::Listening listening(patient, seed, mode);
    const std::vector<float> samples = rendered(listening, changes, options.from_s, options.for_s);
    write_wav(options.out, samples, options.float_samples, seed);

    if (options.json) {
        double peak = 0, power = 0;
        for (const float s : samples) {
            peak = std::max(peak, std::abs(static_cast<double>(s)));
            power += static_cast<double>(s) * static_cast<double>(s);
        }
        nlohmann::ordered_json answer{
            {"out", options.out},
            {"samples", samples.size()},
            {"peak_dbfs", decibels(peak)},
            {"rms_dbfs", decibels(std::sqrt(power / static_cast<double>(samples.size())))}};
        if (options.events.empty()) answer["at"] = {{"x", x}, {"y", y}};
        if (options.out != "-") write_out("-", answer.dump(2) + "\n");
    }
    return fine;
}

}  // namespace ui
