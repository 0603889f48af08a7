// What stands in free text, read for what it holds and never for how it is put: numbers, and English words
// of a kind.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace engine {

struct WrittenNumber {
    enum class Of {
        nobody,
        baby,
        mother
    } of = Of::nobody;         // whose heart it is called, by the words that belong to it; nobody in doubt
    double value = 0, to = 0;  // `to`: the end of a range ("130 to 140"), else the value
    bool fall = false;         // told as what the heart falls to: "dips to 86"
};

// Numbers that can be rates: no codes ("A-014"), times of day, pressures ("92/58"), lengths of time, weeks,
// centimetres, temperatures. Shorthand names a heart as words do: FHR, FH, FHB; MHR, MP, PR, P 86; HR alone
// is hers only beside a number that is called the baby's.
std::vector<WrittenNumber> rates_written(std::string_view text);
// A word that begins with one of the stems, whatever its case. A stem of two words: one after the other.
bool names_one(std::string_view text, std::span<const std::string_view> stems);
// The text without the clauses that deny something ("not", "no", "never", "nothing"): what is told of as
// done. Empty when nothing else stands there.
std::string without_denials(std::string_view text);
// "14:20", "5 min", "for an hour".
bool names_time_of_day(std::string_view text);
bool names_length_of_time(std::string_view text);

}  // namespace engine
