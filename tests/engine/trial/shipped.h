// What tests of made-up candidates stand on: shipped files, and a share or number met within a stated width.
#pragma once

#include "engine/protocol/protocol.h"

#include <catch2/catch.hpp>

#include <string>

namespace trial_tests {

inline Approx near(double printed, double by) { return Approx(printed).epsilon(0).margin(by); }

inline const std::string scenarios = std::string(FULLMINUTE_SOURCE_DIR) + "/scenarios/";

inline const engine::Protocol& who() {
    static const engine::Protocol protocol =
        engine::read_protocol_file(scenarios + "protocols/who-2018.toml").value();
    return protocol;
}

}  // namespace trial_tests
