// A second ear that shares nothing with the program: aubio's onset detector (Brossier 2006) on rendered
// sound, eight times as fast (sox), for it knows no pitch as low as a heart's. Onsets are first and second
// sounds alike.
#include "tests/outside/rendered.h"

using namespace sim;

namespace {

constexpr Seed seed{21};
constexpr double all_s = 30;

std::vector<double> onsets_in(const std::string& path) {
    outside::told_by("command -v sox && command -v aubioonset");
    outside::told_by("sox " + path + ".wav " + path + "-fast.wav speed 8 2>&1");
    std::vector<double> out;
    for (const std::string& line : outside::told_by(
             "aubioonset -i " + path + "-fast.wav -O energy -B 512 -H 64 -t 0.6 -M 0.009 -s -50"))
        out.push_back(8 * std::atof(line.c_str()));
    return out;
}

struct Found {
    int true_ones = 0, matched = 0, too_many = 0;
};

std::vector<float> horn_at_best(const Patient& p, Seed from = seed) {
    auto l = std::make_unique<Listening>(p, from, OutputMode::true_sound);
    scene::place(*l, Instrument::horn, 6, -7);
    return scene::heard(*l, all_s);
}

Patient heart_alone(double bpm) {
    Patient p = scene::quiet_labour();
    p.babies[0].baseline = {bpm};
    p.surroundings.souffle = {-60};
    p.surroundings.vessel = {-60};
    // Slow: her own two sounds, 17 dB down, are found too where the baby's leave room.
    p.mother.pulse = {61.7};
    return p;
}

// One onset a true sound, the nearest free one within 60 ms; `onsets` keeps what is left over.
Found laid_on(const std::vector<double>& beats, std::vector<double>& onsets) {
    std::vector<double> sounds;
    for (std::size_t i = 0; i + 1 < beats.size(); ++i) {
        sounds.push_back(beats[i]);
        sounds.push_back(beats[i] +
                         std::min(0.24, std::max(0.1, 0.255 - 0.5e-3 * 60 / (beats[i + 1] - beats[i]))));
    }
    // The sound fades in, and the last second sound may be cut.
    std::erase_if(onsets, [](double t) { return t < 0.24 || t > all_s - 0.54; });
    Found found;
    for (double t : sounds) {
        if (t < 0.3 || t > all_s - 0.6) continue;
        ++found.true_ones;
        auto best = onsets.end();
        for (auto at = onsets.begin(); at != onsets.end(); ++at)
            if (std::fabs(*at - t) < 0.06 &&
                (best == onsets.end() || std::fabs(*at - t) < std::fabs(*best - t)))
                best = at;
        if (best == onsets.end()) continue;
        ++found.matched;
        onsets.erase(best);
    }
    found.too_many = static_cast<int>(onsets.size());
    return found;
}

Found found_at(double bpm, Seed from = seed) {
    const Patient p = heart_alone(bpm);
    const std::string path = outside::path_of("onsets-" + std::to_string(static_cast<int>(bpm)));
    outside::write_wav(path + ".wav", horn_at_best(p, from));
    std::vector<double> onsets = onsets_in(path);
    Found found = laid_on(outside::beats_of(p, from, Who::fetal, all_s), onsets);
    const auto hers = outside::beats_of(p, from, Who::maternal, all_s);
    for (double at : onsets) {
        bool of_hers = false;
        for (std::size_t i = 0; i + 1 < hers.size(); ++i) {  // systole of 0.2 of the interval + 160 ms
            const double second = hers[i] + 0.2 * (hers[i + 1] - hers[i]) + 0.16;
            of_hers = of_hers || std::fabs(at - hers[i]) < 0.06 || std::fabs(at - second) < 0.06;
        }
        found.too_many -= of_hers;
    }
    return found;
}

struct Level {
    double db;
    Found found;
};

// The scene of the published figure: heart tones in noise that is white over all frequencies of 48 kHz, its
// RMS so far under the peak of a first sound; neither the mother nor her breath. At 12 and at 6 dB.
std::vector<Level> found_in_white(double bpm, Seed from) {
    Patient p = heart_alone(bpm);
    const std::string path = outside::path_of("onsets-white-" + std::to_string(from.value));
    outside::write_wav(path + "-all.wav", horn_at_best(p, from));
    const auto beats = outside::beats_of(p, from, Who::fetal, all_s);
    outside::write_truth(path + ".txt", beats);
    p.babies[0].heart_beats = false;
    outside::write_wav(path + "-still.wav", horn_at_best(p, from));
    std::vector<Level> levels{{12, {}}, {6, {}}};
    std::string asked;
    for (const Level& l : levels) {
        const std::string db = std::to_string(static_cast<int>(l.db));
        asked += (asked.empty() ? " white " : " -- white ") + path + "-all.wav " + path + "-still.wav " +
                 path + ".txt " + path + "-" + db + ".wav 2 28 " + db;
    }
    outside::told_by("/usr/bin/python3 " FULLMINUTE_SOURCE_DIR "/tests/outside/acceptance.py" + asked);
    for (Level& l : levels) {
        std::vector<double> onsets = onsets_in(path + "-" + std::to_string(static_cast<int>(l.db)));
        l.found = laid_on(beats, onsets);
    }
    return levels;
}

// Published for 30 s, measured on an independent synthesis: every first and second sound at 12 dB with one to
// three onsets too many, and these shares at 6 dB.
struct Published {
    double bpm, at_6_db;
};
constexpr Published published[] = {{60.3, 1}, {110.4, 0.99}, {140.3, 0.98}, {180.6, 0.90}, {219.7, 0.86}};

}  // namespace

