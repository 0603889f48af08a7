// Rendered sound counted by an independent estimator: SciPy's Hilbert envelope and an autocorrelation of our
// own writing in Python, which shares no code with the program (estimate_rate.py).
#include "tests/outside/rendered.h"

#include <array>
#include <cstdio>

using namespace sim;

namespace {

constexpr double from_s = 15, for_s = 20;

struct Scene {
    const char* name;
    const char* kind;
    Instrument instrument;
    double x, y;
    OutputMode mode;
};

struct Estimate {
    double bpm = 0, strength = 0;
};

std::vector<Estimate> estimated(const Patient& p, std::span<const Scene> scenes, Seed seed) {
    std::string command = std::string("/usr/bin/python3 ") + FULLMINUTE_SOURCE_DIR +
                          "/tests/outside/estimate_rate.py --from 15 --for 20";
    for (const Scene& s : scenes) {
        auto l = std::make_unique<Listening>(p, seed, s.mode);
        scene::place(*l, s.instrument, s.x, s.y);
        const std::string path = std::string(FULLMINUTE_BINARY_DIR) + "/estimated-" + s.name + ".wav";
        outside::write_wav(path, scene::heard(*l, from_s + for_s));
        command += std::string(" ") + s.kind + ":" + path;
    }
    std::vector<Estimate> out;
    for (const std::string& line : outside::told_by(command)) {
        Estimate e;
        REQUIRE(std::sscanf(line.c_str(), "%lf %lf", &e.bpm, &e.strength) == 2);
        out.push_back(e);
    }
    REQUIRE(out.size() == scenes.size());
    return out;
}

double true_rate(const Patient& p, Who who, Seed seed) {
    const auto train = beats_over(p, seed, who, course_over(p, seed, {}, {40}));
    return rate_between(train, labour_time({from_s}), labour_time({from_s + for_s})).value;
}

void check_both_rates(Seed seed, double within_bpm) {
    Patient p = scene::quiet_labour();
    p.babies[0].baseline = {141.3};
    p.mother.pulse = {87.6};
    p.surroundings.vessel = {-4};
    p.surroundings.souffle = {-8};
    const Scene scenes[] = {
        {"horn-best", "tones", Instrument::horn, 6, -7, OutputMode::true_sound},
        {"bell-best", "tones", Instrument::bell, 6, -7, OutputMode::true_sound},
        {"horn-raised", "raised", Instrument::horn, 6, -7, OutputMode::shifted},
        {"doppler-best", "doppler", Instrument::doppler, 6, -7, OutputMode::true_sound},
        {"horn-small-speaker", "assisted", Instrument::horn, 6, -7, OutputMode::assisted},
        {"horn-artery", "tones", Instrument::horn, -5, -13, OutputMode::true_sound},
        {"doppler-artery", "doppler", Instrument::doppler, -5, -13, OutputMode::true_sound},
        {"horn-souffle", "blow", Instrument::horn, -8, -9, OutputMode::true_sound},
    };
    const auto found = estimated(p, scenes, seed);
    const double baby = true_rate(p, Who::fetal, seed), mother = true_rate(p, Who::maternal, seed);
    REQUIRE(baby > mother + 30);
    for (std::size_t i = 0; i < found.size(); ++i) {
        CAPTURE(seed.value, scenes[i].name, found[i].strength);
        CHECK(found[i].bpm == Approx(i < 5 ? baby : mother).margin(within_bpm));
        CHECK(found[i].strength > 0.25);
    }
}

// Highest autocorrelation of three sounds in which nothing beats.
std::array<double, 3> without_rhythm(Seed seed) {
    Patient p = scene::quiet_labour();
    p.babies[0].heart_beats = false;
    p.surroundings.vessel = {-60};
    p.surroundings.souffle = {-60};
    const Scene scenes[] = {
        {"no-heart-horn", "tones", Instrument::horn, 6, -7, OutputMode::true_sound},
        {"no-heart-doppler", "doppler", Instrument::doppler, 6, -7, OutputMode::true_sound}};
    const auto dead = estimated(p, scenes, seed);
    p.babies[0].heart_beats = true;
    const Scene off[] = {{"doppler-off", "doppler", Instrument::doppler, 11.5, -7, OutputMode::true_sound}};
    return {dead[0].strength, dead[1].strength, estimated(p, off, seed)[0].strength};
}

}  // namespace

// Own requirement: within 1 bpm of the beat train at the right place, of the mother's beats at the wrong one;
// a scene without a heart gives no rhythm (autocorrelation under 0.25).
TEST_CASE("SciPy counts the baby at the best spot and the mother at her artery, each within 1 bpm",
          "[estimated_rate]") {
    check_both_rates({21}, 1);
}

TEST_CASE("SciPy finds no rhythm where there is none: no heart, nothing of the mother; Doppler off the heart",
          "[estimated_rate]") {
    for (const double strength : without_rhythm({21})) CHECK(strength < 0.25);
}

// One of 160 rates, her artery through a horn, is 1.006 bpm off. The highest of 191 correlations in 20 s of
// noise passes 0.25 by chance now and then.
TEST_CASE(
    "SciPy counts both within 1.1 bpm over 20 seeds; of 60 sounds without a beat at most three pass 0.25",
    "[estimated_rate][.slow]") {
    int passed = 0;
    for (std::uint64_t number = 1; number <= 20; ++number) {
        check_both_rates({number}, 1.1);
        for (const double strength : without_rhythm({number})) {
            passed += strength >= 0.25;
            CHECK(strength < 0.35);
        }
    }
    CHECK(passed <= 3);
}
