// The counts of a store as a table that `figures` reads: no one needs to write that table by hand.
#pragma once

#include <optional>
#include <string>

namespace ui {

// CSV with a header: who, item, truth, typed, window_s, method, instrument, mode, task, right; one line a
// count that stands (of the baby or not known whose, not corrected later, with a number), as the Progress
// page takes them. None when the file is no SQLite file; refuses one that is not a store.
std::optional<std::string> table_of_store(const std::string& path);

}  // namespace ui
