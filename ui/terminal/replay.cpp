#include "engine/scoring/replay.h"

#include "ui/terminal/commands.h"
#include "ui/terminal/input_output.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace ui {

// Recomputes attempts: exit 0 when every score matches, 1 when one differs or belongs to another truth and
// cannot be recomputed, 2 when one cannot be read.
int replay(const ReplayOptions& options) {
    bool all_same = true;
    std::vector<engine::Fault> faults;
    nlohmann::ordered_json list = nlohmann::ordered_json::array();
    for (const std::string& file : options.files) {
        try {
            const auto differs = or_refuse(engine::replay(read_file(file), file));
            const bool other_truth = engine::not_recomputed(differs);
            all_same = all_same && differs.empty();
            list.push_back({{"file", file},
                            {"same", differs.empty()},
                            {"recomputed", !other_truth},
                            {"differs", differs}});
            if (options.json) continue;
            fmt::print("{}: {}\n", file,
                       differs.empty() ? "the same"
                       : other_truth   ? "not recomputed"
                                       : "differs");
            for (const std::string& what : differs) fmt::print("  {}\n", what);
        } catch (const Refused& refused) {
            faults.insert(faults.end(), refused.faults.begin(), refused.faults.end());
        }
    }
    if (options.json)
        write_out("-", list.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n");
    print_faults(faults);
    return !faults.empty() ? bad_input : all_same ? fine : answered_no;
}

}  // namespace ui
