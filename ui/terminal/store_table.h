// The counts of a store as a table that `figures` reads: no one needs to write that table by hand.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace ui {

struct StoreTable {
    std::string csv;                   // with a header
    std::vector<std::string> remarks;  // what was left out or pooled, and why
};

// What `--of` asks of a store. None when the file is no SQLite file; refuses one that is not a store.
// learning and the kinds that take a person's answer to an item: who, item, right; one line the first attempt
// of a person at a labour. shares: the same, one line a count. kappa: truth, typed; one line a decision. All
// others: who, item, truth, typed, window_s, method, instrument, mode, task, class, said, right; one line a
// count that stands (of the baby or not known whose, not corrected later, with a number), as the Progress
// page takes them.
std::optional<StoreTable> table_of_store(const std::string& path, const std::string& of);

}  // namespace ui
