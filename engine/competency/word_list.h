// Words of a column as numbers.
#pragma once

#include <cstdint>
#include <cstring>
#include <string>
#include <string_view>
#include <vector>

namespace engine {

// Text -> number in order of first appearance. Words of up to eight letters are compared as one number.
class WordList {
public:
    explicit WordList(std::vector<std::string>& names) : names_(names), slots_(64, none) {}

    // Of plain cells, one a row, whose starts lie `apart` in `start`, each followed by that of the cell after
    // it. Eight letters from each start on must be there to read. Most rows hold the word of the row before,
    // or the one that came after it: these are not looked up.
    void numbers_of(const char* text, const std::uint16_t* start, std::size_t apart, std::size_t rows,
                    unsigned* numbers) {
        unsigned last = last_;
        const auto is = [this](unsigned number, std::uint64_t eight, std::size_t length) {
            const Quick& word = quick_[number];
            return word.length == length && (eight & word.mask) == word.letters;
        };
        for (std::size_t row = 0; row < rows; ++row, start += apart) {
            const char* const from = text + start[0];
            const auto length = static_cast<std::size_t>(start[1] - start[0] - 1);
            std::uint64_t eight = 0;
            std::memcpy(&eight, from, 8);
            const unsigned next = last + 1 < quick_.size() ? last + 1 : 0;
            if (quick_.empty() || !is(last, eight, length))
                last = !quick_.empty() && is(next, eight, length) ? next : number_of({from, length});
            numbers[row] = last;
        }
        last_ = last;
    }

    unsigned number_of(std::string_view word) {
        const Key key{start_of(word), word.size()};
        std::size_t at = place(key, word);
        for (; slots_[at] != none; at = (at + 1) & (slots_.size() - 1))
            if (matches(slots_[at], key, word)) return slots_[at];
        const auto number = static_cast<unsigned>(names_.size());
        names_.emplace_back(word);
        keys_.push_back(key);
        quick_.push_back(quick(word));
        slots_[at] = number;
        if (2 * names_.size() > slots_.size()) grow();
        return number;
    }

private:
    static constexpr unsigned none = ~0U;
    struct Key {
        std::uint64_t start;  // of up to eight letters: all of them, told apart by the length
        std::size_t length;
    };

    // The letters of a word of up to eight.
    struct Quick {
        std::uint64_t letters = 0, mask = 0;
        std::size_t length = 0;  // 0 = of more
    };
    static Quick quick(std::string_view word) {
        Quick q;
        if (word.size() > 8) return q;
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
