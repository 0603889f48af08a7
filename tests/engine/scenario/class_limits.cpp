// Limits at the last beat: each row with the published range it follows from.
#include "tests/engine/scenario/lines_of.h"

#include <catch2/catch.hpp>

using engine::BaselineClass;
using engine::classify;

namespace {

char letter(const engine::Protocol& p, double bpm) {
    switch (classify(p, {bpm})) {
        case BaselineClass::slow: return 'L';
        case BaselineClass::normal: return 'N';
        case BaselineClass::fast: return 'H';
    }
    return '?';
}

// One settled baseline in each scheme.
// who: 110-160 inclusive (WHO recommendation on intermittent auscultation, 2018; the same as NICHD 2008 as tabulated
// in open copies and FIGO 2015 [memory]). alert: below 110, from 160 on (WHO Labour Care Guide, 2020 [second-hand]). manual: 100-180 inclusive (WHO Managing
// Complications in Pregnancy and Childbirth, 1st ed., S-95). older: 120-160 inclusive (Open University,
// Labour and Delivery Care; Where There Is No Doctor, p. 252).
struct Row {
    double bpm;
    char who;
    bool alert;
    char manual;
    char older;
};
const Row rows[] = {
    {98, 'L', true, 'L', 'L'},   {99, 'L', true, 'L', 'L'},   {100, 'L', true, 'N', 'L'},
    {109, 'L', true, 'N', 'L'},  {110, 'N', false, 'N', 'L'}, {119, 'N', false, 'N', 'L'},
    {120, 'N', false, 'N', 'N'}, {140, 'N', false, 'N', 'N'}, {159, 'N', false, 'N', 'N'},
    {160, 'N', true, 'N', 'N'},  {161, 'H', true, 'N', 'H'},  {180, 'H', true, 'N', 'H'},
    {181, 'H', true, 'H', 'H'},
};

}  // namespace

TEST_CASE("98 to 181 bpm under 110-160, the alert from 160, and 120-160", "[limits]") {
    const engine::Protocol who = shipped_protocol("who-2018"), older = shipped_protocol("community-120-160");
    for (const Row& row : rows) {
        INFO(row.bpm << " bpm");
        CHECK(letter(who, row.bpm) == row.who);
        CHECK(engine::alerts(who, {row.bpm}) == row.alert);
        CHECK(letter(older, row.bpm) == row.older);
        CHECK_FALSE(engine::alerts(older, {row.bpm}));  // that practice has no alert column
    }
}

TEST_CASE("98 to 181 bpm under the WHO manual's 100-180, a facility's own copy of the file", "[limits]") {
    std::string text = bytes_at("scenarios/protocols/who-2018.toml");
    text = with(text, "\nlow = \"110 bpm\"", "\nlow = \"100 bpm\"");
    text = with(text, "\nhigh = \"160 bpm\"", "\nhigh = \"180 bpm\"");
    const auto manual = engine::read_protocol(text, "who-2018.toml");
    REQUIRE(manual.ok());
    for (const Row& row : rows) {
        INFO(row.bpm << " bpm");
        CHECK(letter(*manual, row.bpm) == row.manual);
    }
}

TEST_CASE("A limit can belong to the other side: 160 itself fast, 110 itself slow", "[limits]") {
    std::string text = bytes_at("scenarios/protocols/who-2018.toml");
    text = with(text, "\nlow_itself = \"normal\"", "\nlow_itself = \"slow\"");
    text = with(text, "\nhigh_itself = \"normal\"", "\nhigh_itself = \"fast\"");
    const auto p = engine::read_protocol(text, "who-2018.toml");
    REQUIRE(p.ok());
    CHECK(letter(*p, 110) == 'L');
    CHECK(letter(*p, 110.001) == 'N');
    CHECK(letter(*p, 160) == 'H');
    CHECK(letter(*p, 159.999) == 'N');
}

// Worked examples of classification. Sources: NICHD 2008 (Macones), WHO 2018, WHO Labour Care Guide 2020, WHO
// manual S-95, Open University Labour and Delivery Care.
TEST_CASE("Baseline 160: normal under WHO 2018 and 120-160, an alert in the Labour Care Guide", "[worked]") {
    const engine::Protocol who = shipped_protocol("who-2018"), older = shipped_protocol("community-120-160");
    CHECK(letter(who, 160) == 'N');
    CHECK(engine::alerts(who, {160}));
    CHECK(letter(older, 160) == 'N');
}

