// The baby's heart: its settled rate, how that swings and rises, its rhythm.
#include "engine/scenario/scenario_words.h"

namespace engine {

using namespace scenario_words;
using Landing = ScenarioLanding;

void add_baby_heart_rows(ScenarioRows& t) {
    using K = FieldKind;
    const auto s = "baby";
    t.push_back(
        {{.section = s,
          .key = "heart",
          .kind = K::word,
          .standard = "present",
          .meaning = "absent = there is no heart of the baby to be found; then a `content_note` is needed",
          .words = {"present", "absent"}},
         [](Landing& l, const FieldValue& v) { l.baby->heart_beats = v.text == "present"; }});
    t.push_back(
        {{.section = s,
          .key = "baseline",
          .kind = K::quantity,
          .unit = Unit::bpm,
          .least = 50,
          .most = 240,
          .meaning = "settled rate; left out, it is drawn as usual for the weeks of pregnancy: 144 bpm at "
                     "24 wk falling to 131 at 40 wk, spread 9, within 112 to 158",
          .drawn = true},
         [](Landing& l, const FieldValue& v) { l.baby->baseline = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "variability",
                  .kind = K::word,
                  .standard = "labour",
                  .meaning = "how much the rate swings",
                  .words = variability_words},
                 [](Landing& l, const FieldValue& v) {
                     l.baby->variability = which<sim::Variability>(variability_words, v.text);
                 }});
    t.push_back({{.section = s,
                  .key = "rise",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 0,
                  .most = 60,
                  .standard = "0 bpm",
                  .meaning = "slow rise of the baseline",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->rise = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "rise_over",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 60,
                  .most = 14400,
                  .standard = "30 min",
                  .meaning = "time until the rise is reached",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->rise_over = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "drift",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 0,
                  .most = 6,
                  .standard = "1.5 bpm",
                  .meaning = "spread of the baseline's own wander over 10 to 20 min",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->drift = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "sinusoid",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 0,
                  .most = 30,
                  .standard = "0 bpm",
                  .meaning = "height of a slow even swing, 0 = none",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->sinusoid = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "early_beat",
                  .kind = K::quantity,
                  .unit = Unit::percent,
                  .least = 0,
                  .most = 20,
                  .standard = "0 %",
                  .meaning = "share of beats followed by an extra beat",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->rhythm.early_beat = v.number / 100; }});
    t.push_back({{.section = s,
                  .key = "dropped_beat",
                  .kind = K::quantity,
                  .unit = Unit::percent,
                  .least = 0,
                  .most = 20,
                  .standard = "0 %",
                  .meaning = "share of beats that are missed",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->rhythm.dropped_beat = v.number / 100; }});
    t.push_back({{.section = s,
                  .key = "drop_every",
                  .kind = K::whole,
                  .least = 0,
                  .most = 50,
                  .standard = "0",
                  .meaning = "every n-th beat is missed, 0 = never"},
                 [](Landing& l, const FieldValue& v) {
                     l.baby->rhythm.drop_every = static_cast<std::int32_t>(v.whole);
                 }});
    t.push_back({{.section = s,
                  .key = "early_every",
                  .kind = K::whole,
                  .least = 0,
                  .most = 50,
                  .standard = "0",
                  .meaning = "every n-th beat comes early, 0 = never; 2 = beats in pairs"},
                 [](Landing& l, const FieldValue& v) {
                     l.baby->rhythm.early_every = static_cast<std::int32_t>(v.whole);
                 }});
    t.push_back({{.section = s,
                  .key = "early_from_chamber",
                  .kind = K::flag,
                  .standard = "false",
                  .meaning = "early beats come from a lower chamber of the heart: a full pause follows"},
                 [](Landing& l, const FieldValue& v) { l.baby->rhythm.from_chamber = v.truth; }});
    t.push_back({{.section = s,
                  .key = "silent_beat",
                  .kind = K::quantity,
                  .unit = Unit::percent,
                  .least = 0,
                  .most = 5,
                  .standard = "0 %",
                  .meaning = "share of beats that are there but cannot be heard",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->rhythm.silent_beat = v.number / 100; }});
}

}  // namespace engine
