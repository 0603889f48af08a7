// The counted windows read back as columns.
#include "engine/store/store.h"
#include "tests/engine/store/made_up.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <iterator>

using namespace engine;

namespace {

std::string shipped_text(const std::string& file) {
    std::ifstream in(FULLMINUTE_SOURCE_DIR "/" + file);
    return std::string(std::istreambuf_iterator<char>(in), {});
}

// A shipped labour really played and judged.
JudgedAttempt really_judged(const std::string& scenario, const std::string& events,
                            const std::string& attempt_id) {
    Attempt made;
    made.scenario_text = shipped_text("scenarios/library/" + scenario);
    made.protocol_text = shipped_text("scenarios/protocols/who-2018.toml");
    const auto list = read_events(shipped_text("tests/attempts/" + events), events);
    REQUIRE(list.ok());
    made.events = *list;
    made.header.id = attempt_id;
    made.header.person = "A-014";
    auto judged = judge_attempt(std::move(made), events);
    INFO(made_up::fault_of(judged));
    REQUIRE(judged.ok());
    return std::move(judged).value();
}

}  // namespace

TEST_CASE("a kept count is read back as one row of columns, with its person and scenario by name",
          "[counts]") {
    made_up::Folder folder;
    auto store = Store::open(folder.at("s.db"));
    REQUIRE(store.ok());
    REQUIRE(store.value()->keep(made_up::judged(made_up::id(1), "B-001"), "2026-03-01T18:20:00.000Z").ok());
    REQUIRE(store.value()->keep(made_up::judged(made_up::id(2)), "2026-03-02T18:20:00.000Z").ok());
    const auto all = store.value()->counts(std::nullopt);
    REQUIRE(all.ok());
    REQUIRE(all->rows() == 2);
    CHECK(all->people[static_cast<std::size_t>(all->person[0])] == "B-001");
    CHECK(all->people[static_cast<std::size_t>(all->person[1])] == "A-014");
    CHECK(all->items[static_cast<std::size_t>(all->item[0])] == "c01-a-quiet-evening");
    CHECK(all->plan_s == std::vector<std::int16_t>{60, 60});
    CHECK(all->true_mbpm == std::vector<std::int32_t>{140875, 140875});
    CHECK(reading_mbpm(*all, 0) == 139000);
    const auto one = store.value()->counts("a-014");
    REQUIRE(one.ok());
    REQUIRE(one->rows() == 1);
    CHECK(one->attempt == std::vector<std::int32_t>{2});
    CHECK(one->finished_s[0] - all->finished_s[0] == 86400);
    CHECK(store.value()->counts("nobody")->rows() == 0);
}

TEST_CASE("a count without a written rate reads as beats x factor; without both it has no reading",
          "[counts]") {
    CountColumns c;
    for (int n = 0; n < 3; ++n) {
        c.plan_s.push_back(15);
        c.counted.push_back(n == 2 ? std::int16_t{-1} : std::int16_t{35});
        c.written_mbpm.push_back(n == 0 ? 141000 : -1);
    }
    CHECK(reading_mbpm(c, 0) == 141000);
    CHECK(reading_mbpm(c, 1) == 140000);
    CHECK(reading_mbpm(c, 2) == -1);
}

TEST_CASE("the class said of a count is the decision that rests on it: normal heard and normal said",
          "[counts]") {
    made_up::Folder folder;
    auto store = Store::open(folder.at("s.db"));
    REQUIRE(store.ok());
    const JudgedAttempt judged = really_judged("c01-own-minute.toml", "c01-faultless.json", made_up::id(7));
    REQUIRE(store.value()->keep(judged, "2026-03-01T18:20:00.000Z").ok());
    const auto counts = store.value()->counts("A-014");
    REQUIRE(counts.ok());
    REQUIRE(counts->rows() == 1);
    CHECK(counts->judged[0] == 1);
    CHECK(counts->followed[0] == static_cast<std::int8_t>(HeartCounted::baby));
    CHECK(counts->said_class[0] == static_cast<std::int8_t>(RateClass::normal));
    CHECK(counts->settled_class[0] == static_cast<std::int8_t>(RateClass::normal));

    JudgedAttempt overcalled = judged;
    overcalled.attempt.header.id = made_up::id(8);
    for (TimedDecision& d : overcalled.played.decisions) d.decision.baseline = BaselineIs::fast;
    REQUIRE(store.value()->keep(overcalled, "2026-03-01T19:20:00.000Z").ok());
    const auto both = store.value()->counts("A-014");
    REQUIRE(both->rows() == 2);
    CHECK(both->said_class[1] == static_cast<std::int8_t>(RateClass::fast));
    CHECK(both->settled_class[1] == static_cast<std::int8_t>(RateClass::normal));
}

