#include "engine/scoring/written_words.h"

#include "engine/scoring/letters.h"

#include <algorithm>
#include <array>

namespace engine {

namespace {

using std::string_view;

constexpr std::array<string_view, 5> time_units = {"min", "sec", "second", "hour", "hr"};
constexpr std::array<string_view, 6> length_words = {"since",   "half an hour", "an hour",
                                                     "minutes", "a minute or",  "whole minute"};

constexpr std::array<string_view, 6> denials = {"not", "no", "never", "nothing", "none", "nobody"};

}  // namespace

bool names_one(string_view given, std::span<const string_view> stems) {
    const std::string text = lower(given);
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (at > 0 && letter(text[at - 1])) continue;
        for (string_view stem : stems)
            if (word_at(text, at, stem)) return true;
    }
    return false;
}

std::string without_denials(string_view given) {
    const std::string text = lower(given);
    std::string kept;
    for (std::size_t from = 0; from < text.size();) {
        const std::size_t end = std::min(text.find_first_of(".;,:\n", from), text.size());
        const string_view clause = string_view(text).substr(from, end - from);
        bool denied = clause.find("n't") != string_view::npos, says = false;
        for (std::size_t at = 0; at < clause.size(); ++at) {
            says = says || letter(clause[at]);
            for (string_view word : denials) denied = denied || whole_word_at(clause, at, word);
        }
        if (says && !denied) kept.append(clause).append(".\n");
        from = end + 1;
    }
    return kept;
}

bool names_time_of_day(string_view text) {
    for (std::size_t at = 1; at + 2 < text.size(); ++at)
        if ((text[at] == ':' || text[at] == '.') && digit(text[at - 1]) && digit(text[at + 1]) &&
            digit(text[at + 2]))
            return true;
    return false;
}

bool names_length_of_time(string_view given) {
    const std::string text = lower(given);
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (!digit(text[at]) || (at > 0 && digit(text[at - 1]))) continue;
        std::size_t end = at;
        while (end < text.size() && digit(text[end])) ++end;
        if (has_unit(text, end, time_units) || has_unit(text, end, std::array<string_view, 2>{"h", "s"}))
            return true;
    }
    return names_one(given, length_words);
}

}  // namespace engine
