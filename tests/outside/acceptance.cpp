// The acceptance list of the sound, line by line, each judged by SciPy (acceptance.py) or by arithmetic on
// the truth. Bounds: own requirement. Variability and its bands are in population.cpp.
#include "tests/outside/rendered.h"

#include <array>
#include <bit>
#include <sstream>

using namespace sim;

namespace {

constexpr Seed seed{21};
constexpr double from_s = 5, to_s = 35, all_s = 37;
constexpr double rates[] = {60.3, 110.4, 140.3, 180.6, 219.7};  // decades would flatter a count

Patient alone(double bpm, Ladder ladder) {
    Patient p = scene::quiet_labour();
    p.babies[0].baseline = {bpm};
    p.surroundings.souffle = {-60};
    p.surroundings.vessel = {-60};
    p.surroundings.ladder = ladder;
    return p;
}

std::vector<float> heard(const Patient& p, OutputMode mode = OutputMode::true_sound, double seconds = all_s,
                         std::size_t block = 512, double x = 6, double y = -7, Seed from = seed) {
    auto l = std::make_unique<Listening>(p, from, mode);
    scene::place(*l, Instrument::horn, x, y);
    return scene::heard(*l, seconds, block);
}

std::string rendered(const std::string& name, const Patient& p, Seed from = seed) {
    const std::string path = outside::path_of("accept-" + name);
    outside::write_wav(path + ".wav", heard(p, OutputMode::true_sound, all_s, 512, 6, -7, from));
    outside::write_truth(path + ".txt", outside::beats_of(p, from, Who::fetal, all_s));
    return path;
}

std::string measured(const std::string& what, const std::string& path, const std::string& more = "") {
    const bool with_truth = what == "count" || what == "tones";
    return " -- " + what + " " + path + ".wav " + (with_truth ? path + ".txt " : "") + more;
}

std::vector<std::vector<double>> answers(const std::string& asked, std::size_t lines) {
    const auto told = outside::told_by(
        "/usr/bin/python3 " FULLMINUTE_SOURCE_DIR "/tests/outside/acceptance.py" + asked.substr(3));
    REQUIRE(told.size() == lines);
    std::vector<std::vector<double>> out;
    for (const std::string& line : told) {
        std::istringstream words(line);
        out.emplace_back();
        for (double value = 0; words >> value;) out.back().push_back(value);
    }
    return out;
}

constexpr const char* window = "5 35";

// First to second sound by the published slope: 255 - rate / 2 ms, at the mean rate of the window.
double systole_at(double bpm) { return std::min(240.0, std::max(100.0, 255 - bpm / 2)); }

}  // namespace

TEST_CASE(
    "SciPy counts 30 s at 60, 110, 140, 180, 220 bpm: as many as the truth when easy, one off at most at 0 "
    "dB",
    "[acceptance]") {
    std::string asked;
    for (double bpm : rates)
        for (Ladder ladder : {Ladder::easy, Ladder::hard})
            asked += measured(
                "count",
                rendered(std::to_string(static_cast<int>(bpm)) + (ladder == Ladder::easy ? "-easy" : "-hard"),
                         alone(bpm, ladder)),
                window);
    const auto found = answers(asked, 10);
    for (std::size_t i = 0; i < found.size(); ++i) {
        const bool easy = i % 2 == 0;
        CAPTURE(rates[i / 2], easy, found[i][0], found[i][1], found[i][2], found[i][3]);
        CHECK(found[i][1] > 25);
        CHECK(std::fabs(found[i][0] - found[i][1]) <= (easy ? 0 : 1));
        CHECK(found[i][2] > (easy ? 0.999 : 0.85));  // matched within 60 ms
        CHECK(std::fabs(found[i][3]) < 5);           // median offset, ms
    }
}

