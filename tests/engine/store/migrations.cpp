#include "engine/store/store.h"
#include "tests/engine/store/made_up.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <iterator>

using namespace engine;

TEST_CASE("a store left by version 1 becomes version 3 and gives its attempt back", "[store]") {
    made_up::Folder folder;
    const std::string path = folder.at("old.db");
    std::ifstream dump(FULLMINUTE_SOURCE_DIR "/tests/engine/store/version_1.sql");
    REQUIRE(dump.good());
    made_up::sql(path, std::string(std::istreambuf_iterator<char>(dump), {}));
    {
        auto store = Store::open(path);
        INFO(made_up::fault_of(store));
        REQUIRE(store.ok());
        const auto lines = store.value()->attempts_of("a-014");
        REQUIRE(lines.ok());
        REQUIRE(lines->size() == 1);
        CHECK(lines->front().person == "A-014");
        CHECK(lines->front().finished_utc == "2026-03-01T18:20:00.000Z");
        CHECK(lines->front().missed == std::vector<std::string>{"count", "record"});
        CHECK(*store.value()->attempt_json("0000000000000000000000000000000a") ==
              R"({"s":"the \"scenario\"","p":"the protocol"})");
        // What comes next gets the next numbers.
        CHECK(store.value()->keep(made_up::judged(made_up::id(2), "B-001"), "2026-03-02T00:00:00.000Z").ok());
    }
    CHECK(made_up::sql(path, "SELECT number FROM store_version") == std::vector<std::string>{"3"});
    CHECK(made_up::sql(path, "SELECT number FROM attempt ORDER BY number") ==
          std::vector<std::string>{"1", "2"});
    CHECK(made_up::sql(path, "SELECT person, item FROM counted ORDER BY attempt") ==
          std::vector<std::string>{"1|1", "2|2"});
    // Its texts are not a scenario and a protocol: only what the attempt's own line tells is filled in.
    CHECK(made_up::sql(path,
                       "SELECT finished_s, task, mode, judged, followed, boundary, true_class, settled_class,"
                       " said_class FROM counted WHERE attempt = 1") ==
          std::vector<std::string>{"1772389200|-1|0|-1|-1|-1|-1|-1|-1"});
}

// By who-2018 (110 to 160 normal): 139.9 normal; 161.2 fast, and within 2 x 4 + 1 = 9 bpm of 160; 101 slow,
// and 9 bpm from 110. The mode is "shifted" (2), the task `quick` (1). 1772389200 is `date -u -d
// 2026-03-01T18:20:00Z +%s`.
TEST_CASE("three counts of version 2 get task, mode, time, class and whose beats; the decision stays unknown",
          "[store]") {
    made_up::Folder folder;
    const std::string path = folder.at("old.db");
    std::ifstream dump(FULLMINUTE_SOURCE_DIR "/tests/engine/store/version_2.sql");
    REQUIRE(dump.good());
    made_up::sql(path, std::string(std::istreambuf_iterator<char>(dump), {}));
    const auto put_text = [&](const std::string& sha, const std::string& file) {
        std::ifstream in(FULLMINUTE_SOURCE_DIR "/scenarios/" + file);
        REQUIRE(in.good());
        std::string text(std::istreambuf_iterator<char>(in), {});
        for (std::size_t at = 0; (at = text.find('\'', at)) != std::string::npos; at += 2)
            text.insert(at, 1, '\'');
        made_up::sql(path, "UPDATE file_text SET body = '" + text + "' WHERE sha256 = '" + sha + "'");
    };
    put_text("aaaa", "library/q01-six-seconds.toml");
    put_text("bbbb", "protocols/who-2018.toml");
    auto store = Store::open(path);
    INFO(made_up::fault_of(store));
    REQUIRE(store.ok());
    const Outcome<CountColumns> counts = store.value()->counts("a-014");
    INFO(made_up::fault_of(counts));
    REQUIRE(counts.ok());
    REQUIRE(counts->rows() == 3);
    CHECK(counts->finished_s == std::vector<std::int64_t>(3, 1772389200));
    CHECK(counts->task == std::vector<std::int8_t>(3, 1));
    CHECK(counts->mode == std::vector<std::int8_t>(3, 2));
    CHECK(counts->judged == std::vector<std::int8_t>{0, 1, 1});
    CHECK(counts->followed == std::vector<std::int8_t>{0, 0, 1});
    CHECK(counts->true_class == std::vector<std::int8_t>{0, 1, 2});
    CHECK(counts->boundary == std::vector<std::int8_t>{0, 1, 1});
    CHECK(counts->said_class == std::vector<std::int8_t>(3, -1));
    CHECK(counts->settled_class == std::vector<std::int8_t>(3, -1));
}

TEST_CASE("a migrated store has the same tables and indexes as a new one", "[store]") {
    made_up::Folder folder;
    std::ifstream dump(FULLMINUTE_SOURCE_DIR "/tests/engine/store/version_1.sql");
    REQUIRE(dump.good());
    made_up::sql(folder.at("old.db"), std::string(std::istreambuf_iterator<char>(dump), {}));
    REQUIRE(Store::open(folder.at("old.db")).ok());
    REQUIRE(Store::open(folder.at("new.db")).ok());
    const std::string columns =
        "SELECT m.type, m.name, c.cid, c.name, c.type, c.\"notnull\", c.pk FROM sqlite_schema m"
        " JOIN pragma_table_info(m.name) c ORDER BY m.type, m.name, c.cid";
    const auto fresh = made_up::sql(folder.at("new.db"), columns);
    CHECK(fresh.size() > 30);
    CHECK(made_up::sql(folder.at("old.db"), columns) == fresh);
    const std::string indexes = "SELECT name FROM sqlite_schema WHERE type = 'index' AND sql IS NOT NULL";
    const std::vector<std::string> both{"attempt_of_person", "counted_of_person"};
    CHECK(made_up::sql(folder.at("old.db"), indexes) == both);
    CHECK(made_up::sql(folder.at("new.db"), indexes) == both);
}
