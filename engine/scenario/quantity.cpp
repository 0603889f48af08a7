#include "engine/scenario/quantity.h"

#include <array>
#include <charconv>
#include <cmath>
#include <span>

namespace engine {
namespace {

struct Spelling {
    std::string_view word;
    double factor;  // to the unit the value is kept in
};

// Longest spelling first where one begins like another.
constexpr std::array bpm_words{Spelling{"bpm", 1}};
constexpr std::array time_words{Spelling{"min", 60}, Spelling{"h", 3600}, Spelling{"s", 1}};
constexpr std::array week_words{Spelling{"wk", 1}, Spelling{"d", 1.0 / 7.0}};
constexpr std::array cm_words{Spelling{"cm", 1}};
constexpr std::array db_words{Spelling{"dB", 1}};
constexpr std::array mmhg_words{Spelling{"mmHg", 1}};
constexpr std::array celsius_words{Spelling{"C", 1}};
constexpr std::array percent_words{Spelling{"%", 1}};
constexpr std::array per_10min_words{Spelling{"per 10 min", 1}};
constexpr std::array per_min_words{Spelling{"per min", 1}};
constexpr std::array ms_words{Spelling{"ms", 1}};
constexpr std::array mhz_words{Spelling{"MHz", 1}};
constexpr std::array fifths_words{Spelling{"fifths", 1}, Spelling{"fifth", 1}};

std::span<const Spelling> words_of(Unit unit) {
    switch (unit) {
        case Unit::none: return {};
        case Unit::bpm: return bpm_words;
        case Unit::seconds: return time_words;
        case Unit::weeks: return week_words;
        case Unit::centimetres: return cm_words;
        case Unit::decibels: return db_words;
        case Unit::mmhg: return mmhg_words;
        case Unit::celsius: return celsius_words;
        case Unit::percent: return percent_words;
        case Unit::per_10min: return per_10min_words;
        case Unit::per_min: return per_min_words;
        case Unit::milliseconds: return ms_words;
        case Unit::fifths: return fifths_words;
        case Unit::megahertz: return mhz_words;
    }
    return {};
}

void skip_blanks(std::string_view& text) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
}

std::optional<double> take_number(std::string_view& text) {
    double value = 0;
    const auto [end, error] =
        std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
    if (error != std::errc{} || !std::isfinite(value)) return std::nullopt;
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
    skip_blanks(text);
    return value;
}

std::optional<double> take_unit(std::string_view& text, Unit unit) {
    for (const Spelling& spelling : words_of(unit)) {
        if (!text.starts_with(spelling.word)) continue;
        const std::string_view rest = text.substr(spelling.word.size());
        if (!rest.empty() && rest.front() != ' ') continue;
        text = rest;
        skip_blanks(text);
        return spelling.factor;
    }
    return std::nullopt;
}

// One end of a range. `without_unit`: the number alone, when only the other end names the unit.
std::optional<double> read_side(std::string_view text, Unit unit, std::optional<double> factor_if_bare) {
    skip_blanks(text);
    double sum = 0, smallest = 1e300;
    bool first = true;
    while (first || !text.empty()) {
        const auto number = take_number(text);
        if (!number || (!first && *number < 0)) return std::nullopt;
        if (first && text.empty() && factor_if_bare) return *number * *factor_if_bare;
        const auto factor = take_unit(text, unit);
        if (!factor || *factor >= smallest) return std::nullopt;  // "4 d 39 wk", "5 bpm 6 bpm"
        smallest = *factor;
        sum += (sum < 0 ? -*number : *number) * *factor;
        first = false;
    }
    return sum;
}

std::string plain(double value) {
    std::array<char, 32> digits{};
    const double shown = std::round(value * 1000) / 1000;
    const auto [end, error] = std::to_chars(digits.data(), digits.data() + digits.size(), shown + 0.0);
    return error == std::errc{} ? std::string(digits.data(), end) : std::string("?");
}

}  // namespace

std::optional<WrittenQuantity> read_quantity(std::string_view text, Unit unit) {
    const std::size_t between = text.find(" to ");
    if (between == std::string_view::npos) {
        const auto value = read_side(text, unit, std::nullopt);
        if (!value) return std::nullopt;
        return WrittenQuantity{*value, *value, false};
    }
    std::string_view right_text = text.substr(between + 4);
    const auto to = read_side(right_text, unit, std::nullopt);
    skip_blanks(right_text);
    if (!to || !take_number(right_text)) return std::nullopt;
    const auto factor = take_unit(right_text, unit);
    const auto from = read_side(text.substr(0, between), unit, factor);
    if (!from) return std::nullopt;
    return WrittenQuantity{*from, *to, true};
}

std::string units_of(Unit unit) {
    std::string all;
    for (const Spelling& spelling : words_of(unit)) {
        if (spelling.word == "fifth") continue;
        all += (all.empty() ? "" : ", ") + std::string(spelling.word);
    }
    return all;
}

std::string in_words(double value, Unit unit) {
    if (unit == Unit::none) return plain(value);
    if (unit == Unit::seconds) {
        const bool whole_minutes = std::floor(value / 60) * 60 == value;
        if (value >= 7200 && std::floor(value / 3600) * 3600 == value) return plain(value / 3600) + " h";
        if (value >= 120 && whole_minutes) return plain(value / 60) + " min";
        return plain(value) + " s";
    }
    if (unit == Unit::weeks) {
        const double days = std::round(value * 7);
        const double weeks = std::floor(days / 7);
        if (days == weeks * 7) return plain(weeks) + " wk";
        return plain(weeks) + " wk " + plain(days - weeks * 7) + " d";
    }
    return plain(value) + " " + std::string(words_of(unit).front().word);
}

}  // namespace engine
