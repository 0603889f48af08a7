#include "engine/drawing/drawing.h"

#include "ui/files.h"
#include "ui/terminal/commands.h"
#include "ui/terminal/input_output.h"

#include <filesystem>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace ui {
namespace {

nlohmann::ordered_json told_of(const engine::DrawnScenario& drawn, const std::string& file) {
    using engine::Axis;
    const engine::Case& c = drawn.asked.what;
    nlohmann::ordered_json one{{"id", drawn.id}, {"file", file}};
    for (const auto& [name, axis] : {std::pair{"task", Axis::task},
                                     {"heart", c.is_normal() ? Axis::calm : Axis::trouble},
                                     {"cause", Axis::cause},
                                     {"instrument", Axis::instrument},
                                     {"place", Axis::place},
                                     {"position", Axis::position},
                                     {"variant", Axis::variant}})
        one[name] = c.word(axis);
    one["level"] = c[Axis::level] + 1;
    one["normal"] = c.is_normal();
    one["boundary"] = c[Axis::boundary] == engine::boundary::yes;
    if (engine::moves_the_rate(c)) one["answers"] = drawn.asked.answers;
    return one;
}

}  // namespace

std::string quota_path(const std::string& path_or_id) {
    std::error_code ignored;
    if (std::filesystem::exists(path_or_id, ignored)) return path_or_id;
    const std::string shipped = data_folder() + "/scenarios/quotas/" + path_or_id + ".toml";
    if (std::filesystem::exists(shipped, ignored)) return shipped;
    refuse("--quota", path_or_id + ", no such file or quota id",
           "a quota file, or an id from " + data_folder() + "/scenarios/quotas");
}

// Writes the drawn scenarios into a folder, made when it is missing; same quota and seed, same bytes.
int scenario_draw(const DrawOptions& options) {
    const std::string path = quota_path(options.quota);
    const engine::Quota quota = or_refuse(engine::read_quota(read_file(path), path));
    const engine::Protocol protocol = the_protocol(options.protocol);
    const sim::Seed seed = the_seed(options.seed);
    std::error_code error;
    if (std::filesystem::exists(options.out, error) && !std::filesystem::is_directory(options.out, error))
        refuse("--out", options.out + ", not a folder", "a folder, made when it is missing");
    const auto drawn = or_refuse(engine::draw(quota, protocol, seed));
    std::filesystem::create_directories(options.out, error);
    if (error) refuse("--out", options.out + ": " + error.message(), "a folder that can be written");
    nlohmann::ordered_json list = nlohmann::ordered_json::array();
    for (const engine::DrawnScenario& one : drawn) {
        const std::string file = (std::filesystem::path(options.out) / (one.id + ".toml")).string();
        write_out(file, one.text);
        list.push_back(told_of(one, file));
    }
    if (options.json) {
        write_out("-", list.dump(2) + "\n");
        return fine;
    }
    for (const auto& one : list)
        fmt::print("{}  {}, level {}, {}{}\n", one["file"].get<std::string>(), one["task"].get<std::string>(),
                   one["level"].get<int>(), one["heart"].get<std::string>(),
                   one["boundary"].get<bool>() ? ", on a limit" : "");
    return fine;
}

}  // namespace ui
