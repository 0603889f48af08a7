#include "engine/store/store.h"

#include "tests/engine/store/made_up.h"

#include <catch2/catch.hpp>

#include <thread>

using namespace engine;
using made_up::fault_of;

namespace {

std::unique_ptr<Store> opened(const std::string& path) {
    auto store = Store::open(path);
    INFO(fault_of(store));
    REQUIRE(store.ok());
    return std::move(store.value());
}

const std::string evening = "2026-03-01T18:20:00.000Z";

}  // namespace

TEST_CASE(
    "a kept attempt's ATTEMPT.json comes back to the last byte, quotes and four-byte characters included",
    "[store]") {
    made_up::Folder folder;
    const JudgedAttempt judged = made_up::judged(made_up::id(1));
    const std::string written = write_attempt(judged);
    REQUIRE(written.find("DROP TABLE") != std::string::npos);
    {
        auto store = opened(folder.at("s.db"));
        const auto kept = store->keep(judged, evening);
        INFO(fault_of(kept));
        REQUIRE(kept.ok());
    }
    auto store = opened(folder.at("s.db"));
    const auto json = store->attempt_json(made_up::id(1));
    INFO(fault_of(json));
    REQUIRE(json.ok());
    CHECK(*json == written);
    CHECK(fault_of(store->attempt_json(made_up::id(2))) ==
          folder.at("s.db") + ": attempt, found \"" + made_up::id(2) +
              "\", allowed: the id of an attempt kept in this store");
}

TEST_CASE("scenario and protocol text are kept once for 20 attempts", "[store]") {
    made_up::Folder folder;
    auto store = opened(folder.at("s.db"));
    for (int n = 0; n < 20; ++n) REQUIRE(store->keep(made_up::judged(made_up::id(n)), evening).ok());
    CHECK(made_up::sql(folder.at("s.db"), "SELECT count(*) FROM file_text") == std::vector<std::string>{"2"});
    CHECK(made_up::sql(
              folder.at("s.db"),
              "SELECT count(*) FROM attempt WHERE json LIKE '%c01-a-quiet-evening%story%' OR scenario_at < 0 "
              "OR protocol_at < 0") == std::vector<std::string>{"0"});
}

TEST_CASE("keeping the same attempt id again changes nothing, whatever else differs", "[store]") {
    made_up::Folder folder;
    auto store = opened(folder.at("s.db"));
    const JudgedAttempt first = made_up::judged(made_up::id(1));
    REQUIRE(store->keep(first, evening).ok());
    JudgedAttempt second = first;
    second.attempt.header.seed = 5;
    second.sheet.aspects[3].verdict = Verdict::met;
    REQUIRE(store->keep(second, "2027-01-01T00:00:00.000Z").ok());
    CHECK(*store->attempt_json(made_up::id(1)) == write_attempt(first));
    const auto lines = store->attempts_of("A-014");
    REQUIRE(lines.ok());
    REQUIRE(lines->size() == 1);
    CHECK(lines->front().finished_utc == evening);
    CHECK(made_up::sql(folder.at("s.db"), "SELECT count(*) FROM counted") == std::vector<std::string>{"1"});
}

TEST_CASE("a person's list has the latest first, with what was missed, under the code as first typed",
          "[store]") {
    made_up::Folder folder;
    auto store = opened(folder.at("s.db"));
    REQUIRE(store->keep(made_up::judged(made_up::id(1), "A-014"), "2026-03-01T18:20:00.000Z").ok());
    REQUIRE(store->keep(made_up::judged(made_up::id(2), "a-014"), "2026-03-02T07:00:00.000Z").ok());
    REQUIRE(store->keep(made_up::judged(made_up::id(3), "B-001"), "2026-03-03T07:00:00.000Z").ok());
    const auto lines = store->attempts_of("a-014");
    REQUIRE(lines.ok());
    REQUIRE(lines->size() == 2);
    CHECK((*lines)[0].id == made_up::id(2));
    CHECK((*lines)[1].id == made_up::id(1));
    CHECK((*lines)[0].person == "A-014");
    CHECK((*lines)[0].scenario_id == "c01-a-quiet-evening");
    CHECK((*lines)[0].protocol_id == "who-2018");
    CHECK((*lines)[0].missed == std::vector<std::string>{"count", "record"});
    CHECK(store->attempts_of("nobody").value().empty());
}

TEST_CASE("a-014 and A-014 are one person; the first typing is shown", "[store]") {
    made_up::Folder folder;
    auto store = opened(folder.at("s.db"));
    CHECK(*store->person("A-014") == "A-014");
    CHECK(*store->person("a-014") == "A-014");
    CHECK(*store->person("z.9_") == "z.9_");
    CHECK(*store->people() == std::vector<std::string>{"A-014", "z.9_"});
}

