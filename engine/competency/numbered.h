// A narrow column of a table of a million rows as numbers 0, 1, ..., quick enough for the cohort's sums.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <type_traits>
#include <vector>

namespace engine {

// Rows are taken in stretches that stay near the processor.
constexpr std::size_t most_rows = 2048;

// Values of a column as numbers in rising order; all below 0 are -1. Looked up by the value's bits,
// so that no sign has to be asked a million times.
template <typename Number>
class Numbered {
public:
    explicit Numbered(const std::vector<Number>& column) : place_(std::size_t{1} << 8 * sizeof(Number)) {
        const std::vector<char> there = which_are_there(column);
        const std::size_t below_zero = place_.size() / 2;
        if (std::find(there.begin() + static_cast<std::ptrdiff_t>(below_zero), there.end(), 1) != there.end())
            values.push_back(-1);
        for (std::size_t v = 0; v < below_zero; ++v)
            if (there[v]) {
                place_[v] = static_cast<std::uint16_t>(values.size());
                values.push_back(static_cast<int>(v));
            }
    }
    std::size_t size() const { return values.size(); }
    std::vector<int> values;

    // Adds to each row's cell the place of its value, `apart` cells apart. A missing column is one place.
    void add_places(std::uint32_t* cell, const Number* column, std::size_t n, std::size_t apart) const {
        if (column == nullptr || size() == 1) return;
        const auto step = static_cast<std::uint32_t>(apart);
        if (size() > few_steps) {
            for (std::size_t i = 0; i < n; ++i) cell[i] += step * place_[bits(column[i])];
            return;
        }
        // The place of a value is how many of the later ones it reaches: quicker to compare than to look up.
        for (std::size_t later = 1; later < size(); ++later) {
            const auto least = static_cast<Number>(values[later]);
            for (std::size_t i = 0; i < n; ++i)
                cell[i] += step & -static_cast<std::uint32_t>(column[i] >= least);
        }
    }

private:
    // A column holds few different values: asking of a whole stretch whether all were met before is quicker
    // than marking each.
    std::vector<char> which_are_there(const std::vector<Number>& column) const {
        std::vector<char> there(place_.size());
        if (column.empty()) there[bits(-1)] = 1;
        std::vector<Number> met;
        for (std::size_t from = 0; from < column.size(); from += most_rows) {
            const std::size_t n = std::min(most_rows, column.size() - from);
            if (met.size() <= few_met && all_among(met, column.data() + from, n)) continue;
            for (std::size_t row = from; row < from + n; ++row) {
                if (!there[bits(column[row])]) met.push_back(column[row]);
                there[bits(column[row])] = 1;
            }
        }
        return there;
    }
    static bool all_among(const std::vector<Number>& met, const Number* values, std::size_t n) {
        std::array<char, most_rows> known;
        std::fill_n(known.begin(), n, char{0});
        for (const Number one : met)
            for (std::size_t i = 0; i < n; ++i) known[i] = static_cast<char>(known[i] | (values[i] == one));
        return std::memchr(known.data(), 0, n) == nullptr;
    }
    static constexpr std::size_t few_met = 8, few_steps = 4;

    static std::size_t bits(int value) { return static_cast<std::make_unsigned_t<Number>>(value); }
    std::vector<std::uint16_t> place_;
};

}  // namespace engine
