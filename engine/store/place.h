// Where a file of ours may be: what is wrong with a path, in words for the person, before any database is
// opened.
#pragma once

#include "engine/outcome.h"

#include <optional>
#include <string>

namespace engine {

// `what`: "the store" or "the journal", for the fault. None when a file can be made, or read and written, at
// `path`: refused are an empty path, a directory, a missing or read-only folder, a read-only file, a device.
std::optional<Fault> wrong_place(const std::string& path, const std::string& what);

// The database's result code (SQLite primary or extended) in words; never its own text, which quotes what was
// typed.
Fault database_fault(int sqlite_code, const std::string& path, const std::string& what);

}  // namespace engine
