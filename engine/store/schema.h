// The store's tables, brought up to date by numbered migrations. Never edit one that has been shipped: add
// the next.
#pragma once

#include <string>
#include <vector>

namespace soci {
class session;
}

namespace engine {

inline constexpr int store_version = 3;

// Statements of migration `number` (from 1), with the words that differ between databases filled in for
// SQLite.
std::vector<std::string> migration(int number);

// Version found: 0 = an empty database; -1 = tables, but not ours.
int version_of(soci::session& sql);

// Runs what is missing (rows of older versions get what the stored texts still tell: older_rows.h) up to
// store_version inside the caller's transaction.
void migrate(soci::session& sql, int from);

}  // namespace engine
