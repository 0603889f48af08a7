// One row a key: what a file may say, in which unit, within which range, and where it lands. The same rows
// read the file, print the format page and serve the workshop.
#pragma once

#include "engine/outcome.h"
#include "engine/scenario/quantity.h"
#include "engine/scenario/written.h"

#include <algorithm>
#include <cassert>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace engine {

enum class FieldKind : std::uint8_t { text, word, flag, whole, quantity, texts, words, quantities };

// Everything about a key but where it lands.
struct FieldShape {
    std::string_view section{};  // "" = top of the file, "baby.event" = [[baby.event]]
    std::string_view key{};
    FieldKind kind = FieldKind::text;
    Unit unit = Unit::none;
    double least = 0, most = 0;   // whole and quantity, in `unit`; text: least and most bytes
    std::string_view standard{};  // as it would be written; empty with `needed` = must be there
    std::string_view meaning{};
    std::vector<std::string_view> words{};  // word and words
    bool needed = false;
    bool drawn = false;   // a range may be given, drawn from the seed
    bool spread = false;  // a range may be given and is meant as one ("15 to 30 min")
};

struct FieldValue {
    int line = 0;
    std::string text;  // text and word
    bool truth = false;
    std::int64_t whole = 0;
    double number = 0;  // quantity: the value, or the middle of a range
    WrittenQuantity quantity;
    std::vector<std::string> texts;  // texts and words
    std::vector<double> numbers;     // quantities
};

template <typename Target>
struct Field {
    FieldShape shape;
    void (*lands)(Target&, const FieldValue&) = nullptr;
};

// The enumerator a word stands for: words in the order of the enumeration; the reader has checked the word.
template <typename E>
E which(const std::vector<std::string_view>& words, const std::string& text) {
    const auto found = std::find(words.begin(), words.end(), text);
    assert(found != words.end());
    return static_cast<E>(found - words.begin());
}

// Collects everything wrong with one file.
class FaultList {
public:
    explicit FaultList(std::string file) : file_(std::move(file)) {}
    void add(int line, std::string what, std::string found, std::string allowed);
    bool empty() const { return faults_.empty(); }
    std::vector<Fault> by_line() const;

private:
    std::string file_;
    std::vector<Fault> faults_;
};

// Nothing when it was wrong; then the reason is in `faults`.
std::optional<FieldValue> read_value(const FieldShape& shape, const Written& written, const std::string& path,
                                     FaultList& faults);
// "50 bpm to 240 bpm", "one of: horn, bell", "a whole number, 0 to 6".
std::string allowed_of(const FieldShape& shape);
// The nearest of the candidates by letters changed, left out, put in or swapped; empty when none is near.
std::string nearest(std::string_view word, const std::vector<std::string_view>& candidates);
void unknown_key(const Written& part, const std::string& path, const std::vector<std::string_view>& keys,
                 const std::string& elsewhere, FaultList& faults);
// `format = "fullminute-scenario/1"`: another kind or a later number is refused.
void check_format(const Written& file, std::string_view kind, FaultList& faults);
// id = file stem, [a-z0-9-]{3,48}.
void check_id(const Written& file, const std::string& path, FaultList& faults);
// A row of the format page: | `key` | meaning | allowed | default |
std::string page_row(const FieldShape& shape);
std::string page_head();

// Reads one table of a file. `path` is what faults are named by ("baby.event[2]"), `sub_sections` the keys of
// it that hold tables of their own and are read elsewhere. Calls `landed(shape, value)` for each value that
// was right.
template <typename Target, typename Landed>
void read_section(const std::vector<Field<Target>>& fields, std::string_view section, const Written& table,
                  const std::string& path, std::initializer_list<std::string_view> sub_sections,
                  Target& target, FaultList& faults, Landed landed) {
    std::vector<std::string_view> keys(sub_sections);
    for (const auto& f : fields)
        if (f.shape.section == section) keys.push_back(f.shape.key);
    const std::string prefix = path.empty() ? "" : path + ".";
    if (table.kind != Written::Kind::table) {
        faults.add(table.line, path, "a value", "a section: [" + std::string(section) + "]");
        return;
    }
    for (const Written& part : table.parts) {
        if (std::find(sub_sections.begin(), sub_sections.end(), part.key) != sub_sections.end()) continue;
        const Field<Target>* row = nullptr;
        std::string elsewhere;
        for (const auto& f : fields) {
            if (f.shape.key != part.key) continue;
            if (f.shape.section == section)
                row = &f;
            else if (elsewhere.empty())
                elsewhere = (f.shape.section.empty() ? "" : std::string(f.shape.section) + ".") + part.key;
        }
        if (row == nullptr) {
            unknown_key(part, prefix + part.key, keys, elsewhere, faults);
            continue;
        }
        if (const auto value = read_value(row->shape, part, prefix + part.key, faults)) {
            row->lands(target, *value);
            landed(row->shape, *value);
        }
    }
    for (const auto& f : fields) {
        if (f.shape.section != section || !f.shape.needed || table.part(f.shape.key) != nullptr) continue;
        faults.add(table.line, prefix + std::string(f.shape.key), "nothing",
                   "needed: " + std::string(f.shape.meaning) + " (" + allowed_of(f.shape) + ")");
    }
}

// Tables of a [[section]] list, or none; a single [section] where a list is meant is a fault.
std::vector<const Written*> tables_of(const Written& parent, std::string_view key, const std::string& path,
                                      FaultList& faults);

}  // namespace engine
