// Keys of a protocol file: the top of the file.
#include "engine/protocol/protocol_rows.h"

namespace engine {

void add_top_rows(ProtocolRows& t) {
    using K = FieldKind;
    t.push_back({{.section = "",
                  .key = "format",
                  .kind = K::text,
                  .least = 1,
                  .most = 64,
                  .meaning = "kind and number of the format: \"fullminute-protocol/1\"",
                  .needed = true},
                 [](ProtocolLanding&, const FieldValue&) {}});
    t.push_back({{.section = "",
                  .key = "id",
                  .kind = K::text,
                  .least = 1,
                  .most = 64,
                  .meaning = "name of the file without its ending, 3 to 48 of a-z, 0-9 and -",
                  .needed = true},
                 [](ProtocolLanding& l, const FieldValue& v) { l.protocol->id = v.text; }});
    t.push_back({{.section = "",
                  .key = "title",
                  .kind = K::text,
                  .least = 1,
                  .most = 80,
                  .meaning = "shown wherever a decision is judged",
                  .needed = true},
                 [](ProtocolLanding& l, const FieldValue& v) { l.protocol->title = v.text; }});
    t.push_back({{.section = "",
                  .key = "origin",
                  .kind = K::text,
                  .least = 1,
                  .most = 600,
                  .meaning = "where the values come from",
                  .needed = true},
                 [](ProtocolLanding& l, const FieldValue& v) { l.protocol->origin = v.text; }});
    t.push_back({{.section = "",
                  .key = "from_memory",
                  .kind = K::flag,
                  .standard = "false",
                  .meaning = "some values were not checked against their source: said on screen"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.protocol->from_memory = v.truth; }});
    t.push_back({{.section = "",
                  .key = "cautions",
                  .kind = K::texts,
                  .least = 1,
                  .meaning = "shown where a decision is made and on every printed page",
                  .needed = true},
                 [](ProtocolLanding& l, const FieldValue& v) { l.protocol->cautions = v.texts; }});
}

}  // namespace engine
