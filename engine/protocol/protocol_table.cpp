#include "engine/protocol/protocol_table.h"

#include "engine/scenario/scenario_table.h"

namespace engine {
namespace {

using Landing = ProtocolLanding;
using Rows = std::vector<Field<Landing>>;
using Words = std::vector<std::string_view>;

const Words stage_words{"latent", "active", "second"};
const Words when_words{"between", "through", "after"};
const Words licence_words{"any", "trained", "licensed"};
const Words kind_words{"chosen", "seen"};
const Words grade_words{"expected", "allowed", "late_if_before", "not_needed", "out_of_scope", "unsafe"};
const Words level_words{"green", "yellow", "orange", "red"};

void add_top(Rows& t) {
    using K = FieldKind;
    t.push_back({{.section = "",
                  .key = "format",
                  .kind = K::text,
                  .least = 1,
                  .most = 64,
                  .meaning = "kind and number of the format: \"fullminute-protocol/1\"",
                  .needed = true},
                 [](Landing&, const FieldValue&) {}});
    t.push_back({{.section = "",
                  .key = "id",
                  .kind = K::text,
                  .least = 1,
                  .most = 64,
                  .meaning = "name of the file without its ending, 3 to 48 of a-z, 0-9 and -",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.protocol->id = v.text; }});
    t.push_back({{.section = "",
                  .key = "title",
                  .kind = K::text,
                  .least = 1,
                  .most = 80,
                  .meaning = "shown wherever a decision is judged",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.protocol->title = v.text; }});
    t.push_back({{.section = "",
                  .key = "origin",
                  .kind = K::text,
                  .least = 1,
                  .most = 600,
                  .meaning = "where the values come from",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.protocol->origin = v.text; }});
    t.push_back({{.section = "",
                  .key = "from_memory",
                  .kind = K::flag,
                  .standard = "false",
                  .meaning = "some values were not checked against their source: said on screen"},
                 [](Landing& l, const FieldValue& v) { l.protocol->from_memory = v.truth; }});
    t.push_back({{.section = "",
                  .key = "cautions",
                  .kind = K::texts,
                  .least = 1,
                  .meaning = "shown where a decision is made and on every printed page",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.protocol->cautions = v.texts; }});
}

void add_limits(Rows& t) {
    using K = FieldKind;
    const auto s = "limits";
    const auto rate = [&t, s](std::string_view key, std::string_view meaning, std::string_view standard,
                              bool needed, void (*lands)(Landing&, const FieldValue&)) {
        t.push_back({{.section = s,
                      .key = key,
                      .kind = K::quantity,
                      .unit = Unit::bpm,
                      .least = 60,
                      .most = 220,
                      .standard = standard,
                      .meaning = meaning,
                      .needed = needed},
                     lands});
    };
    const auto itself = [&t, s](std::string_view key, std::string_view meaning, std::string_view outside,
                                std::string_view standard, void (*lands)(Landing&, const FieldValue&)) {
        t.push_back({{.section = s,
                      .key = key,
                      .kind = K::word,
                      .standard = standard,
                      .meaning = meaning,
                      .words = {"normal", outside}},
                     lands});
    };
    rate("low", "below is slow", "", true,
         [](Landing& l, const FieldValue& v) { l.protocol->low.bpm = {v.number}; });
    itself("low_itself", "what the value of `low` itself is", "slow", "normal",
           [](Landing& l, const FieldValue& v) { l.protocol->low.limit_is_normal = v.text == "normal"; });
    rate("high", "above is fast", "", true,
         [](Landing& l, const FieldValue& v) { l.protocol->high.bpm = {v.number}; });
    itself("high_itself", "what the value of `high` itself is", "fast", "normal",
           [](Landing& l, const FieldValue& v) { l.protocol->high.limit_is_normal = v.text == "normal"; });
    rate("alert_low", "below is an alert; with `alert_high`, else the protocol has no alerts", "", false,
         [](Landing& l, const FieldValue& v) {
             l.protocol->alert_given = true;
             l.protocol->alert_low.bpm = {v.number};
         });
    itself(
        "alert_low_itself", "what the value of `alert_low` itself is", "alert", "normal",
        [](Landing& l, const FieldValue& v) { l.protocol->alert_low.limit_is_normal = v.text == "normal"; });
    rate("alert_high", "above is an alert", "", false, [](Landing& l, const FieldValue& v) {
        l.protocol->alert_given = true;
        l.protocol->alert_high.bpm = {v.number};
    });
    itself(
        "alert_high_itself", "what the value of `alert_high` itself is", "alert", "normal",
        [](Landing& l, const FieldValue& v) { l.protocol->alert_high.limit_is_normal = v.text == "normal"; });
    t.push_back({{.section = s,
                  .key = "rising_by",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 5,
                  .most = 60,
                  .standard = "20 bpm",
                  .meaning = "rise since the start of labour that counts, this much or more"},
                 [](Landing& l, const FieldValue& v) { l.protocol->rising_by = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "red_below",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 60,
                  .most = 120,
                  .standard = "100 bpm",
                  .meaning = "slow and below this is RED"},
                 [](Landing& l, const FieldValue& v) { l.protocol->red_below = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "slowing_depth",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 5,
                  .most = 40,
                  .standard = "15 bpm",
                  .meaning = "a slowing is at least this deep"},
                 [](Landing& l, const FieldValue& v) { l.protocol->slowing_depth = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "slowing_length",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 5,
                  .most = 60,
                  .standard = "15 s",
                  .meaning = "and at least this long"},
                 [](Landing& l, const FieldValue& v) { l.protocol->slowing_length = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "stays_down",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 60,
                  .most = 600,
                  .standard = "3 min",
                  .meaning = "a fall not back by then stays down"},
                 [](Landing& l, const FieldValue& v) { l.protocol->stays_down = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "baseline_needs",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 15,
                  .most = 600,
                  .standard = "60 s",
                  .meaning = "heard this long before a baseline can be claimed"},
                 [](Landing& l, const FieldValue& v) { l.protocol->baseline_needs = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "persistence_contractions",
                  .kind = K::whole,
                  .least = 1,
                  .most = 10,
                  .standard = "3",
                  .meaning = "outside the limits through so many contractions holds"},
                 [](Landing& l, const FieldValue& v) {
                     l.protocol->persistence_contractions = static_cast<int>(v.whole);
                 }});
    t.push_back({{.section = s,
                  .key = "persistence",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 60,
                  .most = 1800,
                  .standard = "10 min",
                  .meaning = "or for so long"},
                 [](Landing& l, const FieldValue& v) { l.protocol->persistence = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "near_pulse",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 0,
                  .most = 20,
                  .standard = "5 bpm",
                  .meaning = "rates this near her pulse cannot be told from it by number alone"},
                 [](Landing& l, const FieldValue& v) { l.protocol->near_pulse = {v.number}; }});
}

void add_listening(Rows& t) {
    using K = FieldKind;
    t.push_back({{.section = "counting",
                  .key = "record_lengths",
                  .kind = K::quantities,
                  .unit = Unit::seconds,
                  .least = 10,
                  .most = 120,
                  .meaning = "lengths of a count that may be written down",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) {
                     for (double seconds : v.numbers) l.protocol->record_lengths.push_back({seconds});
                 }});
    t.push_back({{.section = "pulse",
                  .key = "at_first_listening",
                  .kind = K::flag,
                  .standard = "true",
                  .meaning = "her pulse is felt at the first listening"},
                 [](Landing& l, const FieldValue& v) { l.protocol->pulse_at_first_listening = v.truth; }});
    t.push_back({{.section = "pulse",
                  .key = "felt_for",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 5,
                  .most = 120,
                  .standard = "15 s",
                  .meaning = "at least this long"},
                 [](Landing& l, const FieldValue& v) { l.protocol->pulse_felt_for = {v.number}; }});
    const auto s = "listening";
    t.push_back(
        {{.section = s,
          .key = "stage",
          .kind = K::word,
          .meaning = "stage of labour",
          .words = stage_words,
          .needed = true},
         [](Landing& l, const FieldValue& v) { l.listening->stage = which<Stage>(stage_words, v.text); }});
    t.push_back({{.section = s,
                  .key = "every",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 60,
                  .most = 14400,
                  .meaning = "due from the first, overdue after the second",
                  .needed = true,
                  .spread = true},
                 [](Landing& l, const FieldValue& v) {
                     l.listening->every_least = {v.quantity.from};
                     l.listening->every_most = {v.quantity.to};
                 }});
    t.push_back({{.section = s,
                  .key = "length",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 15,
                  .most = 600,
                  .standard = "60 s",
                  .meaning = "each listening at least this long"},
                 [](Landing& l, const FieldValue& v) { l.listening->length = {v.number}; }});
    t.push_back(
        {{.section = s,
          .key = "when",
          .kind = K::word,
          .standard = "after",
          .meaning = "against the contraction",
          .words = when_words},
         [](Landing& l, const FieldValue& v) { l.listening->when = which<When>(when_words, v.text); }});
    t.push_back({{.section = s,
                  .key = "after_end",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 0,
                  .most = 120,
                  .standard = "30 s",
                  .meaning = "listen on this long after its end"},
                 [](Landing& l, const FieldValue& v) { l.listening->after_end = {v.number}; }});
}

void add_actions(Rows& t) {
    using K = FieldKind;
    const auto s = "action";
    t.push_back({{.section = s,
                  .key = "id",
                  .kind = K::text,
                  .least = 1,
                  .most = 48,
                  .meaning = "small letters and _",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.act->id = v.text; }});
    t.push_back({{.section = s,
                  .key = "words",
                  .kind = K::text,
                  .least = 1,
                  .most = 120,
                  .meaning = "as on the button",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.act->words = v.text; }});
    t.push_back({{.section = s,
                  .key = "kind",
                  .kind = K::word,
                  .standard = "chosen",
                  .meaning = "clicked, or seen from hands, ears and clock",
                  .words = kind_words},
                 [](Landing& l, const FieldValue& v) { l.act->kind = which<ActKind>(kind_words, v.text); }});
    t.push_back(
        {{.section = s,
          .key = "who",
          .kind = K::word,
          .standard = "any",
          .meaning = "who may do it",
          .words = licence_words},
         [](Landing& l, const FieldValue& v) { l.act->who = which<Licence>(licence_words, v.text); }});
    t.push_back({{.section = s,
                  .key = "takes",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 0,
                  .most = 600,
                  .standard = "5 s",
                  .meaning = "until it is done and its finding is shown; fixed by the program "
                             "where the body answers to the act"},
                 [](Landing& l, const FieldValue& v) { l.act->takes = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "reveals",
                  .kind = K::flag,
                  .standard = "false",
                  .meaning = "shows a finding when there is one"},
                 [](Landing& l, const FieldValue& v) { l.act->reveals = v.truth; }});
    t.push_back({{.section = s,
                  .key = "source",
                  .kind = K::texts,
                  .least = 1,
                  .meaning = "where it comes from; CP = common practice, MEM = from memory",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.act->sources = v.texts; }});
}

void add_rules(Rows& t) {
    using K = FieldKind;
    const auto s = "rule";
    t.push_back({{.section = s,
                  .key = "situation",
                  .kind = K::word,
                  .meaning = "computed from course, findings and place",
                  .words = situation_ids(),
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.rule->situation = v.text; }});
    t.push_back({{.section = s,
                  .key = "act",
                  .kind = K::text,
                  .least = 1,
                  .most = 48,
                  .meaning = "id of an action; this or `any_of`"},
                 [](Landing& l, const FieldValue& v) { l.rule->acts.push_back(v.text); }});
    t.push_back({{.section = s,
                  .key = "any_of",
                  .kind = K::texts,
                  .least = 1,
                  .meaning = "ids of actions, one of which is enough"},
                 [](Landing& l, const FieldValue& v) {
                     l.rule->acts.insert(l.rule->acts.end(), v.texts.begin(), v.texts.end());
                 }});
    t.push_back({{.section = s,
                  .key = "grade",
                  .kind = K::word,
                  .standard = "expected",
                  .meaning = "worth of the act here",
                  .words = grade_words},
                 [](Landing& l, const FieldValue& v) { l.rule->grade = which<Grade>(grade_words, v.text); }});
    t.push_back({{.section = s,
                  .key = "within",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 10,
                  .most = 14400,
                  .meaning = "in time until then, from the moment own listening could show it"},
                 [](Landing& l, const FieldValue& v) { l.rule->within = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "before",
                  .kind = K::texts,
                  .least = 1,
                  .meaning = "late_if_before: fine, but after these acts"},
                 [](Landing& l, const FieldValue& v) { l.rule->before = v.texts; }});
    t.push_back({{.section = s,
                  .key = "unless",
                  .kind = K::words,
                  .meaning = "conditions, any of which lifts the rule",
                  .words = condition_ids()},
                 [](Landing& l, const FieldValue& v) { l.rule->unless = v.texts; }});
    t.push_back({{.section = s,
                  .key = "critical",
                  .kind = K::flag,
                  .standard = "false",
                  .meaning = "missing it (unsafe: doing it) is a critical miss"},
                 [](Landing& l, const FieldValue& v) { l.rule->critical = v.truth; }});
    t.push_back({{.section = s,
                  .key = "source",
                  .kind = K::texts,
                  .least = 1,
                  .meaning = "where it comes from",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.rule->sources = v.texts; }});
    t.push_back({{.section = s,
                  .key = "conflict",
                  .kind = K::text,
                  .least = 1,
                  .most = 400,
                  .meaning = "what other guidance says; shown, rewards neither"},
                 [](Landing& l, const FieldValue& v) { l.rule->conflict = v.text; }});
}

void add_rest(Rows& t) {
    using K = FieldKind;
    t.push_back({{.section = "situation",
                  .key = "id",
                  .kind = K::word,
                  .meaning = "as computed",
                  .words = situation_ids(),
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.situation->id = v.text; }});
    t.push_back({{.section = "situation",
                  .key = "words",
                  .kind = K::text,
                  .least = 1,
                  .most = 160,
                  .meaning = "as shown",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.situation->words = v.text; }});
    t.push_back(
        {{.section = "situation",
          .key = "level",
          .kind = K::word,
          .standard = "green",
          .meaning = "how soon: the ladder of calling for help",
          .words = level_words},
         [](Landing& l, const FieldValue& v) { l.situation->level = which<Level>(level_words, v.text); }});
    t.push_back(
        {{.section = "situation",
          .key = "level_if_it_holds",
          .kind = K::word,
          .meaning =
              "level when it holds: through the persistence, after more than half of the contractions, "
              "or together with a slowing; left out = the same",
          .words = level_words},
         [](Landing& l, const FieldValue& v) {
             l.situation->level_if_it_holds = which<Level>(level_words, v.text);
         }});
    t.push_back({{.section = "plan",
                  .key = "line",
                  .kind = K::text,
                  .least = 1,
                  .most = 160,
                  .meaning = "what is to be settled beforehand",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.pair->first = v.text; }});
    t.push_back({{.section = "plan",
                  .key = "filled",
                  .kind = K::text,
                  .least = 0,
                  .most = 300,
                  .meaning = "filled in by the facility; empty = still open"},
                 [](Landing& l, const FieldValue& v) { l.pair->second = v.text; }});
    t.push_back({{.section = "conflict",
                  .key = "topic",
                  .kind = K::text,
                  .least = 1,
                  .most = 120,
                  .meaning = "where guidance differs",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.pair->first = v.text; }});
    t.push_back({{.section = "conflict",
                  .key = "says",
                  .kind = K::text,
                  .least = 1,
                  .most = 800,
                  .meaning = "who says what",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.pair->second = v.text; }});
}

struct SectionHead {
    std::string_view section, heading, meaning;
};
const SectionHead headings[] = {
    {"", "Top of the file", "What it is and where it comes from."},
    {"limits", "`[limits]`", "When a heart is slow, fast, rising, slowing. Needed."},
    {"counting", "`[counting]`", "Needed."},
    {"pulse", "`[pulse]`", "Her pulse, beside the baby's heart."},
    {"listening", "`[[listening]]`", "One for each stage of labour. All three needed."},
    {"action", "`[[action]]`",
     "What can be done. Answers of the body belong to the program, not to this file."},
    {"situation", "`[[situation]]`", "What can be the matter, and how soon to act."},
    {"rule", "`[[rule]]`", "What an act is worth in a situation."},
    {"plan", "`[[plan]]`", "The facility's own plan for a baby in trouble, printed for the wall."},
    {"conflict", "`[[conflict]]`", "Where guidance differs; shown in the debrief."},
};

}  // namespace

const std::vector<std::string_view>& condition_ids() {
    static const std::vector<std::string_view> ids{
        "drip_not_running", "not_on_her_back", "not_pushing",    "not_first_listening",
        "birth_close",      "birth_not_close", "bleeding",       "no_bleeding",
        "theatre_here",     "alone",           "not_licensed",   "not_trained",
        "pressure_not_low", "not_over_half",   "moving_vehicle", "cord_seen"};
    return ids;
}

const std::vector<Field<ProtocolLanding>>& protocol_table() {
    static const Rows table = [] {
        Rows t;
        add_top(t);
        add_limits(t);
        add_listening(t);
        add_actions(t);
        add_rules(t);
        add_rest(t);
        return t;
    }();
    return table;
}

std::string protocol_format_page() {
    std::string page;
    for (const SectionHead& head : headings) {
        page +=
            "### " + std::string(head.heading) + "\n\n" + std::string(head.meaning) + "\n\n" + page_head();
        for (const auto& field : protocol_table())
            if (field.shape.section == head.section) page += page_row(field.shape);
        page += "\n";
    }
    return page;
}

std::string_view name_of(When when) { return when_words[static_cast<std::size_t>(when)]; }
std::string_view name_of(Grade grade) { return grade_words[static_cast<std::size_t>(grade)]; }
std::string_view name_of(Level level) { return level_words[static_cast<std::size_t>(level)]; }
std::string_view name_of(ActKind kind) { return kind_words[static_cast<std::size_t>(kind)]; }

}  // namespace engine
