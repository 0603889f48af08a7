// What an option refuses while the line is read, in the words of every other refusal.
#pragma once

#include <CLI/CLI.hpp>
#include <cstdlib>
#include <string>

namespace ui {

// Read as a whole number without a sign, -1 would be the largest there is.
inline CLI::Validator a_seed() {
    return CLI::Validator(
        [](const std::string& given) {
            return given.find_first_of("+-") == std::string::npos
                       ? std::string()
                       : "found " + given + ", allowed: 0 to 9007199254740991";
        },
        "");
}

// The library's own limits would print the largest double with all its digits.
inline CLI::Validator seconds_long(bool or_none) {
    return CLI::Validator(
        [or_none](const std::string& given) {
            const double s = std::strtod(given.c_str(), nullptr);
            const bool too_little = or_none ? s < 0 : s <= 0;  // not a number: refused with all other such
            return too_little ? "found " + given + ", allowed: " + (or_none ? "0 s or more" : "more than 0 s")
                              : std::string();
        },
        "");
}

// A number given that is no choice would otherwise stand for "by default".
inline CLI::Validator whole_from(int least, int most) {
    return CLI::Validator(
        [least, most](const std::string& given) {
            char* end = nullptr;
            const double number = std::strtod(given.c_str(), &end);
            if (end == given.c_str() || *end != 0) return std::string();  // refused with all other such
            return number >= least && number <= most
                       ? std::string()
                       : "found " + given + ", allowed: " + std::to_string(least) + " to " +
                             std::to_string(most);
        },
        "");
}

}  // namespace ui
