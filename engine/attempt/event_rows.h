// JSON as it stands in the file: the objects of the events array, each key with its line, nothing judged yet.
#pragma once

#include "engine/outcome.h"

#include <string>
#include <string_view>
#include <vector>

namespace engine {

// One value of an event.
struct Value {
    enum class Kind { number, flag, text, other };
    Kind kind = Kind::other;
    std::string text;  // a text; for the others as written
    double number = 0;
    bool flag = false;
    std::string key{};
    int line = 0;
};

// One element of the events array.
struct Row {
    int line = 0;
    bool is_object = true;
    std::string found;  // when it is no object: what stands there
    std::vector<Value> values;
};

struct Rows {
    bool parsed = false;  // false: `faults` says why, `rows` ends early
    bool found_array = false;
    std::vector<Row> rows;
    std::vector<Fault> faults;  // no JSON, `events` twice or no array
};

// `count_lines` costs time and is only needed once something is wrong: without it every line is 1.
Rows read_rows(std::string_view json, const std::string& file, bool count_lines);

// Quoted as JSON wants it; bytes that are no UTF-8 become the replacement sign, so that what is written can
// always be read again.
std::string quoted(const std::string& text);

}  // namespace engine
