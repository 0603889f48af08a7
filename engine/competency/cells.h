// The cells of a CSV text one after the other, whatever may stand in them.
#pragma once

#include <bit>
#include <charconv>
#include <cstdint>
#include <cstring>
#include <string>
#include <string_view>

namespace engine {

// Stands at the start of a cell, and after it at its end: a comma, a line end or the end of the text.
struct CellReader {
    const char* at;
    const char* end;

    bool at_cell_end() const { return at == end || *at == ',' || *at == '\n' || *at == '\r'; }
    bool at_comma() const { return at != end && *at == ','; }

    // Eight letters at a time while that many are left.
    void skip_plain() {
        if constexpr (std::endian::native == std::endian::little) {
            constexpr std::uint64_t each = 0x0101010101010101ULL;
            // the lowest mark is at the first such letter
            const auto marks = [](std::uint64_t eight, char letter) {
                const std::uint64_t left = eight ^ each * static_cast<unsigned char>(letter);
                return (left - each) & ~left & each << 7;
            };
            for (std::uint64_t eight = 0; end - at >= 8; at += 8) {
                std::memcpy(&eight, at, 8);
                const std::uint64_t found = marks(eight, ',') | marks(eight, '\n') | marks(eight, '\r');
                if (found == 0) continue;
                at += std::countr_zero(found) / 8;
                return;
            }
        }
        while (!at_cell_end()) ++at;
    }

    // A quoted cell, or a plain one, as written. `kept` holds the text when it had to be put together. False:
    // a quote without its end, or something after it.
    bool text(std::string_view& cell, std::string& kept) {
        if (at == end || *at != '"') {
            const char* from = at;
            skip_plain();
            cell = {from, static_cast<std::size_t>(at - from)};
            return true;
        }
        kept.clear();
        for (++at; at != end; ++at) {
            if (*at != '"') {
                kept.push_back(*at);
            } else if (at + 1 != end && at[1] == '"') {
                kept.push_back('"');
                ++at;
            } else {
                ++at;
                cell = kept;
                return at_cell_end();
            }
        }
        cell = kept;
        return false;
    }

    // A plain number. False: not one, and `at` is back at the start of the cell.
    bool number(double& value) {
        static constexpr double tens[] = {1,   1e1, 1e2,  1e3,  1e4,  1e5,  1e6, 1e7,
                                          1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14};
        const char* from = at;
        const bool below = at != end && *at == '-';
        const char* digit = at + below;
        std::uint64_t whole = 0;
        int digits = 0, after_point = 0;
        while (digit != end && *digit >= '0' && *digit <= '9' && digits < 15)
            whole = whole * 10 + static_cast<std::uint64_t>(*digit++ - '0'), ++digits;
        if (digits > 0 && digit != end && *digit == '.')
            for (++digit; digit != end && *digit >= '0' && *digit <= '9' && digits < 15;
                 ++digits, ++after_point)
                whole = whole * 10 + static_cast<std::uint64_t>(*digit++ - '0');
        if (digits > 0 && after_point < 15 &&
            (digit == end || *digit == ',' || *digit == '\n' || *digit == '\r')) {
            at = digit;
            const double size = static_cast<double>(whole) / tens[after_point];  // both exact: rounded once
            value = below ? -size : size;
            return true;
        }
        const auto [stop, error] = std::from_chars(from, end, value);
        at = stop;
        if (error == std::errc() && at_cell_end()) return true;
        at = from;
        return false;
    }
};

}  // namespace engine
