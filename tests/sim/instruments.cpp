// What each instrument lets through, against the recipe of its size and shape: peaks, corners, pressing,
// tilting. Horn: no measured response is known; the resonances follow from 16-20 cm of air and its bowl
// [practice]. Stethoscope: Abella et al., JASA 1992;91:2224 (bells strengthen 37.5-112.5 Hz, diaphragms
// weaken them), the rest [practice].
#include "sim/body/ear.h"
#include "sim/instrument/chain.h"
#include "tests/sim/scene.h"

#include <catch2/catch.hpp>

using namespace sim;

namespace {

double db_at(const Chain& chain, double hz) { return scene::in_db(amplitude_at(chain, hz)); }

Hold held(Instrument instrument, double press, double tilt = 0, On hand = On::none) {
    Hold hold = scene::hold_at(instrument, 6, -7, press);
    hold.tilt_deg = tilt;
    hold.left = hand;
    return hold;
}

double contact_db(const Chain& chain) { return scene::in_db(chain.contact); }

}  // namespace

TEST_CASE("Horn: +6 dB at 145 Hz, +5 at 450, 3 dB down at 20 Hz sealed and at 900 Hz", "[instruments]") {
    const Chain chain = horn(held(Instrument::horn, 8));
    // Between its peaks it lets through what comes; each peak by its own gain over that, less what its slopes
    // take.
    CHECK(db_at(chain, 145) == Approx(6).margin(0.5));
    CHECK(db_at(chain, 450) == Approx(5).margin(0.7));
    CHECK(db_at(chain, 145) > db_at(chain, 250) + 3);
    CHECK(db_at(chain, 450) > db_at(chain, 250) + 2);
    CHECK(db_at(chain, 20) == Approx(-3).margin(0.3));
    CHECK(db_at(chain, 900) == Approx(-3).margin(0.7));
    CHECK(db_at(chain, 1800) < -11);
}

TEST_CASE(
    "Horn: 1 - exp(-F/2): 4 N is 1.2 dB under 10 N, 1 N 8 dB; a rim that leaks lifts the corner to 180 Hz",
    "[instruments]") {
    const auto gain = [](double n) { return contact_db(horn(held(Instrument::horn, n))); };
    CHECK(gain(10) - gain(4) == Approx(1.2).margin(0.1));
    CHECK(gain(10) - gain(1) == Approx(8.0).margin(0.1));
    const Chain open = horn(held(Instrument::horn, 6, 27));  // leaned until the rim stands off
    CHECK(open.leak == 1);
    CHECK(db_at(open, 180) - db_at(horn(held(Instrument::horn, 6)), 180) == Approx(-3).margin(0.1));
    CHECK(db_at(open, 45) < db_at(horn(held(Instrument::horn, 6)), 45) - 20);
}

TEST_CASE("Horn pressed beyond 15 N: the flesh stiffens, the upper corner comes down from 900 to 500 Hz",
          "[instruments]") {
    const Chain well = horn(held(Instrument::horn, 15)), hard = horn(held(Instrument::horn, 25));
    CHECK(db_at(well, 900) - db_at(hard, 900) > 6);
    CHECK(std::fabs(db_at(well, 100) - db_at(hard, 100)) < 0.2);
    CHECK(contact_db(hard) < contact_db(well) - 2);
}

TEST_CASE("A hand left on the horn: 3 dB less at 145 and 450 Hz, a tremor of 1 to 2 dB", "[instruments]") {
    const Chain off = horn(held(Instrument::horn, 6)),
                on = horn(held(Instrument::horn, 6, 0, On::instrument));
    CHECK(db_at(off, 145) - db_at(on, 145) == Approx(3).margin(0.2));
    CHECK(db_at(off, 450) - db_at(on, 450) == Approx(3).margin(0.2));
    CHECK(-scene::in_db(1 - on.tremor) >= 1);
    CHECK(-scene::in_db(1 - on.tremor) <= 2);
    CHECK(off.tremor == 0);
}

TEST_CASE("A tilt costs its cosine, and beyond 10 to 15 degrees the rim leaks", "[instruments]") {
    for (const Instrument instrument : {Instrument::horn, Instrument::bell, Instrument::diaphragm}) {
        const Chain square = chain_of(held(instrument, 6)), leaned = chain_of(held(instrument, 6, 10));
        CAPTURE(static_cast<int>(instrument));
        CHECK(contact_db(square) - contact_db(leaned) ==
              Approx(-20 * std::log10(std::cos(10 * 3.14159265358979 / 180))).margin(0.001));
        CHECK(leaned.leak == square.leak);
        CHECK(chain_of(held(instrument, 6, 20)).leak > 0.4);
    }
}

