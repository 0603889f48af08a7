// The store: finished attempts, people, in one SQLite file (through SOCI).
#pragma once

#include "engine/attempt/attempt.h"
#include "engine/competency/count_columns.h"
#include "engine/outcome.h"
#include "engine/scoring/replay.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace engine {

struct AttemptLine {  // one row of a person's list
    std::string id, person, scenario_id, protocol_id, finished_utc;
    std::vector<std::string> missed;  // aspects missed
};

class Store {
public:
    // Opens or makes the file and brings its schema up to date (numbered migrations).
    // Faults: a directory, read-only, not a store, made by a newer program.
    static Outcome<std::unique_ptr<Store>> open(const std::string& path);
    ~Store();

    // One transaction; the same attempt id again changes nothing. `finished_utc` RFC 3339, made by ui.
    Outcome<Done> keep(const JudgedAttempt& judged, const std::string& finished_utc);
    Outcome<std::vector<AttemptLine>> attempts_of(const std::string& person);
    // Every counted window, or one person's: by attempt as kept, then by place. A person not known here: no
    // rows.
    Outcome<CountColumns> counts(const std::optional<std::string>& person);
    Outcome<std::string> attempt_json(const std::string& id);  // the whole ATTEMPT.json text
    // People known here, as typed first; codes are unique without regard to case.
    Outcome<std::vector<std::string>> people();
    Outcome<std::string> person(const std::string& code);  // adds when new; gives the code as first typed

private:
    struct Inside;
    explicit Store(std::unique_ptr<Inside>);
    std::unique_ptr<Inside> inside_;
};

}  // namespace engine
