// Where things are on this machine: shipped data, the person's store, the journal beside it.
#pragma once

#include <string>

namespace ui {

// FULLMINUTE_DATA, else the source folder the program was built from, else the installed share folder. No
// trailing /.
std::string data_folder();
// A path, or a library id: "c01-..." or its first part "c01" is looked up in scenarios/library. Empty when
// there is no such file.
std::string scenario_path(const std::string& path_or_id);
// The same for scenarios/protocols; empty id = the default protocol (who-2018).
std::string protocol_path(const std::string& path_or_id);
// --store, else FULLMINUTE_STORE, else fullminute.db in the user's data folder ($XDG_DATA_HOME/fullminute,
// else
// ~/.local/share/fullminute); the folder is made when it is missing.
std::string store_path(const std::string& asked);
// The journal beside a store: same folder, the store's stem + ".journal.db".
std::string journal_path(const std::string& store);
// Now, RFC 3339 UTC with milliseconds.
std::string utc_now();
// 32 lower-case hex digits from the system's generator; 53 random bits.
std::string new_id();
unsigned long long new_seed();
std::string program_version();

}  // namespace ui
