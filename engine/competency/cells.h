// The cells of a CSV text one after the other; the fast part of reading a table.
#pragma once

#include <charconv>
#include <cstdint>
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

    void skip_plain() {
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

// Text -> number in order of first appearance. Words of up to eight letters are compared as one number.
class WordList {
public:
    explicit WordList(std::vector<std::string>& names) : names_(names), slots_(64) {}

    unsigned number_of(std::string_view word) {
        Key key{0, word.size()};
        for (std::size_t i = 0; i < word.size() && i < 8; ++i)
            key.start = key.start << 8 | static_cast<unsigned char>(word[i]);
        if (last_ && matches(*last_, key, word)) return last_->number;  // rows of one person stand together
        std::size_t at = place(key, word);
        while (slots_[at].used) {
            if (matches(slots_[at], key, word)) {
                last_ = &slots_[at];
                return last_->number;
            }
            at = (at + 1) & (slots_.size() - 1);
        }
        const auto number = static_cast<unsigned>(names_.size());
        names_.emplace_back(word);
        slots_[at] = {key, number, true};
        last_ = &slots_[at];
        if (2 * names_.size() > slots_.size()) grow();
        return number;
    }

private:
    struct Key {
        std::uint64_t start;  // the first eight letters
        std::size_t length;
    };
    struct Slot {
        Key key{0, 0};
        unsigned number = 0;
        bool used = false;
    };

    bool matches(const Slot& slot, const Key& key, std::string_view word) const {
        return slot.key.start == key.start && slot.key.length == key.length &&
               (key.length <= 8 || names_[slot.number] == word);
    }
    std::size_t place(const Key& key, std::string_view word) const {
        std::uint64_t h = key.start ^ (key.length << 56);
        for (std::size_t i = 8; i < word.size(); ++i)
            h = (h ^ static_cast<unsigned char>(word[i])) * 0x100000001b3ULL;
        h *= 0x9e3779b97f4a7c15ULL;
        return static_cast<std::size_t>(h >> 32) & (slots_.size() - 1);
    }
    void grow() {
        const std::vector<Slot> before = std::move(slots_);
        slots_.assign(4 * before.size(), Slot{});
        for (const Slot& slot : before) {
            if (!slot.used) continue;
            std::size_t at = place(slot.key, names_[slot.number]);
            while (slots_[at].used) at = (at + 1) & (slots_.size() - 1);
            slots_[at] = slot;
        }
        last_ = nullptr;
    }

    std::vector<std::string>& names_;
    std::vector<Slot> slots_;  // a power of two
    const Slot* last_ = nullptr;
};

}  // namespace engine
