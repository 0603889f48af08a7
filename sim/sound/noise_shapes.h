// Which noise fills which lane, with a stethoscope or horn on the skin; a Doppler has its own (echo_shapes).
#pragma once

#include "sim/hold.h"
#include "sim/sound/mix.h"

namespace sim {

enum class Noise : std::uint8_t { souffle, vessel, cord, body, ward, friction, breath, hiss };

NoiseShapes acoustic_noises(OutputMode mode);

}  // namespace sim
