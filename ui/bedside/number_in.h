// A whole number as typed or kept: nothing for anything else, also for more than a number.
#pragma once

#include <charconv>
#include <optional>
#include <string_view>

namespace ui {

inline std::optional<int> number_in(std::string_view digits) {
    int value = 0;
    const auto [end, fault] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (fault != std::errc() || end != digits.data() + digits.size() || digits.empty()) return std::nullopt;
    return value;
}

}  // namespace ui
