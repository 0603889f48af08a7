// Sound files: 48 kHz, one channel.
#pragma once

#include "sim/units.h"

#include <span>
#include <string>

namespace ui {

// 16 bit with triangular dither from its own stream of the seed, or 32-bit float. Refused (exit 2) when the
// file cannot be written.
void write_wav(const std::string& path, std::span<const float> samples, bool float_samples, sim::Seed seed);

}  // namespace ui
