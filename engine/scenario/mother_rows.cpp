#include "engine/scenario/scenario_words.h"

namespace engine {

using namespace scenario_words;
using Landing = ScenarioLanding;

void add_mother_rows(ScenarioRows& t) {
    using K = FieldKind;
    const auto s = "mother";
    t.push_back({{.section = s,
                  .key = "gestation",
                  .kind = K::quantity,
                  .unit = Unit::weeks,
                  .least = 26,
                  .most = 43,
                  .standard = "39.5 wk",
                  .meaning = "weeks and days of pregnancy",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->gestation_weeks = v.number; }});
    t.push_back({{.section = s,
                  .key = "pulse",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 40,
                  .most = 180,
                  .standard = "84 bpm",
                  .meaning = "her pulse at rest",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->mother.pulse = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "with_contraction",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = -40,
                  .most = 60,
                  .standard = "6 bpm",
                  .meaning = "change of her pulse at the height of a contraction; negative = falls",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->mother.with_contraction = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "with_push",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 0,
                  .most = 80,
                  .standard = "35 bpm",
                  .meaning = "rise of her pulse with each push",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->mother.with_push = {v.number}; }});
    t.push_back(
        {{.section = s,
          .key = "restless",
          .kind = K::quantity,
          .unit = Unit::percent,
          .least = 0,
          .most = 200,
          .standard = "100 %",
          .meaning =
              "how much her pulse wanders and swings by itself, against the usual; 0 % = an even pulse",
          .drawn = true},
         [](Landing& l, const FieldValue& v) { l.patient->mother.restless = v.number / 100; }});
    t.push_back({{.section = s,
                  .key = "breaths",
                  .kind = K::quantity,
                  .unit = Unit::per_min,
                  .least = 8,
                  .most = 40,
                  .standard = "16 per min",
                  .meaning = "her breathing",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->mother.breaths_per_min = v.number; }});
    t.push_back({{.section = s,
                  .key = "temperature",
                  .kind = K::quantity,
                  .unit = Unit::celsius,
                  .least = 34,
                  .most = 42,
                  .standard = "36.8 C",
                  .meaning = "her temperature; found by taking it",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->mother.temperature_c = v.number; }});
    t.push_back({{.section = s,
                  .key = "fat",
                  .kind = K::quantity,
                  .unit = Unit::centimetres,
                  .least = 0.5,
                  .most = 8,
                  .standard = "2 cm",
                  .meaning = "thickness of the belly wall",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->mother.fat = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "placenta",
                  .kind = K::word,
                  .standard = "back",
                  .meaning = "wall of the womb the placenta lies on",
                  .words = placenta_words},
                 [](Landing& l, const FieldValue& v) {
                     l.patient->mother.placenta = which<sim::Placenta>(placenta_words, v.text);
                 }});
    t.push_back({{.section = s,
                  .key = "extra_fluid",
                  .kind = K::quantity,
                  .unit = Unit::centimetres,
                  .least = 0,
                  .most = 4,
                  .standard = "0 cm",
                  .meaning = "more waters than usual: how much deeper the baby lies",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->mother.extra_fluid_cm = v.number; }});
    t.push_back({{.section = s,
                  .key = "position",
                  .kind = K::word,
                  .standard = "half_sitting",
                  .meaning = "how she lies or stands when the trainee arrives",
                  .words = standing_words},
                 [](Landing& l, const FieldValue& v) {
                     l.patient->mother.position = which<sim::Position>(standing_words, v.text);
                 }});
}

}  // namespace engine
