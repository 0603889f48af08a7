#include "engine/scoring/replay.h"

#include "engine/scoring/score_json.h"
#include "engine/sha256.h"
#include "sim/truth_version.h"

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include <array>
#include <optional>

namespace engine {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t most_named = 20;

void differences(const Json& was, const Json& now, const std::string& where, std::vector<std::string>& out) {
    if (was == now || out.size() >= most_named) return;
    if (was.is_object() && now.is_object()) {
        for (auto it = was.begin(); it != was.end(); ++it) {
            if (now.contains(it.key()))
                differences(it.value(), now[it.key()], where + "." + it.key(), out);
            else
                out.push_back(where + "." + it.key() + ": in the file only");
        }
        for (auto it = now.begin(); it != now.end(); ++it)
            if (!was.contains(it.key())) out.push_back(where + "." + it.key() + ": missing in the file");
        return;
    }
    if (was.is_array() && now.is_array() && was.size() == now.size()) {
        for (std::size_t i = 0; i < was.size(); ++i) {
            std::string place = fmt::format("{}[{}]", where, i);
            if (now[i].is_object() && now[i].contains("aspect"))
                place = where + "." + now[i]["aspect"].get<std::string>();
            differences(was[i], now[i], place, out);
        }
        return;
    }
    out.push_back(fmt::format("{}: file {}, computed {}", where, was.dump(), now.dump()));
}

// The texts are inside the attempt: a fault names the attempt's file, and no file name has to match their
// ids.
std::vector<Fault> within(std::vector<Fault> faults, const std::string& file, const char* part) {
    for (Fault& fault : faults) {
        fault.what = std::string(part) + (fault.line > 0 ? " line " + std::to_string(fault.line) : "") +
                     ": " + fault.what;
        fault.file = file;
        fault.line = 0;
    }
    return faults;
}

// The last texts read, so that many attempts at one scenario read it once. The same text is the same
// scenario, whatever file it came in.
template <typename Read, std::size_t most>
class LastRead {
public:
    template <typename Reader>
    const Outcome<Read>& of(const std::string& text, Reader reader) {
        for (const Kept& kept : kept_)
            if (kept.read && kept.text == text) return *kept.read;
        Kept& place = kept_[next_++ % most];
        place.read.reset();
        place.text = text;
        place.read.emplace(reader(text, ""));
        return *place.read;
    }

private:
    struct Kept {
        std::string text;
        std::optional<Outcome<Read>> read;
    };
    std::array<Kept, most> kept_;
    std::size_t next_ = 0;
};

}  // namespace

bool not_recomputed(const std::vector<std::string>& differ) {
    return differ.size() == 1 && differ.front().rfind("made by truth ", 0) == 0;
}

Outcome<JudgedAttempt> judge_attempt(Attempt attempt, const std::string& file) {
    thread_local LastRead<Scenario, 16> scenarios;
    thread_local LastRead<Protocol, 4> protocols;
    const Outcome<Scenario>& scenario = scenarios.of(attempt.scenario_text, read_scenario);
    if (!scenario) return within(scenario.faults(), file, "scenario.text");
    const Outcome<Protocol>& protocol = protocols.of(attempt.protocol_text, read_protocol);
    if (!protocol) return within(protocol.faults(), file, "protocol.text");
    if (const auto fault = check_order(scenario.value(), protocol.value(), attempt.events, file))
        return *fault;
    JudgedAttempt judged;
    judged.attempt = std::move(attempt);
    judged.scenario = scenario.value();
    judged.protocol = protocol.value();
    AttemptHeader& h = judged.attempt.header;
    if (h.scenario_id.empty()) h.scenario_id = judged.scenario.id;
    if (h.protocol_id.empty()) h.protocol_id = judged.protocol.id;
    h.scenario_sha256 = judged.scenario.sha256;
    h.protocol_sha256 = judged.protocol.sha256;
    judged.played = play(judged.scenario, judged.protocol, sim::Seed{h.seed}, judged.attempt.events);
    judged.sheet = judge(judged.scenario, judged.protocol, judged.played);
    return judged;
}

Outcome<std::vector<std::string>> replay(std::string_view json, const std::string& file) {
    Outcome<StoredAttempt> stored = read_attempt(json, file);
    if (!stored) return stored.faults();
    if (stored->attempt.header.truth != sim::truth_version)
        return std::vector<std::string>{fmt::format("made by truth {}, this program is {}: not recomputed",
                                                    stored->attempt.header.truth, sim::truth_version)};
    if (stored->score_json.empty()) return std::vector<std::string>{"score: missing in the file"};
    const Json was = Json::parse(stored->score_json, nullptr, false);
    const Outcome<JudgedAttempt> judged = judge_attempt(stored->attempt, file);
    if (!judged) return judged.faults();
    std::vector<std::string> differ;
    differences(was, json_of(judged->sheet), "score", differ);
    return differ;
}

Hashes hashes_of(const JudgedAttempt& judged) {
    std::string beats, events;
    for (const auto* train : {&judged.played.fetal, &judged.played.fetal2, &judged.played.maternal})
        for (const sim::Beat& beat : *train)
            if (beat.kind != sim::BeatKind::dropped) beats += std::to_string(beat.at_us) + "\n";
    for (const Event& e : judged.attempt.events) events += to_json(e) + "\n";
    return {sha256_hex(beats), sha256_hex(events), sha256_hex(to_json(judged.sheet))};
}

}  // namespace engine
