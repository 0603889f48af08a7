#include "sim/sound/noise_shapes.h"

#include "sim/random.h"
#include "sim/sound/heart_pitch.h"

namespace sim {

namespace {

void fill(NoiseShapes& shapes, Noise lane, Stream stream, const FilterShape& first,
          const FilterShape& second) {
    const auto i = static_cast<std::size_t>(lane);
    shapes.filters[i] = {first, second};
    shapes.streams[i] = static_cast<std::uint32_t>(stream);
}

}  // namespace

// Bands [memory, practice]: souffle 100-400 Hz, cord 150-400, breathing 100-400, friction 80-2000 falling,
// ward from 150 up, falling above 700 as speech does (above 2.5 kHz it is left out), the body's own noise
// even (1 dB) over 20-150, where the ladder is measured: with most of it under 105 Hz it lay where the
// heart's own sounds do, and 0 dB hid as much as -1.5.
NoiseShapes acoustic_noises(OutputMode mode) {
    const double raised = mode == OutputMode::shifted ? raised_times : 1;
    NoiseShapes s;
    fill(s, Noise::souffle, Stream::souffle, high_pass(100), low_pass(400));
    fill(s, Noise::vessel, Stream::vessel, high_pass(80), low_pass(250));
    fill(s, Noise::cord, Stream::cord, high_pass(150), low_pass(400));
    // Fourth order above, so that it does not lie over a blow; below 20 Hz every instrument cuts it itself.
    if (raised == 1)
        fill(s, Noise::body, Stream::room, low_pass(180, 0.5412), low_pass(180, 1.3066));
    else
        fill(s, Noise::body, Stream::room, high_pass(20 * raised), low_pass(110 * raised));
    fill(s, Noise::ward, Stream::ward, high_pass(150), low_pass(raised == 1 ? 700 : 500));
    fill(s, Noise::friction, Stream::friction, high_pass(80),
         raised == 1 ? low_pass_gentle(500) : low_pass(400));
    fill(s, Noise::breath, Stream::breath_sound, high_pass(100), low_pass(400));
    fill(s, Noise::hiss, static_cast<Stream>(static_cast<std::uint32_t>(Stream::room) + 8192u),
         high_pass(100), low_pass(1800));
    s.settle_units();
    return s;
}

}  // namespace sim
