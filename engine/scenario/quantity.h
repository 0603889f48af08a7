// A quantity as a person writes it: "138.4 bpm", "39 wk 4 d", "-2 cm", "132 to 148 bpm". Never a bare number.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace engine {

// The dimension of a key; values are kept in the unit named here.
enum class Unit : std::uint8_t {
    none,
    bpm,
    seconds,
    weeks,
    centimetres,
    decibels,
    mmhg,
    celsius,
    percent,
    per_10min,
    per_min,
    milliseconds,
    fifths,
    megahertz
};

// One value, or a range from which a seed draws. `from == to` when it is one value.
struct WrittenQuantity {
    double from = 0, to = 0;
    bool range = false;
    double middle() const { return from + (to - from) / 2; }
};

// What could be read; nothing when the text is no quantity of that dimension (another unit, no unit, words).
// Accepts several parts where the trade does ("39 wk 4 d", "1 h 30 min"), a minus sign, and "A to B UNIT".
std::optional<WrittenQuantity> read_quantity(std::string_view text, Unit unit);

// Units a person may write for this dimension: "s, min, h".
std::string units_of(Unit unit);
// A value as a person would write it: "50 bpm", "20 min", "39 wk 4 d".
std::string in_words(double value, Unit unit);

}  // namespace engine
