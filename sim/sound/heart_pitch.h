// Centre frequencies and lengths of the heart tones.
#pragma once

namespace sim {

struct HeartPitch {
    double first_hz, second_hz;
    double first_ms = 85, second_ms = 58;  // between the -20 dB points
};

// By weeks of gestation, 34..40, straight lines between, held outside (values as in the public source
// accompanying arXiv:2507.10783, which re-implements the simulation of fetal heart sounds of 2012).
HeartPitch heart_pitch(double gestation_weeks);

// The centre is that of both valves together: the first to close sounds this much above it.
inline constexpr double first_valve_over_centre = 1.065;

inline constexpr double raised_times = 5;  // carriers in the mode for small speakers

inline constexpr double vessel_hz = 42;  // thump of the mother's artery as heard through a horn [practice]

}  // namespace sim
