// The one table of keys of a protocol file, and the words a rule may use.
#pragma once

#include "engine/protocol/protocol.h"
#include "engine/scenario/fields.h"

#include <string>
#include <string_view>
#include <vector>

namespace engine {

struct ProtocolLanding {
    Protocol* protocol = nullptr;
    ListeningRule* listening = nullptr;
    ActWords* act = nullptr;
    Rule* rule = nullptr;
    Situation* situation = nullptr;
    std::pair<std::string, std::string>* pair = nullptr;  // a plan line, a conflict
};

const std::vector<Field<ProtocolLanding>>& protocol_table();
// The tables of scenarios/FORMAT.md for protocol files, one a section, and the conditions of `unless`.
std::string protocol_format_page();
// Conditions that lift a rule, computed from scenario and attempt: "drip_not_running" ...
const std::vector<std::string_view>& condition_ids();

}  // namespace engine
