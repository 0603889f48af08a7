#include "engine/scenario/scenario_table.h"

#include <cassert>

namespace engine {
namespace {

using Landing = ScenarioLanding;
using Rows = std::vector<Field<Landing>>;
using Words = std::vector<std::string_view>;

// Words in the order of the enumeration they stand for.
const Words task_words{"count", "quick", "find", "tell_apart", "pattern", "labour"};
const Words stage_words{"latent", "active", "second"};
const Words licence_words{"any", "trained", "licensed"};
const Words waters_words{"whole", "clear", "thin_green", "thick_green", "bloody", "foul"};
const Words call_words{"waters_break", "pain_changes", "bleeding", "wants_to_push", "feels_unwell"};
const Words instrument_words{"horn", "bell", "diaphragm", "doppler"};
const Words placenta_words{"back", "front", "left", "right", "low"};
const Words standing_words{"flat",    "half_sitting", "left_side",       "right_side",
                           "sitting", "standing",     "hands_and_knees", "knees_and_chest"};
const Words variability_words{"quiet", "active", "awake", "labour", "minimal"};
const Words event_words{"acceleration", "early", "late", "variable", "prolonged"};
const Words by_words{"contraction", "movement", "time"};
const Words trouble_words{"none",
                          "lying_flat",
                          "cord_pressure",
                          "cord_prolapse",
                          "too_many_contractions",
                          "fever",
                          "bleeding",
                          "mothers_medicine",
                          "scar_gives_way",
                          "unknown"};
const Words ladder_words{"easy", "normal", "hard", "very_hard"};
const Words lie_words{"LOA", "LOT", "LOP", "ROA", "ROT", "ROP", "OA",  "OP",
                      "LSA", "LST", "LSP", "RSA", "RST", "RSP", "SA",  "SP",
                      "across head left", "across head left, back behind",
                      "across head right", "across head right, back behind"};

template <typename E>
E which(const Words& words, const std::string& text) {
    const auto found = std::find(words.begin(), words.end(), text);
    assert(found != words.end());
    return static_cast<E>(found - words.begin());
}

void lands_lie(sim::Baby& baby, const std::string& word) {
    using sim::Back;
    if (word.starts_with("across")) {
        const bool behind = word.ends_with("behind");
        baby.presentation = sim::Presentation::across;
        if (word.starts_with("across head left")) baby.back = behind ? Back::left_behind : Back::left_front;
        else baby.back = behind ? Back::right_behind : Back::right_front;
        return;
    }
    const bool head = word.find('O') != std::string::npos;
    baby.presentation = head ? sim::Presentation::head : sim::Presentation::breech;
    const char side = word.size() == 3 ? word.front() : ' ';
    const char towards = word.back();
    if (side == ' ') baby.back = towards == 'A' ? Back::front : Back::behind;
    else if (side == 'L')
        baby.back = towards == 'A' ? Back::left_front : towards == 'T' ? Back::left_side : Back::left_behind;
    else
        baby.back = towards == 'A' ? Back::right_front : towards == 'T' ? Back::right_side : Back::right_behind;
}

void add_top(Rows& t) {
    using K = FieldKind;
    t.push_back({{.section = "", .key = "format", .kind = K::text, .least = 1, .most = 64,
                  .meaning = "kind and number of the format: \"fullminute-scenario/1\"", .needed = true},
                 [](Landing&, const FieldValue&) {}});
    t.push_back({{.section = "", .key = "id", .kind = K::text, .least = 1, .most = 64,
                  .meaning = "name of the file without its ending, 3 to 48 of a-z, 0-9 and -", .needed = true},
                 [](Landing& l, const FieldValue& v) { l.scenario->id = v.text; }});
    t.push_back({{.section = "", .key = "title", .kind = K::text, .least = 1, .most = 80,
                  .meaning = "one line for the library; never hints at the answer", .needed = true},
                 [](Landing& l, const FieldValue& v) { l.scenario->title = v.text; }});
    t.push_back({{.section = "", .key = "task", .kind = K::word,
                  .meaning = "what the trainee is asked: one full-minute count, short windows, where is it loudest, "
                             "whose heart, through contractions, a labour with several listenings",
                  .words = task_words, .needed = true},
                 [](Landing& l, const FieldValue& v) { l.scenario->task = which<Task>(task_words, v.text); }});
    t.push_back({{.section = "", .key = "level", .kind = K::whole, .least = 1, .most = 5, .standard = "1",
                  .meaning = "how hard, 1 = first day"},
                 [](Landing& l, const FieldValue& v) { l.scenario->level = static_cast<int>(v.whole); }});
    t.push_back({{.section = "", .key = "length", .kind = K::quantity, .unit = Unit::seconds, .least = 60,
                  .most = 14400, .meaning = "how long the labour can be listened to", .needed = true},
                 [](Landing& l, const FieldValue& v) { l.scenario->length = {v.number}; }});
    t.push_back({{.section = "", .key = "story", .kind = K::text, .least = 1, .most = 2000,
                  .meaning = "what the trainee is told before the first touch", .needed = true},
                 [](Landing& l, const FieldValue& v) { l.scenario->story = v.text; }});
    t.push_back({{.section = "", .key = "content_note", .kind = K::text, .least = 1, .most = 400,
                  .meaning = "shown before starting where a baby may be lost; lets a person leave it out"},
                 [](Landing& l, const FieldValue& v) { l.scenario->content_note = v.text; }});
    t.push_back({{.section = "", .key = "boundary", .kind = K::flag, .standard = "false",
                  .meaning = "sits on a limit where protocols differ: never used for pass marks"},
                 [](Landing& l, const FieldValue& v) { l.scenario->boundary = v.truth; }});
}

void add_place(Rows& t) {
    using K = FieldKind;
    const auto s = "place";
    t.push_back({{.section = s, .key = "name", .kind = K::text, .least = 1, .most = 80,
                  .meaning = "where it is; an imaginary place", .needed = true},
                 [](Landing& l, const FieldValue& v) { l.scenario->place.name = v.text; }});
    t.push_back({{.section = s, .key = "helpers", .kind = K::whole, .least = 0, .most = 6, .standard = "1",
                  .meaning = "others who can come at once"},
                 [](Landing& l, const FieldValue& v) { l.scenario->place.helpers = static_cast<int>(v.whole); }});
    t.push_back({{.section = s, .key = "to_help", .kind = K::quantity, .unit = Unit::seconds, .least = 0,
                  .most = 14400, .standard = "2 min", .meaning = "from the call to the senior at the bedside"},
                 [](Landing& l, const FieldValue& v) { l.scenario->place.minutes_to_help = v.number / 60; }});
    t.push_back({{.section = s, .key = "to_theatre", .kind = K::quantity, .unit = Unit::seconds, .least = 0,
                  .most = 36000, .standard = "40 min", .meaning = "from the call to a theatre"},
                 [](Landing& l, const FieldValue& v) { l.scenario->place.minutes_to_theatre = v.number / 60; }});
    t.push_back({{.section = s, .key = "instruments", .kind = K::words,
                  .meaning = "what there is to listen with", .words = instrument_words, .needed = true},
                 [](Landing& l, const FieldValue& v) {
                     for (const std::string& word : v.texts)
                         l.scenario->place.instruments.push_back(static_cast<sim::Instrument>(
                             1 + static_cast<int>(which<sim::Instrument>(instrument_words, word))));
                 }});
    t.push_back({{.section = s, .key = "watch", .kind = K::flag, .standard = "true",
                  .meaning = "a watch with a second hand is there"},
                 [](Landing& l, const FieldValue& v) { l.scenario->place.watch = v.truth; }});
    t.push_back({{.section = s, .key = "trainee", .kind = K::word, .standard = "trained",
                  .meaning = "what the trainee may do here", .words = licence_words},
                 [](Landing& l, const FieldValue& v) {
                     l.scenario->place.trainee = which<Licence>(licence_words, v.text);
                 }});
    t.push_back({{.section = s, .key = "drip_stand", .kind = K::flag, .standard = "true",
                  .meaning = "a drip can be given here"},
                 [](Landing& l, const FieldValue& v) { l.scenario->place.drip_stand = v.truth; }});
}

void add_mother(Rows& t) {
    using K = FieldKind;
    const auto s = "mother";
    t.push_back({{.section = s, .key = "gestation", .kind = K::quantity, .unit = Unit::weeks, .least = 26,
                  .most = 43, .standard = "39.5 wk", .meaning = "weeks and days of pregnancy", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->gestation_weeks = v.number; }});
    t.push_back({{.section = s, .key = "pulse", .kind = K::quantity, .unit = Unit::bpm, .least = 40, .most = 180,
                  .standard = "84 bpm", .meaning = "her pulse at rest", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->mother.pulse = {v.number}; }});
    t.push_back({{.section = s, .key = "with_contraction", .kind = K::quantity, .unit = Unit::bpm, .least = -40,
                  .most = 60, .standard = "6 bpm",
                  .meaning = "change of her pulse at the height of a contraction; negative = falls", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->mother.with_contraction = {v.number}; }});
    t.push_back({{.section = s, .key = "with_push", .kind = K::quantity, .unit = Unit::bpm, .least = 0, .most = 80,
                  .standard = "35 bpm", .meaning = "rise of her pulse with each push", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->mother.with_push = {v.number}; }});
    t.push_back({{.section = s, .key = "breaths", .kind = K::quantity, .unit = Unit::per_min, .least = 8,
                  .most = 40, .standard = "16 per min", .meaning = "her breathing", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->mother.breaths_per_min = v.number; }});
    t.push_back({{.section = s, .key = "temperature", .kind = K::quantity, .unit = Unit::celsius, .least = 34,
                  .most = 42, .standard = "36.8 C", .meaning = "her temperature; found by taking it",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->mother.temperature_c = v.number; }});
    t.push_back({{.section = s, .key = "fat", .kind = K::quantity, .unit = Unit::centimetres, .least = 0.5,
                  .most = 8, .standard = "2 cm", .meaning = "thickness of the belly wall", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->mother.fat = {v.number}; }});
    t.push_back({{.section = s, .key = "placenta", .kind = K::word, .standard = "back",
                  .meaning = "wall of the womb the placenta lies on", .words = placenta_words},
                 [](Landing& l, const FieldValue& v) {
                     l.patient->mother.placenta = which<sim::Placenta>(placenta_words, v.text);
                 }});
    t.push_back({{.section = s, .key = "extra_fluid", .kind = K::quantity, .unit = Unit::centimetres, .least = 0,
                  .most = 4, .standard = "0 cm", .meaning = "more waters than usual: how much deeper the baby lies",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->mother.extra_fluid_cm = v.number; }});
    t.push_back({{.section = s, .key = "position", .kind = K::word, .standard = "half_sitting",
                  .meaning = "how she lies or stands when the trainee arrives", .words = standing_words},
                 [](Landing& l, const FieldValue& v) {
                     l.patient->mother.position = which<sim::Position>(standing_words, v.text);
                 }});
}

void add_baby(Rows& t) {
    using K = FieldKind;
    const auto s = "baby";
    t.push_back({{.section = s, .key = "heart", .kind = K::word, .standard = "present",
                  .meaning = "absent = there is no heart of the baby to be found; then a `content_note` is needed",
                  .words = {"present", "absent"}},
                 [](Landing& l, const FieldValue& v) { l.baby->heart_beats = v.text == "present"; }});
    t.push_back({{.section = s, .key = "baseline", .kind = K::quantity, .unit = Unit::bpm, .least = 50, .most = 240,
                  .standard = "138.4 bpm", .meaning = "settled rate; must be given where there is a heart",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->baseline = {v.number}; }});
    t.push_back({{.section = s, .key = "variability", .kind = K::word, .standard = "labour",
                  .meaning = "how much the rate swings", .words = variability_words},
                 [](Landing& l, const FieldValue& v) {
                     l.baby->variability = which<sim::Variability>(variability_words, v.text);
                 }});
    t.push_back({{.section = s, .key = "rise", .kind = K::quantity, .unit = Unit::bpm, .least = 0, .most = 60,
                  .standard = "0 bpm", .meaning = "slow rise of the baseline", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->rise = {v.number}; }});
    t.push_back({{.section = s, .key = "rise_over", .kind = K::quantity, .unit = Unit::seconds, .least = 60,
                  .most = 14400, .standard = "30 min", .meaning = "time until the rise is reached", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->rise_over = {v.number}; }});
    t.push_back({{.section = s, .key = "sinusoid", .kind = K::quantity, .unit = Unit::bpm, .least = 0, .most = 30,
                  .standard = "0 bpm", .meaning = "height of a slow even swing, 0 = none", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->sinusoid = {v.number}; }});
    t.push_back({{.section = s, .key = "early_beat", .kind = K::quantity, .unit = Unit::percent, .least = 0,
                  .most = 20, .standard = "0 %", .meaning = "share of beats followed by an extra beat", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->rhythm.early_beat = v.number / 100; }});
    t.push_back({{.section = s, .key = "dropped_beat", .kind = K::quantity, .unit = Unit::percent, .least = 0,
                  .most = 20, .standard = "0 %", .meaning = "share of beats that are missed", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->rhythm.dropped_beat = v.number / 100; }});
    t.push_back({{.section = s, .key = "drop_every", .kind = K::whole, .least = 0, .most = 50, .standard = "0",
                  .meaning = "every n-th beat is missed, 0 = never"},
                 [](Landing& l, const FieldValue& v) {
                     l.baby->rhythm.drop_every = static_cast<std::int32_t>(v.whole);
                 }});
    t.push_back({{.section = s, .key = "position", .kind = K::word,
                  .meaning = "how the baby lies, as the trade writes it: O = head down, S = bottom down, L and R = "
                             "her left and right, A, T, P = back in front, to the side, behind",
                  .words = lie_words, .needed = true},
                 [](Landing& l, const FieldValue& v) { lands_lie(*l.baby, v.text); }});
    t.push_back({{.section = s, .key = "above_brim", .kind = K::quantity, .unit = Unit::fifths, .least = 0, .most = 5,
                  .standard = "4 fifths", .meaning = "how much of the head is felt above the brim: 5 free, 0 deep",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->fifths_above_brim = v.number; }});
    t.push_back({{.section = s, .key = "spot_x", .kind = K::quantity, .unit = Unit::centimetres, .least = -16,
                  .most = 16, .meaning = "loudest place, from the navel towards her left; with `spot_y`, else it "
                                         "follows from the position", .drawn = true},
                 [](Landing& l, const FieldValue& v) {
                     l.baby->spot_given = true;
                     l.baby->spot_x = {v.number};
                 }});
    t.push_back({{.section = s, .key = "spot_y", .kind = K::quantity, .unit = Unit::centimetres, .least = -18,
                  .most = 20, .meaning = "loudest place, from the navel towards her head", .drawn = true},
                 [](Landing& l, const FieldValue& v) {
                     l.baby->spot_given = true;
                     l.baby->spot_y = {v.number};
                 }});
    t.push_back({{.section = s, .key = "depth", .kind = K::quantity, .unit = Unit::centimetres, .least = 4,
                  .most = 12, .standard = "7 cm", .meaning = "skin to heart, before her wall is added",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->depth = {v.number}; }});
    t.push_back({{.section = s, .key = "systole_offset", .kind = K::quantity, .unit = Unit::milliseconds,
                  .least = 210, .most = 270, .standard = "255 ms",
                  .meaning = "first to second sound = this less half the rate", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->systole_offset_ms = v.number; }});
    t.push_back({{.section = s, .key = "movements", .kind = K::quantity, .unit = Unit::per_10min, .least = 0,
                  .most = 40, .standard = "6 per 10 min", .meaning = "bursts of movement that can be felt",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->movements_per_10min = v.number; }});
}

void add_event(Rows& t) {
    using K = FieldKind;
    const auto s = "baby.event";
    t.push_back({{.section = s, .key = "kind", .kind = K::word,
                  .meaning = "what happens to the rate", .words = event_words, .needed = true},
                 [](Landing& l, const FieldValue& v) {
                     l.event->kind = which<sim::BabyEvent::Kind>(event_words, v.text);
                 }});
    t.push_back({{.section = s, .key = "by", .kind = K::word, .standard = "contraction",
                  .meaning = "what brings it on", .words = by_words},
                 [](Landing& l, const FieldValue& v) {
                     l.event->by = which<sim::BabyEvent::Brought_on_by>(by_words, v.text);
                 }});
    t.push_back({{.section = s, .key = "depth", .kind = K::quantity, .unit = Unit::bpm, .least = 5, .most = 100,
                  .standard = "20 bpm", .meaning = "below the baseline (acceleration: above)", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.event->depth = {v.number}; }});
    t.push_back({{.section = s, .key = "length", .kind = K::quantity, .unit = Unit::seconds, .least = 10,
                  .most = 900, .standard = "60 s",
                  .meaning = "acceleration, variable, prolonged: from its start until it is over", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.event->length = {v.number}; }});
    t.push_back({{.section = s, .key = "back_after", .kind = K::quantity, .unit = Unit::seconds, .least = 5,
                  .most = 90, .standard = "30 s",
                  .meaning = "late: back at the baseline this long after the contraction can no longer be felt",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.event->back_after = {v.number}; }});
    t.push_back({{.section = s, .key = "lead", .kind = K::quantity, .unit = Unit::seconds, .least = 0, .most = 60,
                  .standard = "0 s", .meaning = "acceleration: starts this long before the contraction",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.event->lead = {v.number}; }});
    t.push_back({{.section = s, .key = "at", .kind = K::quantity, .unit = Unit::seconds, .least = 0, .most = 14400,
                  .standard = "0 s", .meaning = "by time: when it starts", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.event->at = {v.number}; }});
    t.push_back({{.section = s, .key = "share", .kind = K::quantity, .unit = Unit::percent, .least = 0, .most = 100,
                  .standard = "100 %", .meaning = "how many of the contractions or movements bring it on",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.event->share = v.number / 100; }});
    t.push_back({{.section = s, .key = "every", .kind = K::whole, .least = 1, .most = 20, .standard = "1",
                  .meaning = "only every n-th contraction; 1 = any"},
                 [](Landing& l, const FieldValue& v) { l.event->every = static_cast<std::int32_t>(v.whole); }});
    t.push_back({{.section = s, .key = "from", .kind = K::quantity, .unit = Unit::seconds, .least = 0,
                  .most = 14400, .standard = "0 s", .meaning = "no earlier than this", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.event->from = {v.number}; }});
    t.push_back({{.section = s, .key = "until", .kind = K::quantity, .unit = Unit::seconds, .least = 0,
                  .most = 14400, .meaning = "no later than this", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.event->until = {v.number}; }});
    t.push_back({{.section = s, .key = "rate", .kind = K::quantity, .unit = Unit::per_10min, .least = 0, .most = 20,
                  .standard = "0 per 10 min", .meaning = "by movement: how many in ten minutes", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.event->rate_per_10min = {v.number}; }});
}

void add_labour(Rows& t) {
    using K = FieldKind;
    const auto s = "labour";
    t.push_back({{.section = s, .key = "stage", .kind = K::word, .standard = "active",
                  .meaning = "stage of labour", .words = stage_words},
                 [](Landing& l, const FieldValue& v) {
                     l.scenario->labour.stage = which<Stage>(stage_words, v.text);
                 }});
    t.push_back({{.section = s, .key = "open", .kind = K::quantity, .unit = Unit::centimetres, .least = 0,
                  .most = 10, .standard = "6 cm", .meaning = "how open the neck of the womb is; 10 cm = fully"},
                 [](Landing& l, const FieldValue& v) { l.scenario->labour.open_cm = v.number; }});
    t.push_back({{.section = s, .key = "waters", .kind = K::word, .standard = "whole",
                  .meaning = "the waters, when the trainee arrives", .words = waters_words},
                 [](Landing& l, const FieldValue& v) {
                     l.scenario->labour.waters = which<Waters>(waters_words, v.text);
                 }});
    t.push_back({{.section = s, .key = "waters_gone", .kind = K::quantity, .unit = Unit::seconds, .least = 0,
                  .most = 259200, .standard = "0 s", .meaning = "how long ago the waters broke"},
                 [](Landing& l, const FieldValue& v) { l.scenario->labour.waters_gone_hours = v.number / 3600; }});
    t.push_back({{.section = s, .key = "births_before", .kind = K::whole, .least = 0, .most = 15, .standard = "0",
                  .meaning = "how many babies she has borne"},
                 [](Landing& l, const FieldValue& v) {
                     l.scenario->labour.births_before = static_cast<int>(v.whole);
                 }});
    t.push_back({{.section = s, .key = "scar", .kind = K::flag, .standard = "false",
                  .meaning = "her womb has a scar"},
                 [](Landing& l, const FieldValue& v) { l.scenario->labour.scar = v.truth; }});
    t.push_back({{.section = s, .key = "pushing_for", .kind = K::quantity, .unit = Unit::seconds, .least = 0,
                  .most = 14400, .standard = "0 s", .meaning = "how long she has pushed when the trainee arrives"},
                 [](Landing& l, const FieldValue& v) { l.scenario->labour.pushing_minutes = v.number / 60; }});
    t.push_back({{.section = s, .key = "head_visible", .kind = K::flag, .standard = "false",
                  .meaning = "the head is seen at the outlet"},
                 [](Landing& l, const FieldValue& v) { l.scenario->labour.head_visible = v.truth; }});
    t.push_back({{.section = s, .key = "contractions", .kind = K::quantity, .unit = Unit::per_10min, .least = 0,
                  .most = 9, .standard = "3.5 per 10 min", .meaning = "how many contractions", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->labour.contractions_per_10min = v.number; }});
    t.push_back({{.section = s, .key = "strength", .kind = K::quantity, .unit = Unit::mmhg, .least = 15,
                  .most = 100, .standard = "45 mmHg", .meaning = "height of a contraction above rest",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->labour.strength = {v.number}; }});
    t.push_back({{.section = s, .key = "tone", .kind = K::quantity, .unit = Unit::mmhg, .least = 5, .most = 40,
                  .standard = "10 mmHg", .meaning = "at rest; above 25 mmHg the womb stays hard", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->labour.tone = {v.number}; }});
    t.push_back({{.section = s, .key = "contraction_length", .kind = K::quantity, .unit = Unit::seconds,
                  .least = 20, .most = 120, .standard = "60 s", .meaning = "how long a hand can feel one",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->labour.contraction_length = {v.number}; }});
    t.push_back({{.section = s, .key = "irregular", .kind = K::quantity, .unit = Unit::percent, .least = 0,
                  .most = 50, .standard = "15 %", .meaning = "spread of the gaps; 0 % = like a clock",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->labour.irregular = v.number / 100; }});
    t.push_back({{.section = s, .key = "double_peaks", .kind = K::quantity, .unit = Unit::percent, .least = 0,
                  .most = 100, .standard = "0 %", .meaning = "share of contractions with two peaks",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->labour.double_peaks = v.number / 100; }});
    t.push_back({{.section = s, .key = "first_contraction", .kind = K::quantity, .unit = Unit::seconds, .least = 0,
                  .most = 3600, .standard = "60 s", .meaning = "height of the first one", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->labour.first_contraction = {v.number}; }});
    t.push_back({{.section = s, .key = "pushing", .kind = K::flag, .standard = "false",
                  .meaning = "she bears down with each contraction"},
                 [](Landing& l, const FieldValue& v) { l.patient->labour.pushing = v.truth; }});
    t.push_back({{.section = s, .key = "drip", .kind = K::flag, .standard = "false",
                  .meaning = "a drip that makes contractions is running"},
                 [](Landing& l, const FieldValue& v) { l.patient->labour.oxytocin_drip = v.truth; }});
    t.push_back({{.section = s, .key = "without_drip", .kind = K::quantity, .unit = Unit::per_10min, .least = 0,
                  .most = 9, .standard = "3.5 per 10 min",
                  .meaning = "contractions once the drip is stopped", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->labour.per_10min_without_drip = v.number; }});
    t.push_back({{.section = s, .key = "contractions_stop", .kind = K::quantity, .unit = Unit::seconds, .least = 0,
                  .most = 14400, .meaning = "from here there are none (a scar giving way)", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->labour.contractions_stop = {v.number}; }});
    const auto c = "labour.call";
    t.push_back({{.section = c, .key = "kind", .kind = K::word,
                  .meaning = "what she calls out for; a skip stops here", .words = call_words, .needed = true},
                 [](Landing& l, const FieldValue& v) { l.call->kind = which<CallOut::Kind>(call_words, v.text); }});
    t.push_back({{.section = c, .key = "at", .kind = K::quantity, .unit = Unit::seconds, .least = 0, .most = 14400,
                  .meaning = "when", .needed = true},
                 [](Landing& l, const FieldValue& v) { l.call->at = {v.number}; }});
    t.push_back({{.section = c, .key = "says", .kind = K::text, .least = 1, .most = 300,
                  .meaning = "what is heard or seen then", .needed = true},
                 [](Landing& l, const FieldValue& v) { l.call->says = v.text; }});
}

void add_cause(Rows& t) {
    using K = FieldKind;
    const auto s = "cause";
    t.push_back({{.section = s, .key = "trouble", .kind = K::word, .standard = "none",
                  .meaning = "what is wrong; decides which measures the body answers to", .words = trouble_words},
                 [](Landing& l, const FieldValue& v) {
                     l.patient->cause.trouble = which<sim::Trouble>(trouble_words, v.text);
                 }});
    t.push_back({{.section = s, .key = "at", .kind = K::quantity, .unit = Unit::seconds, .least = 0, .most = 14400,
                  .meaning = "when the lasting fall starts", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->cause.at = {v.number}; }});
    t.push_back({{.section = s, .key = "falls_to", .kind = K::quantity, .unit = Unit::bpm, .least = 40, .most = 200,
                  .meaning = "where the rate settles; left out = the cause moves no rate by itself",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->cause.falls_to = {v.number}; }});
    t.push_back({{.section = s, .key = "falls_over", .kind = K::quantity, .unit = Unit::seconds, .least = 5,
                  .most = 600, .standard = "60 s", .meaning = "nine tenths of the way down after this long",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->cause.falls_over = {v.number}; }});
    t.push_back({{.section = s, .key = "recovers_over", .kind = K::quantity, .unit = Unit::seconds, .least = 10,
                  .most = 1200, .standard = "90 s",
                  .meaning = "nine tenths of the way back after the right measures", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->cause.recovers_over = {v.number}; }});
    t.push_back({{.section = s, .key = "answer", .kind = K::quantity, .unit = Unit::percent, .least = 0, .most = 100,
                  .standard = "100 %", .meaning = "how much of the fall the right measures take away; 0 % = none",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->cause.answer = v.number / 100; }});
}

void add_finding_and_chart(Rows& t) {
    using K = FieldKind;
    const auto s = "finding";
    t.push_back({{.section = s, .key = "act", .kind = K::text, .least = 1, .most = 48,
                  .meaning = "id of the act that finds it, such as take_temperature", .needed = true},
                 [](Landing& l, const FieldValue& v) { l.finding->act = v.text; }});
    t.push_back({{.section = s, .key = "says", .kind = K::text, .least = 1, .most = 300,
                  .meaning = "what is then shown", .needed = true},
                 [](Landing& l, const FieldValue& v) { l.finding->says = v.text; }});
    t.push_back({{.section = s, .key = "situation", .kind = K::word,
                  .meaning = "the situation it establishes, if any", .words = situation_ids()},
                 [](Landing& l, const FieldValue& v) { l.finding->situation = v.text; }});
    t.push_back({{.section = s, .key = "from", .kind = K::quantity, .unit = Unit::seconds, .least = 0,
                  .most = 14400, .standard = "0 s", .meaning = "there to be found from here"},
                 [](Landing& l, const FieldValue& v) { l.finding->from = {v.number}; }});
    t.push_back({{.section = s, .key = "until", .kind = K::quantity, .unit = Unit::seconds, .least = 0,
                  .most = 14400, .meaning = "and until here"},
                 [](Landing& l, const FieldValue& v) { l.finding->until = {v.number}; }});
    const auto c = "chart";
    t.push_back({{.section = c, .key = "ago", .kind = K::quantity, .unit = Unit::seconds, .least = 60,
                  .most = 86400, .meaning = "how long before the trainee arrives", .needed = true},
                 [](Landing& l, const FieldValue& v) { l.line->minutes_ago = v.number / 60; }});
    t.push_back({{.section = c, .key = "rate", .kind = K::quantity, .unit = Unit::bpm, .least = 40, .most = 240,
                  .meaning = "rate written then"},
                 [](Landing& l, const FieldValue& v) { l.line->bpm = v.number; }});
    t.push_back({{.section = c, .key = "pulse", .kind = K::quantity, .unit = Unit::bpm, .least = 30, .most = 200,
                  .meaning = "her pulse written then"},
                 [](Landing& l, const FieldValue& v) { l.line->pulse_bpm = v.number; }});
    t.push_back({{.section = c, .key = "remark", .kind = K::text, .least = 1, .most = 200,
                  .meaning = "what else was written"},
                 [](Landing& l, const FieldValue& v) { l.line->remark = v.text; }});
}

void add_sound_and_teaching(Rows& t) {
    using K = FieldKind;
    const auto s = "sound";
    t.push_back({{.section = s, .key = "ladder", .kind = K::word, .standard = "easy",
                  .meaning = "how well the baby stands out", .words = ladder_words},
                 [](Landing& l, const FieldValue& v) {
                     l.patient->surroundings.ladder = which<sim::Ladder>(ladder_words, v.text);
                 }});
    const auto level = [&t, s](std::string_view key, std::string_view standard, std::string_view meaning,
                               void (*lands)(Landing&, const FieldValue&)) {
        t.push_back({{.section = s, .key = key, .kind = K::quantity, .unit = Unit::decibels, .least = -60, .most = 0,
                      .standard = standard, .meaning = meaning, .drawn = true},
                     lands});
    };
    const auto place = [&t, s](std::string_view key, double least, double most, std::string_view standard,
                               std::string_view meaning, void (*lands)(Landing&, const FieldValue&)) {
        t.push_back({{.section = s, .key = key, .kind = K::quantity, .unit = Unit::centimetres, .least = least,
                      .most = most, .standard = standard, .meaning = meaning, .drawn = true},
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
    t.push_back({{.section = s, .key = "bowel", .kind = K::quantity, .unit = Unit::per_min, .least = 0, .most = 20,
                  .standard = "4 per min", .meaning = "gurgles of her bowel", .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.patient->surroundings.bowel_per_min = v.number; }});
    t.push_back({{.section = "teaching", .key = "notes", .kind = K::texts, .least = 1,
                  .meaning = "notes for the debrief, never an answer"},
                 [](Landing& l, const FieldValue& v) { l.scenario->teaching = v.texts; }});
}

struct SectionHead {
    std::string_view section, heading, meaning;
};
const SectionHead headings[] = {
    {"", "Top of the file", "What it is and what is told."},
    {"place", "`[place]`", "Where the labour is and what is at hand there. Needed."},
    {"mother", "`[mother]`", "The woman."},
    {"baby", "`[baby]` and `[baby2]`", "The baby. Needed. Twins: the second one in `[baby2]`, the same keys."},
    {"baby.event", "`[[baby.event]]` and `[[baby2.event]]`",
     "A thing that happens to the rate; up to 12. Depth, not the kind, is what an ear can know."},
    {"labour", "`[labour]`", "How the labour stands."},
    {"labour.call", "`[[labour.call]]`", "What she calls out, or what happens by itself and is seen at once."},
    {"cause", "`[cause]`", "A trouble behind it, with its own answer to measures."},
    {"finding", "`[[finding]]`", "What an act finds; hidden until the act is done."},
    {"chart", "`[[chart]]`", "Lines already on her labour chart."},
    {"sound", "`[sound]`", "What else is to be heard."},
    {"teaching", "`[teaching]`", "For the debrief."},
};

}  // namespace

const std::vector<std::string_view>& situation_ids() {
    static const std::vector<std::string_view> ids{
        "always", "normal", "fast", "slow_steady", "slow", "slow_after_contraction", "stays_down", "mothers_pulse",
        "cord_prolapse", "too_many_contractions", "fever", "bleeding", "lying_flat", "mothers_medicine",
        "close_to_birth", "not_close_to_birth", "twins", "not_found", "irregular", "rising", "thick_green_waters",
        "not_head_down", "listening_alone_not_enough", "source_doubtful"};
    return ids;
}

const std::vector<Field<ScenarioLanding>>& scenario_table() {
    static const Rows table = [] {
        Rows t;
        add_top(t);
        add_place(t);
        add_mother(t);
        add_baby(t);
        add_event(t);
        add_labour(t);
        add_cause(t);
        add_finding_and_chart(t);
        add_sound_and_teaching(t);
        return t;
    }();
    return table;
}

std::string scenario_format_page() {
    std::string page;
    for (const SectionHead& head : headings) {
        page += "### " + std::string(head.heading) + "\n\n" + std::string(head.meaning) + "\n\n" + page_head();
        for (const auto& field : scenario_table())
            if (field.shape.section == head.section) page += page_row(field.shape);
        page += "\n";
    }
    return page;
}

void land_drawn(sim::Patient& patient, const std::string& key, double value) {
    const std::size_t dot = key.rfind('.');
    assert(dot != std::string::npos);
    std::string section = key.substr(0, dot);
    Landing landing{.patient = &patient};
    if (section.starts_with("baby")) {
        const int baby = section.starts_with("baby2") ? 1 : 0;
        landing.baby = &patient.babies[baby];
        const std::size_t bracket = section.find('[');
        if (bracket == std::string::npos) {
            section = "baby";
        } else {
            landing.event = &landing.baby->events[std::stoi(section.substr(bracket + 1)) - 1];
            section = "baby.event";
        }
    }
    for (const auto& field : scenario_table()) {
        if (field.shape.section != section || field.shape.key != key.substr(dot + 1)) continue;
        assert(field.shape.drawn);
        FieldValue drawn;
        drawn.number = value;
        field.lands(landing, drawn);
        return;
    }
    assert(false && "a drawn key must be in the table");
}

std::string_view name_of(Task task) { return task_words[static_cast<std::size_t>(task)]; }
std::string_view name_of(Stage stage) { return stage_words[static_cast<std::size_t>(stage)]; }
std::string_view name_of(Licence licence) { return licence_words[static_cast<std::size_t>(licence)]; }
std::string_view name_of(Waters waters) { return waters_words[static_cast<std::size_t>(waters)]; }
std::string_view name_of(CallOut::Kind kind) { return call_words[static_cast<std::size_t>(kind)]; }

}  // namespace engine
