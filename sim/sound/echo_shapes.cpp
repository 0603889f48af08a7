#include "sim/sound/echo_shapes.h"

#include "sim/random.h"

#include <cmath>

namespace sim {

namespace {

struct EchoBand {
    double hz, width_hz;
};
// Centre and width at 2 MHz and a square beam [practice]; all six events together then have half their power
// below 242 Hz and nine tenths of it between 156 and 473 Hz [computed].
constexpr EchoBand heart_bands[] = {{180, 90}, {240, 115}, {420, 200}, {220, 110}, {380, 180}};
constexpr int heart_lanes = 5;

constexpr Stream echo_stream(int i) {
    return static_cast<Stream>(static_cast<std::uint32_t>(Stream::doppler_tone) +
                               8192u * static_cast<std::uint32_t>(i + 1));
}

void fill(NoiseShapes& shapes, Echo lane, const FilterShape& first, const FilterShape& second) {
    const auto i = static_cast<std::size_t>(lane);
    shapes.filters[i] = {first, second};
    shapes.streams[i] = static_cast<std::uint32_t>(echo_stream(static_cast<int>(i)));
}

// Butterworth's band-pass of the second order as two sections: the poles of the low-pass, (-1 +- i) / sqrt 2,
// moved to the band. Single resonators would let a third of the sound out above 500 Hz.
void fill_band(NoiseShapes& shapes, Echo lane, double hz, double width_hz) {
    const double middle_squared = hz * hz - width_hz * width_hz / 4, quarter = width_hz * width_hz / 4;
    const double size = std::sqrt(middle_squared * middle_squared + quarter * quarter);
    const double u = std::sqrt((size - middle_squared) / 2), v = std::sqrt((size + middle_squared) / 2);
    const double half = width_hz / 2.8284271247461903;
    const auto section = [](double re, double im) {
        const double at = std::sqrt(re * re + im * im);
        return band_pass(at, 2 * std::fabs(re));  // width = centre / Q
    };
    fill(shapes, lane, section(-half + u, half - v), section(-half - u, half + v));
}

void fill_heart(NoiseShapes& shapes, double pitch) {
    for (int i = 0; i < heart_lanes; ++i)
        fill_band(shapes, static_cast<Echo>(i), heart_bands[i].hz * pitch, heart_bands[i].width_hz * pitch);
}

}  // namespace

NoiseShapes echo_shapes(double carrier_mhz) {
    const double pitch = carrier_mhz / 2;
    NoiseShapes s;
    fill_heart(s, pitch);
    fill(s, Echo::hiss, high_pass(150), low_pass(1500));
    fill_band(s, Echo::artery_low, 240 * pitch, 190 * pitch);
    fill_band(s, Echo::artery_high, 950 * pitch, 480 * pitch);
    s.settle_units();
    return s;
}

NoiseShapes leaned(const NoiseShapes& square, double carrier_mhz, double cosine) {
    NoiseShapes s = square;
    fill_heart(s, carrier_mhz / 2 * cosine);
    for (std::size_t i = 0; i < heart_lanes; ++i)
        s.unit[i] = square.unit[i] / std::sqrt(cosine);  // narrower, so less of it
    return s;
}

}  // namespace sim