TEST_CASE("a person code is 1 to 24 letters, digits, dots, underscores or dashes", "[store]") {
    made_up::Folder folder;
    auto store = opened(folder.at("s.db"));
    const std::string allowed = ", allowed: 1 to 24 of the letters A to Z, digits, . _ -";
    CHECK(store->person(std::string(24, 'x')).ok());
    CHECK(fault_of(store->person(std::string(25, 'x'))) == "person code, found 25 characters" + allowed);
    CHECK(fault_of(store->person("")) == "person code, found nothing" + allowed);
    CHECK(fault_of(store->person("a b")) == "person code, found \"a b\"" + allowed);
    CHECK(fault_of(store->person("x'; DROP TABLE person")) ==
          "person code, found \"x'; DROP TABLE person\"" + allowed);
    CHECK(fault_of(store->keep(made_up::judged(made_up::id(1), "J\xC3\xB6rg"), evening)) ==
          "person code, found \"J\xC3\xB6rg\"" + allowed);
}

// 60 s, horn (1), 141 true beats, 139 counted, 140.875 and 139 bpm in thousandths. Verdicts two bits an
// aspect: count (3) and record (7) missed = 2, care (8) not asked = 3: 2 x 4^3 + 2 x 4^7 + 3 x 4^8 = 128 +
// 32768 + 196608. 2026-03-01 18:20 is 1772389200 s after 1970 (date -u +%s); a task of one count is 0, the
// mode "assisted" 1; judged; whose beats is not said; 140.9 is normal (0) and more than 3 bpm from either
// limit; no decision was made.
TEST_CASE("one counted window is one row of whole numbers", "[store]") {
    made_up::Folder folder;
    auto store = opened(folder.at("s.db"));
    REQUIRE(store->keep(made_up::judged(made_up::id(1)), evening).ok());
    JudgedAttempt no_count = made_up::judged(made_up::id(2));
    no_count.sheet.windows[0].counted.reset();
    no_count.sheet.windows[0].reported_bpm.reset();
    REQUIRE(store->keep(no_count, evening).ok());
    CHECK(made_up::sql(folder.at("s.db"), "SELECT * FROM counted ORDER BY attempt") ==
          std::vector<std::string>{"1|0|1|1|60|1|141|139|140875|139000|229504|1772389200|0|1|1|-1|0|0|-1|-1",
                                   "2|0|1|1|60|1|141|-1|140875|-1|229504|1772389200|0|1|1|-1|0|0|-1|-1"});
}

TEST_CASE("two stores open on one file see each other's attempts", "[store]") {
    made_up::Folder folder;
    auto first = opened(folder.at("s.db")), second = opened(folder.at("s.db"));
    for (int n = 0; n < 20; ++n)
        REQUIRE((n % 2 ? first : second)->keep(made_up::judged(made_up::id(n)), evening).ok());
    CHECK(first->attempts_of("A-014").value().size() == 20);
    CHECK(second->attempts_of("A-014").value().size() == 20);
}

TEST_CASE("six programs that open a new store at the same moment all keep their attempt", "[store]") {
    made_up::Folder folder;
    std::vector<std::thread> programs;
    std::vector<std::string> said(6);
    for (int n = 0; n < 6; ++n)
        programs.emplace_back([&, n] {
            auto store = Store::open(folder.at("s.db"));
            auto& mine = said[static_cast<std::size_t>(n)];
            if (!store)
                mine = fault_of(store);
            else
                mine = fault_of(store.value()->keep(made_up::judged(made_up::id(n)), evening));
        });
    for (std::thread& program : programs) program.join();
    CHECK(said == std::vector<std::string>(6, "(no fault)"));
    CHECK(opened(folder.at("s.db"))->attempts_of("A-014").value().size() == 6);
}

TEST_CASE("1,000 attempts of one person are listed whole and in order", "[store]") {
    made_up::Folder folder;
    auto store = opened(folder.at("s.db"));
    JudgedAttempt judged = made_up::judged(made_up::id(0));
    for (int n = 0; n < 1000; ++n) {
        judged.attempt.header.id = made_up::id(n);
        const std::string minute =
            std::to_string(n / 60 % 24 + 100).substr(1) + ":" + std::to_string(n % 60 + 100).substr(1);
        if (!store->keep(judged, "2026-03-01T" + minute + ":00.000Z").ok()) FAIL("attempt " << n);
    }
    const auto lines = store->attempts_of("A-014");
    REQUIRE(lines.ok());
    REQUIRE(lines->size() == 1000);
    for (int n = 0; n < 1000; ++n)
        if ((*lines)[static_cast<std::size_t>(n)].id != made_up::id(999 - n)) FAIL("line " << n);
}
