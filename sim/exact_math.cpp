#include "sim/exact_math.h"

#include <array>
#include <bit>
#include <cmath>
#include <cstddef>
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

// Coefficients of a series, 1/k! or 1/k with sign, made by the compiler: no division is left at run time.
template <int n, typename Term>
constexpr std::array<double, n> series(Term term) {
    std::array<double, n> c{};
    for (int k = 0; k < n; ++k) c[static_cast<std::size_t>(k)] = term(k);
    return c;
}

constexpr double factorial(int k) { return k <= 1 ? 1.0 : k * factorial(k - 1); }

// Even and odd terms apart: half the waiting, and the same order of sums on every machine.
template <std::size_t n>
double polynomial(const std::array<double, n>& c, double x) {
    constexpr std::size_t top_even = (n - 1) / 2 * 2, top_odd = n / 2 * 2 - 1;
    const double square = x * x;
    double even = c[top_even], odd = c[top_odd];
    for (std::size_t k = top_even; k > 0; k -= 2) even = even * square + c[k - 2];
    for (std::size_t k = top_odd; k > 1; k -= 2) odd = odd * square + c[k - 2];
    return even + odd * x;
}

constexpr auto exp_terms = series<15>([](int k) { return 1.0 / factorial(k); });
constexpr auto log_terms = series<13>([](int k) { return 1.0 / (2 * k + 1); });
// The sine's and the cosine's.
constexpr std::array turn_terms{
    series<10>([](int k) { return (k % 2 == 0 ? 1.0 : -1.0) / factorial(2 * k + 1); }),
    series<10>([](int k) { return (k % 2 == 0 ? 1.0 : -1.0) / factorial(2 * k); })};

// e^r, |r| at most 0.35: the first term left out is below 4e-18.
double exp_of_small(double r) { return polynomial(exp_terms, r); }

// The library's floor, ldexp and frexp are calls; these are a few instructions and give the same bits. What
// lies outside their range still goes to the library.
double rounded_down(double x) {
    if (!(std::fabs(x) < 4e18)) return std::floor(x);
    const auto cut = static_cast<double>(static_cast<std::int64_t>(x));
    return cut > x ? cut - 1.0 : cut;
}

double times_two_to(double x, double n) {
    if (!(n >= -1000 && n <= 1000)) return std::ldexp(x, static_cast<int>(n));
    return x * std::bit_cast<double>(static_cast<std::uint64_t>(static_cast<std::int64_t>(n) + 1023) << 52);
}

double mantissa_of(double x, int& exponent) {
    const auto bits = std::bit_cast<std::uint64_t>(x);
    const auto raw = static_cast<int>(bits >> 52);
    if (raw <= 0 || raw >= 2047)
        return std::frexp(x, &exponent);  // zero, below normal, negative, not a number
    exponent = raw - 1022;
    return std::bit_cast<double>((bits & 0x000FFFFFFFFFFFFFu) | 0x3FE0000000000000u);
}

struct Split {
    double log_of_part = 0;  // natural logarithm of the mantissa, within +-0.347
    double exponent = 0;
};

Split split_log(double x) {
    int exponent = 0;
    double m = mantissa_of(x, exponent);
    if (m < 0.70710678118654752440) {
        m *= 2.0;
        --exponent;
    }
    const double s = (m - 1.0) / (m + 1.0);
    return {2.0 * s * polynomial(log_terms, s * s), static_cast<double>(exponent)};
}

struct Turned {
    double rest = 0;  // within +-pi/4
    std::uint64_t quarter = 0;
};

// Quarter turns taken off in three parts of 33 bits, exact while their number stays below 2^20.
Turned take_quarters(double x) {
    constexpr double first = 1.57079632673412561417e+00;
    constexpr double second = 6.07710050630396597660e-11;
    constexpr double third = 2.02226624879595063154e-21;
    const double n = rounded_down(x * (2.0 / pi) + 0.5);
    const double rest = ((x - n * first) - n * second) - n * third;
    return {rest, static_cast<std::uint64_t>(static_cast<std::int64_t>(n))};
}

// The sine of a small angle so many quarter turns on. Looked up, not branched: nobody can guess the quarter.
double sine_at(double rest, std::uint64_t quarter) {
    const std::size_t across = quarter % 2;
    const std::array factor{rest, 1.0};
    const double value = polynomial(turn_terms[across], rest * rest) * factor[across];
    return std::bit_cast<double>(std::bit_cast<std::uint64_t>(value) ^ (quarter / 2 % 2 << 63));
}

}  // namespace

double exact_exp2(double x) {
    const double n = rounded_down(x + 0.5);
    return times_two_to(exp_of_small((x - n) * ln2), n);
}

double exact_exp(double x) {
    const double n = rounded_down(x * log2_e + 0.5);
    return times_two_to(exp_of_small((x - n * ln2_high) - n * ln2_low), n);
}

double exact_pow10(double x) {
    const double n = rounded_down(x * log2_10 + 0.5);
    return times_two_to(exp_of_small(((x - n * log10_2_high) - n * log10_2_low) * ln10), n);
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
    return sine_at(t.rest, t.quarter);
}

double exact_cos(double x) {
    const Turned t = take_quarters(x);
    return sine_at(t.rest, t.quarter + 1);
}

double exact_tanh(double x) {
    const double size = std::fabs(x);
    if (size < 0.1) {
        // The difference below would lose the digits of a small result.
        const double z = x * x;
        return x * (1.0 + z * (-1.0 / 3 +
                               z * (2.0 / 15 +
                                    z * (-17.0 / 315 + z * (62.0 / 2835 + z * (-1382.0 / 155925 +
                                                                               z * (21844.0 / 6081075)))))));
    }
    const double t = size > 20.0 ? 1.0 : 1.0 - 2.0 / (exact_exp(2.0 * size) + 1.0);
    return x < 0 ? -t : t;
}

}  // namespace sim
