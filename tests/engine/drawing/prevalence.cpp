// Rule 30 of a practising midwife's review: where something is always wrong, trainees learn to hear trouble
// [practice].
#include "engine/drawing/quota.h"

#include <catch2/catch.hpp>

#include <filesystem>

using namespace engine;

TEST_CASE("Rule 30: every shipped quota asks for normal hearts in at least half of its labours", "[quota]") {
    int read = 0;
    for (const auto& entry : std::filesystem::directory_iterator(FULLMINUTE_SOURCE_DIR "/scenarios/quotas")) {
        if (entry.path().extension() != ".toml") continue;
        const auto quota = read_quota_file(entry.path().string());
        INFO(entry.path().string());
        REQUIRE(quota.ok());
        CHECK(quota->normal >= 50);
        ++read;
    }
    CHECK(read >= 3);
}
