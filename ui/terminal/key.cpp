#include "engine/scoring/key.h"

#include "ui/terminal/commands.h"
#include "ui/terminal/input_output.h"

#include <fmt/format.h>

namespace ui {
namespace {

void print_key(const engine::Key& key, const engine::Protocol& protocol) {
    fmt::print("protocol  {} ({})\n", protocol.title, protocol.id);
    if (key.baseline_bpm > 0) fmt::print("baseline  {:.1f} a minute\n", key.baseline_bpm);
    fmt::print("decision  source {}, baseline {}, around {}, rhythm {}\n",
               engine::name_of(key.decision.source), engine::name_of(key.decision.baseline),
               engine::name_of(key.decision.around), engine::name_of(key.decision.rhythm));
    fmt::print("level     {}\n", engine::name_of(key.level));
    for (const std::string& situation : key.situations) fmt::print("situation {}\n", situation);
    for (const engine::ExpectedAct& act : key.expected) {
        std::string words;
        for (const std::string& one : act.any_of) words += (words.empty() ? "" : " or ") + one;
        fmt::print("expected  {}{}{}\n", words, act.critical ? " (critical)" : "",
                   act.within_s > 0 ? fmt::format(", within {:g} s", act.within_s) : "");
    }
    for (const std::string& act : key.unsafe) fmt::print("unsafe    {}\n", act);
    for (const std::string& why : key.why) fmt::print("why       {}\n", why);
}

}  // namespace

int key(const KeyOptions& options) {
    const engine::Scenario scenario = the_scenario(options.scenario);
    const engine::Protocol protocol = the_protocol(options.protocol);
    const sim::Seed seed = the_seed(options.seed);
    engine::Key answer;
    if (options.from_s < 0 && options.for_s < 0) {
        answer = engine::key_of(scenario, protocol, seed);
    } else {
        const double from = options.from_s < 0 ? 0 : options.from_s;
        const double length = options.for_s < 0 ? scenario.length.value - from : options.for_s;
        if (from > scenario.length.value || length <= 0 || from + length > scenario.length.value)
            refuse("--from, --for", fmt::format("{:g} s for {:g} s", from, length),
                   fmt::format("a spell inside 0 to {:g} s", scenario.length.value));
        answer = engine::key_of_spell(scenario, protocol, seed, sim::labour_time(sim::Seconds{from}),
                                      sim::labour_time(sim::Seconds{from + length}));
    }
    if (options.json)
        write_out("-", engine::to_json(answer) + "\n");
    else
        print_key(answer, protocol);
    return fine;
}

}  // namespace ui
