// ATTEMPT.json written and read. The header of an attempt, both texts it was made with, the events, the
// score.
#include "engine/scoring/replay.h"

#include "engine/scoring/score_json.h"
#include "engine/sha256.h"

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include <set>
#include <vector>

namespace engine {

namespace {

using Json = nlohmann::ordered_json;
constexpr std::string_view format_name = "fullminute-attempt/";
constexpr int format_number = 1;

// Written out by hand so that one event is one line and everything else is indented.
std::string indented(const Json& json, int by) {
    std::string text = json.dump(2), out;
    for (char c : text) {
        out += c;
        if (c == '\n') out.append(static_cast<std::size_t>(by), ' ');
    }
    return out;
}

class Reader {
public:
    Reader(const Json& root, std::string file) : root_(root), file_(std::move(file)) {}

    Outcome<StoredAttempt> read() {
        StoredAttempt out;
        if (!root_.is_object())
            return Fault{file_, 0, "attempt", std::string(root_.type_name()), "a JSON object"};
        format();
        if (!faults_.empty()) return faults_;
        AttemptHeader& h = out.attempt.header;
        h.id = text(root_, "id", true);
        h.person = text(root_, "person", false);
        h.program = text(root_, "program", false);
        h.seed = whole(root_, "seed", sim::Seed::largest);
        h.truth = static_cast<int>(whole(root_, "truth", 1'000'000));
        if (root_.contains("output_mode")) h.output_mode = text(root_, "output_mode", false);
        if (h.output_mode != "true" && h.output_mode != "assisted" && h.output_mode != "shifted")
            fault("output_mode", h.output_mode, "one of: true, assisted, shifted");
        if (root_.contains("device_delay_s")) {
            if (root_["device_delay_s"].is_number())
                h.device_delay_s = root_["device_delay_s"].get<double>();
            else
                fault("device_delay_s", root_["device_delay_s"].dump(), "a number of seconds");
        }
        part("scenario", h.scenario_id, h.scenario_sha256, out.attempt.scenario_text);
        part("protocol", h.protocol_id, h.protocol_sha256, out.attempt.protocol_text);
        if (!root_.contains("events")) fault("events", "nothing", "a list of events");
        if (root_.contains("score")) out.score_json = root_["score"].dump(2) + "\n";
        if (!faults_.empty()) return faults_;
        const Outcome<std::vector<Event>> events = read_events(root_["events"].dump(), file_);
        if (!events) return events.faults();
        out.attempt.events = events.value();
        return out;
    }

private:
    void fault(std::string what, std::string found, std::string allowed) {
        faults_.push_back({file_, 0, std::move(what), std::move(found), std::move(allowed)});
    }

    void format() {
        const std::string written = text(root_, "format", true);
        const std::string all = std::string(format_name) + std::to_string(format_number);
        if (written.rfind(format_name, 0) != 0 || written.size() == format_name.size()) {
            fault("format", written, all);
            return;
        }
        int number = 0;
        for (char c : written.substr(format_name.size())) {
            if (c < '0' || c > '9' || number > 100'000) {
                fault("format", written, all);
                return;
            }
            number = number * 10 + (c - '0');
        }
        if (number > format_number)
            fault("format", written, all + "; this file was written by a newer program");
        if (number < 1) fault("format", written, all);
    }

    std::string text(const Json& from, const char* key, bool needed) {
        if (!from.contains(key)) {
            if (needed) fault(key, "nothing", "a text");
            return "";
        }
        if (!from[key].is_string()) {
            fault(key, from[key].dump(), "a text");
            return "";
        }
        return from[key].get<std::string>();
    }

    std::uint64_t whole(const Json& from, const char* key, std::uint64_t most) {
        const auto range = fmt::format("a whole number, 0 to {}", most);
        if (!from.contains(key))
            fault(key, "nothing", range);
        else if (!from[key].is_number_unsigned() || from[key].get<std::uint64_t>() > most)
            fault(key, from[key].dump(), range);
        else
            return from[key].get<std::uint64_t>();
        return 0;
    }

    void part(const char* key, std::string& id, std::string& sha256, std::string& its_text) {
        if (!root_.contains(key) || !root_[key].is_object()) {
            fault(key, "nothing", "an object with id, sha256 and text");
            return;
        }
        id = text(root_[key], "id", true);
        sha256 = text(root_[key], "sha256", true);
        its_text = text(root_[key], "text", true);
        if (const std::string is = sha256_hex(its_text); is != sha256)
            fault(std::string(key) + ".sha256", sha256, is + ", the hash of the text beside it");
    }

    const Json& root_;
    std::string file_;
    std::vector<Fault> faults_;
};

}  // namespace

namespace {

// A key written twice would let two readers see two different attempts.
Outcome<Json> parse_once(std::string_view json, const std::string& file) {
    std::vector<std::set<std::string>> keys;
    std::string doubled;
    const Json::parser_callback_t no_doubles = [&](int, Json::parse_event_t event, Json& value) {
        if (event == Json::parse_event_t::object_start) keys.emplace_back();
        if (event == Json::parse_event_t::object_end) keys.pop_back();
        if (event == Json::parse_event_t::key && !keys.back().insert(value.get<std::string>()).second)
            doubled = value.get<std::string>();
        return true;
    };
    Json root = Json::parse(json, no_doubles, false);
    if (root.is_discarded()) return Fault{file, 0, "attempt", "no JSON", "a JSON object"};
    if (!doubled.empty()) return Fault{file, 0, doubled, "the key twice", "once"};
    return root;
}

}  // namespace

std::string write_attempt(const JudgedAttempt& judged) {
    const AttemptHeader& h = judged.attempt.header;
    const auto line = [](const char* key, const Json& value) {
        return fmt::format("  \"{}\": {},\n", key, indented(value, 2));
    };
    const auto part = [](const std::string& id, const std::string& sha256, const std::string& text) {
        Json out = Json::object();
        out["id"] = id;
        out["sha256"] = sha256;
        out["text"] = text;
        return out;
    };
    std::string out = "{\n";
    out += line("format", std::string(format_name) + std::to_string(format_number));
    out += line("id", h.id);
    out += line("person", h.person);
    out += line("program", h.program);
    out += line("truth", h.truth);
    out += line("seed", h.seed);
    out += line("output_mode", h.output_mode);
    out += line("device_delay_s", h.device_delay_s);
    out += line("scenario", part(h.scenario_id, h.scenario_sha256, judged.attempt.scenario_text));
    out += line("protocol", part(h.protocol_id, h.protocol_sha256, judged.attempt.protocol_text));
    out += "  \"events\": [";
    for (std::size_t i = 0; i < judged.attempt.events.size(); ++i)
        out += std::string(i == 0 ? "\n    " : ",\n    ") + to_json(judged.attempt.events[i]);
    out += "\n  ],\n";
    out += "  \"score\": " + indented(json_of(judged.sheet), 2) + "\n}\n";
    return out;
}

Outcome<StoredAttempt> read_attempt(std::string_view json, const std::string& file) {
    const Outcome<Json> root = parse_once(json, file);
    if (!root) return root.faults();
    return Reader(root.value(), file).read();
}

}  // namespace engine
