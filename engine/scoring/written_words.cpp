#include "engine/scoring/written_words.h"

#include <algorithm>
#include <array>
#include <cstdint>

namespace engine {

namespace {

using std::string_view;

constexpr std::array<string_view, 12> baby_words = {"baby", "babies", "heart", "fetal", "foetal", "fhr",
                                                    "fht",  "fhs",    "fh",    "twin",  "child",  "infant"};
constexpr std::array<string_view, 7> mother_words = {"pulse", "mother", "maternal", "mum",
                                                     "wrist", "mhr",    "woman"};
constexpr std::array<string_view, 2> weakly_mother = {"her", "she"};
constexpr std::array<string_view, 14> other_units = {"min", "sec", "second", "h",  "hr",   "hour",   "week",
                                                     "wk",  "day", "cm",     "km", "year", "degree", "fifth"};
constexpr std::array<string_view, 5> time_units = {"min", "sec", "second", "hour", "hr"};
constexpr std::array<string_view, 6> length_words = {"since",   "half an hour", "an hour",
                                                     "minutes", "a minute or",  "whole minute"};

constexpr std::array<string_view, 6> denials = {"not", "no", "never", "nothing", "none", "nobody"};

bool digit(char c) { return c >= '0' && c <= '9'; }
bool letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (static_cast<unsigned char>(c) >= 0x80);
}

std::string lower(string_view text) {
    std::string s(text);
    for (char& c : s)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return s;
}

// Begins a word at `at`.
bool word_at(string_view text, std::size_t at, string_view stem) {
    // The first letter settles most: a call to compare the rest would be most of the reading of a note.
    return text[at] == stem.front() && (at == 0 || !letter(text[at - 1])) &&
           text.substr(at, stem.size()) == stem;
}
bool whole_word_at(string_view text, std::size_t at, string_view word) {
    return word_at(text, at, word) && (at + word.size() >= text.size() || !letter(text[at + word.size()]));
}

std::size_t past_spaces(string_view text, std::size_t at) {
    while (at < text.size() && text[at] == ' ') ++at;
    return at;
}

// The unit that follows a number: "5 min", "41 wk", "3h". "138/min" and "138 a minute" have none.
bool has_unit(string_view text, std::size_t at, std::span<const string_view> units) {
    const std::size_t from = past_spaces(text, at);
    return std::any_of(units.begin(), units.end(), [&](string_view unit) {
        if (text.substr(from, unit.size()) != unit) return false;
        const std::size_t end = from + unit.size();
        return unit.size() > 2 || end >= text.size() || !letter(text[end]);
    });
}

// "," ";" "." and the like, and "and": what is said of one heart ends there.
bool ends_clause(string_view text, std::size_t at) {
    const char c = text[at];
    if (c == '.') return at + 1 >= text.size() || !digit(text[at + 1]);
    return c == ',' || c == ';' || c == '\n' || c == '(' || c == ')' || whole_word_at(text, at, "and");
}

WrittenNumber::Of whose(string_view text, std::size_t number, WrittenNumber::Of before) {
    std::size_t from = number, to = number;
    while (from > 0 && !ends_clause(text, from - 1) && !whole_word_at(text, from, "and")) --from;
    while (to < text.size() && !ends_clause(text, to)) ++to;
    using Of = WrittenNumber::Of;
    Of nearest = Of::nobody, weak = Of::nobody;
    std::size_t least = SIZE_MAX;
    const auto look = [&](std::span<const string_view> words, Of of) {
        for (std::size_t at = from; at < to; ++at)
            for (string_view word : words) {
                if (!word_at(text, at, word)) continue;
                // A word that stands before the number says more than one that follows.
                const std::size_t away = at < number ? number - at : 1000 + at - number;
                if (away < least) {
                    least = away;
                    nearest = of;
                }
            }
    };
    look(baby_words, Of::baby);
    look(mother_words, Of::mother);
    for (std::size_t at = from; at < to; ++at)
        for (string_view word : weakly_mother)
            if (whole_word_at(text, at, word)) weak = Of::mother;
    if (nearest != Of::nobody) return nearest;
    return weak != Of::nobody ? weak : before;
}

// One number and where it ends; false: a code, a time of day or a pressure.
bool read_number(string_view text, std::size_t& at, double& value) {
    const std::size_t from = at;
    value = 0;
    while (at < text.size() && digit(text[at])) value = value * 10 + (text[at++] - '0');
    const std::size_t whole_end = at;
    double step = 1;
    bool fraction = false;
    if (at + 1 < text.size() && (text[at] == '.' || text[at] == ',') && digit(text[at + 1]) &&
        !(text[at] == ',' && at + 2 < text.size() && digit(text[at + 2]))) {
        ++at;
        fraction = true;
        while (at < text.size() && digit(text[at])) value += (text[at++] - '0') * (step /= 10);
    }
    if (whole_end - from > 3) return false;
    if (from > 0 && letter(text[from - 1])) return false;
    if (from > 1 && text[from - 1] == '-' && letter(text[from - 2])) return false;
    if (text.substr(past_spaces(text, at), 5) == "over ") return false;
    if (from >= 5 && text.substr(from - 5, 5) == "over ") return false;
    const bool after = at + 1 < text.size() && digit(text[at + 1]);
    if (after && (text[at] == ':' || text[at] == '/')) return false;
    if (from > 1 && digit(text[from - 2]) && (text[from - 1] == ':' || text[from - 1] == '/')) return false;
    return !(fraction && whole_end - from < 2 && step < 0.05);
}

}  // namespace

std::vector<WrittenNumber> rates_written(string_view given) {
    const std::string text = lower(given);
    std::vector<WrittenNumber> all;
    WrittenNumber::Of before = WrittenNumber::Of::nobody;
    std::size_t range_from = SIZE_MAX;
    for (std::size_t at = 0; at < text.size();) {
        if (!digit(text[at])) {
            ++at;
            continue;
        }
        const std::size_t from = at;
        double value = 0;
        const bool plain = read_number(text, at, value);
        const bool rate = plain && value >= 20 && value <= 300 && !has_unit(text, at, other_units);
        if (rate) {
            const WrittenNumber::Of of = whose(text, from, before);
            before = of;
            if (range_from == from && !all.empty())
                all.back().to = value;
            else
                all.push_back({of, value, value});
        }
        // "130-140", "130 to 140", with a dash of any width.
        std::size_t next = past_spaces(text, at);
        if (text.compare(next, 3, "to ") == 0)
            next += 2;
        else if (text.compare(next, 1, "-") == 0)
            next += 1;
        else if (text.compare(next, 3, "\xE2\x80\x93") == 0)
            next += 3;
        else
            continue;
        range_from = rate ? past_spaces(text, next) : SIZE_MAX;
    }
    return all;
}

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
