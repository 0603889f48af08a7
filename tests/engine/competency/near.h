// How near a figure must be to a printed one: 1e-6 unless the printed value has fewer digits. Where a value
// is from:
//   [R]  R 4.2.2 with psych 2.2.9, irr 0.84.1, vcd 1.4-11, eRm 1.0-2, ltm 1.2-0, tolerance 3.0.0
//   [Py] Python 3.11 with SciPy 1.10.1 / statsmodels 0.13.5
//   [V: ...] the named source itself; [M], [memory] from memory
#pragma once

#include "engine/competency/figure.h"

#include <catch2/catch.hpp>

#include <limits>

inline Approx near(double printed, double by = 1e-6) { return Approx(printed).epsilon(0).margin(by); }

// NaN when absent: equal to nothing, so a check of an absent figure fails.
inline double value(const engine::Figure& figure) {
    return figure ? *figure : std::numeric_limits<double>::quiet_NaN();
}
