#include "engine/store/cut_text.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace engine {
namespace {

// Bytes that are not UTF-8 cannot be quoted: empty, then nothing is cut.
std::string quoted(std::string_view text) {
    try {
        return nlohmann::json(text).dump();
    } catch (const nlohmann::json::exception&) {
        return "";
    }
}

std::int64_t cut_one(std::string& json, std::string_view text) {
    const std::string in_quotes = quoted(text);
    if (text.size() < 64) return -1;  // a short one might stand for something else; nothing is saved either
    const std::size_t at = in_quotes.empty() ? std::string::npos : json.find(in_quotes);
    if (at == std::string::npos) return -1;
    json.erase(at, in_quotes.size());
    return static_cast<std::int64_t>(at);
}

void put_one(std::string& json, std::int64_t at, std::string_view text) {
    if (at >= 0) json.insert(std::min(static_cast<std::size_t>(at), json.size()), quoted(text));
}

}  // namespace

CutJson cut_texts(std::string_view json, std::string_view scenario_text, std::string_view protocol_text) {
    CutJson cut{std::string(json)};
    cut.scenario_at = cut_one(cut.json, scenario_text);
    cut.protocol_at = cut_one(cut.json, protocol_text);
    if (put_back(cut, scenario_text, protocol_text) != json) return {std::string(json)};
    return cut;
}

std::string put_back(const CutJson& cut, std::string_view scenario_text, std::string_view protocol_text) {
    std::string json = cut.json;
    put_one(json, cut.protocol_at, protocol_text);  // the last cut goes back first
    put_one(json, cut.scenario_at, scenario_text);
    return json;
}

}  // namespace engine
