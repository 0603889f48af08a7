// Keys of a protocol file: what an act is worth in a situation, and what lifts a rule.
#include "engine/protocol/protocol_rows.h"

#include "engine/scenario/scenario_table.h"

namespace engine {

namespace {

using Words = std::vector<std::string_view>;

const Words grade_words{"expected", "allowed", "late_if_before", "not_needed", "out_of_scope", "unsafe"};

}  // namespace

void add_rule_rows(ProtocolRows& t) {
    using K = FieldKind;
    const auto s = "rule";
    t.push_back({{.section = s,
                  .key = "situation",
                  .kind = K::word,
                  .meaning = "computed from course, findings and place",
                  .words = situation_ids(),
                  .needed = true},
                 [](ProtocolLanding& l, const FieldValue& v) { l.rule->situation = v.text; }});
    t.push_back({{.section = s,
                  .key = "act",
                  .kind = K::text,
                  .least = 1,
                  .most = 48,
                  .meaning = "id of an action; this or `any_of`"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.rule->acts.push_back(v.text); }});
    t.push_back({{.section = s,
                  .key = "any_of",
                  .kind = K::texts,
                  .least = 1,
                  .meaning = "ids of actions, one of which is enough"},
                 [](ProtocolLanding& l, const FieldValue& v) {
                     l.rule->acts.insert(l.rule->acts.end(), v.texts.begin(), v.texts.end());
                 }});
    t.push_back(
        {{.section = s,
          .key = "grade",
          .kind = K::word,
          .standard = "expected",
          .meaning = "worth of the act here",
          .words = grade_words},
         [](ProtocolLanding& l, const FieldValue& v) { l.rule->grade = which<Grade>(grade_words, v.text); }});
    t.push_back({{.section = s,
                  .key = "within",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 10,
                  .most = 14400,
                  .meaning = "in time until then, from the moment own listening could show it"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.rule->within = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "before",
                  .kind = K::texts,
                  .least = 1,
                  .meaning = "late_if_before: fine, but after these acts"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.rule->before = v.texts; }});
    t.push_back({{.section = s,
                  .key = "unless",
                  .kind = K::words,
                  .meaning = "conditions, any of which lifts the rule",
                  .words = condition_ids()},
                 [](ProtocolLanding& l, const FieldValue& v) { l.rule->unless = v.texts; }});
    t.push_back({{.section = s,
                  .key = "critical",
                  .kind = K::flag,
                  .standard = "false",
                  .meaning = "missing it (unsafe: doing it) is a critical miss"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.rule->critical = v.truth; }});
    t.push_back({{.section = s,
                  .key = "source",
                  .kind = K::texts,
                  .least = 1,
                  .meaning = "where it comes from",
                  .needed = true},
                 [](ProtocolLanding& l, const FieldValue& v) { l.rule->sources = v.texts; }});
    t.push_back({{.section = s,
                  .key = "conflict",
                  .kind = K::text,
                  .least = 1,
                  .most = 400,
                  .meaning = "what other guidance says; shown, rewards neither"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.rule->conflict = v.text; }});
}

std::string_view name_of(Grade grade) { return grade_words[static_cast<std::size_t>(grade)]; }

const std::vector<std::string_view>& condition_ids() {
    static const std::vector<std::string_view> ids{
        "drip_not_running", "not_on_her_back", "not_pushing",  "not_first_listening",
        "birth_close",      "birth_not_close", "bleeding",     "no_bleeding",
        "theatre_here",     "alone",           "not_licensed", "not_trained",
        "moving_vehicle",   "cord_seen",       "not_worsened", "not_heard_before"};
    return ids;
}

}  // namespace engine
