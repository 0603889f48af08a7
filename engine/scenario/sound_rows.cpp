#include "engine/scenario/scenario_words.h"

namespace engine {

using namespace scenario_words;
using Landing = ScenarioLanding;

void add_sound_rows(ScenarioRows& t) {
    using K = FieldKind;
    const auto s = "sound";
    t.push_back({{.section = s,
                  .key = "ladder",
                  .kind = K::word,
                  .standard = "easy",
                  .meaning = "how well the baby stands out",
                  .words = ladder_words},
                 [](Landing& l, const FieldValue& v) {
                     l.patient->surroundings.ladder = which<sim::Ladder>(ladder_words, v.text);
                 }});
    const auto level = [&t, s](std::string_view key, std::string_view standard, std::string_view meaning,
                               void (*lands)(Landing&, const FieldValue&)) {
        t.push_back({{.section = s,
                      .key = key,
                      .kind = K::quantity,
                      .unit = Unit::decibels,
                      .least = -60,
                      .most = 0,
                      .standard = standard,
                      .meaning = meaning,
                      .drawn = true},
                     lands});
    };
    const auto place = [&t, s](std::string_view key, double least, double most, std::string_view standard,
                               std::string_view meaning, void (*lands)(Landing&, const FieldValue&)) {
        t.push_back({{.section = s,
                      .key = key,
                      .kind = K::quantity,
                      .unit = Unit::centimetres,
                      .least = least,
                      .most = most,
                      .standard = standard,
                      .meaning = meaning,
                      .drawn = true},
                     lands});
    };
    level("ward", "-40 dB", "voices and trolleys; -60 dB = none",
          [](Landing& l, const FieldValue& v) { l.patient->surroundings.ward = {v.number}; });
    level("souffle", "-14 dB", "blow of the womb at her own pulse, at its loudest place; -60 dB = none",
          [](Landing& l, const FieldValue& v) { l.patient->surroundings.souffle = {v.number}; });
    place("souffle_x", -16, 16, "-8 cm", "its place, towards her left",
          [](Landing& l, const FieldValue& v) { l.patient->surroundings.souffle_x = {v.number}; });
    place("souffle_y", -18, 20, "-9 cm", "its place, towards her head",
          [](Landing& l, const FieldValue& v) { l.patient->surroundings.souffle_y = {v.number}; });
    level("vessel", "-10 dB", "her artery, at its loudest place; -60 dB = none",
          [](Landing& l, const FieldValue& v) { l.patient->surroundings.vessel = {v.number}; });
    place("vessel_x", -16, 16, "-5 cm", "its place, towards her left",
          [](Landing& l, const FieldValue& v) { l.patient->surroundings.vessel_x = {v.number}; });
    place("vessel_y", -18, 20, "-13 cm", "its place, towards her head",
          [](Landing& l, const FieldValue& v) { l.patient->surroundings.vessel_y = {v.number}; });
    level("cord", "-60 dB", "blow at the baby's rate over a loop of cord; -60 dB = none",
          [](Landing& l, const FieldValue& v) { l.patient->surroundings.cord_souffle = {v.number}; });
    place("cord_x", -16, 16, "2 cm", "its place, towards her left",
          [](Landing& l, const FieldValue& v) { l.patient->surroundings.cord_x = {v.number}; });
    place("cord_y", -18, 20, "2 cm", "its place, towards her head",
          [](Landing& l, const FieldValue& v) { l.patient->surroundings.cord_y = {v.number}; });
    t.push_back({{.section = s,
                  .key = "bowel",
                  .kind = K::quantity,
                  .unit = Unit::per_min,
                  .least = 0,
                  .most = 20,
                  .standard = "4 per min",
                  .meaning = "gurgles of her bowel",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->surroundings.bowel_per_min = v.number; }});
    t.push_back({{.section = s,
                  .key = "knocks",
                  .kind = K::quantity,
                  .unit = Unit::per_min,
                  .least = 0,
                  .most = 10,
                  .standard = "0 per min",
                  .meaning = "loud disturbances: a door, a trolley, her talk",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->surroundings.knocks_per_min = v.number; }});
    t.push_back({{.section = s,
                  .key = "doppler_carrier",
                  .kind = K::quantity,
                  .unit = Unit::megahertz,
                  .least = 1,
                  .most = 3.5,
                  .standard = "2 MHz",
                  .meaning = "of the hand-held Doppler; higher: higher pitch, less depth",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->surroundings.doppler_mhz = v.number; }});
    t.push_back({{.section = "teaching",
                  .key = "notes",
                  .kind = K::texts,
                  .least = 1,
                  .meaning = "notes for the debrief, never an answer"},
                 [](Landing& l, const FieldValue& v) { l.scenario->teaching = v.texts; }});
}

}  // namespace engine
