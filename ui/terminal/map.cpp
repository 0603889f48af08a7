#include "sim/body/abdomen.h"
#include "ui/paper/map_page.h"
#include "ui/terminal/commands.h"
#include "ui/terminal/input_output.h"

#include <array>
#include <cmath>
#include <fmt/format.h>
#include <iterator>
#include <nlohmann/json.hpp>

namespace ui {
namespace {

bool ends_with(const std::string& text, const std::string& tail) {
    return text.size() >= tail.size() && text.compare(text.size() - tail.size(), tail.size(), tail) == 0;
}

}  // namespace

// Loudness of the baby over the abdomen at 6 N, as the ear would get it through one instrument.
int map(const MapOptions& options) {
    const engine::Scenario scenario = the_scenario(options.scenario);
    const sim::Seed seed = the_seed(options.seed);
    const sim::Instrument instrument = the_instrument(options.with);
    if (options.from_s < 0 || options.from_s > scenario.length.value)
        refuse("--from", fmt::format("{:g}", options.from_s),
               fmt::format("0 to {:g} s", scenario.length.value));
    if (options.out.empty() && !options.json) refuse("--out", "nothing", "a .csv or .png file, or --json");
    if (!options.out.empty() && options.out != "-" && !ends_with(options.out, ".csv") &&
        !ends_with(options.out, ".png"))
        refuse("--out", options.out, "a name that ends in .csv or .png");

    const sim::Patient patient = scenario.patient(seed);
    const auto ticks = sim::course_over(patient, seed, the_acts(options.acts, scenario), scenario.length);
    const sim::CourseTick& now = ticks[static_cast<std::size_t>(std::floor(options.from_s * 4))];

    std::vector<std::array<double, 4>> rows;
    sim::Hold hold;
    hold.instrument = instrument;
    hold.placed = true;
    hold.gel = true;
    hold.position = patient.mother.position;
    const int across = static_cast<int>((sim::map_x_to - sim::map_x_from) / sim::map_step);
    const int up = static_cast<int>((sim::map_y_to - sim::map_y_from) / sim::map_step);
    for (int j = 0; j <= up; ++j)
        for (int i = 0; i <= across; ++i) {
            hold.x_cm = sim::map_x_from + i * sim::map_step;
            hold.y_cm = sim::map_y_from + j * sim::map_step;
            const sim::PlaceLevels levels = sim::levels_at(patient, now, hold);
            rows.push_back({hold.x_cm, hold.y_cm, levels.baby.value, levels.rival.value});
        }

    const sim::BestSpot best = sim::best_spot(patient, now, instrument);
    if (ends_with(options.out, ".png")) {
        or_refuse(write_map_png(rows, options.out));
    } else if (!options.out.empty()) {
        std::string csv = "x_cm,y_cm,level_db,rival_db\n";
        for (const auto& [x, y, level, rival] : rows)
            fmt::format_to(std::back_inserter(csv), "{:.1f},{:.1f},{:.2f},{:.2f}\n", x, y, level, rival);
        write_out(options.out, csv);
    }
    if (options.json) {
        const auto hundredths = [](double db) { return std::round(db * 100) / 100; };
        const nlohmann::ordered_json answer{
            {"best", {{"x", best.x_cm}, {"y", best.y_cm}}},
            {"level_db", hundredths(best.levels.baby.value)},
            {"rival_db", hundredths(best.levels.rival.value)},
            {"noise_db", hundredths(best.levels.noise.value)},
            {"countable", sim::countable(best.levels) == sim::Countable::countable},
            {"with", options.with},
            {"at_s", options.from_s},
            {"seed", options.seed}};
        write_out("-", answer.dump(2) + "\n");
    }
    return fine;
}

}  // namespace ui
