// Which noise fills which lane of the mix behind a Doppler: what each part of a beat, and each vessel, sends
// back.
#pragma once

#include "sim/sound/mix.h"

namespace sim {

// `wall`: the ventricle's wall and the mitral valve at both ends of systole; `opening`, `closing`: clicks of
// the aortic valve; `ejection`: the wall in between. A vessel's pitch runs from its low band to its high one
// and back.
enum class Echo : std::uint8_t { atrial, wall, opening, ejection, closing, hiss, artery_low, artery_high };

// Unit RMS each. Pitch goes with the carrier, 1 to 3.5 MHz.
NoiseShapes echo_shapes(double carrier_mhz);

// The heart's own bands with the beam leaned: pitch goes with the cosine, 0.5 to 1.
NoiseShapes leaned(const NoiseShapes& square, double carrier_mhz, double cosine);

}  // namespace sim
