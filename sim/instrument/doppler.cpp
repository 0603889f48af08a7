// The loudspeaker of a hand-held Doppler and how well its face meets the skin. What the beam meets is in
// sim/body/path; the bursts of a beat are in sim/sound/doppler_tone.
#include "sim/exact_math.h"
#include "sim/instrument/chain.h"

namespace sim {

Chain doppler_speaker(const Hold& hold) {
    Chain chain;
    const double without_gel = hold.gel ? 1 : exact_pow10(-30.0 / 20);
    chain.leak = hold.gel ? 0 : 1;
    chain.contact =
        hold.press_n < 0.5 ? 0 : (1 - exact_exp(-hold.press_n)) / (1 - exact_exp(-6.0)) * without_gel;
    chain.stages = {high_pass(100), high_pass_gentle(150), low_pass(1800), FilterShape{}};
    return chain;
}

}  // namespace sim
