#include "ui/terminal/store_table.h"

#include "engine/competency/progress_parts.h"
#include "engine/store/store.h"
#include "ui/plots/progress_words.h"
#include "ui/terminal/input_output.h"

#include <fmt/format.h>

#include <array>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string_view>

namespace ui {
namespace {

bool is_sqlite(const std::string& path) {
    constexpr std::string_view mark("SQLite format 3\0", 16);
    std::error_code ignored;
    if (!std::filesystem::is_regular_file(path, ignored)) return false;  // a pipe can be read once only
    std::array<char, mark.size()> first{};
    std::ifstream file(path, std::ios::binary);
    file.read(first.data(), first.size());
    return file.gcount() == static_cast<std::streamsize>(first.size()) &&
           std::string_view(first.data(), first.size()) == mark;
}

// As attempt files and `--mode` name them.
const char* mode_name(int mode) {
    constexpr std::array<const char*, 3> names{"true", "assisted", "shifted"};
    return mode >= 0 && static_cast<std::size_t>(mode) < names.size() ? names[static_cast<std::size_t>(mode)]
                                                                      : "not known";
}

bool stands(const engine::CountColumns& c, std::size_t row) {
    const bool own = c.followed[row] == static_cast<std::int8_t>(engine::HeartCounted::baby) ||
                     c.followed[row] == static_cast<std::int8_t>(engine::HeartCounted::not_known);
    return own && c.judged[row] != 0 && engine::reading_mbpm(c, row) >= 0 && c.plan_s[row] > 0 &&
           c.true_mbpm[row] > 0;
}

}  // namespace

std::optional<std::string> table_of_store(const std::string& path) {
    if (!is_sqlite(path)) return std::nullopt;
    const auto store = or_refuse(engine::Store::open(path));
    const engine::CountColumns c = or_refuse(store->counts(std::nullopt));
    fmt::memory_buffer out;
    const auto to = std::back_inserter(out);
    fmt::format_to(to, "who,item,truth,typed,window_s,method,instrument,mode,task,right\n");
    for (std::size_t i = 0; i < c.rows(); ++i) {
        if (!stands(c, i)) continue;
        const std::int32_t typed = engine::reading_mbpm(c, i);
        fmt::format_to(to, "{},{},{}.{:03},{}.{:03},{},{},{},{},{},{}\n", c.people[c.person[i]],
                       c.items[c.item[i]], c.true_mbpm[i] / 1000, c.true_mbpm[i] % 1000, typed / 1000,
                       typed % 1000, c.plan_s[i], method_words(c.plan_s[i]), instrument_name(c.instrument[i]),
                       mode_name(c.mode[i]), task_name(c.task[i]), engine::count_is_right(c, i) ? 1 : 0);
    }
    return fmt::to_string(out);
}

}  // namespace ui
