#include "sim/sound/filters.h"

#include "sim/exact_math.h"

#include <cmath>

namespace sim {

namespace {

struct Angle {
    double cos, alpha;
};

Angle angle(double f_hz, double q) {
    const double w = 2 * pi * f_hz / source_rate;
    return {exact_cos(w), exact_sin(w) / (2 * q)};
}

FilterShape divided(double b0, double b1, double b2, double a0, double a1, double a2) {
    return {b0 / a0, b1 / a0, b2 / a0, a1 / a0, a2 / a0};
}

}  // namespace

FilterShape high_pass(double f_hz, double q) {
    const auto [c, alpha] = angle(f_hz, q);
    return divided((1 + c) / 2, -(1 + c), (1 + c) / 2, 1 + alpha, -2 * c, 1 - alpha);
}

FilterShape low_pass(double f_hz, double q) {
    const auto [c, alpha] = angle(f_hz, q);
    return divided((1 - c) / 2, 1 - c, (1 - c) / 2, 1 + alpha, -2 * c, 1 - alpha);
}

FilterShape peak(double f_hz, double q, double gain_db) {
    const auto [c, alpha] = angle(f_hz, q);
    const double a = exact_pow10(gain_db / 40);
    return divided(1 + alpha * a, -2 * c, 1 - alpha * a, 1 + alpha / a, -2 * c, 1 - alpha / a);
}

FilterShape band_pass(double f_hz, double width_hz) {
    const auto [c, alpha] = angle(f_hz, f_hz / width_hz);
    return divided(alpha, 0, -alpha, 1 + alpha, -2 * c, 1 - alpha);
}

FilterShape low_pass_gentle(double f_hz) {
    const double w = pi * f_hz / source_rate;
    const double k = exact_sin(w) / exact_cos(w);
    return {k / (1 + k), k / (1 + k), 0, (k - 1) / (k + 1), 0};
}

FilterShape high_pass_gentle(double f_hz) {
    const double w = pi * f_hz / source_rate;
    const double k = exact_sin(w) / exact_cos(w);
    return {1 / (1 + k), -1 / (1 + k), 0, (k - 1) / (k + 1), 0};
}

// Through s = (z - 1) / (z + 1) and back with s / times.
FilterShape raised(const FilterShape& s, double times) {
    struct Three {
        double a, b, c;
    };
    const auto moved = [times](double x0, double x1, double x2) {
        const double a = x0 + x1 + x2, b = 2 * (x0 - x2) / times, c = (x0 - x1 + x2) / (times * times);
        return Three{a + b + c, 2 * (a - c), a - b + c};
    };
    const Three above = moved(s.b0, s.b1, s.b2), below = moved(1, s.a1, s.a2);
    return divided(above.a, above.b, above.c, below.a, below.b, below.c);
}

double power_at(const FilterShape& s, double f_hz) {
    const double c = exact_cos(2 * pi * f_hz / source_rate), c2 = 2 * c * c - 1;
    const double above =
        s.b0 * s.b0 + s.b1 * s.b1 + s.b2 * s.b2 + 2 * (s.b0 * s.b1 + s.b1 * s.b2) * c + 2 * s.b0 * s.b2 * c2;
    const double below = 1 + s.a1 * s.a1 + s.a2 * s.a2 + 2 * (s.a1 + s.a1 * s.a2) * c + 2 * s.a2 * c2;
    return above > 0 ? above / below : 0;
}

double amplitude_at(const FilterShape& shape, double f_hz) { return std::sqrt(power_at(shape, f_hz)); }

}  // namespace sim
