#include "sim/beats/beat_train.h"

#include "ui/terminal/commands.h"
#include "ui/terminal/input_output.h"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <iterator>
#include <string_view>

namespace ui {
namespace {

struct Row {
    std::int64_t at_us;
    std::size_t who;
    sim::BeatKind kind;
};

constexpr std::array<std::string_view, 3> who_words{"fetal", "fetal2", "maternal"};
constexpr std::array<std::string_view, 3> kind_words{"normal", "ectopic", "dropped"};

}  // namespace

// The answer key: every beat of every heart, in time order.
int beats(const BeatsOptions& options) {
    const engine::Scenario scenario = the_scenario(options.scenario);
    const sim::Seed seed = the_seed(options.seed);
    const sim::Patient patient = scenario.patient(seed);
    const auto ticks = sim::course_over(patient, seed, the_acts(options.acts, scenario), scenario.length);
    const std::int64_t end_us = sim::labour_time(scenario.length).us;

    std::vector<Row> rows;
    for (std::size_t who = 0; who < who_words.size(); ++who)
        for (const sim::Beat& beat : sim::beats_over(patient, seed, static_cast<sim::Who>(who), ticks))
            if (beat.at_us < end_us) rows.push_back({beat.at_us, who, beat.kind});
    std::stable_sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) { return a.at_us < b.at_us; });

    std::string csv = "t_s,who,kind\n";
    for (const Row& row : rows)
        fmt::format_to(std::back_inserter(csv), "{}.{:06},{},{}\n", row.at_us / 1'000'000,
                       row.at_us % 1'000'000, who_words[row.who],
                       kind_words[static_cast<std::size_t>(row.kind)]);
    write_out(options.out, csv);
    return fine;
}

}  // namespace ui
