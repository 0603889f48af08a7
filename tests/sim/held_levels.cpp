// Levels of one hold followed through a labour: what is worked out once must be what each moment gives.
#include "sim/body/decibels.h"
#include "sim/body/ear.h"
#include "tests/sim/scene.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace sim;

TEST_CASE("Two babies and three blows followed over 20 minutes: every level is that of the moment alone",
          "[level]") {
    Patient p = scene::quiet_labour();
    p.babies.add({});
    p.babies[1].back = Back::right_side;
    p.labour.first_contraction = {60};
    p.labour.contractions_per_10min = 4;
    p.babies[0].movements_per_10min = 30;
    p.surroundings.souffle = p.surroundings.vessel = p.surroundings.cord_souffle = {-6};
    p.surroundings.ward = {-20};
    const auto course = course_over(p, {3}, {}, Seconds{1200});
    for (const Instrument with : {Instrument::horn, Instrument::doppler}) {
        Hold hold = scene::hold_at(with, 6, -7);
        hold.tilt_deg = 10;
        const Ear ear = ear_for(p, hold);
        EarLevels followed = levels_without_hearts(ear, p, hold);
        std::size_t differ = 0;
        for (const CourseTick& now : course) {
            hear_hearts(followed, ear, p, now, hold);
            const EarLevels alone = levels_through(ear, p, now, hold);
            differ += followed.at_ear_db != alone.at_ear_db || followed.into_db != alone.into_db ||
                      followed.crisp_db != alone.crisp_db || followed.aim != alone.aim;
        }
        CHECK(differ == 0);
    }
}

TEST_CASE("An upright beam and ten's logarithm are taken for what the sines and the logarithm give",
          "[level]") {
    CHECK(exact_cos(0) == 1);
    CHECK(exact_sin(0) == 0);
    CHECK(log2_of_10 == exact_log2(10));
    CHECK(decibels(10) == 20);                           // by definition of the decibel
    CHECK(sum_db(0, 0) == Approx(3.0103).margin(1e-4));  // twice the power
}

TEST_CASE("The first twin's heart has stopped: how well the second is aimed at still counts, 3 cm beside it",
          "[level]") {
    Patient p = scene::quiet_labour();
    p.babies.add(p.babies[0]);
    p.babies[0].heart_beats = false;
    const Hold hold = scene::hold_at(Instrument::doppler, 9, -7);
    const CourseTick now{};
    const EarLevels second = levels_through(ear_for(p, hold), p, now, hold);

    CHECK(second.aim == echo_of_heart(p, 1, now, hold).aim);
    CHECK(second.aim < 0.9);
}
