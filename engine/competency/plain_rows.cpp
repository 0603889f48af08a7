#include "engine/competency/plain_rows.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstring>

namespace engine {
namespace {

constexpr std::uint64_t each = 0x0101'0101'0101'0101, high = each << 7;
using Letters = signed char __attribute__((vector_size(16)));

std::uint64_t eight_letters(const char* from) {
    std::uint64_t eight = 0;
    std::memcpy(&eight, from, 8);
    if constexpr (std::endian::native == std::endian::big) eight = __builtin_bswap64(eight);
    return eight;
}

// One to seven digits; `length` is at most that. `wrong` becomes something else than 0 for any other text;
// for none too: then the first letter is the end of the cell.
std::uint32_t whole_number(const char* from, unsigned length, std::uint64_t& wrong) {
    // Digits to the end of the eight, zeros before them; then neighbours are added, pairs, fours.
    std::uint64_t x = (eight_letters(from) ^ each * '0') << ((64 - 8 * length) & 63);
    wrong |= ((x + each * (0x7f - 9)) | x) & high;
    x = (x * 10 + (x >> 8)) & 0x00ff'00ff'00ff'00ff;
    x = (x * 100 + (x >> 16)) & 0x0000'ffff'0000'ffff;
    return static_cast<std::uint32_t>(x * 10000 + (x >> 32));
}

// One to six digits, a point and `after` digits; or no point and none. At most 999,999,999.
template <unsigned after>
std::uint32_t thousandths(const char* from, unsigned length, std::uint64_t& wrong) {
    const unsigned before = after == 0 ? length : length - after - 1;
    wrong |= before > 6;
    const std::uint32_t whole = 1000 * whole_number(from, before, wrong);
    if constexpr (after == 0) return whole;
    wrong |= from[before & 7] != '.';
    constexpr std::array<std::uint32_t, 4> worth{0, 100, 10, 1};
    return whole + worth[after] * whole_number(from + length - after, after, wrong);
}

// How many digits after a point; 0 = no point, or not among the last four letters.
unsigned digits_after(const char* from, unsigned length) {
    for (unsigned after = 1; after <= 3 && after < length; ++after)
        if (from[length - after - 1] == '.') return after;
    return 0;
}

std::uint32_t thousandths(const char* from, unsigned length, std::uint64_t& wrong) {
    switch (digits_after(from, length)) {
        case 0: return thousandths<0>(from, length, wrong);
        case 1: return thousandths<1>(from, length, wrong);
        case 2: return thousandths<2>(from, length, wrong);
        default: return thousandths<3>(from, length, wrong);
    }
}

// Something else than 0 when one is not a number in question.
template <typename Read>
std::uint64_t read_all(const char* text, const std::uint16_t* start, std::size_t apart, std::size_t rows,
                       std::int32_t* into, Read read) {
    std::uint64_t wrong = 0;
    for (std::size_t row = 0; row < rows; ++row, start += apart)
        into[row] = static_cast<std::int32_t>(
            read(text + start[0], static_cast<unsigned>(start[1] - start[0] - 1), wrong));
    return wrong;
}

}  // namespace

PlainRows::PlainRows(const std::vector<CellPlace>& places, std::string_view line_end)
    : places_(places), limits_(places.size()), ends_(places.size() - 1, ','), starts_(block + 64) {
    ends_ += line_end;
    for (std::size_t cell = 0; cell < places.size(); ++cell) {
        const CellPlace& place = places[cell];
        if (place.column == nullptr || place.rule->word) continue;
        possible_ = possible_ && place.rule->kept == Kept::thousandths;
        limits_[cell] = {static_cast<std::int32_t>(std::ceil(std::max(place.rule->least, -2e6) * 1000)),
                         static_cast<std::int32_t>(std::floor(std::min(place.rule->most, 2e6) * 1000))};
    }
}

// Into starts_: where cells start, in whole rows within the block. How many rows; 0 = not all of them have
// the cells they should.
std::size_t PlainRows::find_rows(std::string_view text) {
    std::array<char, block> ends;
    const std::size_t n = std::min(text.size(), block) / 64 * 64;
    Letters feeds{}, returns{};  // how many, negative, in each lane
    static_assert(block / sizeof(Letters) <= 256);
    for (std::size_t i = 0; i < n; i += sizeof(Letters)) {
        Letters here;
        std::memcpy(&here, text.data() + i, sizeof here);
        const Letters feed = here == '\n', back = here == '\r';
        feeds += feed, returns += back;
        const Letters end = ((here == ',') | feed | back) & 1;
        std::memcpy(ends.data() + i, &end, sizeof here);
    }
    std::uint16_t* start = starts_.data();
    *start++ = 0;
    for (std::size_t at = 0; at < n; at += 64) {
        std::uint64_t bits = 0, sums = 0;
        for (unsigned i = 0; i < 8; ++i) {
            const std::uint64_t eight = eight_letters(ends.data() + at + 8 * i);
            bits |= (eight * 0x0102'0408'1020'4080 >> 56) << 8 * i;
            sums += eight;
        }
        // Eight are written whether they are there or not: a loop over as many as there are takes longer.
        std::uint16_t* const next = start + (sums * each >> 56);
        do
            for (int i = 0; i < 8; ++i, bits &= bits - 1)
                *start++ =
                    static_cast<std::uint16_t>(at + static_cast<std::size_t>(std::countr_zero(bits)) + 1);
        while (start < next);
        start = next;
    }
    const std::size_t in_a_row = ends_.size(), cells = places_.size(),
                      rows = static_cast<std::size_t>(start - starts_.data() - 1) / in_a_row;
    // A line end after as many ends as a row has, and no other: then those before it are commas.
    int wrong = 0;
    for (std::size_t row = 1; row <= rows; ++row)
        for (std::size_t cell = cells; cell <= in_a_row; ++cell)
            wrong |= text[starts_[(row - 1) * in_a_row + cell] - 1u] ^ ends_[cell - 1];
    const auto count = [](const Letters& lanes) {
        std::size_t sum = 0;
        for (std::size_t i = 0; i < sizeof lanes; ++i) sum += static_cast<unsigned char>(-lanes[i]);
        return sum;
    };
    return wrong == 0 && count(feeds) == rows && count(returns) == (in_a_row > cells ? rows : 0) ? rows : 0;
}

bool PlainRows::read_numbers(const char* text, std::size_t rows, std::size_t cell) {
    std::vector<std::int32_t>& into = places_[cell].column->thousandths;
    const Limits limits = limits_[cell];
    const std::size_t in_a_row = ends_.size(), from = into.size();
    const std::uint16_t* start = starts_.data() + cell;
    into.resize(from + rows);
    std::int32_t* const out = into.data() + from;
    // As many digits after the point in all rows, as a rule.
    const auto all_by = [&](auto read) { return read_all(text, start, in_a_row, rows, out, read); };
    using From = const char*;
    using Wrong = std::uint64_t;
    Wrong wrong = 1;
    const unsigned digits = digits_after(text + start[0], static_cast<unsigned>(start[1] - start[0] - 1));
    if (digits == 0) wrong = all_by([](From a, unsigned n, Wrong& w) { return thousandths<0>(a, n, w); });
    if (digits == 1) wrong = all_by([](From a, unsigned n, Wrong& w) { return thousandths<1>(a, n, w); });
    if (wrong != 0) wrong = all_by([](From a, unsigned n, Wrong& w) { return thousandths(a, n, w); });
    for (std::size_t row = 0; row < rows; ++row)
        wrong |= (out[row] < limits.least) | (out[row] > limits.most);
    if (places_[cell].rule->whole)
        for (std::size_t row = 0; row < rows; ++row) wrong |= out[row] % 1000 != 0;
    return wrong == 0;
}

bool PlainRows::read_words(const char* text, std::size_t rows, std::size_t cell) {
    std::vector<unsigned>& into = places_[cell].column->words;
    const std::size_t in_a_row = ends_.size(), from = into.size();
    const std::uint16_t* start = starts_.data() + cell;
    for (std::size_t row = 0; row < rows; ++row)
        if (start[row * in_a_row] + 1 == start[row * in_a_row + 1]) return false;  // nothing
    into.resize(from + rows);
    places_[cell].list->numbers_of(text, start, in_a_row, rows, into.data() + from);
    return true;
}

PlainRows::Read PlainRows::read(std::string_view text, std::size_t rows_before) {
    constexpr std::size_t after = 8;  // letters that may be read behind a cell
    if (!possible_ || text.size() < 64 + after) return {};
    const std::size_t rows = find_rows(text.substr(0, text.size() - after));
    if (rows == 0) return {};
    const std::size_t letters = starts_[rows * ends_.size()];
    if (text.substr(0, letters).find('"') != text.npos) return {};
    for (std::size_t cell = 0; cell < places_.size(); ++cell) {
        const CellPlace& place = places_[cell];
        if (place.column == nullptr) continue;
        const bool read = place.list != nullptr ? read_words(text.data(), rows, cell)
                                                : read_numbers(text.data(), rows, cell);
        if (read) continue;
        for (const CellPlace& one : places_) {  // as if nothing had been read
            if (one.column == nullptr) continue;
            if (one.list != nullptr)
                one.column->words.resize(rows_before);
            else
                one.column->thousandths.resize(rows_before);
        }
        return {};
    }
    return {letters, rows};
}

}  // namespace engine
