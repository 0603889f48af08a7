// Rates in free text, and whose heart each is called. A number belongs to the name that stands directly
// before it, or after it in a clause that puts its names last; in doubt it is nobody's, for a wrong guess
// would say of a good note that it gives her pulse as the baby's heart.
#include "engine/scoring/heart_names.h"
#include "engine/scoring/letters.h"
#include "engine/scoring/written_words.h"

#include <algorithm>
#include <array>

namespace engine {

namespace {

using std::string_view;
using Of = WrittenNumber::Of;

constexpr std::array<string_view, 19> other_units = {"min", "sec",    "second", "h",  "hour", "week", "wk",
                                                     "day", "cm",     "km",     "mm", "kg",   "ml",   "%",
                                                     "yr",  "degree", "fifth",  "yo", "year"};
constexpr std::array<string_view, 1> hours = {"hr"};  // "36 hr"; "141 HR" is a heart
constexpr double most_hours = 72;
constexpr std::array<string_view, 9> fall_stems = {"fall",   "fell",  "drop",  "dip", "decel",
                                                   "slowed", "slows", "nadir", "down"};

struct Rate {
    std::size_t from = 0, to = 0;  // in the text
    std::size_t clause = 0;        // where its clause begins
    WrittenNumber number;
    Named by = Named::other;  // only with `named`
    bool named = false;
};

// "," ";" "." and the like, and "and": what is said of one heart ends there.
bool ends_clause(string_view text, std::size_t at) {
    const char c = text[at];
    if (c == '.') return at + 1 >= text.size() || !digit(text[at + 1]);
    return c == ',' || c == ';' || c == '\n' || c == '(' || c == ')' || whole_word_at(text, at, "and");
}

// One number and where it ends; false: a code, a time of day or a pressure.
bool read_number(string_view text, std::size_t& at, double& value) {
    const std::size_t from = at;
    value = 0;
    while (at < text.size() && digit(text[at])) value = value * 10 + (text[at++] - '0');
    const std::size_t whole_end = at;
    double step = 1;
    bool fraction = false;
    if (at + 1 < text.size() && (text[at] == '.' || text[at] == ',') && digit(text[at + 1]) &&
        !(text[at] == ',' && at + 2 < text.size() && digit(text[at + 2]))) {
        ++at;
        fraction = true;
        while (at < text.size() && digit(text[at])) value += (text[at++] - '0') * (step /= 10);
    }
    if (whole_end - from > 3) return false;
    if (glued_to_code(text, from)) return false;
    if (from > 1 && text[from - 1] == '-' && letter(text[from - 2])) return false;
    if (text.substr(past_spaces(text, at), 5) == "over ") return false;
    if (from >= 5 && text.substr(from - 5, 5) == "over ") return false;
    const bool after = at + 1 < text.size() && digit(text[at + 1]);
    if (after && (text[at] == ':' || text[at] == '/')) return false;
    if (from > 1 && digit(text[from - 2]) && (text[from - 1] == ':' || text[from - 1] == '/')) return false;
    return !(fraction && whole_end - from < 2 && step < 0.05);
}

class RateReader {
public:
    explicit RateReader(string_view text) : text_(text), names_(namings(text)) {}

    std::vector<WrittenNumber> read() {
        numbers();
        for (std::size_t i = 0; i < rates_.size();) i = name_clause(i);
        settle();
        std::vector<WrittenNumber> all;
        for (const Rate& r : rates_)
            if (!r.named || r.by != Named::other) all.push_back(r.number);
        return all;
    }

private:
    void numbers() {
        std::size_t range_from = SIZE_MAX;
        std::size_t clause = 0;
        for (std::size_t at = 0; at < text_.size();) {
            if (ends_clause(text_, at)) clause = at + 1;
            if (!digit(text_[at])) {
                ++at;
                continue;
            }
            Rate r{at, at, clause, {}, Named::other, false};
            const bool plain = read_number(text_, at, r.number.value);
            r.to = at;
            r.number.to = r.number.value;
            const bool rate = plain && r.number.value >= 20 && r.number.value <= 300 &&
                              !has_unit(text_, at, other_units) &&
                              !(r.number.value <= most_hours && has_unit(text_, at, hours));
            // "141 to 86" is no range but a fall.
            if (rate && range_from == r.from && !rates_.empty() &&
                r.number.value >= rates_.back().number.value) {
                rates_.back().number.to = r.number.value;
                rates_.back().to = r.to;
            } else if (rate) {
                r.number.fall = range_from == r.from || told_as_fall(r);
                rates_.push_back(r);
            }
            range_from = rate ? past_to(at) : SIZE_MAX;
        }
    }

    // "130-140", "130 to 140", "130 -> 140", with a dash of any width.
    std::size_t past_to(std::size_t at) const {
        const std::size_t next = past_spaces(text_, at);
        for (string_view between : {"to ", "->", "-", "\xE2\x80\x93", "\xE2\x86\x92"})
            if (text_.substr(next, between.size()) == between)
                return past_spaces(text_, next + between.size());
        return SIZE_MAX;
    }

