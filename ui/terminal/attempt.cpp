#include "engine/store/person_code.h"
#include "engine/attempt/attempt.h"

#include "engine/scoring/replay.h"
#include "engine/sha256.h"
#include "ui/files.h"
#include "ui/terminal/commands.h"
#include "ui/terminal/input_output.h"
#include "ui/terminal/sheet_words.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace ui {

// Plays a list of timed events with no window. The same inputs give the same file, byte for byte.
int attempt(const AttemptOptions& options) {
    const engine::Scenario scenario = the_scenario(options.scenario);
    const engine::Protocol protocol = the_protocol(options.protocol);
    the_mode(options.mode);
    const std::string text = read_file(options.events);

    engine::Attempt made;
    made.events = or_refuse(engine::read_events(text, options.events));
    made.scenario_text = scenario.text;
    made.protocol_text = protocol.text;
    engine::AttemptHeader& header = made.header;
    if (const auto fault = engine::wrong_person_code(options.person))
        refuse("--person", fault->found, fault->allowed);
    header.person = options.person;
    header.scenario_id = scenario.id;
    header.scenario_sha256 = scenario.sha256;
    header.protocol_id = protocol.id;
    header.protocol_sha256 = protocol.sha256;
    header.seed = the_seed(options.seed).value;
    header.program = program_version();
    header.output_mode = options.mode;
    std::string everything = fmt::format("{}|{}|{}|{}|{}\n", header.person, header.scenario_sha256,
                                         header.protocol_sha256, header.seed, header.output_mode);
    for (const engine::Event& event : made.events) everything += engine::to_json(event) + "\n";
    header.id = engine::sha256_hex(everything).substr(0, 32);

    const engine::JudgedAttempt judged = or_refuse(engine::judge_attempt(std::move(made), options.events));
    if (!options.out.empty()) write_out(options.out, engine::write_attempt(judged));
    if (options.out == "-") return fine;
    const engine::Hashes hashes = engine::hashes_of(judged);
    if (options.json) {
        nlohmann::ordered_json answer{
            {"score", nlohmann::ordered_json::parse(engine::to_json(judged.sheet))},
            {"sha256", {{"beats", hashes.beats}, {"events", hashes.events}, {"score", hashes.score}}}};
        write_out("-", answer.dump(2) + "\n");
    } else {
        write_out("-", sheet_in_words(judged));
        fmt::print("\nsha256 beats  {}\nsha256 events {}\nsha256 score  {}\n", hashes.beats, hashes.events,
                   hashes.score);
    }
    return fine;
}

}  // namespace ui
