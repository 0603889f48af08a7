#include "engine/scoring/which_count.h"

#include <fmt/core.h>

#include <array>
#include <cctype>

namespace engine {

std::string clock_time(double t_s) {
    const int whole = static_cast<int>(t_s);
    return fmt::format("{:02}:{:02}", whole / 60, whole % 60);
}

std::string ordinal(std::size_t number) {
    constexpr std::array<const char*, 10> words = {"first", "second",  "third",  "fourth", "fifth",
                                                   "sixth", "seventh", "eighth", "ninth",  "tenth"};
    if (number >= 1 && number <= words.size()) return words[number - 1];
    const std::size_t last = number % 10, teens = number % 100;
    const bool teen = teens >= 11 && teens <= 13;
    return fmt::format("{}{}", number,
                       teen        ? "th"
                       : last == 1 ? "st"
                       : last == 2 ? "nd"
                       : last == 3 ? "rd"
                                   : "th");
}

std::size_t number_of(const Evidence& e, const CountedWindow& w) {
    return static_cast<std::size_t>(&w - e.windows.data()) + 1;
}

std::string count_name(const Evidence& e, const CountedWindow& w) {
    return fmt::format("the {} count, {:.0f} s at {}", ordinal(number_of(e, w)),
                       w.score.to_s - w.score.from_s, clock_time(w.score.from_s));
}

std::string which_count(const Evidence& e, const CountedWindow& w, const std::string& otherwise) {
    return e.windows.size() > 1 ? count_name(e, w) : otherwise;
}

std::string of_count(const Evidence& e, const CountedWindow& w) {
    return e.windows.size() > 1 ? "In " + count_name(e, w) + ": " : "";
}

std::string of_series(const Evidence& e, const SeriesScore& s) {
    if (s.counts() >= e.windows.size()) return "";
    return fmt::format("Counts {} to {}, from {}: ", s.first + 1, s.last + 1, clock_time(s.from_s));
}

std::string of_decision(const Evidence& e, const StandingDecision& d) {
    if (e.decisions.size() < 2) return "";
    const auto index = static_cast<std::size_t>(&d - e.decisions.data());
    return fmt::format("The {} decision, at {}: ", ordinal(index + 1), clock_time(d.said.at.seconds()));
}

std::string with_capital(std::string words) {
    if (!words.empty()) words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
    return words;
}

}  // namespace engine
