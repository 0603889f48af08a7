#include "engine/drawing/quota.h"
#include "ui/terminal/commands.h"
#include "ui/terminal/input_output.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace ui {
namespace {

// The kind a file says it is: the value of its first `format = "..."` line, and that line's number.
struct Said {
    std::string format;
    int line = 0;
};

Said format_of(std::string_view text) {
    int line = 1;
    for (std::size_t at = 0; at < text.size(); ++line) {
        std::size_t end = text.find('\n', at);
        if (end == std::string_view::npos) end = text.size();
        std::string_view row = text.substr(at, end - at);
        at = end + 1;
        const std::size_t start = row.find_first_not_of(" \t\xEF\xBB\xBF");
        if (start == std::string_view::npos || row.substr(start, 6) != "format") continue;
        const std::size_t open = row.find_first_of("\"'", start);
        const std::size_t close = open == std::string_view::npos ? open : row.find(row[open], open + 1);
        if (close == std::string_view::npos) return {"", line};
        return {std::string(row.substr(open + 1, close - open - 1)), line};
    }
    return {};
}

std::vector<engine::Fault> faults_in(const std::string& path) {
    const std::string text = read_file(path);
    const Said said = format_of(text);
    const std::string kind = said.format.substr(0, said.format.find('/'));
    if (kind == "fullminute-protocol") {
        const auto protocol = engine::read_protocol(text, path);
        return protocol.ok() ? std::vector<engine::Fault>{} : protocol.faults();
    }
    if (kind == "fullminute-quota") {
        const auto quota = engine::read_quota(text, path);
        return quota.ok() ? std::vector<engine::Fault>{} : quota.faults();
    }
    if (kind == "fullminute-scenario" || said.line == 0) {
        const auto scenario = engine::read_scenario(text, path);
        return scenario.ok() ? std::vector<engine::Fault>{} : scenario.faults();
    }
    return {{path, said.line, "format", "\"" + said.format + "\"",
             "\"fullminute-scenario/1\", \"fullminute-protocol/1\" or \"fullminute-quota/1\""}};
}

}  // namespace

int lint(const LintOptions& options) {
    std::vector<engine::Fault> all;
    for (const std::string& file : options.files) {
        std::vector<engine::Fault> faults;
        try {
            faults = faults_in(file);
        } catch (
            const Refused& refused) {  // a file that cannot be read must not hide the faults of the others
            faults = refused.faults;
        }
        if (!options.json && faults.empty()) fmt::print("{}: fine\n", file);
        all.insert(all.end(), faults.begin(), faults.end());
    }
    if (options.json) {
        nlohmann::ordered_json list = nlohmann::ordered_json::array();
        for (const engine::Fault& fault : all)
            list.push_back({{"file", fault.file},
                            {"line", fault.line},
                            {"what", fault.what},
                            {"found", fault.found},
                            {"allowed", fault.allowed}});
        write_out("-", list.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n");
    }
    print_faults(all);
    return all.empty() ? fine : bad_input;
}

}  // namespace ui
