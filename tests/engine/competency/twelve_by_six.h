// Twelve persons by six items, worked through in R.
#pragma once

#include "engine/competency/items.h"

#include <string>

inline engine::Responses responses_of(const std::vector<std::string>& rows) {
    engine::Responses responses;
    for (const std::string& row : rows) {
        responses.emplace_back();
        for (char c : row) responses.back().push_back(c == '1');
    }
    return responses;
}

inline const std::vector<std::string> twelve_by_six{"111111", "111110", "111100", "110011",
                                                    "110100", "111000", "101000", "110000",
                                                    "010100", "100000", "001000", "000000"};
