// Acts of alarm for a sound heart. They are shown and counted among the over-calls, and are no fault by
// themselves: a wrong "normal" is far worse. Left uncounted, calling everything abnormal would win.
#pragma once

#include "engine/scoring/evidence.h"

#include <set>

namespace engine {

// Into Played::acts. Empty unless the heart was heard to be normal and was normal all through the attempt.
std::set<const TimedAct*> over_called_acts(const Evidence&);

// The trouble was to be seen before the heart told of it: unsafe whenever it was done.
bool unsafe_beforehand(const Evidence&, const Bound& unsafe, const TimedAct&);

}  // namespace engine
