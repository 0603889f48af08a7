// A whole attempt file: written, read, recomputed, compared.
#pragma once

#include "engine/attempt/attempt.h"
#include "engine/outcome.h"
#include "engine/scoring/score_sheet.h"

#include <string>
#include <string_view>
#include <vector>

namespace engine {

struct JudgedAttempt {
    Attempt attempt;
    Scenario scenario;
    Protocol protocol;
    Played played;
    ScoreSheet sheet;
};

// Judges events of a scenario under a protocol. Fault with the index when an event cannot be.
Outcome<JudgedAttempt> judge_attempt(Attempt attempt, const std::string& file);

// ATTEMPT.json: header, scenario.text, protocol.text, events, score. Pretty, one event a line.
std::string write_attempt(const JudgedAttempt&);
// Reads one back (scenario and protocol from the text inside; hashes checked).
struct StoredAttempt {
    Attempt attempt;
    std::string score_json;
};
Outcome<StoredAttempt> read_attempt(std::string_view json, const std::string& file);

// What differs between the score in the file and the score recomputed; empty = the same. An attempt made by
// another `truth` gives one line, "made by truth 3, this program is 4: not recomputed": counted apart,
// neither the same nor a difference.
Outcome<std::vector<std::string>> replay(std::string_view json, const std::string& file);
bool not_recomputed(const std::vector<std::string>& differ);

// SHA-256 (hex) of the beats of a played attempt (decimal microseconds, one a line), of the events, of the
// score.
struct Hashes {
    std::string beats, events, score;
};
Hashes hashes_of(const JudgedAttempt&);

}  // namespace engine
