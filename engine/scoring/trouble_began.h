// Since when there was something to answer: an act done before that is no answer to it, however right it
// would
// have been later. Not the same as known-from: who hears a heart that has begun to fall, and acts before a
// whole minute could prove it, acts in good faith.
#pragma once

#include "engine/scoring/evidence.h"

#include <string_view>

namespace engine {

// The trouble itself, heard or not; 0 where it was there from the start.
sim::LabourTime trouble_began(const Evidence&, std::string_view situation);

// Her story alone tells it: it can be answered before anything was heard or touched.
bool told_by_story(const Evidence&, std::string_view situation);

// The trouble had begun and this person had listened (or touched, looked, where that shows it). Never later
// than their listening showed it.
sim::LabourTime answerable_from(const Evidence&, const Known&);

}  // namespace engine
