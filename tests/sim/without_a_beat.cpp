// Every sound beside the baby's heart, measured in rendered samples against the peak of a first sound at its
// best place. Figures: source accompanying arXiv:2507.10783 where named; else [memory] and [practice] as in
// sim/sound.
#include "tests/sim/without_a_beat.h"

#include "sim/exact_math.h"
#include "sim/sound/level.h"

#include <catch2/catch.hpp>

using namespace sim;
using Kind = Change::Kind;

namespace {

Patient bare() {
    Patient p = scene::quiet_labour();
    p.surroundings.souffle = {-60};
    p.surroundings.vessel = {-60};
    return p;
}

double over_first(double amplitude) { return scene::in_db(amplitude / first_sound_peak(Ladder::easy)); }

void drag_at(Listening& l, double cm_per_s) {
    for (int i = 0; i < 150; ++i) {
        Change c = scene::change(Kind::move, 1 + 0.02 * i);
        c.x_cm = 6 + 0.01 * std::round(100 * (i % 2 == 0 ? 1 : -1) * cm_per_s * 0.01);
        c.y_cm = -7;
        l.apply(c);
    }
}

}  // namespace

// One in 20 s, 80 to 500 Hz, 0.5 to 1.5 s, peak +3 dB (source as above).
TEST_CASE(
    "Knocks, 3 a minute over 10 min: 30 within 14, 80-500 Hz, 0.4-1.6 s, nine in ten under +3.5 dB, a tenth "
    "above 0",
    "[without_a_beat]") {
    Patient with = bare();
    with.surroundings.knocks_per_min = 3;
    const auto knocks = scene::bursts(scene::added(with, bare(), 600), 0.02, 0.06);
    CHECK(knocks.size() == Approx(30).margin(14));
    std::vector<double> peaks;
    for (const auto& k : knocks) {
        CAPTURE(k.from_s);
        CHECK(k.hz > 75);
        CHECK(k.hz < 510);
        CHECK(k.to_s - k.from_s > 0.4);
        CHECK(k.to_s - k.from_s < 2.2);  // two may meet
        peaks.push_back(over_first(k.peak));
    }
    std::sort(peaks.begin(), peaks.end());
    CHECK(peaks.back() < 6.5);  // two that meet
    CHECK(peaks[peaks.size() * 9 / 10] < 3.5);
    CHECK(peaks[peaks.size() * 9 / 10] > 0);
}

// Poisson trains of 2 to 6 bursts with clusters; -15 to +5 dB [memory].
TEST_CASE(
    "Bowel, 10 a minute over 10 min: 100 trains within 45, more uneven than by chance alone, -15 to +5 dB",
    "[without_a_beat]") {
    Patient with = bare();
    with.surroundings.bowel_per_min = 10;
    const auto added = scene::added(with, bare(), 600);
    const auto trains = scene::bursts(added, 0.01, 0.2);
    CHECK(trains.size() == Approx(100).margin(45));  // standard deviation of such a clustered count: 15
    std::vector<double> in_10_s(60);
    double loudest_db = -99, median_hz = 0;
    std::vector<double> pitch;
    for (const auto& t : trains) {
        in_10_s[static_cast<std::size_t>(t.from_s / 10)] += 1;
        loudest_db = std::max(loudest_db, over_first(t.peak));
    }
    const auto single = scene::bursts(added, 0.02, 0.012);
    for (const auto& b : single) pitch.push_back(b.hz);
    std::sort(pitch.begin(), pitch.end());
    median_hz = pitch[pitch.size() / 2];
    CHECK(median_hz > 100);
    CHECK(median_hz < 600);
    CHECK(static_cast<double>(single.size()) / static_cast<double>(trains.size()) > 2);
    CHECK(loudest_db < 5.5);
    CHECK(loudest_db > -3);
    double mean = 0, spread = 0;
    for (double n : in_10_s) mean += n / 60;
    for (double n : in_10_s) spread += (n - mean) * (n - mean) / 59;
    CHECK(spread > 1.15 * mean);  // a Poisson count has them equal
}

