// ATTEMPT.json carries the whole scenario and protocol text; the store keeps those once. Cut out and put
// back, the file is the same to the last byte.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace engine {

struct CutJson {
    std::string json;
    std::int64_t scenario_at = -1, protocol_at = -1;  // where the quoted text goes back; -1 = it was not cut
};

// A text that does not stand in the JSON in the usual quoting is left in.
CutJson cut_texts(std::string_view json, std::string_view scenario_text, std::string_view protocol_text);
std::string put_back(const CutJson& cut, std::string_view scenario_text, std::string_view protocol_text);

}  // namespace engine