// A reference run of the same detector found 100 % of the beats at 12 and 6 dB, 98.6 % at least at 0, 82 to
// 97 % at -5, 60 to 220 bpm [computed]. "dB" there can only be power against power, 20-150 Hz, and its beats
// all alike: the published kernels, struck by SciPy at our beats in white noise (`plain`), give 98.6 % at the
// rate where fewest are found, 220, and 82 to 98 % at -5; with the first sound's peak against the noise's RMS
// they give 31 to 61 % at 0. Ours differ from beat to beat as the same source asks (size 0.17, pitch 5 %, 4
// ms, her breath), which costs SciPy's kernels 0.9 % of the beats.
namespace {

// Over all runs of 30 s at one level: the share found, the most beats too many or too few in one run, and the
// share of runs at most one off.
struct AtLevel {
    double found = 0, most_off = 0, within_one = 0;
};

AtLevel over_runs(const std::vector<std::vector<double>>& found, std::size_t first, std::size_t each) {
    AtLevel out;
    double all = 0, matched = 0, runs = 0;
    for (std::size_t i = first; i < found.size(); i += each) {
        REQUIRE(found[i][1] > 25);
        const double off = std::fabs(found[i][0] - found[i][1]);
        all += found[i][1];
        matched += found[i][1] * found[i][2];
        out.most_off = std::max(out.most_off, off);
        out.within_one += off <= 1;
        ++runs;
    }
    out.found = matched / all;
    out.within_one /= runs;
    return out;
}

struct Levels {
    AtLevel at_12, at_6, at_0, at_less_5, plain_at_0;
};

Levels found_at_levels(std::uint64_t seeds) {
    const double levels[] = {12, 6, 0, -5};
    std::string asked;
    for (std::uint64_t number = 21; number < 21 + seeds; ++number)
        for (double bpm : rates) {
            const Seed one{number};
            Patient p = alone(bpm, Ladder::hard);
            const std::string name = std::to_string(one.value) + "-" + std::to_string(static_cast<int>(bpm));
            const std::string path = rendered("mixed-" + name, p, one);
            p.babies[0].heart_beats = false;
            const std::string still = rendered("mixed-still-" + name, p, one);
            for (double level : levels)
                asked += " -- mixed " + path + ".wav " + still + ".wav " + path + ".txt " + window + " " +
                         std::to_string(level);
            asked += " -- plain " + path + ".txt " + window + " 0";
        }
    const auto found = answers(asked, 25 * seeds);
    return {over_runs(found, 0, 5), over_runs(found, 1, 5), over_runs(found, 2, 5), over_runs(found, 3, 5),
            over_runs(found, 4, 5)};
}

// Means over the seeds.
void check_tones(std::uint64_t seeds) {
    double size = 0;
    const double part = 1 / static_cast<double>(seeds);
    for (double bpm : rates) {
        std::string asked;
        double systole = 0;
        for (std::uint64_t number = seed.value; number < seed.value + seeds; ++number) {
            const Patient p = alone(bpm, Ladder::easy);
            asked +=
                measured("tones",
                         rendered(std::to_string(static_cast<int>(bpm)) + "-tones-" + std::to_string(number),
                                  p, Seed{number}),
                         window);
            const auto train =
                beats_over(p, Seed{number}, Who::fetal, course_over(p, Seed{number}, {}, {all_s}));
            systole +=
                part * systole_at(rate_between(train, labour_time({from_s}), labour_time({to_s})).value);
        }
        double mean[4] = {0, 0, 0, 0};
        for (const auto& found : answers(asked, seeds))
            for (std::size_t i = 0; i < 4; ++i) mean[i] += part * found[i];
        CAPTURE(bpm, mean[0], mean[1], mean[2], mean[3]);
        CHECK(mean[0] == Approx(systole).margin(3));
        CHECK(mean[1] == Approx(37.2).margin(3));
        CHECK(mean[2] == Approx(55.6).margin(3));
        size += mean[3] / static_cast<double>(std::size(rates));
    }
    CHECK(size == Approx(4.6).margin(1));
}

}  // namespace

