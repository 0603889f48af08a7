// A figure as JSON: whole numbers without a point, others with their shortest digits.
#pragma once

#include <nlohmann/json.hpp>

#include <cmath>
#include <cstdint>

namespace engine {

inline nlohmann::ordered_json plain_number(double v) {
    if (v == std::floor(v) && std::fabs(v) < 9e15) return static_cast<std::int64_t>(v);
    return v;
}

}  // namespace engine