    bool told_as_fall(const Rate& r) const {
        std::size_t from = rates_.empty() || rates_.back().clause != r.clause ? r.clause : rates_.back().to;
        for (const Naming& n : names_)  // "drops after each mother 86" is no fall of hers
            if (n.what == Named::mother && n.from >= from && n.to <= r.from) from = n.to;
        return names_one(text_.substr(from, r.from - from), fall_stems);
    }

    // Numbers of one clause, from `first` on; where the next clause's begin.
    std::size_t name_clause(std::size_t first) {
        const std::size_t from = rates_[first].clause;
        std::size_t to = rates_[first].to, last = first;
        while (to < text_.size() && !ends_clause(text_, to)) ++to;
        while (last + 1 < rates_.size() && rates_[last + 1].clause == from) ++last;
        std::vector<Naming> in;
        for (const Naming& n : names_)
            if (n.from >= from && n.to <= to) in.push_back(n);
        if (!in.empty()) {
            const bool number_first =
                rates_[first].from<in.front().from, number_last = rates_[last].from> in.back().from;
            for (std::size_t i = first; i <= last; ++i) {
                const std::size_t before = i == first ? from : rates_[i - 1].to,
                                  after = i == last ? to : rates_[i + 1].from;
                const Naming* name = number_first && !number_last ? first_in(in, rates_[i].to, after)
                                                                  : last_in(in, before, rates_[i].from);
                if (!name && rates_[i].number.fall && i > first && rates_[i - 1].named) {
                    rates_[i].named = true;
                    rates_[i].by = rates_[i - 1].by;
                    continue;
                }
                if (!name && !number_first && i == last) name = first_in(in, rates_[i].to, after);
                // Numbers at both ends: which side the names stand on is open.
                const bool open = number_first && number_last && name && name->what != Named::mother &&
                                  name->what != Named::other;
                if (!name || open) continue;
                rates_[i].named = true;
                rates_[i].by = name->what;
            }
        } else {
            for (std::size_t i = first; i <= last; ++i)
                if (just_after_her(rates_[i].from)) {
                    rates_[i].named = true;
                    rates_[i].by = Named::mother;
                }
        }
        return last + 1;
    }

    static const Naming* last_in(const std::vector<Naming>& in, std::size_t from, std::size_t to) {
        const Naming* found = nullptr;
        for (const Naming& n : in)
            if (n.from >= from && n.to <= to) found = &n;
        return found;
    }
    static const Naming* first_in(const std::vector<Naming>& in, std::size_t from, std::size_t to) {
        for (const Naming& n : in)
            if (n.from >= from && n.to <= to) return &n;
        return nullptr;
    }

    // "her own 84", "hers is 84".
    bool just_after_her(std::size_t number) const {
        const std::size_t from = number > 12 ? number - 12 : 0;
        const string_view near = text_.substr(from, number - from);
        for (string_view word : {"her own ", "her ", "hers ", "hers is ", "hers: ", "she "})
            if (near.size() >= word.size() && near.substr(near.size() - word.size()) == word) return true;
        return false;
    }

    void settle() {
        const auto any = [&](auto which) { return std::any_of(rates_.begin(), rates_.end(), which); };
        const auto strongly = [](const Rate& r) {
            return r.named && (r.by == Named::baby || r.by == Named::baby_heart);
        };
        const bool baby_said = any(strongly);
        const bool heart_said = any([](const Rate& r) { return r.named && r.by == Named::heart; });
        const bool pulse_said = any([](const Rate& r) { return r.named && r.by == Named::mother; });
        for (Rate& r : rates_) {
            if (!r.named) continue;
            Of& of = r.number.of;
            if (strongly(r)) of = Of::baby;
            if (r.by == Named::heart) of = baby_said ? Of::nobody : Of::baby;
            if (r.by == Named::mother) of = Of::mother;
            if (r.by == Named::hr && (baby_said || heart_said) && !pulse_said) of = Of::mother;
        }
        // A fall is that of the heart spoken of before; "86" after "Baby's heart: ..." is the baby's where
        // her own is named apart and the baby has no other number.
        Of before = Of::nobody;
        const bool has_number = any([](const Rate& r) { return r.number.of == Of::baby; });
        for (Rate& r : rates_) {
            if (!r.named && r.number.fall && before == Of::baby) r.number.of = Of::baby;
            if (!r.named && !r.number.fall && pulse_said && !has_number && heart_in_sentence(r.from))
                r.number.of = Of::baby;
            before = r.number.of;
        }
    }

    bool heart_in_sentence(std::size_t number) const {
        std::size_t from = number;
        while (from > 0 && !(text_[from - 1] == ';' || text_[from - 1] == '\n' ||
                             (text_[from - 1] == '.' && ends_clause(text_, from - 1))))
            --from;
        bool heart = false;
        for (const Naming& n : names_)
            if (n.from >= from && n.to <= number)
                heart = n.what == Named::baby_heart || n.what == Named::heart;
        return heart;
    }

    string_view text_;
    std::vector<Naming> names_;
    std::vector<Rate> rates_;
};

}  // namespace

std::vector<WrittenNumber> rates_written(string_view given) {
    const std::string text = lower(given);
    return RateReader(text).read();
}

}  // namespace engine
