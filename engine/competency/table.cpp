#include "engine/competency/table.h"

#include "engine/competency/cells.h"
#include "engine/competency/plain_rows.h"
#include "engine/competency/utf8.h"
#include "engine/competency/word_list.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstdio>
#include <cstdint>
#include <memory>
#include <optional>
#include <sys/mman.h>
#include <utility>

namespace engine {
namespace {

std::string plain(double x) {
    char text[32];
    std::snprintf(text, sizeof text, "%g", x);
    return text;
}

std::string allowed_by(const ColumnRule& rule) {
    if (rule.word) return "a word";
    return std::string(rule.whole ? "a whole number" : "a number") + " from " + plain(rule.least) + " to " +
           plain(rule.most);
}

// A found cell may be long or hold a line end: quoted, and cut.
std::string quoted(std::string_view cell) {
    if (cell.empty()) return "nothing";
    std::size_t shown = std::min<std::size_t>(cell.size(), 40);  // no character cut in two
    while (shown > 36 && shown < cell.size() && (static_cast<unsigned char>(cell[shown]) & 0xC0) == 0x80)
        --shown;
    return "`" + with_bytes_named(cell.substr(0, shown)) + (cell.size() > 40 ? "..." : "") + "`";
}

struct Reading {
    Table table;
    std::vector<const ColumnRule*> rule_of;  // by column of the table
    std::vector<int> into;                   // by cell of a line: column of the table, -1 = not asked for
    std::vector<CellPlace> places;           // the same, once the columns are there
    std::vector<std::unique_ptr<WordList>> lists;
    std::vector<Fault> faults;
    unsigned line = 1;
    std::vector<unsigned> empty_lines;  // of one column, since its last row: empty cells if a row follows
    bool quotes = false;                // in this row: it may hold line ends
    std::string kept;

