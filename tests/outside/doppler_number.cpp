// How often the number of a hand-held Doppler is right, halved or doubled, on our own rendered sound, against
// the shares of a reference run of the same method on another generator of bursts: 3.75 s window, 10 dB of
// heart over hiss, numpy [computed]. That run's length is not told; five minutes of it (80 windows) are
// assumed for its own uncertainty. Readings 0.25 s apart share their window, so only one in fifteen counts as
// independent.
#include "sim/instrument/rate_display.h"
#include "sim/sound/doppler_tone.h"
#include "sim/sound/level.h"
#include "tests/outside/rendered.h"

#include <catch2/catch.hpp>

#include <array>
#include <fstream>
#include <iostream>
#include <memory>
#include <sstream>
#include <string>
#include <vector>

using namespace sim;

namespace {

constexpr double off_cm = 1.69, settled_s = 6, spell_s = 40;
constexpr int cell_ticks = 125;

Patient beating_at(double bpm, BeamMeets meets) {
    Patient p = scene::quiet_labour();
    p.babies[0].baseline = {bpm};
    p.babies[0].drift = {0};
    p.babies[0].beam_meets = meets;
    p.surroundings.ladder = Ladder::normal;
    p.surroundings.vessel = {-60};
    p.surroundings.souffle = {-60};
    return p;
}

// Readings by what they are of the true rate, within 5 %; dashes and the rest are other.
struct Shares {
    int all = 0, right = 0, half = 0, twice = 0;
    double of(int some) const { return 100.0 * some / all; }
    void take(int shown, double truth) {
        const auto near = [&](double rate) { return std::fabs(shown / rate - 1) < 0.05; };
        ++all;
        right += near(truth);
        half += near(truth / 2);
        twice += near(truth * 2);
    }
};

struct Read {
    Shares own, strict, lax;            // earliest peak of 0.8, 0.9, 0.5 of the highest
    std::vector<Shares> strict_spells;  // each spell of 34 s alone
};

Seed seed_of(int spell) { return {static_cast<std::uint64_t>(spell) * 7919}; }

// While the heart is in the beam: spells when it has slipped out of it are another matter and left out.
Read readings(double bpm, BeamMeets meets, int seeds) {
    Read read;
    const Patient p = beating_at(bpm, meets);
    const auto strict = std::make_unique<RateDisplay>(0.9), lax = std::make_unique<RateDisplay>(0.5);
    for (int s = 1; s <= seeds; ++s) {
        const Seed seed = seed_of(s);
        const auto course = course_over(p, seed, {}, {spell_s + 1});
        const auto train = beats_over(p, seed, Who::fetal, course);
        const auto l = std::make_unique<Listening>(p, seed, OutputMode::true_sound);
        const auto twin = std::make_unique<DopplerTone>(p, seed);  // knows when the heart is lost
        scene::place(*l, Instrument::doppler, 6 + off_cm, -7);
        strict->reset();
        lax->reset();
        int since_lost = 100;
        Shares strict_spell;
        for (int cell = 0; cell < static_cast<int>(spell_s * 4); ++cell) {
            const auto sound = scene::heard(*l, 0.25, 12'000);
            for (int t = 0; t < cell_ticks; ++t) {
                std::array<float, source_samples_per_tick> low{};
                for (std::size_t i = 0; i < low.size(); ++i)
                    low[i] = sound[static_cast<std::size_t>(t) * samples_per_sound_tick + 6 * i];
                strict->hear(low, cell * cell_ticks + t);
                lax->hear(low, cell * cell_ticks + t);
            }
            twin->pass_cell(course[static_cast<std::size_t>(cell)], cell);
            twin->look(std::exp(-off_cm * off_cm / (2.2 * 2.2)));
            since_lost = twin->lost() ? 0 : since_lost + 1;
            const double now = 0.25 * (cell + 1);
            if (now < settled_s || since_lost < 18) continue;
            const double truth = rate_between(train, labour_time({now - 3.75}), labour_time({now})).value;
            const std::int64_t tick = (cell + 1) * cell_ticks - 1;
            read.own.take(l->displayed_bpm(), truth);
            read.strict.take(strict->shown_bpm(tick), truth);
            strict_spell.take(strict->shown_bpm(tick), truth);
            read.lax.take(lax->shown_bpm(tick), truth);
        }
        if (strict_spell.all > 60) read.strict_spells.push_back(strict_spell);
    }
    return read;
}

// Three standard errors of the difference, per cent.
double margin(double share, int readings) {
    constexpr double reference_windows = 80;
    const double p = std::clamp(share / 100, 0.01, 0.99);
    return 300 * std::sqrt(p * (1 - p) * (15.0 / readings + 1 / reference_windows));
}

// The independent run of the same recipe (doppler_recipe.py): per cent right and halved at a share of 0.8 and
// of 0.9.
struct Recipe {
    double right = 0, half = 0, strict_right = 0, strict_half = 0;
};

// On the very beats that `readings` hears.
std::vector<Recipe> recipe_run(int seeds, const std::vector<double>& rates) {
    std::string command = "/usr/bin/python3 " FULLMINUTE_SOURCE_DIR "/tests/outside/doppler_recipe.py " +
                          std::to_string(spell_s);
    for (const double bpm : rates) {
        const std::string path = outside::path_of("doppler-" + std::to_string(seeds) + "-" +
                                                  std::to_string(static_cast<int>(bpm)) + ".txt");
        std::ofstream lines(path);
        lines.precision(9);
        for (int s = 1; s <= seeds; ++s) {
            for (const double at : outside::beats_of(beating_at(bpm, BeamMeets::whole_heart), seed_of(s),
                                                     Who::fetal, spell_s + 1))
                lines << at << ' ';
            lines << '\n';
        }
        REQUIRE(lines.good());
        command += " " + path;
    }
    std::vector<Recipe> out;
    for (const std::string& line : outside::told_by(command)) {
        std::istringstream words(line);
        Recipe r;
        words >> r.right >> r.half >> r.strict_right >> r.strict_half;
        REQUIRE(words);
        out.push_back(r);
    }
    REQUIRE(out.size() == rates.size());
    return out;
}

// Three standard errors of the difference of two measured shares, per cent.
double margin_of_both(double ours, double theirs, int readings, int recipe_seeds) {
    const auto spread = [](double share) {
        const double p = std::clamp(share / 100, 0.01, 0.99);
        return p * (1 - p);
    };
    const double windows = recipe_seeds * (spell_s - 2) / 3.75;
    return 300 * std::sqrt(spread(ours) * 15 / readings + spread(theirs) / windows);
}

// At 0.8 the recipe's run and the published row differ from 160 up: ours lies between the two, or beside the
// nearer one within three standard errors of it.
void lies_between(double ours, double published, double recipe, int readings, int recipe_seeds) {
    CAPTURE(ours, published, recipe);
    CHECK(ours >= std::min(published - margin(published, readings),
                           recipe - margin_of_both(ours, recipe, readings, recipe_seeds)));
    CHECK(ours <= std::max(published + margin(published, readings),
                           recipe + margin_of_both(ours, recipe, readings, recipe_seeds)));
}

// How far a share lies from that of the spells, in standard deviations of a single spell.
double spells_away(double share, const std::vector<Shares>& spells, int Shares::*what) {
    double sum = 0, square = 0;
    for (const Shares& one : spells) {
        const double its = one.of(one.*what);
        sum += its;
        square += its * its;
    }
    const double n = static_cast<double>(spells.size()), mean = sum / n;
    return (share - mean) / std::max(1.0, std::sqrt((square - n * mean * mean) / (n - 1)));
}

constexpr double most_away = 2;

// At a share of 0.8 the published run's table, right / halved: 60 to 160 >= 99 / <= 1, 180 98/2, 200 78/18,
// 220 45/26, 250 0/51. At 0.9 it has >= 93 / <= 7, 61/38, 55/33, 16/38, 0/44. No reading of its recipe gives
// the second row as an average (two or four poles, order of the low pass, sizes a beat or an event, aim
// drifting or not, median of three or five, hiss in band or white, 2 to 8 kHz, steady or uneven beats, fixed
// or relative tolerance, some 320 combinations): 160 about 66/22, 180 72/19, 200 59/23, 220 44/27, 250 0/35.
// One spell of half a minute scatters about these by 12 to 14, so a table of one such clip a rate, as the
// other figures of that run are, may well look so. At 0.9 two things are therefore asked: the recipe's own
// run on our beats, within three standard errors of both (up to 160, where the table stands above the recipe,
// ours may stand above it too); and that the published row could be one spell of ours.
void check_rates(int seeds) {
    const std::vector<double> usual = {60.7, 83.4, 110.9, 141.3, 160.6};
    const auto usual_run = recipe_run(seeds, usual);
    for (std::size_t i = 0; i < usual.size(); ++i) {
        const Read read = readings(usual[i], BeamMeets::whole_heart, seeds);
        const int all = read.own.all;
        const double right = read.strict.of(read.strict.right), half = read.strict.of(read.strict.half);
        const Recipe& run = usual_run[i];
        const double right_away = spells_away(93, read.strict_spells, &Shares::right),
                     half_away = spells_away(7, read.strict_spells, &Shares::half);
        CAPTURE(usual[i], all, read.own.of(read.own.right), read.own.of(read.own.half), run.right, run.half,
                right, run.strict_right, half, run.strict_half, right_away, half_away);
        REQUIRE(all > 60 * seeds);
        CHECK(read.own.of(read.own.right) >= 99 - margin(99, all) / 2);
        CHECK(read.own.of(read.own.half) <= 1 + margin(99, all) / 2);
        lies_between(read.own.of(read.own.right), 99, run.right, all, seeds);
        lies_between(read.own.of(read.own.half), 1, run.half, all, seeds);
        CHECK(right >= run.strict_right - margin_of_both(right, run.strict_right, all, seeds));
        CHECK(half <= run.strict_half + margin_of_both(half, run.strict_half, all, seeds));
        CHECK(right_away <= most_away);
        CHECK(half_away >= -most_away);
        if (usual[i] < 150) {  // closer than one clip tells
            CHECK(right >= 93 - margin(93, all));
            CHECK(half <= 7 + margin(93, all));
        }
    }
    struct Row {
        double bpm, right, half, strict_right, strict_half;
        bool right_close = true,
             half_close = true;  // closer than one clip tells, as if theirs were five minutes
    };
    const std::vector<Row> table = {{180.6, 98, 2, 61, 38, true, false},
                                    {200.4, 78, 18, 55, 33},
                                    {220.3, 45, 26, 16, 38, false},
                                    {250.2, 0, 51, 0, 44}};
    const auto fast_run = recipe_run(seeds, {180.6, 200.4, 220.3, 250.2});
    for (std::size_t i = 0; i < table.size(); ++i) {
        const Row& row = table[i];
        const Recipe& run = fast_run[i];
        const Read read = readings(row.bpm, BeamMeets::whole_heart, seeds);
        const int all = read.own.all;
        const double right = read.strict.of(read.strict.right), half = read.strict.of(read.strict.half);
        const double right_away = spells_away(row.strict_right, read.strict_spells, &Shares::right),
                     half_away = spells_away(row.strict_half, read.strict_spells, &Shares::half);
        CAPTURE(row.bpm, all, read.own.of(read.own.right), read.own.of(read.own.half), run.right, run.half,
                right, run.strict_right, half, run.strict_half, right_away, half_away);
        CHECK(read.own.of(read.own.right) == Approx(row.right).margin(margin(row.right, all)));
        CHECK(read.own.of(read.own.half) == Approx(row.half).margin(margin(row.half, all)));
        lies_between(read.own.of(read.own.right), row.right, run.right, all, seeds);
        lies_between(read.own.of(read.own.half), row.half, run.half, all, seeds);
        CHECK(right == Approx(run.strict_right).margin(margin_of_both(right, run.strict_right, all, seeds)));
        CHECK(half == Approx(run.strict_half).margin(margin_of_both(half, run.strict_half, all, seeds)));
        CHECK(std::fabs(right_away) <= most_away);
        CHECK(std::fabs(half_away) <= most_away);
        if (row.right_close) CHECK(right == Approx(row.strict_right).margin(margin(row.strict_right, all)));
        if (row.half_close) CHECK(half == Approx(row.strict_half).margin(margin(row.strict_half, all)));
        if (row.right == 0)  // its own swing takes 250 under 240 now and then
            CHECK(read.own.of(read.own.right) < 0.2);
    }
}

void check_walls(int seeds) {
    for (const double bpm : {80.3, 95.6, 110.2}) {
        const Read read = readings(bpm, BeamMeets::walls_only, seeds);
        CAPTURE(bpm, read.own.of(read.own.twice));
        CHECK(read.own.of(read.own.twice) >= 27 - margin(27, read.own.all) / 2);
        CHECK(read.own.of(read.own.twice) <= 73 + margin(73, read.own.all) / 2);
        CHECK(read.lax.of(read.lax.twice) >= 97);
    }
    const Read read = readings(140.7, BeamMeets::walls_only, seeds);
    CHECK(read.own.twice == 0);
    CHECK(read.lax.twice == 0);
}

}  // namespace

TEST_CASE("The scene's heart stands 10 dB over the receiver's hiss, within 0.5, mean power of both",
          "[doppler_number]") {
    const Patient p = beating_at(140.7, BeamMeets::whole_heart);
    const Hold hold = scene::hold_at(Instrument::doppler, 6 + off_cm, -7);
    const EarLevels levels = levels_through(ear_for(p, hold), p, CourseTick{}, hold);
    const auto train = beats_over(p, {3}, Who::fetal, course_over(p, {3}, {}, {122}));
    DopplerTone tone(p, {3});
    tone.start(1);
    const NoiseShapes shapes = tone.shapes(0);
    const std::array<double, source_count> gain{amplitude(levels.into_db[0]), 0, 0, 0, 0};
    const double hiss = 0.5 * amplitude(levels.body_noise_into_db);
    BeatQueue beats, none;
    std::size_t next = 0;
    double heart = 0, noise = 0;
    for (std::int64_t tick = 0; tick < 60'000; ++tick) {
        const std::int64_t us = tick * sound_tick_us;
        if (us % course_tick_us == 0) {
            tone.pass_cell(CourseTick{}, us / course_tick_us);
            tone.look(1);
        }
        while (next < train.size() && train[next].at_us < us + 700'000) beats.add(train[next++], 140.7);
        TickPlan plan;
        tone.plan(us, {{&beats, &none}, &none}, gain, hiss, plan);
        if (tone.lost()) continue;
        for (std::size_t lane = 0; lane < lane_count; ++lane) {
            const double rms = static_cast<double>(plan.noise_gain[lane]) / shapes.unit[lane];
            (lane == static_cast<std::size_t>(Echo::hiss) ? noise : heart) += rms * rms;
        }
    }
    CHECK(10 * std::log10(heart / noise) == Approx(10).margin(0.5));
}

TEST_CASE("Doppler's number: 60-160 right in 99 %, 180 98/2 halved, 200 78/18, 220 45/26, 250 0/51",
          "[doppler_number]") {
    check_rates(12);
}

TEST_CASE("Doppler's number, walls alone: 80-110 doubled in 27-73 %, all at a share of 0.5, 140 never",
          "[doppler_number]") {
    check_walls(12);
}

// Not a check: what is measured, the recipe's run on the same beats and the published row, side by side.
TEST_CASE("Doppler's number: all shares of 24 seeds side by side", "[.doppler-table]") {
    const std::vector<double> rates = {60.7, 83.4, 110.9, 141.3, 160.6, 180.6, 200.4, 220.3, 250.2};
    const auto runs = recipe_run(24, rates);
    std::cout
        << "bpm: right/halved ours, recipe at 0.8; ours, recipe at 0.9; published row in spells of ours\n";
    for (std::size_t i = 0; i < rates.size(); ++i) {
        const Read read = readings(rates[i], BeamMeets::whole_heart, 24);
        const auto pair = [](double right, double half) {
            std::cout << "  " << std::round(10 * right) / 10 << '/' << std::round(10 * half) / 10;
        };
        std::cout << rates[i];
        pair(read.own.of(read.own.right), read.own.of(read.own.half));
        pair(runs[i].right, runs[i].half);
        pair(read.strict.of(read.strict.right), read.strict.of(read.strict.half));
        pair(runs[i].strict_right, runs[i].strict_half);
        const std::pair<double, double> row = i < 5    ? std::pair{93.0, 7.0}
                                              : i == 5 ? std::pair{61.0, 38.0}
                                              : i == 6 ? std::pair{55.0, 33.0}
                                              : i == 7 ? std::pair{16.0, 38.0}
                                                       : std::pair{0.0, 44.0};
        pair(spells_away(row.first, read.strict_spells, &Shares::right),
             spells_away(row.second, read.strict_spells, &Shares::half));
        std::cout << std::endl;
    }
}

TEST_CASE("Doppler's number over 100 seeds: the shares of the reference run", "[doppler_number][.slow]") {
    check_rates(100);
    check_walls(100);
}
