// Which doing of an act answers a rule: one done once there was something to answer, or one done before it
// that
// still holds.
#pragma once

#include "engine/scoring/evidence.h"
#include "engine/scoring/expected.h"

#include <string_view>
#include <vector>

namespace engine {

// From when doing this act can answer this rule. Whoever was called for one trouble is there for the other,
// so
// `asked` are all rules that ask for something here.
sim::LabourTime answerable_from(const Evidence&, const Bound&, std::string_view act,
                                const std::vector<Bound>& asked);

bool answers(const Evidence&, const Bound&, std::string_view act, const Evidence::Doing&,
             const std::vector<Bound>& asked);

}  // namespace engine
