#include "engine/scenario/fields.h"

#include <cctype>
#include <charconv>

namespace engine {
namespace {

std::string quoted(const Written& written) {
    switch (written.kind) {
        case Written::Kind::text: return "\"" + written.text + "\"";
        case Written::Kind::table: return "a section";
        case Written::Kind::list: return "a list";
        default: return written.text;
    }
}

// Letters changed, left out, put in, or two neighbours swapped.
std::size_t letters_apart(std::string_view a, std::string_view b) {
    std::vector<std::vector<std::size_t>> d(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
    for (std::size_t i = 0; i <= a.size(); ++i) d[i][0] = i;
    for (std::size_t j = 0; j <= b.size(); ++j) d[0][j] = j;
    const auto lower = [](char c) { return std::tolower(static_cast<unsigned char>(c)); };
    for (std::size_t i = 1; i <= a.size(); ++i)
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t change = lower(a[i - 1]) == lower(b[j - 1]) ? 0 : 1;
            d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + change});
            if (i > 1 && j > 1 && lower(a[i - 1]) == lower(b[j - 2]) && lower(a[i - 2]) == lower(b[j - 1]))
                d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
        }
    return d[a.size()][b.size()];
}

std::string joined(const std::vector<std::string_view>& words) {
    std::string all;
    for (std::string_view w : words) all += (all.empty() ? "" : ", ") + std::string(w);
    return all;
}

std::optional<WrittenQuantity> read_one_quantity(const FieldShape& shape, const Written& written,
                                                 const std::string& path, FaultList& faults) {
    if (written.kind == Written::Kind::whole || written.kind == Written::Kind::number) {
        faults.add(written.line, path, written.text + ", a number without its unit",
                   allowed_of(shape) + ", in quotes and with its unit");
        return std::nullopt;
    }
    if (written.kind != Written::Kind::text) {
        faults.add(written.line, path, quoted(written), allowed_of(shape));
        return std::nullopt;
    }
    const auto quantity = read_quantity(written.text, shape.unit);
    if (!quantity) {
        faults.add(written.line, path, quoted(written), allowed_of(shape) + ", in " + units_of(shape.unit));
        return std::nullopt;
    }
    if (quantity->range && !shape.drawn && !shape.spread) {
        faults.add(written.line, path, quoted(written), "one value, not a range: " + allowed_of(shape));
        return std::nullopt;
    }
    if (quantity->range && !(quantity->from < quantity->to)) {
        faults.add(written.line, path, quoted(written), "a range from the smaller to the larger value");
        return std::nullopt;
    }
    if (quantity->from < shape.least || quantity->to > shape.most) {
        faults.add(written.line, path, quoted(written), allowed_of(shape));
        return std::nullopt;
    }
    return quantity;
}

bool is_word_of(const FieldShape& shape, const Written& written, const std::string& path, FaultList& faults) {
    if (written.kind == Written::Kind::text &&
        std::find(shape.words.begin(), shape.words.end(), written.text) != shape.words.end())
        return true;
    const std::string near = nearest(written.text, shape.words);
    faults.add(written.line, path, quoted(written),
               "one of: " + joined(shape.words) + (near.empty() ? "" : "; did you mean `" + near + "`?"));
    return false;
}

bool is_text(const FieldShape& shape, const Written& written, const std::string& path, FaultList& faults) {
    const double bytes = static_cast<double>(written.text.size());
    if (written.kind == Written::Kind::text && bytes >= shape.least &&
        (shape.most == 0 || bytes <= shape.most))
        return true;
    const bool empty = written.kind == Written::Kind::text && written.text.empty();
    faults.add(written.line, path,
               empty                                 ? "\"\""
               : written.kind == Written::Kind::text ? std::to_string(written.text.size()) + " bytes of text"
                                                     : quoted(written),
               allowed_of(shape));
    return false;
}

}  // namespace

void FaultList::add(int line, std::string what, std::string found, std::string allowed) {
    faults_.push_back({file_, line, std::move(what), std::move(found), std::move(allowed)});
}

std::vector<Fault> FaultList::by_line() const {
    std::vector<Fault> sorted = faults_;
    std::stable_sort(sorted.begin(), sorted.end(),
                     [](const Fault& a, const Fault& b) { return a.line < b.line; });
    return sorted;
}

std::string allowed_of(const FieldShape& shape) {
    switch (shape.kind) {
        case FieldKind::text:
            return shape.most == 0 ? (shape.least > 0 ? "text, not empty" : "text")
                                   : "text of up to " + std::to_string(static_cast<int>(shape.most)) +
                                         " bytes" + (shape.least > 0 ? ", not empty" : "");
        case FieldKind::word: return "one of: " + joined(shape.words);
        case FieldKind::flag: return "true or false";
        case FieldKind::whole:
            return "a whole number, " + in_words(shape.least, Unit::none) + " to " +
                   in_words(shape.most, Unit::none);
        case FieldKind::quantity:
            return in_words(shape.least, shape.unit) + " to " + in_words(shape.most, shape.unit);
        case FieldKind::quantities:
            return "a list, each " + in_words(shape.least, shape.unit) + " to " +
                   in_words(shape.most, shape.unit);
        case FieldKind::texts: return "a text or a list of texts";
        case FieldKind::words: return "a list of: " + joined(shape.words);
    }
    return "";
}

std::string nearest(std::string_view word, const std::vector<std::string_view>& candidates) {
    std::string_view best;
    std::size_t best_apart = 1000;
    for (std::string_view candidate : candidates) {
        const std::size_t apart = letters_apart(word, candidate);
        if (apart < best_apart) {
            best_apart = apart;
            best = candidate;
        }
    }
    const std::size_t near = std::max<std::size_t>(word.size() <= 3 ? 1 : 2, word.size() / 3);
    // A short word with half its letters wrong is another word; two swapped ones count as one change.
    return best_apart <= near ? std::string(best) : std::string();
}