TEST_CASE(
    "SciPy finds 100 % of the beats at 12 and 6 dB, 98 % at least at 0, 82 to 97 % at -5, five rates, three "
    "seeds",
    "[acceptance]") {
    const Levels l = found_at_levels(3);
    CHECK(l.at_12.found > 0.999);
    CHECK(l.at_12.most_off == 0);
    CHECK(l.at_6.found > 0.995);
    CHECK(l.at_0.found > 0.98);
    CHECK(l.at_0.most_off <= 2);
    CHECK((l.at_less_5.found > 0.82 && l.at_less_5.found < 0.97));
}

// One of 75 runs at 12 dB is one off, it seems by a beat on the edge of the window. "One off at most at 0 dB"
// [practice] is not kept by the published kernels in white noise either: two off at 220 bpm.
TEST_CASE(
    "SciPy finds 98.6 % of the beats at 0 dB over 15 seeds, as many as of plain kernels within 1 %, nine "
    "counts of ten at most one off, none more than three",
    "[acceptance][.slow]") {
    const Levels l = found_at_levels(15);
    CAPTURE(l.at_0.found, l.at_0.within_one, l.at_less_5.found, l.plain_at_0.found, l.plain_at_0.most_off,
            l.plain_at_0.within_one);
    CHECK(l.at_12.found > 0.999);
    CHECK(l.at_12.most_off <= 1);
    CHECK(l.at_6.found > 0.995);
    CHECK(l.at_0.found >= 0.986);
    CHECK(l.at_0.found >= l.plain_at_0.found - 0.01);
    CHECK(l.at_0.within_one >= 0.9);
    CHECK(l.at_0.most_off <= 3);
    CHECK((l.at_less_5.found > 0.82 && l.at_less_5.found < 0.97));
    CHECK(l.plain_at_0.most_off <= 2);
}

// Centres at 39.5 weeks lie between those of 39 and 40 weeks: 37.2 and 55.6 Hz; ratio 1.70 = 4.6 dB (public
// source accompanying arXiv:2507.10783).
TEST_CASE(
    "SciPy measures 255 - rate / 2 ms within 3, 37.2 and 55.6 Hz within 3, 4.6 dB within 1, through a horn",
    "[acceptance]") {
    check_tones(1);
}

// One run of 30 s alone lies outside in 5 measures of the 12 seeds.
TEST_CASE("SciPy measures the same of first and second sounds, means over 12 seeds", "[acceptance][.slow]") {
    check_tones(12);
}

// Power of the beats over power of the noise, 20 to 150 Hz, by Welch's method: with the heart less without
// it.
TEST_CASE("SciPy measures the ladder: +12, +6, 0, -5 dB within 1.5 at the best spot", "[acceptance]") {
    const Ladder steps[] = {Ladder::easy, Ladder::normal, Ladder::hard, Ladder::very_hard};
    const double over[] = {12, 6, 0, -5};
    std::string asked;
    for (int i = 0; i < 4; ++i) {
        Patient p = alone(138.4, steps[i]);
        const std::string name = "ladder-" + std::to_string(i);
        asked += measured("power", rendered(name, p), "5 35 20 150");
        p.babies[0].heart_beats = false;
        asked += measured("power", rendered(name + "-still", p), "5 35 20 150");
    }
    const auto power = answers(asked, 8);
    for (std::size_t i = 0; i < 4; ++i) {
        const double both = power[2 * i][0], noise = power[2 * i + 1][0];
        REQUIRE(both > noise);
        CHECK(10 * std::log10((both - noise) / noise) == Approx(over[i]).margin(1.5));
    }
}

