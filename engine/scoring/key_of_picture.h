// The key from a picture already painted: used for a whole scenario, for a spell, and for each decision of an
// attempt.
#pragma once

#include "engine/scoring/key.h"
#include "engine/scoring/situations.h"

namespace engine {

Key key_of_picture(const Scenario&, const Protocol&, const Played&, const Listened&, const Picture&,
                   sim::LabourTime from, sim::LabourTime to);

// Of twins the one whose heart asks for more, as far as it was heard; else 0.
std::size_t baby_in_question(const Protocol&, const Picture&);

}  // namespace engine
