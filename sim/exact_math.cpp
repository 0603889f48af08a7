#include "sim/exact_math.h"

#include <cmath>
#include <cstdint>

namespace sim {

namespace {

// Natural logarithm of two in two parts; the first has 21 trailing zero bits, so that n times it is exact for
// every exponent n.
constexpr double ln2_high = 6.93147180369123816490e-01;
constexpr double ln2_low = 1.90821492927058770002e-10;
constexpr double ln2 = 0.693147180559945309417232121458;
constexpr double log2_e = 1.44269504088896340735992468100;
constexpr double ln10 = 2.30258509299404568401799145468;
constexpr double log2_10 = 3.32192809488736234787031942949;
constexpr double log10_2_high = 3.01029995663611771306e-01;
constexpr double log10_2_low = 3.69423907715893078616e-13;

// e^r by its series, |r| at most 0.35: the first term left out is below 4e-18.
double exp_of_small(double r) {
    double sum = 1.0;
    for (int k = 14; k >= 1; --k) sum = 1.0 + sum * r / static_cast<double>(k);
    return sum;
}

struct Split {
    double log_of_part = 0;  // natural logarithm of the mantissa, within +-0.347
    double exponent = 0;
};

Split split_log(double x) {
    int exponent = 0;
    double m = std::frexp(x, &exponent);
    if (m < 0.70710678118654752440) {
        m *= 2.0;
        --exponent;
    }
    const double s = (m - 1.0) / (m + 1.0);
    const double z = s * s;
    double sum = 0.0;
    for (int k = 25; k >= 1; k -= 2) sum = sum * z + 1.0 / static_cast<double>(k);
    return {2.0 * s * sum, static_cast<double>(exponent)};
}

struct Turned {
    double rest = 0;  // within +-pi/4
    unsigned quarter = 0;
};

// Quarter turns taken off in three parts of 33 bits, exact while their number stays below 2^20.
Turned take_quarters(double x) {
    constexpr double first = 1.57079632673412561417e+00;
    constexpr double second = 6.07710050630396597660e-11;
    constexpr double third = 2.02226624879595063154e-21;
    const double n = std::floor(x * (2.0 / pi) + 0.5);
    const double rest = ((x - n * first) - n * second) - n * third;
    return {rest, static_cast<unsigned>(static_cast<std::int64_t>(n) & 3)};
}

double sine_of_small(double r) {
    const double z = r * r;
    double sum = 1.0;
    for (int k = 18; k >= 2; k -= 2) sum = 1.0 - sum * z / static_cast<double>(k * (k + 1));
    return r * sum;
}

double cosine_of_small(double r) {
    const double z = r * r;
    double sum = 1.0;
    for (int k = 19; k >= 1; k -= 2) sum = 1.0 - sum * z / static_cast<double>(k * (k + 1));
    return sum;
}

}  // namespace

double exact_exp2(double x) {
    const double n = std::floor(x + 0.5);
    return std::ldexp(exp_of_small((x - n) * ln2), static_cast<int>(n));
}

double exact_exp(double x) {
    const double n = std::floor(x * log2_e + 0.5);
    return std::ldexp(exp_of_small((x - n * ln2_high) - n * ln2_low), static_cast<int>(n));
}

double exact_pow10(double x) {
    const double n = std::floor(x * log2_10 + 0.5);
    return std::ldexp(exp_of_small(((x - n * log10_2_high) - n * log10_2_low) * ln10), static_cast<int>(n));
}

double exact_log(double x) {
    const Split s = split_log(x);
    return s.exponent * ln2_high + (s.log_of_part + s.exponent * ln2_low);
}

double exact_log2(double x) {
    const Split s = split_log(x);
    return s.exponent + s.log_of_part * log2_e;
}

double exact_sin(double x) {
    const Turned t = take_quarters(x);
    switch (t.quarter) {
        case 0: return sine_of_small(t.rest);
        case 1: return cosine_of_small(t.rest);
        case 2: return -sine_of_small(t.rest);
        default: return -cosine_of_small(t.rest);
    }
}

double exact_cos(double x) {
    const Turned t = take_quarters(x);
    switch (t.quarter) {
        case 0: return cosine_of_small(t.rest);
        case 1: return -sine_of_small(t.rest);
        case 2: return -cosine_of_small(t.rest);
        default: return sine_of_small(t.rest);
    }
}

double exact_tanh(double x) {
    const double size = std::fabs(x);
    if (size < 0.1) {
        // The difference below would lose the digits of a small result.
        const double z = x * x;
        return x * (1.0 + z * (-1.0 / 3 + z * (2.0 / 15 + z * (-17.0 / 315 + z * (62.0 / 2835 +
                    z * (-1382.0 / 155925 + z * (21844.0 / 6081075)))))));
    }
    const double t = size > 20.0 ? 1.0 : 1.0 - 2.0 / (exact_exp(2.0 * size) + 1.0);
    return x < 0 ? -t : t;
}

}  // namespace sim
