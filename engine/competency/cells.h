// The cells of a CSV text one after the other; the fast part of reading a table.
#pragma once

#include <bit>
#include <charconv>
#include <cstdint>
#include <cstring>
#include <string>
#include <string_view>
#include <vector>

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

    // A plain number of up to six digits and three after the point, in thousandths. False: another number or
    // none, and `at` is where it was.
    bool thousandths(std::int32_t& value) {
        const char* digit = at;
        std::int32_t whole = 0;
        const char* sixth = end - at > 6 ? at + 6 : end;
        while (digit != sixth && *digit >= '0' && *digit <= '9') whole = whole * 10 + (*digit++ - '0');
        if (digit == at) return false;
        std::int32_t part = 0;
        if (digit != end && *digit == '.') {
            std::int32_t worth = 1000;
            for (++digit; digit != end && worth > 1 && *digit >= '0' && *digit <= '9';)
                part += (*digit++ - '0') * (worth /= 10);
        }
        if (digit != end && *digit != ',' && *digit != '\n' && *digit != '\r') return false;
        value = whole * 1000 + part;
        at = digit;
        return true;
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

// Text -> number in order of first appearance. Words of up to eight letters are compared as one number.
class WordList {
public:
    explicit WordList(std::vector<std::string>& names) : names_(names), slots_(64, none) {}

    // A plain cell that holds the word of the row before, or the one that came after it: most do, and are not
    // looked up.
    bool follows(CellReader& cells, unsigned& number) {
        if (quick_.empty() || cells.end - cells.at < 9) return false;
        std::uint64_t eight = 0;
        std::memcpy(&eight, cells.at, 8);
        for (const unsigned at : {last_, last_ + 1 < quick_.size() ? last_ + 1 : 0}) {
            const Quick& word = quick_[at];
            if (word.length == 0 || (eight & word.mask) != word.letters) continue;
            const char after = cells.at[word.length];
            if (after != ',' && after != '\n' && after != '\r') continue;
            cells.at += word.length;
            number = last_ = at;
            return true;
        }
        return false;
    }

    unsigned number_of(std::string_view word) {
        const Key key{start_of(word), word.size()};
        // Rows of one person stand together; items come round in the same order.
        if (!keys_.empty()) {
            if (matches(last_, key, word)) return last_;
            const unsigned next = last_ + 1 < keys_.size() ? last_ + 1 : 0;
            if (matches(next, key, word)) return last_ = next;
        }
        std::size_t at = place(key, word);
        for (; slots_[at] != none; at = (at + 1) & (slots_.size() - 1))
            if (matches(slots_[at], key, word)) return last_ = slots_[at];
        last_ = static_cast<unsigned>(names_.size());
        names_.emplace_back(word);
        keys_.push_back(key);
        quick_.push_back(quick(word));
        slots_[at] = last_;
        if (2 * names_.size() > slots_.size()) grow();
        return last_;
    }

private:
    static constexpr unsigned none = ~0U;
    struct Key {
        std::uint64_t start;  // of up to eight letters: all of them, told apart by the length
        std::size_t length;
    };

    // The letters of a word of up to eight that may stand in a cell without quotes.
    struct Quick {
        std::uint64_t letters = 0, mask = 0;
        std::size_t length = 0;  // 0 = not such a word
    };
    static Quick quick(std::string_view word) {
        Quick q;
        if (word.size() > 8 || word.find_first_of(",\r\n\"") != std::string_view::npos) return q;
        constexpr char all[8] = {-1, -1, -1, -1, -1, -1, -1, -1};
        std::memcpy(&q.letters, word.data(), word.size());
        std::memcpy(&q.mask, all, word.size());
        q.length = word.size();
        return q;
    }

    static std::uint64_t start_of(std::string_view word) {
        const std::size_t n = word.size();
        std::uint64_t start = 0;
        if (n >= 8) {
            std::memcpy(&start, word.data(), 8);
        } else if (n >= 4) {  // two overlapping halves
            std::uint32_t first, last;
            std::memcpy(&first, word.data(), 4);
            std::memcpy(&last, word.data() + n - 4, 4);
            start = std::uint64_t{last} << 32 | first;
        } else {
            for (const char letter : word) start = start << 8 | static_cast<unsigned char>(letter);
        }
        return start;
    }

    bool matches(unsigned number, const Key& key, std::string_view word) const {
        return keys_[number].start == key.start && keys_[number].length == key.length &&
               (key.length <= 8 || names_[number] == word);
    }
    std::size_t place(const Key& key, std::string_view word) const {
        std::uint64_t h = key.start ^ (key.length << 56);
        for (std::size_t i = 8; i < word.size(); ++i)
            h = (h ^ static_cast<unsigned char>(word[i])) * 0x100000001b3ULL;
        h *= 0x9e3779b97f4a7c15ULL;
        return static_cast<std::size_t>(h >> 32) & (slots_.size() - 1);
    }
    void grow() {
        slots_.assign(4 * slots_.size(), none);
        for (unsigned number = 0; number < names_.size(); ++number) {
            std::size_t at = place(keys_[number], names_[number]);
            while (slots_[at] != none) at = (at + 1) & (slots_.size() - 1);
            slots_[at] = number;
        }
    }

    std::vector<std::string>& names_;
    std::vector<Key> keys_;        // by number
    std::vector<Quick> quick_;     // the same
    std::vector<unsigned> slots_;  // a power of two
    unsigned last_ = 0;
};

}  // namespace engine
