#include "sim/sound/noise_shapes.h"

#include "sim/random.h"

#include <cmath>

namespace sim {

namespace {

struct EchoBand {
    double hz, width_hz;
};
// Centre and width of what each part of a beat sends back at 2 MHz [practice].
constexpr EchoBand echo_bands[] = {{205, 110}, {250, 120}, {420, 200}, {220, 110}, {380, 180}};

template <typename Lane>
void fill(NoiseShapes& shapes, Lane lane, Stream stream, const FilterShape& first,
          const FilterShape& second) {
    const auto i = static_cast<std::size_t>(lane);
    shapes.filters[i] = {first, second};
    shapes.streams[i] = static_cast<std::uint32_t>(stream);
}

constexpr Stream echo_stream(int i) {
    return static_cast<Stream>(static_cast<std::uint32_t>(Stream::doppler_tone) +
                               8192u * static_cast<std::uint32_t>(i + 1));
}

void fill_echoes(NoiseShapes& shapes, double cosine) {
    for (int i = 0; i < 5; ++i)
        fill(shapes, static_cast<Echo>(i), echo_stream(i),
             band_pass(echo_bands[i].hz * cosine, echo_bands[i].width_hz * cosine), low_pass(1500));
}

}  // namespace

// Bands [memory, practice]: souffle 100-400 Hz, cord 150-400, breathing 100-400, friction 80-2000 falling,
// ward from 150 up (speech above 2.5 kHz is left out), the body's own noise 20-150, where the ladder is
// measured.
NoiseShapes acoustic_noises(OutputMode mode) {
    const double raised = mode == OutputMode::shifted ? 5 : 1;
    NoiseShapes s;
    fill(s, Noise::souffle, Stream::souffle, high_pass(100), low_pass(400));
    fill(s, Noise::vessel, Stream::vessel, high_pass(80), low_pass(250));
    fill(s, Noise::cord, Stream::cord, high_pass(150), low_pass(400));
    // Fourth order above, so that it does not lie over a blow; below 20 Hz every instrument cuts it itself.
    if (raised == 1)
        fill(s, Noise::body, Stream::room, low_pass(105, 0.5412), low_pass(105, 1.3066));
    else
        fill(s, Noise::body, Stream::room, high_pass(20 * raised), low_pass(110 * raised));
    fill(s, Noise::ward, Stream::ward, high_pass(150), low_pass(2000));
    fill(s, Noise::friction, Stream::friction, high_pass(80), low_pass_gentle(500));
    fill(s, Noise::breath, Stream::breath_sound, high_pass(100), low_pass(400));
    fill(s, Noise::hiss, static_cast<Stream>(static_cast<std::uint32_t>(Stream::room) + 8192u),
         high_pass(100), low_pass(1800));
    s.settle_units();
    return s;
}

NoiseShapes doppler_noises() {
    NoiseShapes s;
    fill_echoes(s, 1);
    fill(s, Echo::hiss, echo_stream(5), high_pass(150), low_pass(1500));
    fill(s, Echo::artery_low, echo_stream(6), band_pass(260, 220), low_pass(1500));
    fill(s, Echo::artery_high, echo_stream(7), band_pass(650, 450), low_pass(1800));
    s.settle_units();
    return s;
}

NoiseShapes leaned(const NoiseShapes& square, double cosine) {
    NoiseShapes s = square;
    fill_echoes(s, cosine);
    for (std::size_t i = 0; i < 5; ++i)
        s.unit[i] = square.unit[i] / std::sqrt(cosine);  // narrower, so less of it
    return s;
}

}  // namespace sim