// Thuds of 10 to 80 Hz, -6 to +12 dB, held at +6 over a first sound for safe listening [memory; practice].
TEST_CASE("A baby that moves much: thuds reach 0 to +6 dB over a first sound and lie under 100 Hz",
          "[without_a_beat]") {
    // Far from the heart, which is hardly heard there: a movement is felt everywhere.
    const auto far_off = [](Listening& l) {
        Change c = scene::change(Kind::move, 0.01);
        c.x_cm = -14;
        c.y_cm = 16;
        l.apply(c);
    };
    Patient restless = bare();
    auto quiet = scene::thinned(restless, 120, far_off);
    std::fill_n(quiet.begin(), 6'000, 0.0);  // the move itself
    REQUIRE(scene::bursts(quiet, 0.18, 0.3).empty());
    restless.babies[0].movements_per_10min = 40;
    auto thuds = scene::thinned(restless, 120, far_off);
    std::fill_n(thuds.begin(), 6'000, 0.0);
    const auto found = scene::bursts(thuds, 0.18, 0.3);
    REQUIRE(found.size() > 10);
    double most_of_all = 0;
    for (const auto& t : found) most_of_all = std::max(most_of_all, t.peak);
    CHECK(over_first(most_of_all) < 9);  // two may meet
    CHECK(over_first(most_of_all) > 0);
    const auto more = [&](double from_hz, double to_hz) {
        return std::pow(scene::band_rms_of(thuds, from_hz, to_hz), 2) -
               std::pow(scene::band_rms_of(quiet, from_hz, to_hz), 2);
    };
    CHECK(more(120, 400) < 0.03 * more(8, 100));
}

// 100 to 400 Hz, -30 to -20 dB, 6 dB up and down at her breathing [memory].
TEST_CASE("Her breathing: loudest 12 dB over softest within 3, at her own 15 a minute", "[without_a_beat]") {
    Patient p = bare();
    p.babies[0].heart_beats = false;
    p.mother.breaths_per_min = 15;
    const auto sound = scene::thinned(p, 80);
    // Power in 150-400 Hz for eight parts of a breath of 4 s, over twenty breaths.
    std::array<std::vector<double>, 8> parts;
    for (std::size_t i = 0; i < sound.size(); ++i)
        parts[(i / static_cast<std::size_t>(scene::thin_rate / 2)) % 8].push_back(sound[i]);
    double softest = 1e9, most_of_all = 0;
    std::size_t when_loudest = 0, when_softest = 0;
    for (std::size_t i = 0; i < 8; ++i) {
        const double now = scene::band_rms_of(parts[i], 200, 380);
        if (now > most_of_all) most_of_all = now, when_loudest = i;
        if (now < softest) softest = now, when_softest = i;
    }
    CHECK(scene::in_db(most_of_all / softest) == Approx(11).margin(3));
    CHECK((when_loudest + 8 - when_softest) % 8 == Approx(4).margin(1));
}

// Speed to the power 0.7, -10 to +15 dB, held at +6 [practice].
TEST_CASE("Friction: twice as fast is 4.2 dB louder within 1.5, none when it lies still, crest at most +7 dB",
          "[without_a_beat]") {
    Patient p = bare();
    p.babies[0].heart_beats = false;
    const auto still = scene::thinned(p, 5);
    const auto rubbed = [&](scene::Controls controls) {
        auto x = scene::thinned(p, 5, controls);
        for (std::size_t i = 0; i < x.size(); ++i) x[i] -= still[i];
        return x;
    };
    const auto slow = rubbed([](Listening&l) { drag_at(l, 3); }),
               fast = rubbed([](Listening&l) { drag_at(l, 6); });
    const auto wild = rubbed([](Listening& l) { drag_at(l, 60); });
    const double slow_rms = scene::rms_of(slow, 1.5, 3.8), fast_rms = scene::rms_of(fast, 1.5, 3.8);
    CHECK(scene::in_db(fast_rms / slow_rms) == Approx(20 * 0.7 * std::log10(2)).margin(1.5));
    CHECK(scene::rms_of(slow, 4.8, 5) < 0.02 * slow_rms);
    double crest = 0;
    for (double v : wild) crest = std::max(crest, std::fabs(v));
    CHECK(over_first(crest) < 8);
    CHECK(over_first(crest) > 0);
    CHECK(scene::band_rms_of(fast, 80, 2000) > 0.9 * scene::rms_of(fast));
}

// 30 dB under a first sound to level with it once the seal is lost [practice].
TEST_CASE(
    "The ward: a lost seal lets in 22 dB more within 3, its voices reach their level, with pauses between",
    "[without_a_beat]") {
    Patient with = bare(), without = bare();
    with.surroundings.ward = {-6};
    with.babies[0].heart_beats = without.babies[0].heart_beats = false;
    const auto heard = [&](float press) {
        auto a = scene::thinned(with, 120, nullptr, OutputMode::true_sound, press);
        const auto b = scene::thinned(without, 120, nullptr, OutputMode::true_sound, press);
        for (std::size_t i = 0; i < a.size(); ++i) a[i] -= b[i];
        return a;
    };
    const auto sealed = heard(6), open = heard(0.05f);
    CHECK(scene::in_db(scene::rms_of(open) / scene::rms_of(sealed)) == Approx(22).margin(3));
    std::vector<double> pieces;
    for (double t = 1; t < 119; t += 0.25) pieces.push_back(scene::rms_of(open, t + 0.05, t + 0.25));
    std::sort(pieces.begin(), pieces.end());
    CHECK(over_first(pieces[pieces.size() * 9 / 10]) == Approx(-6).margin(3));
    CHECK(scene::in_db(pieces[pieces.size() * 9 / 10] / pieces[pieces.size() / 10]) > 10);
}

// 14.9 and 22.4 Hz, -17 to +3 dB at the skin (source as above): felt, hardly heard, nothing of it above 50
// Hz.
TEST_CASE(
    "Her own heart at the belly: laid over each other 150 beats give two low sounds 0.2 RR + 160 ms apart",
    "[without_a_beat]") {
    Patient p = bare();
    p.babies[0].heart_beats = false;
    p.mother.pulse = {84};
    p.surroundings.ladder = Ladder::normal;
    const auto sound = scene::thinned(p, 120);
    std::vector<double> mean(3'600);  // 0.1 s before to 0.5 s after
    int many = 0;
    double interval = 0;
    const auto train = beats_over(p, {5}, Who::maternal, course_over(p, {5}, {}, {120}));
    for (std::size_t b = 1; b < train.size(); ++b) {
        const auto at =
            static_cast<std::int64_t>(static_cast<double>(train[b].at_us) * 1e-6 * scene::thin_rate) - 600;
        if (at < 0 || at + 3'600 > static_cast<std::int64_t>(sound.size())) continue;
        for (std::size_t n = 0; n < mean.size(); ++n) mean[n] += sound[static_cast<std::size_t>(at) + n];
        interval += static_cast<double>(train[b].at_us - train[b - 1].at_us) / 1e3;
        ++many;
    }
    REQUIRE(many > 140);
    double first = 0, second = 0, first_ms = 0, second_ms = 0;
    for (std::size_t n = 0; n < mean.size(); ++n) {
        const double now = std::fabs(mean[n] / many), ms = static_cast<double>(n) / 6 - 100;
        if (ms < 120 && now > first) first = now, first_ms = ms;
        if (ms > 200 && now > second) second = now, second_ms = ms;
    }
    const double skin_db = scene::in_db(first / first_sound_peak(Ladder::normal));
    CHECK(skin_db > -24);  // 15 Hz loses some 6 dB in a horn
    CHECK(skin_db < 3);
    CHECK(second_ms - first_ms ==
          Approx(0.2 * interval / many + 160).margin(40));  // the filter moves their tops
    CHECK(first / second < 2.2);
}

// Half a sine over 0.6 of an interval at the baby's rate [memory].
TEST_CASE(
    "The cord's blow: most of its power within 0.6 of the interval after each beat, -10 dB at its own place",
    "[without_a_beat]") {
    Patient with = bare(), without = bare();
    with.surroundings.cord_souffle = {-10};
    with.surroundings.cord_x = {6};
    with.surroundings.cord_y = {-7};
    const auto blow = scene::added(with, without, 40);
    const auto train = beats_over(with, {5}, Who::fetal, course_over(with, {5}, {}, {40}));
    double within = 0, outside = 0, height = 0;
    for (std::size_t b = 2; b + 2 < train.size(); ++b) {
        const double t = static_cast<double>(train[b].at_us) * 1e-6 + 0.05,
                     rr = static_cast<double>(train[b + 1].at_us - train[b].at_us) * 1e-6;
        within += std::pow(scene::rms_of(blow, t, t + 0.6 * rr), 2) * 0.6;
        outside += std::pow(scene::rms_of(blow, t + 0.62 * rr, t + 0.98 * rr), 2) * 0.4;
        height += std::pow(scene::rms_of(blow, t + 0.22 * rr, t + 0.38 * rr), 2) /
                  static_cast<double>(train.size());
    }
    CHECK(within > 8 * outside);
    CHECK(over_first(std::sqrt(2 * height)) == Approx(-10).margin(2.5));
    CHECK(scene::band_rms_of(blow, 130, 460) > 0.85 * scene::rms_of(blow));
}
