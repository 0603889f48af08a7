#include "engine/store/schema.h"

#include "engine/store/older_rows.h"

#include <soci/soci.h>

#include <algorithm>
#include <cassert>
#include <string_view>
#include <utility>

namespace engine {
namespace {

// Only TEXT, {int} and {real}; times are RFC 3339 text in UTC; {end} closes a table. No serial numbers,
// blobs, dates or booleans: the same text runs on a server later.
constexpr const char* version_1 = R"(
CREATE TABLE store_version (number {int} NOT NULL){end};

-- A person's code as first typed; `folded` is the same in lower case and tells people apart.
CREATE TABLE person (folded TEXT NOT NULL PRIMARY KEY, code TEXT NOT NULL, number {int} NOT NULL UNIQUE){end};

-- Scenario and protocol files, once each however many attempts used them.
CREATE TABLE file_text (sha256 TEXT NOT NULL PRIMARY KEY, body TEXT NOT NULL){end};

-- The whole ATTEMPT.json is `json` with the two file texts put back at the places where they were cut out
-- (-1 = not cut).
CREATE TABLE attempt (
    id TEXT NOT NULL PRIMARY KEY, number {int} NOT NULL UNIQUE, person TEXT NOT NULL REFERENCES person (folded),
    scenario_id TEXT NOT NULL, scenario_sha256 TEXT NOT NULL, protocol_id TEXT NOT NULL,
    protocol_sha256 TEXT NOT NULL, seed {int} NOT NULL, truth {int} NOT NULL, program TEXT NOT NULL,
    output_mode TEXT NOT NULL, device_delay_s {real} NOT NULL, finished_utc TEXT NOT NULL, missed TEXT NOT NULL,
    json TEXT NOT NULL, scenario_at {int} NOT NULL, protocol_at {int} NOT NULL){end};

CREATE TABLE item (scenario_id TEXT NOT NULL PRIMARY KEY, number {int} NOT NULL UNIQUE){end};

-- One row a counted window, whole numbers only: what group figures are computed from. method = planned seconds;
-- instrument = its number in sim::Instrument; rates in thousandths of a bpm; -1 = not given; verdicts = two bits an
-- aspect, the first aspect lowest (0 met, 1 partly, 2 missed, 3 not asked).
CREATE TABLE counted (
    attempt {int} NOT NULL, place {int} NOT NULL, person {int} NOT NULL, item {int} NOT NULL, method {int} NOT NULL,
    instrument {int} NOT NULL, true_beats {int} NOT NULL, counted {int} NOT NULL, true_mbpm {int} NOT NULL,
    written_mbpm {int} NOT NULL, verdicts {int} NOT NULL, PRIMARY KEY (attempt, place)){end};
)";

constexpr const char* version_2 = R"(
-- A person's list, latest first, without reading everybody's.
CREATE INDEX attempt_of_person ON attempt (person, finished_utc);
)";

constexpr const char* version_3 = R"(
-- What figures need beside the numbers; -1 = not known. The numbers are those of engine/competency/count_columns.h;
-- finished_s = seconds since 1970. An attempt kept by an older program has no decision here: its truth is not
-- recomputed by this one.
ALTER TABLE counted ADD COLUMN finished_s {int} NOT NULL DEFAULT -1;
ALTER TABLE counted ADD COLUMN task {int} NOT NULL DEFAULT -1;
ALTER TABLE counted ADD COLUMN mode {int} NOT NULL DEFAULT -1;
ALTER TABLE counted ADD COLUMN judged {int} NOT NULL DEFAULT -1;
ALTER TABLE counted ADD COLUMN followed {int} NOT NULL DEFAULT -1;
ALTER TABLE counted ADD COLUMN boundary {int} NOT NULL DEFAULT -1;
ALTER TABLE counted ADD COLUMN true_class {int} NOT NULL DEFAULT -1;
ALTER TABLE counted ADD COLUMN settled_class {int} NOT NULL DEFAULT -1;
ALTER TABLE counted ADD COLUMN said_class {int} NOT NULL DEFAULT -1;
-- One person's windows without reading everybody's.
CREATE INDEX counted_of_person ON counted (person);
)";

std::string for_sqlite(std::string text) {
    constexpr std::pair<std::string_view, std::string_view> words[] = {
        {"{int}", "INTEGER"}, {"{real}", "REAL"}, {"{end}", " STRICT"}};
    for (const auto& [word, meaning] : words)
        for (std::size_t at; (at = text.find(word)) != std::string::npos;)
            text.replace(at, word.size(), meaning);
    return text;
}

}  // namespace

std::vector<std::string> migration(int number) {
    assert(number >= 1 && number <= store_version);
    const std::string text = for_sqlite(number == 1 ? version_1 : number == 2 ? version_2 : version_3);
    std::vector<std::string> statements;
    std::string one;
    // A `;` ends a statement only at the end of a line: the remarks above may hold one.
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        const std::string line = text.substr(at, end - at);
        at = end + 1;
        if (line.rfind("--", 0) == 0 || line.empty()) continue;
        one += line + "\n";
        if (line.back() != ';') continue;
        one.erase(one.size() - 2);
        statements.push_back(std::exchange(one, ""));
    }
    return statements;
}

int version_of(soci::session& sql) {
    int tables = 0, ours = 0, version = 0;
    sql << "SELECT count(*) FROM sqlite_schema", soci::into(tables);
    if (tables == 0) return 0;
    sql << "SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name = 'store_version'",
        soci::into(ours);
    if (ours == 0) return -1;
    sql << "SELECT coalesce(max(number), 0) FROM store_version", soci::into(version);
    return version;
}

void migrate(soci::session& sql, int from) {
    for (int number = from + 1; number <= store_version; ++number) {
        for (const std::string& statement : migration(number)) sql << statement;
        if (number == 1)
            sql << "INSERT INTO store_version (number) VALUES (1)";
        else
            sql << "UPDATE store_version SET number = :number", soci::use(number);
    }
    if (from > 0 && from < 3) fill_older_rows(sql);
}

}  // namespace engine
