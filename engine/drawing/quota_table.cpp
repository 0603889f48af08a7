#include "engine/drawing/quota_table.h"

#include <utility>

namespace engine {
namespace {

using Rows = std::vector<Field<QuotaLanding>>;

void add_top(Rows& t) {
    using K = FieldKind;
    t.push_back({{.section = "",
                  .key = "format",
                  .kind = K::text,
                  .least = 1,
                  .most = 64,
                  .meaning = "kind and number of the format: \"fullminute-quota/1\"",
                  .needed = true},
                 [](QuotaLanding&, const FieldValue&) {}});
    t.push_back({{.section = "",
                  .key = "id",
                  .kind = K::text,
                  .least = 1,
                  .most = 64,
                  .meaning = "name of the file without its ending, 3 to 48 of a-z, 0-9 and -",
                  .needed = true},
                 [](QuotaLanding& l, const FieldValue& v) { l.quota->id = v.text; }});
    t.push_back({{.section = "",
                  .key = "title",
                  .kind = K::text,
                  .least = 1,
                  .most = 80,
                  .meaning = "what the set is for",
                  .needed = true},
                 [](QuotaLanding& l, const FieldValue& v) { l.quota->title = v.text; }});
    t.push_back({{.section = "",
                  .key = "scenarios",
                  .kind = K::whole,
                  .least = 1,
                  .most = most_drawn,
                  .meaning = "how many are drawn",
                  .needed = true},
                 [](QuotaLanding& l, const FieldValue& v) {
                     l.quota->scenarios = static_cast<int>(v.whole);
                     l.quota->scenarios_line = v.line;
                 }});
    t.push_back({{.section = "",
                  .key = "normal",
                  .kind = K::quantity,
                  .unit = Unit::percent,
                  .least = 0,
                  .most = 100,
                  .standard = "50 %",
                  .meaning = "share of normal ones; under half teaches to call everything abnormal"},
                 [](QuotaLanding& l, const FieldValue& v) {
                     l.quota->normal = v.number;
                     l.quota->normal_line = v.line;
                 }});
    t.push_back(
        {{.section = "",
          .key = "boundary",
          .kind = K::quantity,
          .unit = Unit::percent,
          .least = 0,
          .most = 50,
          .standard = "0 %",
          .meaning =
              "share that sits on a limit, or where mother and baby beat alike; tagged, never used for "
              "pass marks"},
         [](QuotaLanding& l, const FieldValue& v) {
             l.quota->boundary = v.number;
             l.quota->boundary_line = v.line;
         }});
    t.push_back(
        {{.section = "",
          .key = "to_nothing",
          .kind = K::quantity,
          .unit = Unit::percent,
          .least = 0,
          .most = 100,
          .standard = "33.3 %",
          .meaning = "of the troubles that move the rate (late, variable, prolonged) at least this share "
                     "answers to no measure, rounded up; a scar or a cause not found never does. Under a "
                     "third teaches that measures always help"},
         [](QuotaLanding& l, const FieldValue& v) {
             l.quota->to_nothing = v.number;
             l.quota->to_nothing_line = v.line;
         }});
}

template <Axis axis, std::size_t value>
void lands_share(QuotaLanding& l, const FieldValue& v) {
    Shares& shares = l.quota->of(axis);
    shares.percent[value] = v.number;
    if (!shares.given) shares.line = v.line;
    shares.given = true;
}

template <Axis axis, std::size_t... value>
void add_shares(Rows& t, const std::vector<std::string_view>& meanings, std::index_sequence<value...>) {
    const AxisWords& words = words_of(axis);
    const std::size_t first = words.words.front() == "-" ? 1 : 0;
    const auto row = [&](std::size_t i, void (*lands)(QuotaLanding&, const FieldValue&)) {
        if (i < first || i >= words.words.size()) return;
        t.push_back({{.section = words.section,
                      .key = words.words[i],
                      .kind = FieldKind::quantity,
                      .unit = Unit::percent,
                      .least = 0,
                      .most = 100,
                      .meaning = meanings[i - first]},
                     lands});
    };
    (row(value, lands_share<axis, value>), ...);
}

template <Axis axis>
void add_axis(Rows& t, const std::vector<std::string_view>& meanings) {
    add_shares<axis>(t, meanings, std::make_index_sequence<12>{});
}

void add_axes(Rows& t) {
    add_axis<Axis::task>(t, {"one full-minute count", "short windows", "where it is loudest", "whose heart",
                             "through contractions", "several listenings, decide and act"});
    add_axis<Axis::level>(
        t, {"first day", "first week", "sure of the simple ones", "hard", "as hard as it gets"});
    add_axis<Axis::calm>(t, {"no slowing", "slows in the contraction and is back when it ends"});
    add_axis<Axis::trouble>(
        t, {"still slow after the contraction", "sudden falls of changing shape, the cord pressed",
            "falls and stays down", "has risen 20 or more since labour began, inside the limits", "too fast",
            "too slow", "extra or missing beats", "two babies, two rates",
            "no heart of the baby to be found; with a content note"});
    add_axis<Axis::cause>(
        t,
        {"she lies flat on her back", "the cord is pressed", "the cord comes down when the waters break",
         "too many contractions: a drip, an injection, or by themselves",
         "fever, with foul waters or without", "bleeding from a womb that stays hard",
         "medicine of hers that drives the heart", "a scar of the womb gives way", "no cause to be found"});
    add_axis<Axis::instrument>(
        t, {"Pinard horn", "flat and cup side of a stethoscope", "hand-held Doppler", "horn and Doppler"});
    add_axis<Axis::place>(
        t, {"Pellan Ford post: alone, no Doppler, hospital 90 min",
            "Sirro Bridge centre: two midwives, a drip, hospital 40 min", "Ambrel hospital: theatre 30 min"});
    add_axis<Axis::position>(t, {"head down, back in front", "head down, back to the side",
                                 "head down, back behind: faint, far out", "bottom down", "lying across"});
    add_axis<Axis::variant>(
        t, {"an injection \"to hurry\", given before she came: too many contractions",
            "headache and high pressure, or a fit", "35 weeks", "waters thin and green",
            "a generator behind the wall", "woman in water: Doppler only",
            "the count is broken into and begun again", "the second of twins, the first one born"});
}

template <RateRange Quota::*of_class>
void lands_rate(QuotaLanding& l, const FieldValue& v) {
    l.quota->*of_class = {v.quantity.from, v.quantity.to, v.line};
}

void add_rates(Rows& t) {
    const auto row = [&](std::string_view key, double least, double most, std::string_view meaning,
                         void (*lands)(QuotaLanding&, const FieldValue&)) {
        t.push_back({{.section = "rates",
                      .key = key,
                      .kind = FieldKind::quantity,
                      .unit = Unit::bpm,
                      .least = least,
                      .most = most,
                      .meaning = meaning,
                      .spread = true},
                     lands});
    };
    row("normal", 110, 160, "of the normal ones", lands_rate<&Quota::normal_rate>);
    row("slow", 60, 110, "of those too slow", lands_rate<&Quota::slow_rate>);
    row("fast", 160, 210, "of those too fast", lands_rate<&Quota::fast_rate>);
}

struct SectionHead {
    std::string_view section, heading, meaning;
};
const SectionHead headings[] = {
    {"", "Top of a quota",
     "What the set is and how large. Shares are made whole numbers by largest remainders."},
    {"tasks", "`[tasks]`", "Shares of all, together 100 %."},
    {"levels", "`[levels]`", "Shares of all, together 100 %."},
    {"when_normal", "`[when_normal]`",
     "What the heart does in the normal ones: shares of these, together 100 %."},
    {"when_not_normal", "`[when_not_normal]`",
     "What the heart does in the others: shares of these, together 100 %."},
    {"causes", "`[causes]`",
     "What is behind it in those that are not normal: shares of these, together 100 %. Section left out: any "
     "that "
     "goes with what the heart does."},
    {"instruments", "`[instruments]`", "Shares of all, together 100 %."},
    {"places", "`[places]`", "Shares of all, together 100 %."},
    {"positions", "`[positions]`", "How the baby lies: shares of all, together 100 %."},
    {"variants", "`[variants]`",
     "What else is the matter: shares of all, together at most 100 %; the rest has nothing "
     "else. Section left out: none."},
    {"rates", "`[rates]`",
     "Rates the labours of a class settle at by the key: a range 4 bpm wide or more, for a check that is to "
     "ask for "
     "clear cases. Left out: wherever the class is sure by the protocol's limits, slow ones up to 2.5 bpm "
     "below."},
};

}  // namespace

const std::vector<Field<QuotaLanding>>& quota_table() {
    static const Rows table = [] {
        Rows t;
        add_top(t);
        add_axes(t);
        add_rates(t);
        return t;
    }();
    return table;
}

std::string quota_format_page() {
    std::string page;
    for (const SectionHead& head : headings) {
        page +=
            "### " + std::string(head.heading) + "\n\n" + std::string(head.meaning) + "\n\n" + page_head();
        for (const auto& field : quota_table())
            if (field.shape.section == head.section) page += page_row(field.shape);
        page += "\n";
    }
    return page;
}

}  // namespace engine
