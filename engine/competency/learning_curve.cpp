#include "engine/competency/learning_curve.h"

#include "engine/competency/distributions.h"

#include <algorithm>
#include <cmath>

namespace engine {
namespace {

constexpr double least_c = 0.01, most_c = 3;

double basis(CurveShape shape, double n, double c) {
    return shape == CurveShape::exponential ? std::exp(-c * (n - 1)) : std::pow(n, -c);
}

double basis_slope(CurveShape shape, double n, double c) {  // by c
    return shape == CurveShape::exponential ? -(n - 1) * std::exp(-c * (n - 1))
                                            : -std::log(n) * std::pow(n, -c);
}

struct Linear {
    double a = 0, b = 0, squares = 0;
};

// Best a and b for this c.
Linear solve(CurveShape shape, std::span<const double> y, double c) {
    double mx = 0, my = 0, xx = 0, xy = 0;
    const double n = static_cast<double>(y.size());
    std::vector<double> x(y.size());
    for (std::size_t i = 0; i < y.size(); ++i) x[i] = basis(shape, static_cast<double>(i + 1), c);
    Linear found;
    if (shape != CurveShape::power_to_zero)
        for (std::size_t i = 0; i < y.size(); ++i) mx += x[i] / n, my += y[i] / n;
    for (std::size_t i = 0; i < y.size(); ++i)
        xx += (x[i] - mx) * (x[i] - mx), xy += (x[i] - mx) * (y[i] - my);
    found.b = xy / xx;
    found.a = my - found.b * mx;
    for (std::size_t i = 0; i < y.size(); ++i) {
        const double left = y[i] - found.a - found.b * x[i];
        found.squares += left * left;
    }
    return found;
}

// A coarse grid, then golden section between the neighbours of its best point.
double best_c(CurveShape shape, std::span<const double> y) {
    constexpr int cells = 120;
    const auto squares = [&](double c) { return solve(shape, y, c).squares; };
    const auto at = [](int i) {
        return least_c * std::pow(most_c / least_c, static_cast<double>(i) / cells);
    };
    int best = 0;
    double least = squares(at(0));
    for (int i = 1; i <= cells; ++i)
        if (const double s = squares(at(i)); s < least) least = s, best = i;
    double low = at(std::max(0, best - 1)), high = at(std::min(cells, best + 1));
    constexpr double golden = 0.6180339887498949;
    double c1 = high - golden * (high - low), c2 = low + golden * (high - low), s1 = squares(c1),
           s2 = squares(c2);
    while (high - low > 1e-10) {
        if (s1 < s2) {
            high = c2, c2 = c1, s2 = s1;
            s1 = squares(c1 = high - golden * (high - low));
        } else {
            low = c1, c1 = c2, s1 = s2;
            s2 = squares(c2 = low + golden * (high - low));
        }
    }
    return (low + high) / 2;
}

// Standard error of a from the slopes by a, b and c: 3 x 3 normal equations, the corner of their inverse.
Figure error_of_a(CurveShape shape, std::size_t n, const Linear& at, double c) {
    double m[3][3] = {};
    for (std::size_t i = 1; i <= n; ++i) {
        const double k = static_cast<double>(i);
        const double slope[3] = {1, basis(shape, k, c), at.b * basis_slope(shape, k, c)};
        for (int r = 0; r < 3; ++r)
            for (int s = 0; s < 3; ++s) m[r][s] += slope[r] * slope[s];
    }
    const double corner = m[1][1] * m[2][2] - m[1][2] * m[2][1];
    const double whole = m[0][0] * corner - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0]) +
                         m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
    if (whole <= 1e-14 * m[0][0] * m[1][1] * m[2][2])
        return Figure::absent("a, b and c cannot be told apart");
    return std::sqrt(at.squares / static_cast<double>(n - 3) * corner / whole);
}

Curve no_curve(CurveShape shape, std::size_t n, const std::string& why) {
    const Figure none = Figure::absent(why);
    return {shape, n, none, none, none, none, none, none, why};
}

}  // namespace

const char* name_of(CurveShape shape) {
    return shape == CurveShape::power         ? "power"
           : shape == CurveShape::exponential ? "exponential"
                                              : "power to zero";
}

