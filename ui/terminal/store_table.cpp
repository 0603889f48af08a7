#include "ui/terminal/store_table.h"

#include "engine/competency/first_goes.h"
#include "engine/store/store.h"
#include "ui/plots/progress_words.h"
#include "ui/terminal/input_output.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <string_view>
#include <utility>

namespace ui {
namespace {

using engine::CountColumns;

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

// As the class columns of a table name them; a rate on its way up stands with the fast ones.
const char* class_name(std::int8_t number) {
    switch (static_cast<engine::RateClass>(number)) {
        case engine::RateClass::normal: return "normal";
        case engine::RateClass::slow: return "slow";
        case engine::RateClass::fast:
        case engine::RateClass::rising: return "fast";
        case engine::RateClass::not_known: break;
    }
    return "not known";
}

// A cell as it is, or in quotes when it holds a sign of the table itself.
std::string cell(const std::string& text) {
    if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
    std::string quoted = "\"";
    for (const char c : text) quoted += c == '"' ? "\"\"" : std::string(1, c);
    return quoted + '"';
}

std::string counted(std::size_t n, const char* one, const char* more) {
    return fmt::format("{} {}", n, n == 1 ? one : more);
}

void say(StoreTable& table, std::size_t n, const char* one, const char* more, const char* why) {
    if (n > 0) table.remarks.push_back(counted(n, one, more) + " " + why);
}

void say_modes(StoreTable& table, const std::set<std::int8_t>& modes) {
    if (modes.size() > 1) table.remarks.push_back(fmt::format("pooled over {} output modes", modes.size()));
}

bool is_decided(const CountColumns& c, std::size_t row) {
    return c.said_class[row] >= 0 && c.settled_class[row] >= 0;
}

constexpr const char* on_limit = "on a limit of normal left out: too near to it for a fair class";

StoreTable first_goes_table(const CountColumns& c) {
    const engine::FirstGoes found = engine::first_goes(c);
    StoreTable table{"who,item,right\n", {}};
    for (const engine::FirstGo& go : found.goes)
        table.csv +=
            fmt::format("{},{},{}\n", cell(c.people[go.person]), cell(c.items[go.item]), go.right ? 1 : 0);
    table.remarks.push_back("an answer is a labour, met for the first time: right when all its counts are");
    say(table, found.repeats, "later attempt", "later attempts", "at a labour met before left out");
    say(table, found.nothing_judged, "attempt", "attempts", "without a count to judge left out");
    std::size_t other = 0;
    std::set<std::int8_t> modes;
    for (std::size_t i = 0; i < c.rows(); ++i) {
        other += engine::can_be_right(c, i) && !engine::is_of_the_baby(c, i);
        modes.insert(c.mode[i]);
    }
    say(table, other, "count", "counts", "of the mother or of nobody: wrong");
    say_modes(table, modes);
    return table;
}

StoreTable right_counts_table(const CountColumns& c) {
    StoreTable table;
    std::size_t other = 0, no_number = 0, corrected = 0, beatless = 0;
    std::set<std::int8_t> modes;
    std::set<std::pair<std::uint32_t, std::uint32_t>> met;
    std::vector<std::size_t> rows;
    bool once_each = true;
    for (std::size_t i = 0; i < c.rows(); ++i) {
        corrected += c.judged[i] == 0;
        beatless += c.judged[i] != 0 && c.true_beats[i] <= 0;
        if (!engine::can_be_right(c, i)) continue;
        rows.push_back(i);
        modes.insert(c.mode[i]);
        once_each = met.insert({c.person[i], c.item[i]}).second && once_each;
        if (!engine::is_of_the_baby(c, i))
            ++other;
        else
            no_number += engine::reading_mbpm(c, i) < 0;
    }
    table.csv = once_each ? "who,item,right\n" : "who,right\n";
    for (const std::size_t i : rows)
        table.csv += fmt::format("{}{},{}\n", cell(c.people[c.person[i]]),
                                 once_each ? "," + cell(c.items[c.item[i]]) : "",
                                 engine::is_right_of_the_baby(c, i) ? 1 : 0);
    table.remarks.push_back("an answer is a count");
    if (!once_each) table.remarks.push_back("several counts of one labour: not compared item by item");
    say(table, other, "count", "counts", "of the mother or of nobody: wrong");
    say(table, no_number, "count", "counts", "without a number: wrong");
    say(table, corrected, "count", "counts", "corrected or repeated later left out");
    say(table, beatless, "count", "counts", "without a beat of the baby's left out");
    say_modes(table, modes);
    return table;
}

StoreTable decisions_table(const CountColumns& c) {
    StoreTable table{"truth,typed\n", {}};
    std::size_t limit = 0;
    std::set<std::int8_t> modes;
    for (std::size_t i = 0; i < c.rows(); ++i) {
        if (!is_decided(c, i)) continue;
        if (c.boundary[i] == 1) {
            ++limit;
            continue;
        }
        modes.insert(c.mode[i]);
        table.csv += fmt::format("{},{}\n", class_name(c.settled_class[i]), class_name(c.said_class[i]));
    }
    table.remarks.push_back("truth: what the listening showed; typed: what was decided; rising is fast");
    say(table, limit, "decision", "decisions", on_limit);
    say_modes(table, modes);
    return table;
}

StoreTable counts_table(const CountColumns& c, bool with_classes, bool pools_unsaid) {
    StoreTable table;
    fmt::memory_buffer out;
    const auto to = std::back_inserter(out);
    std::size_t other = 0, corrected = 0, no_number = 0, limit = 0, decided = 0;
    std::set<std::int8_t> modes;
    fmt::format_to(to, "who,item,truth,typed,window_s,method,instrument,mode,task,class,said,right\n");
    for (std::size_t i = 0; i < c.rows(); ++i) {
        const std::int32_t typed = engine::reading_mbpm(c, i);
        const bool own = engine::is_of_the_baby(c, i), stands = own && c.judged[i] != 0;
        const bool number = typed >= 0 && c.plan_s[i] > 0 && c.true_mbpm[i] > 0;
        other += !own;
        corrected += own && c.judged[i] == 0;
        no_number += stands && !number;
        if (!stands || !number) {
            decided += is_decided(c, i) && c.boundary[i] != 1;
            continue;
        }
        modes.insert(c.mode[i]);
        const bool on_a_limit = is_decided(c, i) && c.boundary[i] == 1;
        limit += on_a_limit;
        const bool classed = is_decided(c, i) && !on_a_limit;
        fmt::format_to(to, "{},{},{}.{:03},{}.{:03},{},{},{},{},{},{},{},{}\n", cell(c.people[c.person[i]]),
                       cell(c.items[c.item[i]]), c.true_mbpm[i] / 1000, c.true_mbpm[i] % 1000, typed / 1000,
                       typed % 1000, c.plan_s[i], method_words(c.plan_s[i]),
                       cell(instrument_name(c.instrument[i])), mode_name(c.mode[i]), task_name(c.task[i]),
                       class_name(classed ? c.settled_class[i] : std::int8_t{-1}),
                       class_name(classed ? c.said_class[i] : std::int8_t{-1}),
                       engine::is_right_of_the_baby(c, i) ? 1 : 0);
    }
    table.csv = fmt::to_string(out);
    say(table, other, "count", "counts", "left out: of the mother or of nobody, no error in the baby's rate");
    say(table, corrected, "count", "counts", "left out: corrected or repeated later");
    say(table, no_number, "count", "counts", "left out: without a number");
    if (with_classes) {
        say(table, limit, "decision", "decisions", on_limit);
        say(table, decided, "decision", "decisions", "on counts left out: --of kappa has them");
    }
    if (pools_unsaid) say_modes(table, modes);
    return table;
}

}  // namespace

std::optional<StoreTable> table_of_store(const std::string& path, const std::string& of) {
    if (!is_sqlite(path)) return std::nullopt;
    const auto store = or_refuse(engine::Store::open(path));
    const CountColumns c = or_refuse(store->counts(std::nullopt));
    constexpr std::array<std::string_view, 6> answers{"learning", "reliability", "items",
                                                      "rasch",    "consistency", "sequential"};
    if (std::find(answers.begin(), answers.end(), of) != answers.end()) return first_goes_table(c);
    if (of == "shares") return right_counts_table(c);
    if (of == "kappa") return decisions_table(c);
    return counts_table(c, of == "cohort", of != "cohort" && of != "agreement");
}

}  // namespace ui