TEST_CASE(
    "aubio on 30 s in white noise at 60, 110, 140, 180, 220 bpm: every first and second sound at 12 dB, "
    "three "
    "too many at most, and the published shares at 6 dB",
    "[onsets]") {
    for (const Published& row : published)
        for (const auto& [db, found] : found_in_white(row.bpm, seed)) {
            CAPTURE(row.bpm, db, found.true_ones, found.matched, found.too_many);
            CHECK(found.true_ones > 50);
            CHECK(found.matched >= (db > 9 ? 1 : row.at_6_db) * found.true_ones);
            CHECK(found.too_many <= 3);
        }
}

TEST_CASE("aubio in white noise, eight more seeds: every sound at 12 dB, the published shares at 6 dB",
          "[onsets][.slow]") {
    for (const Published& row : published) {
        Found at_12, at_6;
        for (std::uint64_t number = 22; number <= 29; ++number)
            for (const auto& [db, found] : found_in_white(row.bpm, Seed{number})) {
                Found& sum = db > 9 ? at_12 : at_6;
                sum.true_ones += found.true_ones;
                sum.matched += found.matched;
                CHECK(found.too_many <= 3);
            }
        CAPTURE(row.bpm, at_12.true_ones, at_12.matched, at_6.matched);
        CHECK(at_12.true_ones > 8 * 50);
        CHECK(at_12.matched == at_12.true_ones);
        // Of 60 sounds in one run none was missed at 60 bpm; one of our 466 in eight runs is.
        CHECK(at_6.matched >= (row.bpm < 100 ? 0.997 : row.at_6_db) * at_6.true_ones);
    }
}

// The whole scene has noise of the body in the heart's own band, which the figure's had not: plain kernels in
// noise of 20 to 150 Hz, 12 dB, make the detector miss one sound in five and find 16 to 38 too many a run (an
// independent synthesis in SciPy). Ours is heard whole; from 140 bpm up no gap is long enough for more than
// three of the noise. Below, the figure does not say how many, and nothing is asked.
TEST_CASE(
    "aubio finds every first and second sound of 30 s of the whole scene at 60, 110, 140, 180, 220 bpm, "
    "three "
    "too many at most from 140 up",
    "[onsets]") {
    for (const auto& [bpm, share] : published) {
        const Found found = found_at(bpm);
        CAPTURE(bpm, found.true_ones, found.matched, found.too_many);
        CHECK(found.true_ones > 50);
        CHECK(found.matched == found.true_ones);
        if (bpm > 120) CHECK(found.too_many <= 3);
    }
}

TEST_CASE(
    "aubio finds 99.8 % at least of the sounds of ten more seeds, 2 too many on average from 110 bpm up",
    "[onsets][.slow]") {
    int sounds = 0, matched = 0, too_many = 0;
    for (std::uint64_t number = 31; number <= 40; ++number)
        for (double bpm : {110.4, 140.3, 180.6, 219.7}) {
            const Found found = found_at(bpm, Seed{number});
            sounds += found.true_ones;
            matched += found.matched;
            too_many += found.too_many;
        }
    CAPTURE(sounds, matched, too_many);
    CHECK(matched >= 0.998 * sounds);
    CHECK(too_many <= 2 * 40);
}