Curve fit_curve(CurveShape shape, std::span<const double> y) {
    if (y.size() < 6) return no_curve(shape, y.size(), "a curve needs 6 attempts");
    const auto [least, most] = std::minmax_element(y.begin(), y.end());
    if (*least == *most) return no_curve(shape, y.size(), "all attempts equal");
    const double c = best_c(shape, y);
    if (c < least_c * 1.001 || c > most_c * 0.999)
        return no_curve(shape, y.size(), "the rate of learning runs to the end of what is searched");
    const Linear at = solve(shape, y, c);
    const double n = static_cast<double>(y.size()), k = shape == CurveShape::power_to_zero ? 3 : 4;
    Curve curve{shape, y.size(), at.a, Figure(0.0), at.b, c, at.squares, Figure(0.0), ""};
    if (shape == CurveShape::power_to_zero)
        curve.a_error = Figure::absent("the floor is taken as 0");
    else
        curve.a_error = error_of_a(shape, y.size(), at, c);
    curve.aicc = at.squares > 0 ? Figure(n * std::log(at.squares / n) + 2 * k + 2 * k * (k + 1) / (n - k - 1))
                                : Figure::absent("the curve meets every point");
    if (at.b <= 0)
        curve.remark = "getting worse, not better";
    else if (at.a < 0)
        curve.remark = "the floor is not known: the size of an error cannot lie below 0";
    else if (curve.a_error && *curve.a_error * t_quantile(0.975, n - 3) > at.a)
        curve.remark = "the floor is not known";
    return curve;
}

std::vector<Curve> fit_curves(std::span<const double> y) {
    std::vector<Curve> curves;
    for (const CurveShape s : {CurveShape::power_to_zero, CurveShape::power, CurveShape::exponential})
        curves.push_back(fit_curve(s, y));
    std::stable_sort(curves.begin(), curves.end(), [](const Curve& x, const Curve& z) {
        if (x.aicc.known() != z.aicc.known()) return x.aicc.known();
        return x.aicc && *x.aicc < *z.aicc;
    });
    return curves;
}

Figure Curve::attempts_to_anyhow(double target) const {
    if (!c) return c;
    if (*b <= 0) return Figure::absent("getting worse, not better");
    if (target <= *a) return Figure::absent("never: the curve levels off above it");
    const double left = *b / (target - *a);
    return std::max(1.0, shape == CurveShape::exponential ? 1 + std::log(left) / *c : std::pow(left, 1 / *c));
}

Figure Curve::attempts_to(double target) const {
    const Figure attempts = attempts_to_anyhow(target);
    if (attempts && *attempts > 2 * static_cast<double>(n))
        return Figure::absent("beyond twice the attempts seen");
    return attempts;
}

PassingCurve fit_passing(const std::vector<bool>& passed) {
    const auto none = [](const std::string& why) {
        const Figure f = Figure::absent(why);
        return PassingCurve{f, f, f, f, why};
    };
    const auto passes = std::count(passed.begin(), passed.end(), true);
    if (passed.size() < 6) return none("a curve needs 6 attempts");
    if (passes == 0) return none("no attempt passed");
    if (passes == static_cast<std::ptrdiff_t>(passed.size())) return none("every attempt passed");
    if (std::is_sorted(passed.begin(), passed.end())) return none("separated: all fails, then all passes");
    if (std::is_sorted(passed.rbegin(), passed.rend())) return none("separated: all passes, then all fails");

    double b0 = 0, b1 = 0, i00 = 0, i01 = 0, i11 = 0;
    for (int round = 0; round < 100; ++round) {
        double g0 = 0, g1 = 0;
        i00 = i01 = i11 = 0;
        for (std::size_t i = 0; i < passed.size(); ++i) {
            const double x = std::log(static_cast<double>(i + 1)), p = 1 / (1 + std::exp(-b0 - b1 * x));
            const double left = (passed[i] ? 1 : 0) - p, w = p * (1 - p);
            g0 += left, g1 += left * x;
            i00 += w, i01 += w * x, i11 += w * x * x;
        }
        const double whole = i00 * i11 - i01 * i01;
        if (!(whole > 0)) return none("the fit does not settle");
        const double s0 = (i11 * g0 - i01 * g1) / whole, s1 = (i00 * g1 - i01 * g0) / whole;
        b0 += s0, b1 += s1;
        if (std::fabs(s0) + std::fabs(s1) < 1e-12) break;
        if (round == 99) return none("the fit does not settle");
    }
    const double error = std::sqrt(i00 / (i00 * i11 - i01 * i01));
    const double p = 2 * normal_cdf(-std::fabs(b1 / error));
    return {b0, b1, error, p, p < 0.05 ? "" : "not yet clear"};
}

Figure PassingCurve::attempts_to(double chance) const {
    if (!b1) return b1;
    if (*b1 <= 0) return Figure::absent("the chance of passing does not rise");
    return std::max(1.0, std::exp((std::log(chance / (1 - chance)) - *b0) / *b1));
}

}  // namespace engine
