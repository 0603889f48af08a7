#include "sim/random.h"

#include "sim/dice_lanes.h"
#include "sim/exact_math.h"

#include <cmath>
#include <cstddef>
#include <cstring>

namespace sim {

namespace {

constexpr double unit_53 = 1.0 / 9007199254740992.0;  // 2^-53

double uniform_of(std::uint32_t w0, std::uint32_t w1) {
    return (static_cast<double>(w0 >> 5) * 67108864.0 + static_cast<double>(w1 >> 6)) * unit_53;
}

// Filled before main: the audio thread must not be the one that makes it.
constexpr int cells = 4096;
constexpr int end_cells =
    8;  // too curved for a straight line (it would be 0.02 out): the quantile itself there
struct QuantileTable {
    std::array<double, cells + 1> at{};
    QuantileTable() {
        for (int i = 1; i < cells; ++i)
            at[static_cast<std::size_t>(i)] = normal_quantile(static_cast<double>(i) / cells);
    }
};
const QuantileTable table;

double normal_at(double p, double half_step) {
    const double place = p * cells;
    const auto i = static_cast<std::size_t>(place);
    // Half a step up keeps an exact zero away from minus infinity.
    if (i < end_cells || i >= cells - end_cells) return normal_quantile(p + half_step);
    return table.at[i] + (place - static_cast<double>(i)) * (table.at[i + 1] - table.at[i]);
}

// The same of a 32-bit draw, w / 2^32: its upper twelve bits are the cell, the rest the way through it,
// without any rounding.
double normal_of(std::uint32_t w) {
    static_assert(cells == 1 << 12);
    const std::size_t i = w >> 20;
    if (i - end_cells >= cells - 2 * end_cells) {
        constexpr double unit_32 = 1.0 / 4294967296.0;
        return normal_quantile(static_cast<double>(w) * unit_32 + 0.5 * unit_32);
    }
    const double way = static_cast<std::int32_t>(w & 0xFFFFFu) * (1.0 / 1048576.0);
    return table.at[i] + way * (table.at[i + 1] - table.at[i]);
}

// The same of sixteen draws, two at a time and without a question for each. Words stand by their number
// first, normals by their index.
using Two = double __attribute__((vector_size(16)));
void normals_of(const std::array<std::uint32_t, 16>& words, std::array<std::array<double, 4>, 4>& row) {
    std::array<std::int32_t, 16> cell;
    std::array<double, 16> way;
    for (std::size_t i = 0; i < 16; ++i) cell[i] = static_cast<std::int32_t>(words[i] >> 20);
    for (std::size_t i = 0; i < 16; ++i)
        way[i] = static_cast<std::int32_t>(words[i] & 0xFFFFFu) * (1.0 / 1048576.0);
    std::int32_t at_an_end = 0;  // below 0: one of them is
    for (const std::int32_t i : cell) at_an_end |= (i - end_cells) | (cells - end_cells - 1 - i);
    for (std::size_t i = 0; i < 4; ++i)
        for (std::size_t k = 0; k < 4; k += 2) {
            const std::size_t a = 4 * k + i, b = a + 4;
            const double* const at_a = &table.at[static_cast<std::size_t>(cell[a])];
            const double* const at_b = &table.at[static_cast<std::size_t>(cell[b])];
            const Two low{at_a[0], at_b[0]}, high{at_a[1], at_b[1]};
            const Two normal = low + Two{way[a], way[b]} * (high - low);
            row[i][k] = normal[0];
            row[i][k + 1] = normal[1];
        }
    if (at_an_end >= 0) return;
    for (std::size_t i = 0; i < 4; ++i)
        for (std::size_t k = 0; k < 4; ++k) row[i][k] = normal_of(words[4 * k + i]);
}

}  // namespace

std::array<std::uint32_t, 4> philox(std::array<std::uint32_t, 4> c, std::array<std::uint32_t, 2> k) {
    for (int round = 0; round < 10; ++round) {
        const std::uint64_t p0 = std::uint64_t{0xD2511F53u} * c[0];
        const std::uint64_t p1 = std::uint64_t{0xCD9E8D57u} * c[2];
        c = {static_cast<std::uint32_t>(p1 >> 32) ^ c[1] ^ k[0], static_cast<std::uint32_t>(p1),
             static_cast<std::uint32_t>(p0 >> 32) ^ c[3] ^ k[1], static_cast<std::uint32_t>(p0)};
        k = {k[0] + 0x9E3779B9u, k[1] + 0xBB67AE85u};
    }
    return c;
}

std::array<std::uint32_t, 4> words(Seed seed, Stream stream, std::uint64_t index, std::uint32_t draw) {
    return philox({static_cast<std::uint32_t>(index), static_cast<std::uint32_t>(index >> 32),
                   static_cast<std::uint32_t>(stream), draw},
                  {static_cast<std::uint32_t>(seed.value), static_cast<std::uint32_t>(seed.value >> 32)});
}

double uniform(Seed seed, Stream stream, std::uint64_t index, std::uint32_t draw) {
    const auto w = words(seed, stream, index, draw);
    return uniform_of(w[0], w[1]);
}

double gaussian(Seed seed, Stream stream, std::uint64_t index, std::uint32_t draw) {
    return normal_at(uniform(seed, stream, index, draw), 0.5 * unit_53);
}

std::array<double, 4> four_gaussians(Seed seed, Stream stream, std::uint64_t index) {
    const auto w = words(seed, stream, index);
    return {normal_of(w[0]), normal_of(w[1]), normal_of(w[2]), normal_of(w[3])};
}

std::array<std::array<double, 4>, 4> four_gaussians_in_a_row(Seed seed, Stream stream, std::uint64_t first) {
    FourWords<2> c;
    for (std::uint64_t i = 0; i < 2; ++i) {
        const std::uint64_t a = first + 2 * i, b = a + 1;
        c.w0[i] = pair(static_cast<std::uint32_t>(a), static_cast<std::uint32_t>(b));
        c.w1[i] = pair(static_cast<std::uint32_t>(a >> 32), static_cast<std::uint32_t>(b >> 32));
        c.w2[i] = both(static_cast<std::uint32_t>(stream));
        c.w3[i] = both(0);
    }
    draw(c, static_cast<std::uint32_t>(seed.value), static_cast<std::uint32_t>(seed.value >> 32));
    const Packed all[] = {packed(c.w0[0], c.w0[1]), packed(c.w1[0], c.w1[1]), packed(c.w2[0], c.w2[1]),
                          packed(c.w3[0], c.w3[1])};
    std::array<std::uint32_t, 16> w;  // all first words, all second ones ...
    static_assert(sizeof w == sizeof all);
    std::memcpy(w.data(), all, sizeof w);
    std::array<std::array<double, 4>, 4> row;
    normals_of(w, row);
    return row;
}

std::uint32_t whole_below(std::uint32_t n, Seed seed, Stream stream, std::uint64_t index) {
    if (n <= 1) return 0;
    // Words in the last, incomplete run of n would favour small numbers.
    const std::uint64_t usable = ((std::uint64_t{1} << 32) / n) * n;
    for (std::uint32_t draw = 0;; ++draw)
        for (const std::uint32_t w : words(seed, stream, index, draw))
            if (w < usable) return w % n;
}

double normal_quantile(double p) {
    const double q = p - 0.5;
    if (std::fabs(q) <= 0.425) {
        const double r = 0.180625 - q * q;
        return q *
               (((((((2.5090809287301226727e3 * r + 3.3430575583588128105e4) * r + 6.7265770927008700853e4) *
                        r +
                    4.5921953931549871457e4) *
                       r +
                   1.3731693765509461125e4) *
                      r +
                  1.9715909503065514427e3) *
                     r +
                 1.3314166789178437745e2) *
                    r +
                3.3871328727963666080e0) /
               (((((((5.2264952788528545610e3 * r + 2.8729085735721942674e4) * r + 3.9307895800092710610e4) *
                        r +
                    2.1213794301586595867e4) *
                       r +
                   5.3941960214247511077e3) *
                      r +
                  6.8718700749205790830e2) *
                     r +
                 4.2313330701600911252e1) *
                    r +
                1.0);
    }
    double r = std::sqrt(-exact_log(q < 0 ? p : 1.0 - p));
    double size = 0;
    if (r <= 5.0) {
        r -= 1.6;
        size = (((((((7.74545014278341407640e-4 * r + 2.27238449892691845833e-2) * r +
                     2.41780725177450611770e-1) *
                        r +
                    1.27045825245236838258e0) *
                       r +
                   3.64784832476320460504e0) *
                      r +
                  5.76949722146069140550e0) *
                     r +
                 4.63033784615654529590e0) *
                    r +
                1.42343711074968357734e0) /
               (((((((1.05075007164441684324e-9 * r + 5.47593808499534494600e-4) * r +
                     1.51986665636164571966e-2) *
                        r +
                    1.48103976427480074590e-1) *
                       r +
                   6.89767334985100004550e-1) *
                      r +
                  1.67638483018380384940e0) *
                     r +
                 2.05319162663775882187e0) *
                    r +
                1.0);
    } else {
        r -= 5.0;
        size = (((((((2.01033439929228813265e-7 * r + 2.71155556874348757815e-5) * r +
                     1.24266094738807843860e-3) *
                        r +
                    2.65321895265761230930e-2) *
                       r +
                   2.96560571828504891230e-1) *
                      r +
                  1.78482653991729133580e0) *
                     r +
                 5.46378491116411436990e0) *
                    r +
                6.65790464350110377720e0) /
               (((((((2.04426310338993978564e-15 * r + 1.42151175831644588870e-7) * r +
                     1.84631831751005468180e-5) *
                        r +
                    7.86869131145613259100e-4) *
                       r +
                   1.48753612908506148525e-2) *
                      r +
                  1.36929880922735805310e-1) *
                     r +
                 5.99832206555887937690e-1) *
                    r +
                1.0);
    }
    return q < 0 ? -size : size;
}

}  // namespace sim
