// Keys of a protocol file: how and how often to listen, how to count, her pulse.
#include "engine/protocol/protocol_rows.h"

namespace engine {

namespace {

using Words = std::vector<std::string_view>;

const Words stage_words{"latent", "active", "second"};
const Words when_words{"between", "through", "after"};

}  // namespace

void add_listening_rows(ProtocolRows& t) {
    using K = FieldKind;
    t.push_back({{.section = "counting",
                  .key = "record_lengths",
                  .kind = K::quantities,
                  .unit = Unit::seconds,
                  .least = 10,
                  .most = 120,
                  .meaning = "lengths of a count that may be written down",
                  .needed = true},
                 [](ProtocolLanding& l, const FieldValue& v) {
                     for (double seconds : v.numbers) l.protocol->record_lengths.push_back({seconds});
                 }});
    t.push_back(
        {{.section = "pulse",
          .key = "at_first_listening",
          .kind = K::flag,
          .standard = "true",
          .meaning = "her pulse is felt at the first listening"},
         [](ProtocolLanding& l, const FieldValue& v) { l.protocol->pulse_at_first_listening = v.truth; }});
    t.push_back({{.section = "pulse",
                  .key = "felt_for",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 5,
                  .most = 120,
                  .standard = "15 s",
                  .meaning = "at least this long"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.protocol->pulse_felt_for = {v.number}; }});
    t.push_back(
        {{.section = "pulse",
          .key = "at_each_listening",
          .kind = K::flag,
          .standard = "false",
          .meaning = "her pulse is felt at every listening"},
         [](ProtocolLanding& l, const FieldValue& v) { l.protocol->pulse_at_each_listening = v.truth; }});
    t.push_back(
        {{.section = "pulse",
          .key = "every_first",
          .kind = K::quantity,
          .unit = Unit::seconds,
          .least = 300,
          .most = 14400,
          .meaning = "felt again at least this often in the first stage; left out = no such rule"},
         [](ProtocolLanding& l, const FieldValue& v) { l.protocol->pulse_every_first = {v.number}; }});
    t.push_back(
        {{.section = "pulse",
          .key = "every_second",
          .kind = K::quantity,
          .unit = Unit::seconds,
          .least = 300,
          .most = 14400,
          .meaning = "the same in the second stage"},
         [](ProtocolLanding& l, const FieldValue& v) { l.protocol->pulse_every_second = {v.number}; }});
    const auto s = "listening";
    t.push_back({{.section = s,
                  .key = "stage",
                  .kind = K::word,
                  .meaning = "stage of labour",
                  .words = stage_words,
                  .needed = true},
                 [](ProtocolLanding& l, const FieldValue& v) {
                     l.listening->stage = which<Stage>(stage_words, v.text);
                 }});
    t.push_back({{.section = s,
                  .key = "every",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 60,
                  .most = 14400,
                  .meaning = "due from the first, overdue after the second",
                  .needed = true,
                  .spread = true},
                 [](ProtocolLanding& l, const FieldValue& v) {
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
                 [](ProtocolLanding& l, const FieldValue& v) { l.listening->length = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "when",
                  .kind = K::word,
                  .standard = "after",
                  .meaning = "against the contraction",
                  .words = when_words},
                 [](ProtocolLanding& l, const FieldValue& v) {
                     l.listening->when = which<When>(when_words, v.text);
                 }});
    t.push_back({{.section = s,
                  .key = "after_end",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 0,
                  .most = 120,
                  .standard = "30 s",
                  .meaning = "listen on this long after its end"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.listening->after_end = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "source",
                  .kind = K::texts,
                  .least = 1,
                  .most = 80,
                  .meaning = "who asks for this interval; named where it was not kept"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.listening->sources = v.texts; }});
}

std::string_view name_of(When when) { return when_words[static_cast<std::size_t>(when)]; }

}  // namespace engine
