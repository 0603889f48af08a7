// Keys of a protocol file: when a heart is slow, fast, rising, slowing.
#include "engine/protocol/protocol_rows.h"

namespace engine {

void add_limit_rows(ProtocolRows& t) {
    using K = FieldKind;
    const auto s = "limits";
    const auto rate = [&t, s](std::string_view key, std::string_view meaning, std::string_view standard,
                              bool needed, void (*lands)(ProtocolLanding&, const FieldValue&)) {
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
                                std::string_view standard,
                                void (*lands)(ProtocolLanding&, const FieldValue&)) {
        t.push_back({{.section = s,
                      .key = key,
                      .kind = K::word,
                      .standard = standard,
                      .meaning = meaning,
                      .words = {"normal", outside}},
                     lands});
    };
    rate("low", "below is slow", "", true,
         [](ProtocolLanding& l, const FieldValue& v) { l.protocol->low.bpm = {v.number}; });
    itself("low_itself", "what the value of `low` itself is", "slow", "normal",
           [](ProtocolLanding& l, const FieldValue& v) {
               l.protocol->low.limit_is_normal = v.text == "normal";
           });
    rate("high", "above is fast", "", true,
         [](ProtocolLanding& l, const FieldValue& v) { l.protocol->high.bpm = {v.number}; });
    itself("high_itself", "what the value of `high` itself is", "fast", "normal",
           [](ProtocolLanding& l, const FieldValue& v) {
               l.protocol->high.limit_is_normal = v.text == "normal";
           });
    rate("alert_low", "below is an alert; with `alert_high`, else the protocol has no alerts", "", false,
         [](ProtocolLanding& l, const FieldValue& v) {
             l.protocol->alert_given = true;
             l.protocol->alert_low.bpm = {v.number};
         });
    itself("alert_low_itself", "what the value of `alert_low` itself is", "alert", "normal",
           [](ProtocolLanding& l, const FieldValue& v) {
               l.protocol->alert_low.limit_is_normal = v.text == "normal";
           });
    rate("alert_high", "above is an alert", "", false, [](ProtocolLanding& l, const FieldValue& v) {
        l.protocol->alert_given = true;
        l.protocol->alert_high.bpm = {v.number};
    });
    itself("alert_high_itself", "what the value of `alert_high` itself is", "alert", "normal",
           [](ProtocolLanding& l, const FieldValue& v) {
               l.protocol->alert_high.limit_is_normal = v.text == "normal";
           });
    t.push_back({{.section = s,
                  .key = "rising_by",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 5,
                  .most = 60,
                  .standard = "20 bpm",
                  .meaning = "rise since the start of labour that counts, this much or more"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.protocol->rising_by = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "red_below",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 60,
                  .most = 120,
                  .standard = "100 bpm",
                  .meaning = "slow and below this is RED"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.protocol->red_below = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "slowing_depth",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 5,
                  .most = 40,
                  .standard = "15 bpm",
                  .meaning = "a slowing is at least this deep"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.protocol->slowing_depth = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "slowing_length",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 5,
                  .most = 60,
                  .standard = "15 s",
                  .meaning = "and at least this long"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.protocol->slowing_length = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "stays_down",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 60,
                  .most = 600,
                  .standard = "3 min",
                  .meaning = "a fall not back by then stays down"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.protocol->stays_down = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "baseline_needs",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 15,
                  .most = 600,
                  .standard = "60 s",
                  .meaning = "heard this long before a baseline can be claimed"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.protocol->baseline_needs = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "persistence_contractions",
                  .kind = K::whole,
                  .least = 1,
                  .most = 10,
                  .standard = "3",
                  .meaning = "outside the limits through so many contractions holds"},
                 [](ProtocolLanding& l, const FieldValue& v) {
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
                 [](ProtocolLanding& l, const FieldValue& v) { l.protocol->persistence = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "near_pulse",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 0,
                  .most = 20,
                  .standard = "5 bpm",
                  .meaning = "rates this near her pulse cannot be told from it by number alone"},
                 [](ProtocolLanding& l, const FieldValue& v) { l.protocol->near_pulse = {v.number}; }});
}

}  // namespace engine
