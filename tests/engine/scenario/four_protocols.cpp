// The four shipped listening protocols: what each says of itself, and that they differ in nothing but what
// their heads name.
#include "tests/engine/scenario/shipped.h"

#include <catch2/catch.hpp>

using engine::Protocol;
using engine::Stage;

namespace {

const char* const ids[] = {"who-2018", "community-120-160", "figo-2015", "nice-2022"};

std::string text_of(const char* id) { return bytes_at("scenarios/protocols/" + std::string(id) + ".toml"); }
// Acts, situations, rules, plan and conflicts: everything below the head.
std::string below_head(const char* id) {
    const std::string text = text_of(id);
    const std::size_t at = text.find("# --- What can be done ---");
    if (at == std::string::npos) throw std::runtime_error("no acts in " + std::string(id));
    return text.substr(at);
}

}  // namespace

TEST_CASE("Acts, situations, rules, plan and conflicts are the same in all four files, to the byte",
          "[shipped]") {
    const std::string who = below_head("who-2018");
    CHECK(who.size() > 40000);
    for (const char* id : ids) {
        INFO(id);
        CHECK(below_head(id) == who);
    }
}

TEST_CASE("NICE 2022: straight after, 15 and 5 min, pulse hourly and every 15 min, 5 contractions acted on",
          "[shipped]") {
    const Protocol p =
        shipped_protocol("nice-2022");  // all of it [memory]; pulse and intervals quoted locally
    for (const Stage stage : {Stage::latent, Stage::active, Stage::second}) {
        CHECK(p.rule_for(stage).when == engine::When::after);
        CHECK(p.rule_for(stage).length.value == 60);
    }
    CHECK(p.rule_for(Stage::active).every_most.value == 900);
    CHECK(p.rule_for(Stage::second).every_most.value == 300);
    CHECK(p.pulse_every_first.value == 3600);
    CHECK(p.pulse_every_second.value == 900);
    CHECK_FALSE(p.pulse_at_each_listening);
    CHECK_FALSE(p.too_many.limit_is_normal);
    CHECK(p.rising_by.value == 20);
    CHECK(p.stays_down.value == 180);
}

TEST_CASE("FIGO 2015: through and 30 s after, 15 and 5 min, pulse at each listening, three contractions",
          "[shipped]") {
    const Protocol p = shipped_protocol("figo-2015");  // all of it [memory]
    for (const Stage stage : {Stage::active, Stage::second}) {
        CHECK(p.rule_for(stage).when == engine::When::through);
        CHECK(p.rule_for(stage).length.value == 60);
        CHECK(p.rule_for(stage).after_end.value == 30);
    }
    CHECK(p.rule_for(Stage::active).every_most.value == 900);
    CHECK(p.rule_for(Stage::second).every_most.value == 300);
    CHECK(p.pulse_at_each_listening);
    CHECK(p.pulse_every_first.value == 0);
    CHECK(p.too_many.limit_is_normal);
    CHECK(p.persistence_contractions == 3);
    CHECK(p.stays_down.value == 180);
}

TEST_CASE("What is from memory is marked so on every value line of the two, in the origin and on screen",
          "[shipped]") {
    for (const auto& [id, mark] :
         {std::pair{"figo-2015", "FIGO 2015 (MEM)"}, std::pair{"nice-2022", "NICE 2022 (MEM)"}}) {
        const Protocol p = shipped_protocol(id);
        INFO(id);
        CHECK(p.from_memory);
        CHECK(p.origin.find(mark) != std::string::npos);
        CHECK(p.origin.find("from memory") != std::string::npos);
        const std::string text = text_of(id);
        CHECK(text.find("[MEM]") < text.find("format = "));  // said before anything else
        const std::string head = text.substr(0, text.find("# --- What can be done ---"));
        for (const char* key : {"\nlow =", "\nhigh =", "\nstays_down =", "\nrecord_lengths =",
                                "\nevery = \"15 min\"", "\nevery = \"5 min\""}) {
            const std::size_t at = head.find(key);
            INFO(key);
            REQUIRE(at != std::string::npos);
            const std::string line = head.substr(at + 1, head.find('\n', at + 1) - at - 1);
            CHECK((line.find("MEM") != std::string::npos || line.find("# the same") != std::string::npos ||
                   line.find("second-hand") != std::string::npos));
        }
    }
}

TEST_CASE("Contraction alerts come all or none, warmth lies below fever, 5 in 10 min has a side",
          "[protocol]") {
    const std::string who = text_of("who-2018");
    const auto faults = [](const std::string& text) {
        return lines_of(engine::read_protocol(text, "who-2018.toml").faults());
    };
    std::string text = with(who, "alert_short = \"20 s\"\n", "");
    REQUIRE(faults(text).size() == 1);
    CHECK(faults(text)[0].find("contractions.alert_short, found nothing, allowed: alert_few, alert_short and "
                               "alert_long, all or none") != std::string::npos);
    text = with(who, "warm_from = \"37.5 C\"", "warm_from = \"38.4 C\"");
    REQUIRE(faults(text).size() == 1);
    CHECK(faults(text)[0].find("mother.warm_from") != std::string::npos);
    text = with(who, "most_itself = \"normal\"", "most_itself = \"to_many\"");
    REQUIRE(faults(text).size() == 1);
    CHECK(faults(text)[0].find("did you mean `too_many`?") != std::string::npos);
    text = with(who, "most = \"5 per 10 min\"", "most = \"12 per 10 min\"");
    REQUIRE(faults(text).size() == 1);
    CHECK(faults(text)[0].find("3 per 10 min to 8 per 10 min") != std::string::npos);
}