void unknown_key(const Written& part, const std::string& path, const std::vector<std::string_view>& keys,
                 const std::string& elsewhere, FaultList& faults) {
    const std::string near = nearest(part.key, keys);
    std::string allowed = "one of: " + joined(keys);
    if (!elsewhere.empty())
        allowed = "did you mean `" + elsewhere + "`?";
    else if (!near.empty())
        allowed = "did you mean `" + near + "`?";
    faults.add(part.line, path, "an unknown key", allowed);
}

std::optional<FieldValue> read_value(const FieldShape& shape, const Written& written, const std::string& path,
                                     FaultList& faults) {
    FieldValue value;
    value.line = written.line;
    switch (shape.kind) {
        case FieldKind::text:
            if (!is_text(shape, written, path, faults)) return std::nullopt;
            value.text = written.text;
            return value;
        case FieldKind::word:
            if (!is_word_of(shape, written, path, faults)) return std::nullopt;
            value.text = written.text;
            return value;
        case FieldKind::flag:
            if (written.kind != Written::Kind::truth) {
                faults.add(written.line, path, quoted(written), allowed_of(shape));
                return std::nullopt;
            }
            value.truth = written.truth;
            return value;
        case FieldKind::whole:
            if (written.kind != Written::Kind::whole || static_cast<double>(written.whole) < shape.least ||
                static_cast<double>(written.whole) > shape.most) {
                faults.add(written.line, path, quoted(written), allowed_of(shape));
                return std::nullopt;
            }
            value.whole = written.whole;
            return value;
        case FieldKind::quantity: {
            const auto quantity = read_one_quantity(shape, written, path, faults);
            if (!quantity) return std::nullopt;
            value.quantity = *quantity;
            value.number = quantity->middle();
            return value;
        }
        case FieldKind::texts:
        case FieldKind::words:
        case FieldKind::quantities: break;
    }
    std::vector<Written> elements{written};
    if (written.kind == Written::Kind::list) elements = written.parts;
    if (elements.empty() && shape.needed) {
        faults.add(written.line, path, "an empty list", allowed_of(shape) + ", at least one");
        return std::nullopt;
    }
    bool right = true;
    for (const Written& element : elements) {
        if (shape.kind == FieldKind::quantities) {
            const auto quantity = read_one_quantity(shape, element, path, faults);
            right = right && quantity.has_value();
            if (quantity) value.numbers.push_back(quantity->from);
        } else {
            const bool fine = shape.kind == FieldKind::words ? is_word_of(shape, element, path, faults)
                                                             : is_text(shape, element, path, faults);
            right = right && fine;
            value.texts.push_back(element.text);
        }
    }
    if (!right) return std::nullopt;
    return value;
}

void check_format(const Written& file, std::string_view kind, FaultList& faults) {
    const Written* format = file.part("format");
    if (format == nullptr || format->kind != Written::Kind::text) return;  // named by the table's own row
    const std::string prefix = "fullminute-" + std::string(kind) + "/";
    const std::string allowed = "\"" + prefix + "1\"";
    int number = 0;
    const std::string_view digits =
        std::string_view(format->text).substr(std::min(prefix.size(), format->text.size()));
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
    if (!format->text.starts_with(prefix) || error != std::errc{} || end != digits.data() + digits.size() ||
        number < 1)
        faults.add(format->line, "format", "\"" + format->text + "\"", allowed);
    else if (number > 1)
        faults.add(format->line, "format", "\"" + format->text + "\", written by a newer program", allowed);
}

void check_id(const Written& file, const std::string& path, FaultList& faults) {
    const Written* id = file.part("id");
    if (id == nullptr || id->kind != Written::Kind::text) return;
    const bool letters = std::all_of(id->text.begin(), id->text.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
    });
    if (!letters || id->text.size() < 3 || id->text.size() > 48)
        faults.add(id->line, "id", "\"" + id->text + "\"", "3 to 48 of a-z, 0-9 and -");
    else if (!path.empty() && stem_of(path) != id->text)
        faults.add(id->line, "id", "\"" + id->text + "\"", "the name of the file: \"" + stem_of(path) + "\"");
}

std::vector<const Written*> tables_of(const Written& parent, std::string_view key, const std::string& path,
                                      FaultList& faults) {
    std::vector<const Written*> tables;
    const Written* list = parent.part(key);
    if (list == nullptr) return tables;
    if (list->kind != Written::Kind::list) {
        faults.add(list->line, path,
                   list->kind == Written::Kind::table ? "[" + path + "], one section" : "a value",
                   "a list of sections: [[" + path + "]]");
        return tables;
    }
    for (const Written& table : list->parts) tables.push_back(&table);
    return tables;
}

std::string page_head() { return "| key | meaning | allowed | default |\n| --- | --- | --- | --- |\n"; }

std::string page_row(const FieldShape& shape) {
    std::string allowed = allowed_of(shape);
    if (shape.drawn && shape.kind == FieldKind::quantity) allowed += "; or a range";
    if (shape.spread) allowed += "; one value or \"A to B\"";
    const std::string standard = shape.needed             ? "needed"
                                 : shape.standard.empty() ? "-"
                                                          : std::string(shape.standard);
    return "| `" + std::string(shape.key) + "` | " + std::string(shape.meaning) + " | " + allowed + " | " +
           standard + " |\n";
}

}  // namespace engine
