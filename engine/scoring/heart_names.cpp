#include "engine/scoring/heart_names.h"

#include "engine/scoring/letters.h"

#include <algorithm>
#include <array>
#include <span>

namespace engine {

namespace {

using std::string_view;

constexpr std::array<string_view, 9> baby_stems = {"baby", "babies", "fetal", "foetal", "fetus",
                                                   "fh",   "twin",   "child", "infant"};
constexpr std::array<string_view, 6> mother_stems = {"mother", "maternal", "mum", "wrist", "mhr", "woman"};
constexpr std::array<string_view, 2> pulse_stems = {"puls", "pouls"};
// "P" and its like name her pulse only with a number at once behind them.
constexpr std::array<string_view, 3> pulse_letters = {"p", "pr", "mp"};
constexpr std::array<string_view, 8> other_stems = {"temp", "respir", "press",  "satur",
                                                    "spo",  "weigh",  "gravid", "para"};
constexpr std::array<string_view, 9> other_words = {"bp",   "rr",   "t",     "hb", "sat",
                                                    "sats", "resp", "resps", "age"};

bool begins_with_one_of(string_view word, std::span<const string_view> stems) {
    return std::any_of(stems.begin(), stems.end(),
                       [&](string_view stem) { return word.substr(0, stem.size()) == stem; });
}
bool is_one_of(string_view word, std::span<const string_view> words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

bool number_follows(string_view text, std::size_t at) {
    while (at < text.size() && (text[at] == ' ' || text[at] == '.' || text[at] == ':' || text[at] == '='))
        ++at;
    return at < text.size() && digit(text[at]);
}

}  // namespace

// A heart or pulse belongs to who is named just before it: "baby's heart", "mother's own heart".
std::vector<Naming> namings(string_view text) {
    std::vector<Naming> all;
    string_view owner;
    for (std::size_t at = 0; at < text.size();) {
        if (!letter(text[at])) {
            if (text[at] != ' ' && text[at] != '\'' && text[at] != '-') owner = {};
            ++at;
            continue;
        }
        std::size_t end = at;
        while (end < text.size() && letter(text[end])) ++end;
        const string_view word = text.substr(at, end - at);
        const bool babys = begins_with_one_of(owner, baby_stems),
                   hers = begins_with_one_of(owner, mother_stems) || owner == "own";
        const auto add = [&](Named what) { all.push_back({at, end, what}); };
        if (begins_with_one_of(word, std::array<string_view, 1>{"heart"}) || word == "hr")
            add(babys ? Named::baby_heart : hers ? Named::mother : word == "hr" ? Named::hr : Named::heart);
        else if (begins_with_one_of(word, pulse_stems))
            add(babys ? Named::baby_heart : Named::mother);
        else if (word == "bhr" || word.substr(0, 2) == "fh")
            add(Named::baby_heart);
        else if (begins_with_one_of(word, baby_stems))
            add(Named::baby);
        else if (begins_with_one_of(word, mother_stems) ||
                 (is_one_of(word, pulse_letters) && number_follows(text, end)))
            add(Named::mother);
        else if (begins_with_one_of(word, other_stems) ||
                 (is_one_of(word, other_words) && number_follows(text, end)))
            add(Named::other);
        if (word != "s") owner = word;
        at = end;
    }
    return all;
}

bool glued_to_code(string_view text, std::size_t number) {
    std::size_t from = number;
    while (from > 0 && letter(text[from - 1])) --from;
    const string_view word = text.substr(from, number - from);
    return !word.empty() && !is_one_of(word, pulse_letters) && word != "hr" && word != "mhr" &&
           word.substr(0, 2) != "fh";
}

}  // namespace engine