TEST_CASE("Only the mother to be heard: SciPy finds her rate within 1 bpm; nothing to be heard: no rhythm",
          "[acceptance]") {
    Patient only_her = alone(138.4, Ladder::easy), nothing = only_her;
    only_her.babies[0].heart_beats = nothing.babies[0].heart_beats = false;
    only_her.mother.pulse = {91.3};
    only_her.surroundings.vessel = {-4};
    const std::string her = outside::path_of("accept-her"), none = outside::path_of("accept-none");
    outside::write_wav(her + ".wav", heard(only_her, OutputMode::true_sound, all_s, 512, -5, -13));
    outside::write_wav(none + ".wav", heard(nothing));
    const auto found = answers(measured("rate", her, window) + measured("rate", none, window), 2);
    const auto train = beats_over(only_her, seed, Who::maternal, course_over(only_her, seed, {}, {all_s}));
    CHECK(found[0][0] ==
          Approx(rate_between(train, labour_time({from_s}), labour_time({to_s})).value).margin(1));
    CHECK(found[0][1] > 0.25);
    CHECK(found[1][1] < 0.25);
}

TEST_CASE("Written to a file, whatever the mode: no step above 0.05 of full scale", "[acceptance]") {
    Patient p;
    p.babies.add(Baby{});
    p.babies[0].movements_per_10min = 20;
    p.surroundings.bowel_per_min = 15;
    p.surroundings.knocks_per_min = 6;
    p.surroundings.ward = {-6};
    std::string asked;
    for (OutputMode mode : {OutputMode::true_sound, OutputMode::assisted, OutputMode::shifted}) {
        const std::string path = outside::path_of("accept-mode-" + std::to_string(static_cast<int>(mode)));
        outside::write_wav(path + ".wav", heard(p, mode, 30));
        asked += measured("step", path);
    }
    for (const auto& found : answers(asked, 3)) {
        CHECK(found[0] <= 0.0501);  // 16 bits round
        CHECK(found[0] > 0.001);
    }
}

TEST_CASE("Blocks of 64, 512, 1000 and 4096 samples give one hash over 20 s in each mode", "[acceptance]") {
    const auto hash = [](const std::vector<float>& x) {  // FNV-1a, 64 bits
        std::uint64_t h = 14695981039346656037ull;
        for (const float s : x)
            for (const unsigned char byte : std::bit_cast<std::array<unsigned char, 4>>(s))
                h = (h ^ byte) * 1099511628211ull;
        return h;
    };
    const Patient p = alone(138.4, Ladder::normal);
    for (OutputMode mode : {OutputMode::true_sound, OutputMode::assisted, OutputMode::shifted}) {
        const std::uint64_t first = hash(heard(p, mode, 20, 64));
        for (std::size_t block : {512u, 1'000u, 4'096u}) CHECK(hash(heard(p, mode, 20, block)) == first);
    }
}

namespace {

// The mean of the course by trapezia on its own grid.
void check_mean_rate(double minutes) {
    Patient p;
    p.babies.add(Baby{});
    const auto cells = static_cast<std::size_t>(minutes * 240);
    for (std::uint64_t s = 1; s <= 6; ++s) {
        const auto course = course_over(p, {s}, {}, {60 * minutes + 2});
        double sum = 0;
        for (std::size_t k = 4; k < cells + 4; ++k)
            sum += 0.5 * (course[k].fhr_bpm[0] + course[k + 1].fhr_bpm[0]);
        const auto train = beats_over(p, {s}, Who::fetal, course);
        CHECK(rate_between(train, labour_time({1}), labour_time({60 * minutes + 1})).value ==
              Approx(sum / static_cast<double>(cells)).margin(0.1));
    }
}

}  // namespace

TEST_CASE("Mean rate of the beats over 10 min: the course's own within 0.1 bpm, six seeds", "[acceptance]") {
    check_mean_rate(10);
}

TEST_CASE("Mean rate of the beats over 60 min: the course's own within 0.1 bpm", "[acceptance][.slow]") {
    check_mean_rate(60);
}
