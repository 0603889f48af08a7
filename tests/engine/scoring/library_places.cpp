// Where the hearts of the library are to be heard, and where its traps are: five seeds each. The places of
// the traps are the library plan's [practice].
#include "library_row.h"

#include "sim/body/abdomen.h"
#include "sim/instrument/chain.h"

using namespace perfect;

namespace {

struct There {
    sim::PlaceLevels levels;
    sim::Countable countable;
};

There at(const Scenario& scenario, sim::Instrument with, double x, double y, int n, double t = 0) {
    const sim::Seed seed{static_cast<std::uint64_t>(n)};
    const sim::Patient patient = scenario.patient(seed);
    const auto course = sim::course_over(patient, seed, {}, {t + 1});
    const sim::PlaceLevels levels =
        sim::levels_at(patient, course[static_cast<std::size_t>(4 * t)], sim::held_well(with, x, y));
    return {levels, sim::countable(levels)};
}

}  // namespace

TEST_CASE("Every heart of the sixty can be counted at its own place with every instrument that is there",
          "[library]") {
    int places = 0;
    for (const auto& file : std::filesystem::directory_iterator(FULLMINUTE_SOURCE_DIR "/scenarios/library")) {
        const Scenario scenario = scenario_named(file.path().stem().string());
        for (int n = 1; n <= 5; ++n) {
            const sim::Patient patient = scenario.patient({static_cast<std::uint64_t>(n)});
            for (int baby = 0; baby < patient.babies.size; ++baby) {
                if (!patient.babies[baby].heart_beats) continue;
                const sim::Spot spot = sim::heart_spot(patient, baby, sim::CourseTick{});
                for (const sim::Instrument with : scenario.place.instruments) {
                    INFO(scenario.id << " " << name_of(with) << " seed " << n << " at " << spot.x_cm << ","
                                     << spot.y_cm);
                    const There there = at(scenario, with, spot.x_cm, spot.y_cm, n);
                    CAPTURE(there.levels.baby.value, there.levels.rival.value, there.levels.noise.value);
                    CHECK(there.countable == sim::Countable::countable);
                    CHECK(there.levels.which_baby == baby);
                    ++places;
                }
            }
        }
    }
    CHECK(places >= 5 * 60);
}

TEST_CASE("At the traps' places her own beat is over the baby's, which cannot be counted there",
          "[library]") {
    struct Trap {
        const char* id;
        sim::Instrument with;
        double x, y;
    };
    for (const Trap& trap : {Trap{"t01", sim::Instrument::doppler, 11, -11},   // her vessel at the side
                             Trap{"t02", sim::Instrument::horn, -9, -12},      // the womb's blow, right groin
                             Trap{"t04", sim::Instrument::horn, -3, -12},      // her artery, low
                             Trap{"t07", sim::Instrument::doppler, 6, -6},     // where the heart was before
                             Trap{"f05", sim::Instrument::horn, -1, -9},       // a blow at 90
                             Trap{"f07", sim::Instrument::doppler, 0, -5}}) {  // the placenta in front
        const Scenario scenario = scenario_named(library_stem(trap.id));
        for (int n = 1; n <= 5; ++n) {
            const There there = at(scenario, trap.with, trap.x, trap.y, n);
            CAPTURE(trap.id, n, there.levels.baby.value, there.levels.rival.value);
            CHECK(there.levels.rival.value > there.levels.baby.value + 3);
            CHECK(there.levels.rival.value > there.levels.noise.value + sim::audible_over_noise.value);
            CHECK(there.countable == sim::Countable::not_countable);
        }
    }
}

TEST_CASE("f09: at the old place, 6 and -7, the heart is gone; t03: over the cord there is no heart to count",
          "[library]") {
    for (int n = 1; n <= 5; ++n) {
        CHECK(at(scenario_named(library_stem("f09")), sim::Instrument::horn, 6, -7, n).countable ==
              sim::Countable::not_countable);
        CHECK(at(scenario_named(library_stem("t03")), sim::Instrument::doppler, 1, 2, n).countable ==
              sim::Countable::not_countable);
    }
}

TEST_CASE("f08: each twin's place gives that twin and not the other", "[library]") {
    const Scenario twins = scenario_named(library_stem("f08"));
    for (int n = 1; n <= 5; ++n) {
        CHECK(at(twins, sim::Instrument::doppler, 8, -8, n).levels.which_baby == 0);
        CHECK(at(twins, sim::Instrument::doppler, -5, 6, n).levels.which_baby == 1);
    }
}

TEST_CASE("t07: her pulse goes from 91 to about 129 with each push", "[library]") {
    const Scenario pushing = scenario_named(library_stem("t07"));
    for (int n = 1; n <= 5; ++n) {
        const sim::Seed seed{static_cast<std::uint64_t>(n)};
        const auto course = sim::course_over(pushing.patient(seed), seed, {}, pushing.length);
        double at_rest = 0, at_work = 0, rests = 0, works = 0;
        for (std::size_t k = 240; k < course.size(); ++k) {
            const bool hard_at_work =
                course[k].pushing && course[k - 80].in_contraction;  // for 20 s and more
            if (hard_at_work) at_work += course[k].mhr_bpm, ++works;
            bool idle = true;  // 80 s since the last push: back at rest
            for (std::size_t j = k > 320 ? k - 320 : 0; j <= k; j += 4) idle = idle && !course[j].pushing;
            if (idle) at_rest += course[k].mhr_bpm, ++rests;
        }
        REQUIRE(works > 40);
        REQUIRE(rests > 40);
        CAPTURE(n, at_rest / rests, at_work / works);
        CHECK(at_rest / rests == Approx(91).margin(8));    // she wanders by 4 herself
        CHECK(at_work / works == Approx(129).margin(12));  // +35 +-13: van Veen 2012, each woman her own
    }
}