TEST_CASE("Bell: +5 dB at 80 Hz, +3 by its tube at 200, 3 dB down at 25 and (tube aside) 250 Hz",
          "[instruments]") {
    const Chain chain = bell(held(Instrument::bell, 5));
    const auto by_stage = [&](std::size_t stage, double hz) {
        return scene::in_db(amplitude_at(chain.stages[stage], hz));
    };
    CHECK(by_stage(0, 25) == Approx(-3).margin(0.1));
    CHECK(by_stage(1, 80) == Approx(5).margin(0.01));
    CHECK(by_stage(2, 250) == Approx(-3).margin(0.2));
    CHECK(by_stage(3, 200) == Approx(3).margin(0.01));
    // A slope of 6 dB an octave on either side, as far as sound is made.
    CHECK(by_stage(0, 6) - by_stage(0, 3) == Approx(6).margin(0.6));
    CHECK(by_stage(2, 600) - by_stage(2, 1200) == Approx(6).margin(1));
    for (const double hz : {37.5, 60.0, 80.0, 112.5}) CHECK(db_at(chain, hz) > 0);  // Abella 1992
}

TEST_CASE("Diaphragm: 10 dB weaker at 50 Hz, flat within 1 dB from 150 to 400, 3 dB down at 800",
          "[instruments]") {
    const Chain chain = diaphragm(held(Instrument::diaphragm, 8));
    CHECK(db_at(chain, 50) == Approx(-10).margin(0.5));
    for (double hz = 150; hz <= 400; hz += 25) CHECK(std::fabs(db_at(chain, hz)) < 1);
    CHECK(db_at(chain, 800) == Approx(-3).margin(0.2));
    for (const double hz : {37.5, 60.0, 80.0, 112.5}) CHECK(db_at(chain, hz) < 0);  // Abella 1992
}

TEST_CASE("A bell pressed from 8 to 16 N turns into a diaphragm, step by step", "[instruments]") {
    const Chain end = bell(held(Instrument::bell, 16)), flat = diaphragm(held(Instrument::diaphragm, 16));
    for (const double hz : {30.0, 50.0, 80.0, 150.0, 250.0, 400.0, 800.0, 1600.0}) {
        CAPTURE(hz);
        CHECK(db_at(end, hz) == Approx(db_at(flat, hz)).margin(0.01));
    }
    double before = db_at(bell(held(Instrument::bell, 8)), 50);
    for (double press = 9; press <= 16; press += 1) {
        const double now = db_at(bell(held(Instrument::bell, press)), 50);
        CHECK(now < before);
        CHECK(before - now < 5);
        before = now;
    }
}

// The room as each instrument, sealed, lets it in before its own filters.
TEST_CASE("A stethoscope closes both ears: 6 dB less of the ward than a horn lets in", "[instruments]") {
    Patient p = scene::quiet_labour();
    p.surroundings.ward = {-20};
    const auto ward_into = [&](Instrument instrument) {
        const Hold hold = scene::hold_at(instrument, 6, -7);
        const Ear ear = ear_for(p, hold);
        return levels_through(ear, p, CourseTick{}, hold).ward_into_db + ear.ward_horn_db;
    };
    CHECK(ward_into(Instrument::horn) - ward_into(Instrument::bell) == Approx(6));
    CHECK(ward_into(Instrument::horn) - ward_into(Instrument::diaphragm) == Approx(6));
}

TEST_CASE(
    "Doppler's speaker: steep under 100 Hz, gentle under 150; dry it gives 30 dB less, off the skin nothing",
    "[instruments]") {
    const Chain wet = doppler_speaker(held(Instrument::doppler, 6));
    CHECK(db_at(wet, 300) > -2);
    CHECK(db_at(wet, 50) < -20);
    Hold dry = held(Instrument::doppler, 6);
    dry.gel = false;
    CHECK(contact_db(wet) - contact_db(doppler_speaker(dry)) == Approx(30).margin(0.01));
    CHECK(doppler_speaker(held(Instrument::doppler, 0.3)).contact == 0);
}
