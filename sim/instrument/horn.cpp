// The Pinard horn: 16 to 20 cm of air between skin and ear, pressed by the listener's head [practice: force
// law, seal and peaks; the quarter-wave and cavity resonances follow from its size].
#include "sim/exact_math.h"
#include "sim/instrument/chain.h"

#include <algorithm>

namespace sim {

Chain horn(const Hold& hold) {
    const double f = hold.press_n;
    const bool hand_on = hold.left == On::instrument || hold.right == On::instrument;
    const double rim_lifts = std::clamp((hold.tilt_deg - 12) / 15, 0.0, 1.0);
    const double dull = std::clamp((f - 15) / 10, 0.0, 1.0);
    const double damped_db = hand_on ? 3 : 0;

    Chain chain;
    const double too_light = std::clamp((4 - f) / 4, 0.0, 1.0);
    chain.leak = std::min(1.0, too_light * too_light + rim_lifts);
    chain.contact = (1 - exact_exp(-f / 2)) / (1 - exact_exp(-3.0)) * exact_cos(hold.tilt_deg * pi / 180) *
                    (1 - 0.3 * dull) * (hand_on ? 0.6 : 1.0);
    chain.tremor = hand_on ? 0.2 : 0;
    chain.stages = {high_pass(20 + 160 * chain.leak), peak(145, 1.5, 6 - damped_db),
                    peak(450, 3, 5 - damped_db), low_pass(900 - 400 * dull)};
    return chain;
}

}  // namespace sim
