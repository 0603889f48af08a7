#include "engine/store/person_code.h"

namespace engine {

std::optional<Fault> wrong_person_code(std::string_view code) {
    constexpr std::string_view may = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789._-";
    if (!code.empty() && code.size() <= 24 && code.find_first_not_of(may) == std::string_view::npos)
        return std::nullopt;
    const std::string found = code.empty()       ? "nothing"
                              : code.size() > 24 ? std::to_string(code.size()) + " characters"
                                                 : '"' + std::string(code) + '"';
    return Fault{"", 0, "person code", found, "1 to 24 of the letters A to Z, digits, . _ -"};
}

std::string folded(std::string_view code) {
    std::string low(code);
    for (char& c : low)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return low;
}

}  // namespace engine
