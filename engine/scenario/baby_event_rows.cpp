// What happens to the baby's rate, event by event.
#include "engine/scenario/scenario_words.h"

namespace engine {

using namespace scenario_words;
using Landing = ScenarioLanding;

void add_baby_event_rows(ScenarioRows& t) {
    using K = FieldKind;
    const auto s = "baby.event";
    t.push_back({{.section = s,
                  .key = "kind",
                  .kind = K::word,
                  .meaning = "what happens to the rate",
                  .words = event_words,
                  .needed = true},
                 [](Landing& l, const FieldValue& v) {
                     l.event->kind = which<sim::BabyEvent::Kind>(event_words, v.text);
                 }});
    t.push_back({{.section = s,
                  .key = "by",
                  .kind = K::word,
                  .standard = "contraction",
                  .meaning = "what brings it on",
                  .words = by_words},
                 [](Landing& l, const FieldValue& v) {
                     l.event->by = which<sim::BabyEvent::Brought_on_by>(by_words, v.text);
                 }});
    t.push_back({{.section = s,
                  .key = "depth",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 5,
                  .most = 100,
                  .standard = "20 bpm",
                  .meaning = "below the baseline (acceleration: above)",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.event->depth = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "length",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 10,
                  .most = 900,
                  .standard = "60 s",
                  .meaning = "acceleration, variable, prolonged: from its start until it is over",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.event->length = {v.number}; }});
    t.push_back(
        {{.section = s,
          .key = "back_after",
          .kind = K::quantity,
          .unit = Unit::seconds,
          .least = 5,
          .most = 90,
          .standard = "30 s",
          .meaning = "late: back at the baseline this long after the contraction can no longer be felt",
          .drawn = true},
         [](Landing& l, const FieldValue& v) { l.event->back_after = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "lead",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 0,
                  .most = 60,
                  .standard = "0 s",
                  .meaning = "acceleration: starts this long before the contraction",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.event->lead = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "at",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 0,
                  .most = 14400,
                  .standard = "0 s",
                  .meaning = "by time: when it starts",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.event->at = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "share",
                  .kind = K::quantity,
                  .unit = Unit::percent,
                  .least = 0,
                  .most = 100,
                  .standard = "100 %",
                  .meaning = "how many of the contractions or movements bring it on",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.event->share = v.number / 100; }});
    t.push_back(
        {{.section = s,
          .key = "every",
          .kind = K::whole,
          .least = 1,
          .most = 20,
          .standard = "1",
          .meaning = "only every n-th contraction; 1 = any"},
         [](Landing& l, const FieldValue& v) { l.event->every = static_cast<std::int32_t>(v.whole); }});
    t.push_back({{.section = s,
                  .key = "from",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 0,
                  .most = 14400,
                  .standard = "0 s",
                  .meaning = "no earlier than this",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.event->from = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "until",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 0,
                  .most = 14400,
                  .meaning = "no later than this",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.event->until = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "rate",
                  .kind = K::quantity,
                  .unit = Unit::per_10min,
                  .least = 0,
                  .most = 20,
                  .standard = "0 per 10 min",
                  .meaning = "by movement: how many in ten minutes",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.event->rate_per_10min = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "shoulders",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 0,
                  .most = 20,
                  .standard = "0 bpm",
                  .meaning = "variable: a small rise before and after it",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.event->shoulders = {v.number}; }});
}

}  // namespace engine
