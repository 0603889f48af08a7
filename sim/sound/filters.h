// Second-order filters: their shapes (designed in double with exact_math) and how much each lets through at a
// frequency. Everything before the raise to 48 kHz runs at `source_rate`.
// Shapes: R. Bristow-Johnson, "Cookbook formulae for audio EQ biquad filter coefficients" [memory].
#pragma once

#include "sim/units.h"

namespace sim {

inline constexpr int source_rate = 8'000;           // content is kept under 2.5 kHz
inline constexpr int source_samples_per_tick = 16;  // one sound tick of 2 ms
static_assert(sample_rate % source_rate == 0 && source_rate / 1000 * 2 == source_samples_per_tick);

// y = b0 x + b1 x' + b2 x'' - a1 y' - a2 y''
struct FilterShape {
    double b0 = 1, b1 = 0, b2 = 0, a1 = 0, a2 = 0;
};

// Corner or centre frequencies between 1 Hz and 3.9 kHz, q above 0.
FilterShape high_pass(double f_hz, double q = 0.70710678118654752);
FilterShape low_pass(double f_hz, double q = 0.70710678118654752);
FilterShape peak(double f_hz, double q, double gain_db);
FilterShape band_pass(double f_hz, double width_hz);  // 0 dB at the centre
FilterShape low_pass_gentle(double f_hz);             // first order
FilterShape high_pass_gentle(double f_hz);

// The same shape `times` as high up (near half of `source_rate` it is squeezed, never past it).
FilterShape raised(const FilterShape& shape, double times);

// Amplitude let through at a frequency, and its square.
double power_at(const FilterShape& shape, double f_hz);
double amplitude_at(const FilterShape& shape, double f_hz);

}  // namespace sim