TEST_CASE(
    "5,000 rows of 20 persons come back whole, in the order they were kept; items and classes that nobody "
    "named are none",
    "[counts]") {
    made_up::Folder folder;
    const std::string path = folder.at("s.db");
    REQUIRE(Store::open(path).ok());
    made_up::sql(path,
                 "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 20)"
                 " INSERT INTO person (folded, code, number) SELECT 'p' || i, 'P' || i, i FROM n");
    made_up::sql(
        path,
        "WITH RECURSIVE n(i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i < 4999)"
        " INSERT INTO counted SELECT i + 1, 0, i % 20 + 1, i / 20 + 1, 60, 1, 140, 139, 140100, 139000,"
        " 0, 1772389200 + i, 0, 0, 1, 0, 0, 0, 0, 77 FROM n");
    auto store = Store::open(path);
    REQUIRE(store.ok());
    const auto all = store.value()->counts(std::nullopt);
    REQUIRE(all.ok());
    REQUIRE(all->rows() == 5000);
    bool whole = true;
    for (std::size_t i = 0; i < 5000; ++i)
        whole = whole && all->attempt[i] == static_cast<int>(i) + 1 && all->person[i] == i % 20 + 1 &&
                all->item[i] == 0 && all->true_class[i] == 0 && all->said_class[i] == -1 &&
                all->finished_s[i] == 1772389200 + static_cast<std::int64_t>(i);
    CHECK(whole);
}

TEST_CASE(
    "Twenty numbers, each of its own: every one comes back in its own column, one person's in their order",
    "[counts]") {
    made_up::Folder folder;
    const std::string path = folder.at("s.db");
    REQUIRE(Store::open(path).ok());
    made_up::sql(path, "INSERT INTO person (folded, code, number) VALUES ('a', 'A', 1), ('b', 'B', 2)");
    made_up::sql(path, "INSERT INTO item (scenario_id, number) VALUES ('c01', 1), ('c02', 2), ('c03', 3)");
    for (const char* key : {"9, 21, 2", "8, 22, 1", "7, 23, 2"})  // attempt, place, person
        made_up::sql(path,
                     std::string("INSERT INTO counted (attempt, place, person, item, method, instrument,"
                                 " true_beats, counted, true_mbpm, written_mbpm, verdicts, finished_s,"
                                 " task, mode, judged, followed, boundary, true_class, settled_class,"
                                 " said_class) VALUES (") +
                         key +
                         ", 3, 15, 4, 35, 34, 140100, 139000, 77, 1772389200, 5, 6, 11, 12, 13, 1, 2,"
                         " 3)");
    auto store = Store::open(path);
    REQUIRE(store.ok());
    const auto b = store.value()->counts("B");
    REQUIRE(b.ok());
    REQUIRE(b->rows() == 2);
    CHECK(b->attempt == std::vector<std::int32_t>{9, 7});  // as kept, not as numbered
    CHECK(b->place == std::vector<std::int16_t>{21, 23});
    CHECK(b->person == std::vector<std::uint32_t>(2, 2));
    CHECK(b->item == std::vector<std::uint32_t>(2, 3));
    CHECK(b->finished_s == std::vector<std::int64_t>(2, 1772389200));
    CHECK(b->plan_s == std::vector<std::int16_t>(2, 15));
    CHECK(b->instrument == std::vector<std::int8_t>(2, 4));
    CHECK(b->mode == std::vector<std::int8_t>(2, 6));
    CHECK(b->task == std::vector<std::int8_t>(2, 5));
    CHECK(b->true_beats == std::vector<std::int16_t>(2, 35));
    CHECK(b->counted == std::vector<std::int16_t>(2, 34));
    CHECK(b->true_mbpm == std::vector<std::int32_t>(2, 140100));
    CHECK(b->written_mbpm == std::vector<std::int32_t>(2, 139000));
    CHECK(b->verdicts == std::vector<std::int32_t>(2, 77));
    CHECK(b->judged == std::vector<std::int8_t>(2, 11));
    CHECK(b->followed == std::vector<std::int8_t>(2, 12));
    CHECK(b->boundary == std::vector<std::int8_t>(2, 13));
    CHECK(b->true_class == std::vector<std::int8_t>(2, 1));
    CHECK(b->settled_class == std::vector<std::int8_t>(2, 2));
    CHECK(b->said_class == std::vector<std::int8_t>(2, 3));
}
