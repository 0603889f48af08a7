// Where another published range would call a rate something else than the protocol in force does.
#pragma once

#include "engine/protocol/protocol.h"

#include <string>

namespace engine {

// One sentence that says which range says what of `bpm`, and by which the sheet goes; empty: all agree.
std::string limits_elsewhere(const Protocol&, sim::Bpm bpm);

}  // namespace engine
