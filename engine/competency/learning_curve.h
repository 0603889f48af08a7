// The size of error (or the time taken) over attempts 1, 2, ...: power and exponential curves, and the chance
// of passing against ln n. For one person prefer the exponential: averaging people manufactures a power law
// (Heathcote, Brown & Mewhort 2000).
#pragma once

#include "engine/competency/figure.h"

#include <span>
#include <string>
#include <vector>

namespace engine {

enum class CurveShape { power, exponential, power_to_zero };
const char* name_of(CurveShape shape);

// power: a + b n^-c; exponential: a + b e^-c(n-1); power_to_zero: b n^-c.
struct Curve {
    CurveShape shape = CurveShape::power;
    std::size_t n = 0;        // attempts fitted
    Figure a, a_error, b, c;  // a_error: standard error; much larger than a = the floor is not known
    Figure residual_squares;
    Figure aicc;         // Akaike, corrected for few attempts; only differences mean anything
    std::string remark;  // why not to use it, or "the floor is not known"; may be empty

    // Attempts until y falls to `target`. Never beyond twice the attempts seen [practice], never below the
    // floor.
    Figure attempts_to(double target) const;
    Figure attempts_to_anyhow(double target) const;  // without the limit of twice: for comparison only
};

// y[0] belongs to attempt 1. At least 6 attempts.
Curve fit_curve(CurveShape shape, std::span<const double> y);
// All three; the one with the lowest aicc first, absent ones last.
std::vector<Curve> fit_curves(std::span<const double> y);

// logit of the chance of passing = b0 + b1 ln n.
struct PassingCurve {
    Figure b0, b1, b1_error, b1_p;  // p by the normal
    std::string remark;             // "separated: ...", "not yet clear"; may be empty
    Figure attempts_to(double chance) const;
};
PassingCurve fit_passing(const std::vector<bool>& passed);

}  // namespace engine
