// Rows of a table as nearly all rows are, many at a time, column after column: no quotes, a line each, as
// many cells as the header, numbers of up to seven letters. The fast part of reading a table.
#pragma once

#include "engine/competency/table.h"
#include "engine/competency/word_list.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace engine {

// Where a cell of a line goes; no column = not asked for.
struct CellPlace {
    Column* column = nullptr;
    const ColumnRule* rule = nullptr;
    WordList* list = nullptr;  // of a word column
};

class PlainRows {
public:
    // `places` by cell of a line, to live as long as this. `line_end`: "\n" or "\r\n".
    PlainRows(const std::vector<CellPlace>& places, std::string_view line_end);

    // About as much text as is read at a time.
    static constexpr std::size_t block = 4096;

    // Reads the rows at the start of `text` into their columns, which hold `rows_before`. How many letters
    // that were and how many rows; nothing where a row within the block is not plain: that block must be read
    // with care.
    struct Read {
        std::size_t letters = 0, rows = 0;
    };
    Read read(std::string_view text, std::size_t rows_before);

private:
    std::size_t find_rows(std::string_view text);
    bool read_numbers(const char* text, std::size_t rows, std::size_t cell);
    bool read_words(const char* text, std::size_t rows, std::size_t cell);

    struct Limits {
        std::int32_t least = 0, most = 0;  // thousandths
    };
    const std::vector<CellPlace>& places_;
    std::vector<Limits> limits_;         // by cell
    std::string ends_;                   // the letter after each cell of a row; two after the last, maybe
    bool possible_ = true;               // numbers are asked for in thousandths only
    std::vector<std::uint16_t> starts_;  // of cells, within the block
};

}  // namespace engine
