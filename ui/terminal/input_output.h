// Reading and writing for the terminal's commands; every refusal is one line on stderr.
#pragma once

#include "engine/outcome.h"
#include "engine/protocol/protocol.h"
#include "engine/scenario/scenario.h"
#include "sim/hold.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ui {

// Thrown inside a command to stop it with exit 2; the faults have not been printed yet.
struct Refused {
    std::vector<engine::Fault> faults;
};

[[noreturn]] void refuse(const std::string& what, const std::string& found, const std::string& allowed);
[[noreturn]] void refuse(std::vector<engine::Fault> faults);
void print_faults(const std::vector<engine::Fault>& faults);

// The value, or Refused.
template <typename T>
T or_refuse(engine::Outcome<T> outcome) {
    if (!outcome.ok()) refuse(outcome.faults());
    return std::move(outcome).value();
}

std::string read_file(const std::string& path);
// "-" is stdout. The file appears whole or not at all.
void write_out(const std::string& path, std::string_view bytes);

// Refuses a file whose folder is not there, by the folder's name and before any work is done.
void needs_its_folder(const std::string& path);

engine::Scenario the_scenario(const std::string& path_or_id);
engine::Protocol the_protocol(const std::string& path_or_id);
std::string quota_path(const std::string& path_or_id);  // of a file, or of a shipped quota by its id
sim::Seed the_seed(std::uint64_t seed);
sim::Instrument the_instrument(const std::string& word);
sim::OutputMode the_mode(const std::string& word);

// "T NAME" in any order -> changes in time order.
std::vector<sim::Change> the_acts(const std::vector<std::string>& acts, const engine::Scenario& scenario);

}  // namespace ui
