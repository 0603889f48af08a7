// A TOML file as it was written: values with their lines, nothing judged. The only door to the TOML library.
#pragma once

#include "engine/outcome.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace engine {

struct Written {
    enum class Kind : std::uint8_t { table, list, text, whole, number, truth, other };

    Kind kind = Kind::table;
    int line = 1;      // of the value; of the key where it has one
    std::string key;   // empty for list elements and the file itself
    std::string text;  // the text itself; for other kinds how it stands in the file
    std::int64_t whole = 0;
    bool truth = false;
    std::vector<Written> parts;  // of a table in file order, of a list

    const Written* part(std::string_view name) const;
};

// Stops at the first syntax fault, as the library does: one fault then.
Outcome<Written> read_toml(std::string_view text, const std::string& file);

// The bytes of a file, or a fault that says why not.
Outcome<std::string> bytes_of(const std::string& path);
// "c01-own-minute" of "scenarios/library/c01-own-minute.toml".
std::string stem_of(std::string_view path);

}  // namespace engine