    void note(std::string what, std::string found, std::string allowed) {
        faults.push_back(
            {table.file, static_cast<int>(line), std::move(what), std::move(found), std::move(allowed)});
    }
};

void end_of_line(CellReader& cells, Reading& r) {
    if (cells.at != cells.end && *cells.at == '\r') ++cells.at;
    if (cells.at != cells.end && *cells.at == '\n') ++cells.at;
    ++r.line;
}

bool read_header(CellReader& cells, std::span<const ColumnRule> rules, Reading& r) {
    std::vector<std::string> names;
    for (;;) {
        std::string_view cell;
        if (!cells.text(cell, r.kept)) {
            r.note("header", "a quote that does not end its cell", "\"NAME\",...");
            return false;
        }
        while (!cell.empty() && cell.front() == ' ') cell.remove_prefix(1);
        while (!cell.empty() && cell.back() == ' ') cell.remove_suffix(1);
        names.emplace_back(cell);
        if (!cells.at_comma()) break;
        ++cells.at;
    }
    r.into.assign(names.size(), -1);
    for (const ColumnRule& rule : rules) {
        const auto count = std::count(names.begin(), names.end(), rule.name);
        if (count > 1) r.note(rule.name, "the column " + std::to_string(count) + " times", "once");
        if (count == 0 && rule.needed) {
            std::string have;
            for (const std::string& name : names) have += (have.empty() ? "" : ", ") + with_bytes_named(name);
            r.note("header", have.empty() ? "nothing" : have, std::string("a column `") + rule.name + "`");
        }
        if (count != 1) continue;
        const auto at =
            static_cast<std::size_t>(std::find(names.begin(), names.end(), rule.name) - names.begin());
        r.into[at] = static_cast<int>(r.table.columns.size());
        r.table.columns.push_back({rule.name, {}, {}, {}, {}});
        r.rule_of.push_back(&rule);
    }
    end_of_line(cells, r);
    return r.faults.empty();
}

// The slow way out: says what stands in the cell instead.
void note_cell(CellReader& cells, Reading& r, const ColumnRule& rule) {
    std::string_view cell;
    if (cells.text(cell, r.kept))
        r.note(rule.name, quoted(cell), allowed_by(rule));
    else
        r.note(rule.name, "a quote that does not end its cell", allowed_by(rule));
    cells.skip_plain();
}

bool is_whole(double value) {  // rules keep numbers inside 1e12
    return value == static_cast<double>(static_cast<long long>(value));
}

void read_number(CellReader& cells, Reading& r, const CellPlace& place) {
    const ColumnRule& rule = *place.rule;
    const char* from = cells.at;
    double value = 0;
    bool read = cells.number(value);
    if (!read && cells.at != cells.end && *cells.at == '"') {
        r.quotes = true;
        std::string_view cell;
        if (cells.text(cell, r.kept)) {
            CellReader inside{cell.data(), cell.data() + cell.size()};
            read = inside.number(value) && inside.at == inside.end;
        }
    }
    if (!read || !(value >= rule.least && value <= rule.most) || (rule.whole && !is_whole(value))) {
        cells.at = from;
        note_cell(cells, r, rule);
        value = 0;
    }
    if (rule.kept == Kept::number)
        place.column->numbers.push_back(value);
    else
        place.column->thousandths.push_back(static_cast<std::int32_t>(value * 1000 + 0.5));
}

void read_word(CellReader& cells, Reading& r, const CellPlace& place) {
    std::string_view cell;
    const char* from = cells.at;
    r.quotes = r.quotes || (from != cells.end && *from == '"');
    if (!cells.text(cell, r.kept) || cell.empty()) {
        cells.at = from;
        note_cell(cells, r, *place.rule);
        cell = "?";
    }
    place.column->words.push_back(place.list->number_of(cell));
}

// Rows of one line each, from `line` on.
void note_rows(Reading& r, unsigned line, std::size_t rows) {
    Table& t = r.table;
    const bool as_counted = t.lines.empty() && line == t.first_line + t.rows;
    for (std::size_t row = 0; !as_counted && t.lines.size() < t.rows; ++row)
        t.lines.push_back(t.first_line + static_cast<unsigned>(row));
    for (std::size_t row = 0; !as_counted && row < rows; ++row)
        t.lines.push_back(line + static_cast<unsigned>(row));
    t.rows += rows;
}

void read_row(CellReader& cells, Reading& r) {
    const std::size_t width = r.into.size();
    const unsigned line = r.line;
    const char* from = cells.at;
    r.quotes = false;
    std::size_t cell = 0;
    for (;; ++cell) {
        static constexpr CellPlace nowhere;
        const CellPlace& place = cell < width ? r.places[cell] : nowhere;
        if (place.column == nullptr) {
            std::string_view passed;
            if (cells.at != cells.end && *cells.at == '"') r.quotes = true, cells.text(passed, r.kept);
            cells.skip_plain();
        } else if (place.list != nullptr) {
            read_word(cells, r, place);
        } else {
            read_number(cells, r, place);
        }
        if (!cells.at_comma()) break;
        ++cells.at;
    }
    note_rows(r, line, 1);
    if (cell + 1 != width) {
        r.note("row", std::to_string(cell + 1) + " cells", std::to_string(width));
        for (Column& column : r.table.columns) {  // keep the columns level: more faults may follow
            const auto index = static_cast<std::size_t>(&column - r.table.columns.data());
            if (r.rule_of[index]->word)
                column.words.resize(r.table.rows);
            else if (r.rule_of[index]->kept == Kept::number)
                column.numbers.resize(r.table.rows);
            else
                column.thousandths.resize(r.table.rows);
        }
    }
    if (r.quotes) r.line += static_cast<unsigned>(std::count(from, cells.at, '\n'));
    end_of_line(cells, r);
}

// Touching a million cells page by page costs more than reading them; large pages are only a wish.
template <typename T>
void reserve_at_once(std::vector<T>& cells, std::size_t rows) {
    cells.reserve(rows);
    constexpr std::uintptr_t page = 1 << 21;
    const auto from = (reinterpret_cast<std::uintptr_t>(cells.data()) + page - 1) & ~(page - 1);
    const auto to = reinterpret_cast<std::uintptr_t>(cells.data() + rows) & ~(page - 1);
    if (to > from) madvise(reinterpret_cast<void*>(from), to - from, MADV_HUGEPAGE);
}

// From its first lines: counting all of them costs a pass over the text. A few more than there are, as a
// rule.
std::size_t about_rows(std::string_view start, std::size_t bytes) {
    start = start.substr(0, 1 << 16);
    const auto lines = static_cast<std::size_t>(std::count(start.begin(), start.end(), '\n')) + 1;
    if (start.size() >= bytes || start.size() < lines) return lines;
    return bytes / (start.size() / lines) * 17 / 16 + 16;
}

void make_room(Reading& r, std::size_t rows) {
    for (Column& column : r.table.columns) {
        r.lists.push_back(std::make_unique<WordList>(column.names));
        const auto index = static_cast<std::size_t>(&column - r.table.columns.data());
        if (r.rule_of[index]->word)
            reserve_at_once(column.words, rows);
        else if (r.rule_of[index]->kept == Kept::number)
            reserve_at_once(column.numbers, rows);
        else
            reserve_at_once(column.thousandths, rows);
    }
    for (const int c : r.into) {
        if (c < 0) {
            r.places.push_back({});
            continue;
        }
        const auto index = static_cast<std::size_t>(c);
        const bool word = r.rule_of[index]->word;
        r.places.push_back(
            {&r.table.columns[index], r.rule_of[index], word ? r.lists[index].get() : nullptr});
    }
}

// In a table of one column an empty line before a row is an empty cell; after the last row it is none.
void note_empty_cells(Reading& r) {
    for (const unsigned line : std::exchange(r.empty_lines, {}))
        for (const ColumnRule* rule : r.rule_of)
            r.faults.push_back(
                {r.table.file, static_cast<int>(line), rule->name, "nothing", allowed_by(*rule)});
}

// What is printed later must be text: a word that is not is refused where it first stands.
void note_words_not_utf8(Reading& r) {
    for (const Column& column : r.table.columns)
        for (std::size_t name = 0; name < column.names.size(); ++name) {
            if (first_not_utf8(column.names[name]) == std::string_view::npos) continue;
            const auto row = std::find(column.words.begin(), column.words.end(), name) - column.words.begin();
            r.faults.push_back(r.table.fault(static_cast<std::size_t>(row), column.name,
                                             quoted(column.names[name]), "a word in UTF-8"));
        }
}

}  // namespace

const Column* Table::find(std::string_view name) const {
    for (const Column& column : columns)
        if (column.name == name) return &column;
    return nullptr;
}

const Column& Table::operator[](std::string_view name) const {
    const Column* column = find(name);
    assert(column != nullptr);
    return *column;
}

Fault Table::fault(std::size_t row, std::string what, std::string found, std::string allowed) const {
    const std::size_t line = lines.empty() ? first_line + row : lines[row];
    return {file, static_cast<int>(line), std::move(what), std::move(found), std::move(allowed)};
}

Outcome<Table> read_table(const std::string& file, std::string_view text, std::span<const ColumnRule> rules) {
    const std::size_t bytes = text.size();
    return read_table(
        file, [&] { return std::exchange(text, {}); }, bytes, rules);
}

Outcome<Table> read_table(const std::string& file, const NextPart& next, std::size_t bytes,
                          std::span<const ColumnRule> rules) {
    Reading r;
    r.table.file = file;
    bool header_read = false, first = true;
    std::optional<PlainRows> plain;  // once the header is read
    for (std::string_view part = next(); !part.empty(); part = next()) {
        if (std::exchange(first, false) && part.starts_with("\xef\xbb\xbf")) part.remove_prefix(3);
        CellReader cells{part.data(), part.data() + part.size()};
        const char* with_care_to = cells.at;
        while (cells.at != cells.end) {
            if (plain && cells.at >= with_care_to) {
                const std::string_view left(cells.at, cells.end);
                const PlainRows::Read read = plain->read(left, r.table.rows);
                note_rows(r, r.line, read.rows);
                r.line += static_cast<unsigned>(read.rows);
                cells.at += read.letters;
                if (read.rows > 0) {
                    note_empty_cells(r);
                    continue;
                }
                with_care_to = cells.at + std::min(PlainRows::block, left.size());
            }
            if (*cells.at == '\n' || *cells.at == '\r') {
                if (header_read && r.into.size() == 1) r.empty_lines.push_back(r.line);
                end_of_line(cells, r);
            } else if (header_read) {
                note_empty_cells(r);
                read_row(cells, r);
            } else {
                if (!read_header(cells, rules, r)) return r.faults;
                header_read = true;
                r.table.first_line = r.line;
                make_room(r, about_rows({cells.at, cells.end}, bytes));
                const bool two = cells.at - part.data() >= 2 && cells.at[-2] == '\r';
                plain.emplace(r.places, two ? "\r\n" : "\n");
            }
        }
    }
    if (!header_read) return Fault{file, 1, "header", "an empty file", "a header line, then rows"};
    if (r.table.rows == 0) note_empty_cells(r);  // nothing but them
    note_words_not_utf8(r);
    if (!r.faults.empty()) return r.faults;
    return std::move(r.table);
}

}  // namespace engine
