// Keys of a protocol file: what can be the matter, the plan for the wall, where guidance differs.
#include "engine/protocol/protocol_rows.h"

#include "engine/scenario/scenario_table.h"

namespace engine {

namespace {

using Words = std::vector<std::string_view>;

const Words level_words{"green", "yellow", "orange", "red"};

}  // namespace

void add_situation_rows(ProtocolRows& t) {
    using K = FieldKind;
    t.push_back({{.section = "situation",
                  .key = "id",
                  .kind = K::word,
                  .meaning = "as computed",
                  .words = situation_ids(),
                  .needed = true},
                 [](ProtocolLanding& l, const FieldValue& v) { l.situation->id = v.text; }});
    t.push_back({{.section = "situation",
                  .key = "words",
                  .kind = K::text,
                  .least = 1,
                  .most = 160,
                  .meaning = "as shown",
                  .needed = true},
                 [](ProtocolLanding& l, const FieldValue& v) { l.situation->words = v.text; }});
    t.push_back({{.section = "situation",
                  .key = "level",
                  .kind = K::word,
                  .standard = "green",
                  .meaning = "how soon: the ladder of calling for help",
                  .words = level_words},
                 [](ProtocolLanding& l, const FieldValue& v) {
                     l.situation->level = which<Level>(level_words, v.text);
                 }});
    t.push_back(
        {{.section = "situation",
          .key = "level_if_it_holds",
          .kind = K::word,
          .meaning =
              "level when it holds: through the persistence, after more than half of the contractions, "
              "or together with a slowing; left out = the same",
          .words = level_words},
         [](ProtocolLanding& l, const FieldValue& v) {
             l.situation->level_if_it_holds = which<Level>(level_words, v.text);
         }});
    t.push_back({{.section = "plan",
                  .key = "line",
                  .kind = K::text,
                  .least = 1,
                  .most = 160,
                  .meaning = "what is to be settled beforehand",
                  .needed = true},
                 [](ProtocolLanding& l, const FieldValue& v) { l.pair->first = v.text; }});
    t.push_back({{.section = "plan",
                  .key = "filled",
                  .kind = K::text,
                  .least = 0,
                  .most = 300,
                  .meaning = "filled in by the facility; empty = still open"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.pair->second = v.text; }});
    t.push_back({{.section = "conflict",
                  .key = "topic",
                  .kind = K::text,
                  .least = 1,
                  .most = 120,
                  .meaning = "where guidance differs",
                  .needed = true},
                 [](ProtocolLanding& l, const FieldValue& v) { l.pair->first = v.text; }});
    t.push_back({{.section = "conflict",
                  .key = "says",
                  .kind = K::text,
                  .least = 1,
                  .most = 800,
                  .meaning = "who says what",
                  .needed = true},
                 [](ProtocolLanding& l, const FieldValue& v) { l.pair->second = v.text; }});
}

std::string_view name_of(Level level) { return level_words[static_cast<std::size_t>(level)]; }

}  // namespace engine
