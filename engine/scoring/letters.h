// Letters, words and units in free text. A byte of 0x80 or more, part of an accented letter, is a letter.
#pragma once

#include <algorithm>
#include <span>
#include <string>
#include <string_view>

namespace engine {

inline bool digit(char c) { return c >= '0' && c <= '9'; }
inline bool letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (static_cast<unsigned char>(c) >= 0x80);
}

inline std::string lower(std::string_view text) {
    std::string s(text);
    for (char& c : s)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return s;
}

// Begins a word at `at`.
inline bool word_at(std::string_view text, std::size_t at, std::string_view stem) {
    // The first letter settles most: a call to compare the rest would be most of the reading of a note.
    return text[at] == stem.front() && (at == 0 || !letter(text[at - 1])) &&
           text.substr(at, stem.size()) == stem;
}
inline bool whole_word_at(std::string_view text, std::size_t at, std::string_view word) {
    return word_at(text, at, word) && (at + word.size() >= text.size() || !letter(text[at + word.size()]));
}

inline std::size_t past_spaces(std::string_view text, std::size_t at) {
    while (at < text.size() && text[at] == ' ') ++at;
    return at;
}

// The unit that follows a number: "5 min", "41 wk", "3h". "138/min" and "138 a minute" have none.
inline bool has_unit(std::string_view text, std::size_t at, std::span<const std::string_view> units) {
    const std::size_t from = past_spaces(text, at);
    return std::any_of(units.begin(), units.end(), [&](std::string_view unit) {
        if (text.substr(from, unit.size()) != unit) return false;
        const std::size_t end = from + unit.size();
        return unit.size() > 2 || end >= text.size() || !letter(text[end]);
    });
}

}  // namespace engine
