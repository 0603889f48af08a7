// Bell and diaphragm of a binaural stethoscope. Bells favour 37.5 to 112.5 Hz, diaphragms weaken it
// (Abella et al., JASA 1992;91:2224); a firm bell stretches the skin and turns into a diaphragm [practice].
#include "sim/exact_math.h"
#include "sim/instrument/chain.h"

#include <algorithm>
#include <cmath>

namespace sim {

namespace {

double pressed(double newtons, double scale, double reference) {
    return (1 - exact_exp(-newtons / scale)) / (1 - exact_exp(-reference / scale));
}

double leak_of(const Hold& hold, double needs_n) {
    return std::min(1.0, std::clamp((needs_n - hold.press_n) / needs_n, 0.0, 1.0) +
                             std::clamp((hold.tilt_deg - 10) / 15, 0.0, 1.0));
}

// What makes the one of the other: corners of the high and the low pass, each of two poles, so that a bell's
// gentle edges turn into a diaphragm's steep ones without a step. Bell: 25 and 250 Hz, 6 dB an octave (the
// second pole lies out of the way); diaphragm: 10 dB weaker at 50 Hz, flat to 400, 800 Hz, 12 dB an octave
// [practice].
struct Edges {
    double high_pass_hz, high_pass_q, low_pass_hz, low_pass_q;
};

Edges two_poles(double low_a_hz, double low_b_hz, double high_a_hz, double high_b_hz) {
    const double low = std::sqrt(low_a_hz * low_b_hz), high = std::sqrt(high_a_hz * high_b_hz);
    return {low, low / (low_a_hz + low_b_hz), high, high / (high_a_hz + high_b_hz)};
}

// A rim that lifts lets the lows out.
Edges of_bell(double leak) { return two_poles(1, 25 + 125 * leak, 250, 3500); }
Edges of_diaphragm(double leak) { return {86 + 60 * leak, 0.70711, 800, 0.70711}; }

Edges between(const Edges& a, const Edges& b, double share) {
    const auto part = [share](double from, double to) {
        return from * exact_exp2(share * exact_log2(to / from));
    };
    return {part(a.high_pass_hz, b.high_pass_hz), part(a.high_pass_q, b.high_pass_q),
            part(a.low_pass_hz, b.low_pass_hz), part(a.low_pass_q, b.low_pass_q)};
}

// `firm`: 0 a bell that just touches, 1 the skin under it stretched like a diaphragm.
Chain through(double firm, double leak, double contact) {
    const Edges edges = between(of_bell(leak), of_diaphragm(leak), firm);
    Chain chain;
    chain.leak = leak;
    chain.contact = contact;
    chain.stages = {high_pass(edges.high_pass_hz, edges.high_pass_q), peak(80, 0.8, 5 * (1 - firm)),
                    low_pass(edges.low_pass_hz, edges.low_pass_q), peak(200, 2.5, 3 * (1 - firm))};
    return chain;
}

}  // namespace

Chain bell(const Hold& hold) {
    return through(std::clamp((hold.press_n - 8) / 8, 0.0, 1.0), leak_of(hold, 2),
                   pressed(hold.press_n, 1, 6) * exact_cos(hold.tilt_deg * pi / 180));
}

// On the bench weaker still below 100 Hz; on a body the coupling makes the two more alike (Nowak, JASA 2017).
Chain diaphragm(const Hold& hold) {
    return through(1, leak_of(hold, 4), pressed(hold.press_n, 2, 6) * exact_cos(hold.tilt_deg * pi / 180));
}

}  // namespace sim
