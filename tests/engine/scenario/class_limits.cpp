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

// A scheme as bands one after another: from (itself or only above it) up to the next.
struct Band {
    double from;
    bool itself;
    const char* says;
};
struct Scheme {
    const char* source;
    std::vector<Band> bands;
    std::string says(double bpm) const {
        std::string found;
        for (const Band& band : bands)
            if (bpm > band.from || (band.itself && bpm >= band.from)) found = band.says;
        return found;
    }
};

// Tracing classes are definitions for a course and stay in this test: no listening protocol is made of them.
const Scheme nichd{
    "NICHD 2008, 110-160 inclusive (open copies); the same in FIGO 2015 for listening [memory], WHO 2018, "
    "SOGC 2020 [memory], ACNM 2015 [memory]",
    {{0, true, "L"}, {110, true, "N"}, {160, false, "H"}}};
const Scheme labour_guide{"WHO Labour Care Guide 2020 alerts [second-hand]",
                          {{0, true, "alert"}, {110, true, "none"}, {160, true, "alert"}}};
const Scheme manual{
    "WHO Managing Complications in Pregnancy and Childbirth, 1st ed., S-95: 100-180 inclusive",
    {{0, true, "L"}, {100, true, "N"}, {180, false, "H"}}};
const Scheme nice_tracing{
    "NICE 2022 bands for tracings [memory]",
    {{0, true, "red"}, {100, true, "amber"}, {110, true, "white"}, {160, false, "red"}}};
const Scheme german{"German guideline 2014, table 3 (open copy)",
                    {{0, true, "severe low"},
                     {100, true, "slight low"},
                     {110, true, "N"},
                     {160, false, "slight high"},
                     {180, false, "severe high"}}};
const Scheme older_practice{
    "120-160 inclusive: Open University, Labour and Delivery Care; Where There Is No Doctor",
    {{0, true, "L"}, {120, true, "N"}, {160, false, "H"}}};

// One settled baseline in each scheme, as the published tables class it.
struct Row {
    double bpm;
    const char *nichd, *guide, *manual, *tracing, *german, *older;
};
const Row rows[] = {
    {98, "L", "alert", "L", "red", "severe low", "L"},
    {99, "L", "alert", "L", "red", "severe low", "L"},
    {100, "L", "alert", "N", "amber", "slight low", "L"},
    {109, "L", "alert", "N", "amber", "slight low", "L"},
    {110, "N", "none", "N", "white", "N", "L"},
    {119, "N", "none", "N", "white", "N", "L"},
    {120, "N", "none", "N", "white", "N", "N"},
    {140, "N", "none", "N", "white", "N", "N"},
    {159, "N", "none", "N", "white", "N", "N"},
    {160, "N", "alert", "N", "white", "N", "N"},
    {161, "H", "alert", "N", "red", "slight high", "H"},
    {180, "H", "alert", "N", "red", "slight high", "H"},
    {181, "H", "alert", "H", "red", "severe high", "H"},
};

engine::Protocol with_limits(const std::string& low, const std::string& high) {
    std::string text = bytes_at("scenarios/protocols/who-2018.toml");
    text = with(text, "\nlow = \"110 bpm\"", "\nlow = \"" + low + " bpm\"");
    text = with(text, "\nhigh = \"160 bpm\"", "\nhigh = \"" + high + " bpm\"");
    return engine::read_protocol(text, "who-2018.toml").value();
}

}  // namespace

TEST_CASE("98 to 181 bpm in six published schemes, to the last beat of each limit", "[limits]") {
    for (const Row& row : rows) {
        INFO(row.bpm << " bpm");
        CHECK(nichd.says(row.bpm) == row.nichd);
        CHECK(labour_guide.says(row.bpm) == row.guide);
        CHECK(manual.says(row.bpm) == row.manual);
        CHECK(nice_tracing.says(row.bpm) == row.tracing);
        CHECK(german.says(row.bpm) == row.german);
        CHECK(older_practice.says(row.bpm) == row.older);
    }
}

TEST_CASE(
    "98 to 181 bpm under the four shipped protocols: 110-160, 120-160, and the alert from 160 in one alone",
    "[limits]") {
    for (const Row& row : rows) {
        INFO(row.bpm << " bpm");
        for (const char* id : {"who-2018", "figo-2015", "nice-2022"})
            CHECK(std::string(1, letter(shipped_protocol(id), row.bpm)) == row.nichd);
        CHECK(std::string(1, letter(shipped_protocol("community-120-160"), row.bpm)) == row.older);
        CHECK(engine::alerts(shipped_protocol("who-2018"), {row.bpm}) == (std::string(row.guide) == "alert"));
        for (const char* id : {"figo-2015", "nice-2022", "community-120-160"})
            CHECK_FALSE(engine::alerts(shipped_protocol(id), {row.bpm}));  // no such column
    }
}

TEST_CASE("98 to 181 bpm under the WHO manual's 100-180, a facility's own copy of the file", "[limits]") {
    const engine::Protocol own = with_limits("100", "180");
    for (const Row& row : rows) {
        INFO(row.bpm << " bpm");
        CHECK(std::string(1, letter(own, row.bpm)) == row.manual);
    }
}

TEST_CASE("A thousandth of a beat across each limit changes the class, on the limit itself it is normal",
          "[limits]") {
    struct Edge {
        engine::Protocol protocol;
        double low, high;
    };
    for (const Edge& edge :
         {Edge{shipped_protocol("who-2018"), 110, 160}, Edge{shipped_protocol("figo-2015"), 110, 160},
          Edge{shipped_protocol("nice-2022"), 110, 160},
          Edge{shipped_protocol("community-120-160"), 120, 160}, Edge{with_limits("100", "180"), 100, 180}}) {
        INFO(edge.protocol.id);
        CHECK(letter(edge.protocol, edge.low - 0.001) == 'L');
        CHECK(letter(edge.protocol, edge.low) == 'N');
        CHECK(letter(edge.protocol, edge.high) == 'N');
        CHECK(letter(edge.protocol, edge.high + 0.001) == 'H');
    }
    CHECK_FALSE(engine::alerts(shipped_protocol("who-2018"), {110}));
    CHECK(engine::alerts(shipped_protocol("who-2018"), {109.999}));
    CHECK_FALSE(engine::alerts(shipped_protocol("who-2018"), {159.999}));
    CHECK(engine::alerts(shipped_protocol("who-2018"), {160}));
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