TEST_CASE("161 held 12 min is fast, 161 for 4 min is not yet held: 10 min or three contractions",
          "[worked]") {
    const engine::Protocol who = shipped_protocol("who-2018");
    CHECK(letter(who, 161) == 'H');
    CHECK(engine::alerts(who, {161}));
    CHECK(sim::Seconds{12 * 60} >= who.persistence);  // NICHD 2008: 10 min
    CHECK(sim::Seconds{4 * 60} < who.persistence);
    CHECK(who.persistence_contractions == 3);  // WHO 2018: over at least three contractions
}

TEST_CASE("115 is normal except under 120-160; 109 is low and an alert; 98 is low everywhere", "[worked]") {
    const engine::Protocol who = shipped_protocol("who-2018"), older = shipped_protocol("community-120-160");
    CHECK(letter(who, 115) == 'N');
    CHECK(letter(older, 115) == 'L');
    CHECK(letter(who, 109) == 'L');
    CHECK(engine::alerts(who, {109}));
    CHECK(letter(who, 98) == 'L');
    CHECK(letter(older, 98) == 'L');
    CHECK(sim::Bpm{98} < who.red_below);
    CHECK_FALSE(sim::Bpm{100} < who.red_below);  // FIGO 2015 [second-hand]: below 100
}

TEST_CASE("125 at the start and 145 now has risen, 144 has not", "[worked]") {
    const engine::Protocol who = shipped_protocol("who-2018");  // rise of 20: NICE 2022, from memory
    CHECK(sim::Bpm{145 - 125} >= who.rising_by);
    CHECK_FALSE(sim::Bpm{144 - 125} >= who.rising_by);
}

TEST_CASE("A slowing is 15 bpm and 15 s: depth 12 for 20 s and depth 20 for 12 s are none", "[worked]") {
    const engine::Protocol who = shipped_protocol("who-2018");  // NICHD 2008
    CHECK(sim::Bpm{12} < who.slowing_depth);
    CHECK(sim::Seconds{12} < who.slowing_length);
    CHECK(sim::Bpm{15} >= who.slowing_depth);
    CHECK(sim::Seconds{15} >= who.slowing_length);
}

TEST_CASE("Listened at 08:00 in active labour: due 08:15 to 08:30 (WHO 2018), 08:30 in older practice",
          "[worked]") {
    const engine::Protocol who = shipped_protocol("who-2018"), older = shipped_protocol("community-120-160");
    CHECK(who.rule_for(engine::Stage::active).every_least.value == 15 * 60);
    CHECK(who.rule_for(engine::Stage::active).every_most.value == 30 * 60);
    CHECK(older.rule_for(engine::Stage::active).every_least.value == 30 * 60);
    CHECK(older.rule_for(engine::Stage::active).every_most.value == 30 * 60);
}

TEST_CASE("A gap of 7 min in the second stage is overdue, 45 s is too short, 20 s after the end too",
          "[worked]") {
    for (const char* id : {"who-2018", "community-120-160"}) {
        INFO(id);
        const engine::Protocol p = shipped_protocol(id);
        const engine::ListeningRule& second = p.rule_for(engine::Stage::second);
        CHECK(sim::Seconds{7 * 60} > second.every_most);  // WHO 2018 and WHO manual C-57: every 5 min
        CHECK(sim::Seconds{5 * 60} <= second.every_most);
        CHECK(sim::Seconds{45} < second.length);  // at least 1 min
    }
    const engine::Protocol who = shipped_protocol("who-2018");
    CHECK(sim::Seconds{20} < who.rule_for(engine::Stage::active).after_end);  // "30 s" from memory
    CHECK(who.rule_for(engine::Stage::active).when == engine::When::through);
}

TEST_CASE("Pulse 122 beside 124 cannot be told apart by number, 88 beside 136 can", "[worked]") {
    const engine::Protocol who = shipped_protocol("who-2018");  // 5 bpm: Pinto 2015
    CHECK(sim::Bpm{124 - 122} <= who.near_pulse);
    CHECK_FALSE(sim::Bpm{136 - 88} <= who.near_pulse);
}
