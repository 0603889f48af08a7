// The settled rate a baby usually has, by weeks of pregnancy; for scenarios that do not say.
#pragma once

#include "sim/random.h"
#include "sim/units.h"

namespace sim {

// Median by weeks of pregnancy: 144 bpm at 24 wk falling in a straight line to 131 at 40 wk (reference ranges
// of 224 records, 1998). Weeks outside 24..43 are taken as the nearer end.
Bpm usual_baseline(double gestation_weeks);

// One baby's own: spread of 9 about the median, kept within 112..158 [practice; 2126 records: mean 133.3, SD
// 9.84].
Bpm drawn_baseline(double gestation_weeks, Seed seed, int baby);

}  // namespace sim
