// Bell and diaphragm of a binaural stethoscope. Bells favour 37.5 to 112.5 Hz, diaphragms weaken it
// (Abella et al., JASA 1992;91:2224); a firm bell stretches the skin and turns into a diaphragm [practice].
#include "sim/exact_math.h"
#include "sim/instrument/chain.h"

#include <algorithm>

namespace sim {

namespace {

double pressed(double newtons, double scale, double reference) {
    return (1 - exact_exp(-newtons / scale)) / (1 - exact_exp(-reference / scale));
}

double leak_of(const Hold& hold, double needs_n) {
    return std::min(1.0, std::clamp((needs_n - hold.press_n) / needs_n, 0.0, 1.0) +
                             std::clamp((hold.tilt_deg - 10) / 15, 0.0, 1.0));
}

}  // namespace

Chain bell(const Hold& hold) {
    const double firm = std::clamp((hold.press_n - 8) / 8, 0.0, 1.0);
    Chain chain;
    chain.leak = leak_of(hold, 2);
    chain.contact = pressed(hold.press_n, 1, 6) * exact_cos(hold.tilt_deg * pi / 180);
    chain.stages = {high_pass_gentle(25 + 85 * firm + 125 * chain.leak), peak(80, 0.8, 5 * (1 - firm)),
                    low_pass_gentle(250 + 350 * firm), peak(200, 2.5, 3)};
    return chain;
}

// Weaker below 100 Hz, by less than on the bench: on a body the coupling makes the two alike (Nowak, JASA
// 2017).
Chain diaphragm(const Hold& hold) {
    Chain chain;
    chain.leak = leak_of(hold, 4);
    chain.contact = pressed(hold.press_n, 2, 6) * exact_cos(hold.tilt_deg * pi / 180);
    chain.stages = {high_pass_gentle(90 + 60 * chain.leak), low_pass(800), peak(200, 2.5, 2), FilterShape{}};
    return chain;
}

}  // namespace sim
