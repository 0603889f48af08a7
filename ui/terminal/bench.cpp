#include "engine/scoring/replay.h"
#include "sim/beats/beat_train.h"
#include "sim/body/abdomen.h"
#include "sim/listening.h"
#include "sim/sound/heart_tone.h"
#include "ui/files.h"
#include "ui/terminal/bench_cohort.h"
#include "ui/terminal/commands.h"
#include "ui/terminal/input_output.h"

#include <algorithm>
#include <array>
#include <ctime>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <vector>

namespace ui {
namespace {

struct Figure {
    std::string what;
    double value = 0;
    std::string unit;
    double budget = 0;
    bool more_is_better = false;

    bool met() const { return more_is_better ? value >= budget : value <= budget; }
};

// Seconds of this thread's own processor time: other work on the machine counts little.
double thread_seconds() {
    timespec now{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

template <typename Work>
double seconds_of(Work work) {
    const double start = thread_seconds();
    work();
    return thread_seconds() - start;
}

// The middle one of three: a machine that is interrupted once does not decide.
template <typename Work>
double median_seconds_of(Work work) {
    std::array<double, 3> runs{};
    for (double& one : runs) one = seconds_of(work);
    std::sort(runs.begin(), runs.end());
    return runs[1];
}

sim::Change change(sim::Change::Kind kind) {
    sim::Change made;
    made.kind = kind;
    return made;
}

sim::Listening placed(const sim::Patient& patient, sim::Instrument instrument, sim::OutputMode mode, double x,
                      double y) {
    sim::Listening listening(patient, {1}, mode);
    sim::Change take = change(sim::Change::Kind::take);
    take.instrument = instrument;
    listening.apply(take);
    listening.apply(change(sim::Change::Kind::gel));
    sim::Change place = change(sim::Change::Kind::place);
    place.x_cm = x;
    place.y_cm = y;
    listening.apply(place);
    return listening;
}

// Two hearts, both souffles, room, bowel through the horn: the work of the first budget row.
sim::Patient plain_mix() {
    sim::Patient patient;
    sim::Baby first, second;
    second.back = sim::Back::right_front;
    second.baseline = {151.7};
    patient.babies.add(first);
    patient.babies.add(second);
    patient.surroundings.souffle = {-6};
    patient.surroundings.cord_souffle = {-6};
    patient.surroundings.cord_x = {3};
    patient.surroundings.cord_y = {-3};
    patient.surroundings.souffle_x = {2};
    patient.surroundings.souffle_y = {-9};
    patient.surroundings.bowel_per_min = 10;
    patient.surroundings.ladder = sim::Ladder::normal;
    return patient;
}

sim::Patient hard_mix() {
    sim::Patient patient = plain_mix();
    patient.surroundings.ladder = sim::Ladder::very_hard;
    patient.surroundings.ward = {-10};
    patient.surroundings.vessel = {-3};
    patient.surroundings.bowel_per_min = 20;
    patient.surroundings.knocks_per_min = 3;
    patient.babies[0].movements_per_10min = 30;
    return patient;
}

double times_real(const sim::Listening& start, double seconds) {
    std::vector<float> out(sim::sample_rate);
    const double took = median_seconds_of([&] {
        sim::Listening listening = start;
        for (int s = 0; s < static_cast<int>(seconds); ++s) listening.render(out);
    });
    return seconds / took;
}

// Worst share of a block's period spent in it, controls moving; 256 frames.
std::pair<double, double> callback_shares(double seconds) {
    constexpr std::size_t frames = 256;
    constexpr double period = static_cast<double>(frames) / sim::sample_rate;
    sim::Listening listening =
        placed(plain_mix(), sim::Instrument::doppler, sim::OutputMode::assisted, 6, -7);
    std::vector<float> out(frames);
    std::vector<double> shares;
    const auto blocks = static_cast<std::size_t>(seconds / period);
    shares.reserve(blocks);
    for (std::size_t b = 0; b < blocks; ++b) {
        sim::Change move = change(sim::Change::Kind::move);
        move.at_us = listening.now().us;
        move.x_cm = 6 + 0.05 * static_cast<double>(b % 40);
        move.y_cm = -7;
        shares.push_back(seconds_of([&] {
                             if (b % 4 == 0) listening.apply(move);
                             listening.render(out);
                         }) /
                         period);
    }
    std::sort(shares.begin(), shares.end());
    return {100 * shares[shares.size() * 999 / 1000], 100 * shares.back()};
}

// One beat, first and second sound, with all that is drawn for it; microseconds.
double beat_struck_us(double share) {
    sim::Patient patient = plain_mix();
    const sim::HeartVoice voice = sim::heart_voice(patient, 0, {1}, sim::OutputMode::true_sound);
    sim::ToneRing ring;
    const int many = static_cast<int>(20'000 * share);
    const double took = median_seconds_of([&] {
        for (int n = 0; n < many; ++n) {
            sim::Beat beat;
            beat.number = n;
            beat.at_us = 430'000LL * n;
            sim::strike_first(ring, voice, beat, 1);
            sim::strike_second(ring, voice, beat, 140, 1);
        }
    });
    if (!(ring.samples[0] == ring.samples[0])) refuse("bench", "not a number", "a sound");
    return took * 1e6 / many;
}

engine::JudgedAttempt walk_attempt() {
    const engine::Scenario scenario = the_scenario("p03");
    const engine::Protocol protocol = the_protocol("");
    engine::Attempt made;
    const std::string walk = data_folder() + "/scenarios/walk.json";
    made.events = or_refuse(engine::read_events(read_file(walk), walk));
    made.scenario_text = scenario.text;
    made.protocol_text = protocol.text;
    made.header.scenario_id = scenario.id;
    made.header.scenario_sha256 = scenario.sha256;
    made.header.protocol_id = protocol.id;
    made.header.protocol_sha256 = protocol.sha256;
    return or_refuse(engine::judge_attempt(std::move(made), walk));
}

std::vector<Figure> measured(double share) {
    std::vector<Figure> figures;
    const double sound_s = 600 * share;
    const auto plain = placed(plain_mix(), sim::Instrument::horn, sim::OutputMode::true_sound, 6, -7);
    figures.push_back({"mix_plain", times_real(plain, sound_s), "x real time", 2000, true});
    const auto hard = placed(hard_mix(), sim::Instrument::doppler, sim::OutputMode::assisted, 6, -7);
    figures.push_back({"mix_hard", times_real(hard, sound_s), "x real time", 1000, true});
    figures.push_back({"beat_struck", beat_struck_us(share), "us", 10});
    const auto [usual, worst] = callback_shares(sound_s);
    figures.push_back({"callback_256_p999", usual, "% of period", 5});
    figures.push_back({"callback_256_worst", worst, "% of period", 5});

    sim::Patient patient;
    patient.babies.add({});
    patient.babies[0].events.add({});
    std::size_t kept = 0;
    const double hour = median_seconds_of([&] {
        const auto ticks = sim::course_over(patient, {1}, {}, sim::Seconds{3600});
        kept += sim::beats_over(patient, {1}, sim::Who::fetal, ticks).size();
        kept += sim::beats_over(patient, {1}, sim::Who::maternal, ticks).size();
    });
    figures.push_back({"course_and_beats_60_min", hour * 1e3, "ms", 5});
    {
        std::vector<sim::CourseTick> steady(static_cast<std::size_t>(1e6 * share / 150 * 60 * 4));
        for (sim::CourseTick& tick : steady) tick.fhr_bpm[0] = 150;
        const double million =
            median_seconds_of([&] { kept += sim::beats_over(patient, {1}, sim::Who::fetal, steady).size(); });
        figures.push_back({"beats_1000000", million / share, "s", 0.15});
    }
    const engine::JudgedAttempt walk = walk_attempt();
    const double one = median_seconds_of([&] {
        const auto played = engine::play(walk.scenario, walk.protocol, {1}, walk.attempt.events);
        kept += engine::judge(walk.scenario, walk.protocol, played).aspects.size();
    });
    const double minutes = static_cast<double>(walk.played.end.us) / 60e6;
    figures.push_back({"replay_and_score_10_min", one * 1e3 * 10 / minutes, "ms", 2});
    figures.push_back({"replay_and_score_10000", one * 1e4 * 10 / minutes, "s", 20});
    const CohortTimes cohort = cohort_times(share);
    figures.push_back({"cohort_memory", cohort.memory_ms, "ms", 20});
    figures.push_back({"cohort_csv", cohort.csv_s, "s", 0.1});
    figures.push_back({"cohort_store", cohort.store_s, "s", 1});
    figures.push_back({"cohort_growth", cohort.growth, "x of linear", 1.5});
    if (kept == 0) refuse("bench", "no work done", "work");
    return figures;
}

}  // namespace

int bench(const BenchOptions& options) {
    std::vector<Figure> figures;
    // First of all: its memory and its first screen are those of a program that has done nothing yet.
    if (options.measure_window)
        for (const WindowFigure& f : options.measure_window())
            figures.push_back({f.what, f.value, f.unit, f.budget});
    for (Figure& f : measured(options.quick ? 0.1 : 1.0)) figures.push_back(std::move(f));
    bool all_met = true;
    nlohmann::ordered_json list = nlohmann::ordered_json::array();
    for (const Figure& figure : figures) {
        all_met = all_met && figure.met();
        list.push_back({{"what", figure.what},
                        {"value", figure.value},
                        {"unit", figure.unit},
                        {"budget", figure.budget},
                        {"met", figure.met()}});
        if (!options.json)
            fmt::print("{:<26} {:>10.3f} {:<12} budget {} {:<8g} {}\n", figure.what, figure.value,
                       figure.unit, figure.more_is_better ? ">=" : "<=", figure.budget,
                       figure.met() ? "met" : "MISSED");
    }
    if (options.json) write_out("-", list.dump(2) + "\n");
    return options.strict && !all_met ? answered_no : fine;
}

}  // namespace ui
