// Which noise fills which lane, with a stethoscope or horn on the skin and with a Doppler.
#pragma once

#include "sim/hold.h"
#include "sim/sound/mix.h"

namespace sim {

enum class Noise : std::uint8_t { souffle, vessel, cord, body, ward, friction, breath, hiss };
enum class Echo : std::uint8_t { filling, mitral, opening, ejection, closing, hiss, artery_low, artery_high };

NoiseShapes acoustic_noises(OutputMode mode);
NoiseShapes doppler_noises();
// Pitch goes with the cosine of the lean, 0.5..1.
NoiseShapes leaned(const NoiseShapes& square, double cosine);

}  // namespace sim
