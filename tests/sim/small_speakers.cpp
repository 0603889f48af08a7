// The mode for small speakers, carriers five times as high: each instrument, and how it is held, is still
// told by ear.
#include "tests/sim/without_a_beat.h"

#include <catch2/catch.hpp>

#include <array>

using namespace sim;
using Kind = Change::Kind;

namespace {

constexpr std::array<double, 8> edges = {150, 250, 400, 600, 900, 1'300, 1'900, 2'400};
using Shape = std::array<double, edges.size() - 1>;

// Level in each band, dB.
Shape shape_of(Instrument instrument, float press = 6, float tilt = 0, On hand = On::none) {
    Patient p = scene::quiet_labour();
    p.surroundings.ladder = Ladder::normal;
    auto l = std::make_unique<Listening>(p, Seed{5}, OutputMode::shifted);
    scene::place(*l, instrument, 6, -7, 0, press);
    Change lean = scene::change(Kind::tilt, 0);
    lean.tilt_deg = tilt;
    l->apply(lean);
    Change on = scene::change(Kind::hand, 0);
    on.on = hand;
    l->apply(on);
    scene::heard(*l, 0.3);
    const auto sound = scene::heard(*l, 8);
    std::vector<double> x;
    for (std::size_t i = 0; i < sound.size(); i += scene::thin) x.push_back(static_cast<double>(sound[i]));
    Shape out{};
    for (std::size_t b = 0; b < out.size(); ++b)
        out[b] = scene::in_db(scene::band_rms_of(x, edges[b], edges[b + 1]));
    return out;
}

// The largest difference of two colours once their levels are made the same.
double apart_db(const Shape& a, const Shape& b) {
    double mean = 0, most = 0;
    for (std::size_t i = 0; i < a.size(); ++i) mean += (a[i] - b[i]) / static_cast<double>(a.size());
    for (std::size_t i = 0; i < a.size(); ++i) most = std::max(most, std::fabs(a[i] - b[i] - mean));
    return most;
}

}  // namespace

// 3 dB in a band is heard at once [practice].
TEST_CASE("Carriers raised: horn, bell and diaphragm differ by 3 dB and more in colour", "[small_speakers]") {
    const Shape horn = shape_of(Instrument::horn), bell = shape_of(Instrument::bell),
                flat = shape_of(Instrument::diaphragm);
    CHECK(apart_db(horn, bell) > 3);
    CHECK(apart_db(horn, flat) > 3);
    CHECK(apart_db(bell, flat) > 3);
}

TEST_CASE(
    "Carriers raised: a light press, a lost seal, a hand on the horn and a hard press are heard as in life",
    "[small_speakers]") {
    const Shape well = shape_of(Instrument::horn);
    CHECK(well[0] - shape_of(Instrument::horn, 1)[0] > 6);      // too light: weak, and its lows are gone
    CHECK(well[0] - shape_of(Instrument::horn, 6, 27)[0] > 6);  // leaned until the rim lifts
    const Shape held = shape_of(Instrument::horn, 6, 0, On::instrument);
    CHECK(well[0] - held[0] > 3);                          // muffled
    CHECK((well[3] - well[0]) - (held[3] - held[0]) > 1);  // and its own ring damped
    const Shape hard = shape_of(Instrument::horn, 25);
    CHECK((well[6] - well[0]) - (hard[6] - hard[0]) > 2);  // dull
    const Shape soft_bell = shape_of(Instrument::bell), firm_bell = shape_of(Instrument::bell, 16);
    CHECK((soft_bell[0] - soft_bell[4]) - (firm_bell[0] - firm_bell[4]) > 3);  // turns into a diaphragm
}

// The raised shape lets through at five times the frequency what the shape itself does (bilinear: within 0.3
// dB low down).
TEST_CASE("A raised filter does at 725 Hz what it did at 145, within 0.5 dB, and keeps its ends",
          "[small_speakers]") {
    for (const FilterShape& shape :
         {peak(145, 1.5, 6), high_pass(20), high_pass(100), low_pass(300), low_pass_gentle(250)}) {
        const FilterShape up = raised(shape, 5);
        for (double hz : {10.0, 40.0, 80.0, 145.0})
            CHECK(scene::in_db(amplitude_at(up, 5 * hz)) ==
                  Approx(scene::in_db(amplitude_at(shape, hz))).margin(0.5));
        CHECK(amplitude_at(up, 1) == Approx(amplitude_at(shape, 0.2)).margin(0.01));
    }
}
