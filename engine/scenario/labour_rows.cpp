#include "engine/scenario/scenario_words.h"

namespace engine {

using namespace scenario_words;
using Landing = ScenarioLanding;

namespace {

void add_labour_only(ScenarioRows& t) {
    using K = FieldKind;
    const auto s = "labour";
    t.push_back({{.section = s,
                  .key = "stage",
                  .kind = K::word,
                  .standard = "active",
                  .meaning = "stage of labour",
                  .words = stage_words},
                 [](Landing& l, const FieldValue& v) {
                     l.scenario->labour.stage = which<Stage>(stage_words, v.text);
                 }});
    t.push_back({{.section = s,
                  .key = "open",
                  .kind = K::quantity,
                  .unit = Unit::centimetres,
                  .least = 0,
                  .most = 10,
                  .standard = "6 cm",
                  .meaning = "how open the neck of the womb is; 10 cm = fully"},
                 [](Landing& l, const FieldValue& v) { l.scenario->labour.open_cm = v.number; }});
    t.push_back({{.section = s,
                  .key = "waters",
                  .kind = K::word,
                  .standard = "whole",
                  .meaning = "the waters, when the trainee arrives",
                  .words = waters_words},
                 [](Landing& l, const FieldValue& v) {
                     l.scenario->labour.waters = which<Waters>(waters_words, v.text);
                 }});
    t.push_back(
        {{.section = s,
          .key = "waters_gone",
          .kind = K::quantity,
          .unit = Unit::seconds,
          .least = 0,
          .most = 259200,
          .standard = "0 s",
          .meaning = "how long ago the waters broke"},
         [](Landing& l, const FieldValue& v) { l.scenario->labour.waters_gone_hours = v.number / 3600; }});
    t.push_back({{.section = s,
                  .key = "births_before",
                  .kind = K::whole,
                  .least = 0,
                  .most = 15,
                  .standard = "0",
                  .meaning = "how many babies she has borne"},
                 [](Landing& l, const FieldValue& v) {
                     l.scenario->labour.births_before = static_cast<int>(v.whole);
                 }});
    t.push_back({{.section = s,
                  .key = "scar",
                  .kind = K::flag,
                  .standard = "false",
                  .meaning = "her womb has a scar"},
                 [](Landing& l, const FieldValue& v) { l.scenario->labour.scar = v.truth; }});
    t.push_back(
        {{.section = s,
          .key = "pushing_for",
          .kind = K::quantity,
          .unit = Unit::seconds,
          .least = 0,
          .most = 14400,
          .standard = "0 s",
          .meaning = "how long she has pushed when the trainee arrives"},
         [](Landing& l, const FieldValue& v) { l.scenario->labour.pushing_minutes = v.number / 60; }});
    t.push_back({{.section = s,
                  .key = "head_visible",
                  .kind = K::flag,
                  .standard = "false",
                  .meaning = "the head is seen at the outlet"},
                 [](Landing& l, const FieldValue& v) { l.scenario->labour.head_visible = v.truth; }});
    t.push_back(
        {{.section = s,
          .key = "contractions",
          .kind = K::quantity,
          .unit = Unit::per_10min,
          .least = 0,
          .most = 9,
          .standard = "3.5 per 10 min",
          .meaning = "how many contractions",
          .drawn = true},
         [](Landing& l, const FieldValue& v) { l.patient->labour.contractions_per_10min = v.number; }});
    t.push_back({{.section = s,
                  .key = "strength",
                  .kind = K::quantity,
                  .unit = Unit::mmhg,
                  .least = 15,
                  .most = 100,
                  .standard = "45 mmHg",
                  .meaning = "height of a contraction above rest",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->labour.strength = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "tone",
                  .kind = K::quantity,
                  .unit = Unit::mmhg,
                  .least = 5,
                  .most = 40,
                  .standard = "10 mmHg",
                  .meaning = "at rest; above 25 mmHg the womb stays hard",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->labour.tone = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "contraction_length",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 20,
                  .most = 120,
                  .standard = "60 s",
                  .meaning = "how long a hand can feel one",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->labour.contraction_length = {v.number}; }});
    t.push_back(
        {{.section = s,
          .key = "irregular",
          .kind = K::quantity,
          .unit = Unit::percent,
          .least = 0,
          .most = 50,
          .standard = "15 %",
          .meaning =
              "spread of the gaps; 0 % = like a clock, 35 % = a womb left to itself (gamma of order 8); "
              "the default is steadier, so that chance alone makes no 6 in ten minutes out of an author's 4",
          .drawn = true},
         [](Landing& l, const FieldValue& v) { l.patient->labour.irregular = v.number / 100; }});
    t.push_back({{.section = s,
                  .key = "double_peaks",
                  .kind = K::quantity,
                  .unit = Unit::percent,
                  .least = 0,
                  .most = 100,
                  .standard = "0 %",
                  .meaning = "share of contractions with two peaks",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->labour.double_peaks = v.number / 100; }});
    t.push_back({{.section = s,
                  .key = "first_contraction",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 0,
                  .most = 3600,
                  .standard = "60 s",
                  .meaning = "height of the first one",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->labour.first_contraction = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "pushing",
                  .kind = K::flag,
                  .standard = "false",
                  .meaning = "she bears down with each contraction"},
                 [](Landing& l, const FieldValue& v) { l.patient->labour.pushing = v.truth; }});
    t.push_back({{.section = s,
                  .key = "drip",
                  .kind = K::flag,
                  .standard = "false",
                  .meaning = "a drip that makes contractions is running"},
                 [](Landing& l, const FieldValue& v) { l.patient->labour.oxytocin_drip = v.truth; }});
    t.push_back(
        {{.section = s,
          .key = "without_drip",
          .kind = K::quantity,
          .unit = Unit::per_10min,
          .least = 0,
          .most = 9,
          .standard = "3.5 per 10 min",
          .meaning = "contractions once the drip is stopped",
          .drawn = true},
         [](Landing& l, const FieldValue& v) { l.patient->labour.per_10min_without_drip = v.number; }});
    t.push_back({{.section = s,
                  .key = "contractions_stop",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 0,
                  .most = 14400,
                  .meaning = "from here there are none (a scar giving way)",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->labour.contractions_stop = {v.number}; }});
    const auto c = "labour.call";
    t.push_back(
        {{.section = c,
          .key = "kind",
          .kind = K::word,
          .meaning = "what she calls out for; a skip stops here. interrupted = somebody at the door "
                     "speaks to the trainee: a skip passes over it, a count it breaks into is begun again",
          .words = call_words,
          .needed = true},
         [](Landing& l, const FieldValue& v) { l.call->kind = which<CallOut::Kind>(call_words, v.text); }});
    t.push_back({{.section = c,
                  .key = "at",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 0,
                  .most = 14400,
                  .meaning = "when",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.call->at = {v.number}; }});
    t.push_back({{.section = c,
                  .key = "says",
                  .kind = K::text,
                  .least = 1,
                  .most = 300,
                  .meaning = "what is heard or seen then",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.call->says = v.text; }});
}

void add_cause(ScenarioRows& t) {
    using K = FieldKind;
    const auto s = "cause";
    t.push_back({{.section = s,
                  .key = "trouble",
                  .kind = K::word,
                  .standard = "none",
                  .meaning = "what is wrong; decides which measures the body answers to",
                  .words = trouble_words},
                 [](Landing& l, const FieldValue& v) {
                     l.patient->cause.trouble = which<sim::Trouble>(trouble_words, v.text);
                 }});
    t.push_back({{.section = s,
                  .key = "at",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 0,
                  .most = 14400,
                  .meaning = "when the lasting fall starts",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->cause.at = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "falls_to",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 40,
                  .most = 200,
                  .meaning = "where the rate settles; left out = the cause moves no rate by itself",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->cause.falls_to = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "falls_over",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 5,
                  .most = 600,
                  .standard = "60 s",
                  .meaning = "nine tenths of the way down after this long",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->cause.falls_over = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "recovers_over",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 10,
                  .most = 1200,
                  .standard = "90 s",
                  .meaning = "nine tenths of the way back after the right measures",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->cause.recovers_over = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "answer",
                  .kind = K::quantity,
                  .unit = Unit::percent,
                  .least = 0,
                  .most = 100,
                  .standard = "100 %",
                  .meaning = "how much of the fall the right measures take away; 0 % = none",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->cause.answer = v.number / 100; }});
    t.push_back({{.section = s,
                  .key = "pulse_to",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 40,
                  .most = 200,
                  .meaning = "where her own pulse goes with it; left out = it stays",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->cause.pulse_to = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "pulse_over",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 5,
                  .most = 1800,
                  .standard = "3 min",
                  .meaning = "nine tenths of the way there after this long",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->cause.pulse_over = {v.number}; }});
}

}  // namespace

void add_labour_rows(ScenarioRows& t) {
    add_labour_only(t);
    add_cause(t);
}

}  // namespace engine
