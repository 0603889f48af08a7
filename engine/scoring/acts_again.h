// What is to be done again and again: listening when it is due, her pulse as often as the protocol asks.
#pragma once

#include "engine/scoring/evidence.h"
#include "engine/scoring/score_sheet.h"

#include <optional>
#include <string>
#include <vector>

namespace engine {

// An act whose time came round again and was missed.
struct NotAgain {
    ActScore act;  // late or not_done; no limit of its own: due at `known_from_s`
    Verdict verdict = Verdict::partly;
    std::string why;  // a sentence of its own; empty: the act's words say enough
};

// Late pulses that only followed from a late listening are left out.
std::vector<NotAgain> not_done_again(const Evidence&);

// A labour that goes on without them: ended by the trainee before the next listening fell due, with nothing
// the matter. Said, and no fault; empty otherwise.
std::string left_unheard(const Evidence&);

// What to do next time about the longest stretch without listening; none where it was listened to in time.
std::optional<NextTime> come_back_in_time(const Evidence&);

}  // namespace engine
