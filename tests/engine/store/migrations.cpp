#include "engine/store/store.h"
#include "tests/engine/store/made_up.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <iterator>

using namespace engine;

TEST_CASE("a store left by version 1 becomes version 2 and gives its attempt back", "[store]") {
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
    CHECK(made_up::sql(path, "SELECT number FROM store_version") == std::vector<std::string>{"2"});
    CHECK(made_up::sql(path, "SELECT number FROM attempt ORDER BY number") ==
          std::vector<std::string>{"1", "2"});
    CHECK(made_up::sql(path, "SELECT person, item FROM counted ORDER BY attempt") ==
          std::vector<std::string>{"1|1", "2|2"});
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
    CHECK(made_up::sql(folder.at("old.db"), indexes) == std::vector<std::string>{"attempt_of_person"});
    CHECK(made_up::sql(folder.at("new.db"), indexes) == std::vector<std::string>{"attempt_of_person"});
}
