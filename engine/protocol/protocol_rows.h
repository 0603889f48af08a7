// The rows of a protocol file's table, section by section.
#pragma once

#include "engine/protocol/protocol_table.h"

namespace engine {

using ProtocolRows = std::vector<Field<ProtocolLanding>>;

void add_top_rows(ProtocolRows&);
void add_limit_rows(ProtocolRows&);
void add_mother_rows(ProtocolRows&);  // her pulse and temperature, her contractions
void add_listening_rows(ProtocolRows&);
void add_action_rows(ProtocolRows&);
void add_rule_rows(ProtocolRows&);
void add_situation_rows(ProtocolRows&);  // situations, plan, conflicts

}  // namespace engine
