// Which of several counts, or listenings, a sentence speaks of. Of a single one nothing needs to be said.
#pragma once

#include "engine/scoring/evidence.h"

#include <string>

namespace engine {

// Minutes and seconds of the attempt: "03:10".
std::string clock_time(double t_s);
// "first" to "tenth", then "11th".
std::string ordinal(std::size_t number);

// From 1, in the order the counts were made in.
std::size_t number_of(const Evidence& e, const CountedWindow& w);
// "the second count, 62 s at 03:10": by the order they were made in, its own length, its own start.
std::string count_name(const Evidence& e, const CountedWindow& w);
// The same where more than one was made, else `otherwise`.
std::string which_count(const Evidence& e, const CountedWindow& w, const std::string& otherwise = "");
// "In the second count, 62 s at 03:10: " before a sentence; nothing where there is only one.
std::string of_count(const Evidence& e, const CountedWindow& w);
// "Counts 1 to 6, from 03:10: " before a sentence about a series that is not all there is.
std::string of_series(const Evidence& e, const SeriesScore& s);
// "The second decision, at 12:30: "; nothing where only one stands.
std::string of_decision(const Evidence& e, const StandingDecision& d);

// "The second count" at the head of a sentence.
std::string with_capital(std::string words);

}  // namespace engine
