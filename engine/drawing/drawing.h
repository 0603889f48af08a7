// New scenarios from a quota and a seed: any number of labours nobody has heard before, each complete, each
// judged by the program's own key to be what was asked before it is handed out.
#pragma once

#include "engine/drawing/plan.h"
#include "engine/protocol/protocol.h"
#include "engine/scenario/scenario.h"

#include <string>
#include <vector>

namespace engine {

struct DrawnScenario {
    std::string id;  // "d7-003": seed and number; the file is id + ".toml"
    AskedShare asked;
    std::string text;
    int drawings = 1;  // how often it was drawn until it was what was asked
};

// Same quota, protocol and seed: same bytes. Faults: what of the quota cannot be met, and why.
Outcome<std::vector<DrawnScenario>> draw(const Quota& quota, const Protocol& protocol, sim::Seed seed);

// Why a scenario is not what was asked, heard with this seed; empty when it is. Class of rate, where it
// settles, slowing, rhythm, source and level by the key; the heart countable at its best place through at
// least one instrument of the place.
std::string not_as_asked(const Scenario& scenario, const AskedShare& asked, const Protocol& protocol,
                         sim::Seed heard_with);

}  // namespace engine
