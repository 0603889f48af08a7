// The referral note: which of the things the next hands need are in it. Anything may stand in any part, in
// any words.
#pragma once

#include "engine/scoring/evidence.h"

#include <optional>
#include <string>
#include <vector>

namespace engine {

struct ReferralNote {
    // "the rate", "when it was heard against the contraction", ...
    std::vector<std::string> there, lacking;
    std::optional<double> mothers_as_babys_bpm;  // her number, given as the baby's heart
    struct Other {
        double given_bpm = 0, counted_bpm = 0;
    };
    std::optional<Other> other_than_counted;  // a baby's heart that no count gave, and not hers
    bool complete() const { return lacking.empty() && !mothers_as_babys_bpm; }
};

// `note`: an event of Do::handover. Judged against what this person had counted, felt and done until then.
ReferralNote referral_note(const Evidence&, const Event& note);

// "a, b and c".
std::string in_a_row(const std::vector<std::string>& words);

// Right enough for a number said again: within two beats of the count, or 5 bpm [practice].
double count_tolerance_bpm(const CountedWindow&);
// The last count with a number before t; of twins, of that baby. None: nothing had been counted.
const CountedWindow* last_counted(const Evidence&, sim::LabourTime t, std::optional<int> baby = std::nullopt);

}  // namespace engine
