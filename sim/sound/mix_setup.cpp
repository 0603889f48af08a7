// Everything of the mix that is not done per sample.
#include "sim/exact_math.h"
#include "sim/sound/level.h"
#include "sim/sound/mix.h"

#include <cmath>

namespace sim {

namespace {

SingleFilter single(const FilterShape& s) {
    return {static_cast<float>(s.b0),
            static_cast<float>(s.b1),
            static_cast<float>(s.b2),
            static_cast<float>(s.a1),
            static_cast<float>(s.a2),
            0,
            0};
}

// Kaiser's window: I0 by its series.
double bessel_i0(double x) {
    double sum = 1, term = 1;
    for (int k = 1; k < 40; ++k) {
        term *= x / (2 * k) * (x / (2 * k));
        sum += term;
    }
    return sum;
}

}  // namespace

void NoiseShapes::settle_units() {
    constexpr int points = 160;
    constexpr double uniform_power = 1.0 / 3;  // of 16-bit noise between -1 and 1
    for (std::size_t lane = 0; lane < lane_count; ++lane) {
        double power = 0;
        for (int i = 0; i < points; ++i) {
            // Denser below, where the narrow bands are: f = 4000 u^2.
            const double u = (i + 0.5) / points, hz = 4000 * u * u;
            power += 2 * u * power_at(filters[lane][0], hz) * power_at(filters[lane][1], hz) / points;
        }
        unit[lane] = power > 1e-12 ? 1 / std::sqrt(power * uniform_power) : 0;
    }
}

Mix::Mix() {
    // 96 taps at 48 kHz, cut at 4 kHz, flat to 2.5 kHz, first image at 5.5 kHz 90 dB down.
    constexpr int length = taps * 6;
    constexpr double beta = 9.0, cut = 4000.0 / sample_rate;
    for (int n = 0; n < length; ++n) {
        const double t = n - (length - 1) / 2.0;
        const double r = 2 * t / length;
        const double sinc = exact_sin(2 * pi * cut * t) / (pi * t);
        const double window = bessel_i0(beta * std::sqrt(1 - r * r)) / bessel_i0(beta);
        raise[static_cast<std::size_t>(n / 6)][n % 6] = static_cast<float>(6 * sinc * window);
    }
    assist = {single(high_pass(25)), single(low_pass(120)), single(high_pass(180)), single(low_pass(700))};
}

void Mix::set_shapes(const NoiseShapes& shapes) {
    for (std::size_t stage = 0; stage < 2; ++stage) {
        LaneFilter& f = lane_filters[stage];
        for (int lane = 0; lane < lane_count; ++lane) {
            const FilterShape& s = shapes.filters[static_cast<std::size_t>(lane)][stage];
            f.b0[lane] = static_cast<float>(s.b0);
            f.b1[lane] = static_cast<float>(s.b1);
            f.b2[lane] = static_cast<float>(s.b2);
            f.a1[lane] = static_cast<float>(s.a1);
            f.a2[lane] = static_cast<float>(s.a2);
        }
    }
    for (int lane = 0; lane < lane_count; ++lane)
        streams[lane] = shapes.streams[static_cast<std::size_t>(lane)];
}

void Mix::set_chain(const Chain& through) {
    for (std::size_t i = 0; i < chain.size(); ++i) chain_wanted[i] = single(through.stages[i]);
}

void Mix::reset(const NoiseShapes& shapes, const Chain& through) {
    for (ToneRing& ring : rings) ring.samples.fill(0);
    lane_memory = {};
    set_shapes(shapes);
    set_chain(through);
    chain = chain_wanted;
    for (SingleFilter& f : assist) f.z1 = f.z2 = 0;
    assist_follows = 0;
    history.fill(0);
    heard.fill(0);
    noise_gain = Lanes{};
    tone_gain.fill(0);
    fade = 0;
}

}  // namespace sim
