// Keys of a protocol file: her own pulse and temperature, and how often a womb may contract.
#include "engine/protocol/protocol_rows.h"

namespace engine {

namespace {

void add_contraction_rows(ProtocolRows& t) {
    using K = FieldKind;
    const auto s = "contractions";
    t.push_back({{.section = s,
                  .key = "most",
                  .kind = K::quantity,
                  .unit = Unit::per_10min,
                  .least = 3,
                  .most = 8,
                  .standard = "5 per 10 min",
                  .meaning = "more are too many, as a mean over the time counted"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.protocol->too_many.per_10min = v.number; }});
    t.push_back({{.section = s,
                  .key = "most_itself",
                  .kind = K::word,
                  .standard = "normal",
                  .meaning = "what the value of `most` itself is",
                  .words = {"normal", "too_many"}},
                 [](ProtocolLanding& l, const FieldValue& v) {
                     l.protocol->too_many.limit_is_normal = v.text == "normal";
                 }});
    t.push_back(
        {{.section = s,
          .key = "alert_few",
          .kind = K::quantity,
          .unit = Unit::per_10min,
          .least = 0,
          .most = 4,
          .meaning = "this or fewer is an alert; with `alert_short` and `alert_long`, else the protocol "
                     "has no alerts here"},
         [](ProtocolLanding& l, const FieldValue& v) {
             l.protocol->contraction_alerts_given = true;
             l.protocol->contraction_alerts.few_per_10min = v.number;
         }});
    t.push_back({{.section = s,
                  .key = "alert_short",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 5,
                  .most = 60,
                  .meaning = "one lasting less is an alert"},
                 [](ProtocolLanding& l, const FieldValue& v) {
                     l.protocol->contraction_alerts_given = true;
                     l.protocol->contraction_alerts.short_below = {v.number};
                 }});
    t.push_back({{.section = s,
                  .key = "alert_long",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 40,
                  .most = 180,
                  .meaning = "one lasting more is an alert"},
                 [](ProtocolLanding& l, const FieldValue& v) {
                     l.protocol->contraction_alerts_given = true;
                     l.protocol->contraction_alerts.long_above = {v.number};
                 }});
}

}  // namespace

void add_mother_rows(ProtocolRows& t) {
    using K = FieldKind;
    const auto s = "mother";
    t.push_back({{.section = s,
                  .key = "pulse_slow_below",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 40,
                  .most = 80,
                  .standard = "60 bpm",
                  .meaning = "her own pulse at rest: below is a finding of its own"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.protocol->pulse_slow_below = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "pulse_fast_from",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 90,
                  .most = 160,
                  .standard = "120 bpm",
                  .meaning = "this and above too"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.protocol->pulse_fast_from = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "warm_from",
                  .kind = K::quantity,
                  .unit = Unit::celsius,
                  .least = 37,
                  .most = 38.5,
                  .standard = "37.5 C",
                  .meaning = "her temperature: from here on the senior is told"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.protocol->warm_from_c = v.number; }});
    t.push_back({{.section = s,
                  .key = "fever_from",
                  .kind = K::quantity,
                  .unit = Unit::celsius,
                  .least = 37.5,
                  .most = 39,
                  .standard = "38 C",
                  .meaning = "from here on it is fever"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.protocol->fever_from_c = v.number; }});
    add_contraction_rows(t);
}

}  // namespace engine
