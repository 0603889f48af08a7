// Keys of a protocol file: what can be done.
#include "engine/protocol/protocol_rows.h"

namespace engine {

namespace {

using Words = std::vector<std::string_view>;

const Words licence_words{"any", "trained", "licensed"};
const Words kind_words{"chosen", "seen"};

}  // namespace

void add_action_rows(ProtocolRows& t) {
    using K = FieldKind;
    const auto s = "action";
    t.push_back({{.section = s,
                  .key = "id",
                  .kind = K::text,
                  .least = 1,
                  .most = 48,
                  .meaning = "small letters and _",
                  .needed = true},
                 [](ProtocolLanding& l, const FieldValue& v) { l.act->id = v.text; }});
    t.push_back({{.section = s,
                  .key = "words",
                  .kind = K::text,
                  .least = 1,
                  .most = 120,
                  .meaning = "as on the button",
                  .needed = true},
                 [](ProtocolLanding& l, const FieldValue& v) { l.act->words = v.text; }});
    t.push_back(
        {{.section = s,
          .key = "kind",
          .kind = K::word,
          .standard = "chosen",
          .meaning = "clicked, or seen from hands, ears and clock",
          .words = kind_words},
         [](ProtocolLanding& l, const FieldValue& v) { l.act->kind = which<ActKind>(kind_words, v.text); }});
    t.push_back({{.section = s,
                  .key = "who",
                  .kind = K::word,
                  .standard = "any",
                  .meaning = "who may do it",
                  .words = licence_words},
                 [](ProtocolLanding& l, const FieldValue& v) {
                     l.act->who = which<Licence>(licence_words, v.text);
                 }});
    t.push_back({{.section = s,
                  .key = "takes",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 0,
                  .most = 600,
                  .standard = "5 s",
                  .meaning = "until it is done and its finding is shown; fixed by the program "
                             "where the body answers to the act"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.act->takes = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "reveals",
                  .kind = K::flag,
                  .standard = "false",
                  .meaning = "shows a finding when there is one"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.act->reveals = v.truth; }});
    t.push_back({{.section = s,
                  .key = "source",
                  .kind = K::texts,
                  .least = 1,
                  .meaning = "where it comes from; CP = common practice, MEM = from memory",
                  .needed = true},
                 [](ProtocolLanding& l, const FieldValue& v) { l.act->sources = v.texts; }});
}

std::string_view name_of(ActKind kind) { return kind_words[static_cast<std::size_t>(kind)]; }

}  // namespace engine
