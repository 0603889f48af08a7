#include "engine/scenario/scenario_words.h"

namespace engine {

using namespace scenario_words;
using Landing = ScenarioLanding;

namespace {

void lands_lie(sim::Baby& baby, const std::string& word) {
    using sim::Back;
    if (word.starts_with("across")) {
        const bool behind = word.ends_with("behind");
        baby.presentation = sim::Presentation::across;
        if (word.starts_with("across head left"))
            baby.back = behind ? Back::left_behind : Back::left_front;
        else
            baby.back = behind ? Back::right_behind : Back::right_front;
        return;
    }
    const bool head = word.find('O') != std::string::npos;
    baby.presentation = head ? sim::Presentation::head : sim::Presentation::breech;
    const char side = word.size() == 3 ? word.front() : ' ';
    const char towards = word.back();
    if (side == ' ')
        baby.back = towards == 'A' ? Back::front : Back::behind;
    else if (side == 'L')
        baby.back = towards == 'A' ? Back::left_front : towards == 'T' ? Back::left_side : Back::left_behind;
    else
        baby.back = towards == 'A'   ? Back::right_front
                    : towards == 'T' ? Back::right_side
                                     : Back::right_behind;
}

void add_baby_only(ScenarioRows& t) {
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
    t.push_back({{.section = s,
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
    t.push_back(
        {{.section = s,
          .key = "position",
          .kind = K::word,
          .meaning = "how the baby lies, as the trade writes it: O = head down, S = bottom down, L and R = "
                     "her left and right, A, T, P = back in front, to the side, behind",
          .words = lie_words,
          .needed = true},
         [](Landing& l, const FieldValue& v) { lands_lie(*l.baby, v.text); }});
    t.push_back({{.section = s,
                  .key = "above_brim",
                  .kind = K::quantity,
                  .unit = Unit::fifths,
                  .least = 0,
                  .most = 5,
                  .standard = "4 fifths",
                  .meaning = "how much of the head is felt above the brim: 5 free, 0 deep",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->fifths_above_brim = v.number; }});
    t.push_back({{.section = s,
                  .key = "comes_down_to",
                  .kind = K::quantity,
                  .unit = Unit::fifths,
                  .least = 0,
                  .most = 5,
                  .meaning = "how much of the head is felt once it has come down; left out = it stays",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->comes_down_to = v.number; }});
    t.push_back({{.section = s,
                  .key = "comes_down_over",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 60,
                  .most = 14400,
                  .standard = "1 h",
                  .meaning = "from arriving until it has come down; the loudest place goes with it",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->comes_down_over = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "spot_x",
                  .kind = K::quantity,
                  .unit = Unit::centimetres,
                  .least = -16,
                  .most = 16,
                  .meaning = "loudest place, from the navel towards her left; with `spot_y`, else it "
                             "follows from the position, a few centimetres off for each seed",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) {
                     l.baby->spot_given = true;
                     l.baby->spot_x = {v.number};
                 }});
    t.push_back({{.section = s,
                  .key = "spot_y",
                  .kind = K::quantity,
                  .unit = Unit::centimetres,
                  .least = -18,
                  .most = 20,
                  .meaning = "loudest place, from the navel towards her head",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) {
                     l.baby->spot_given = true;
                     l.baby->spot_y = {v.number};
                 }});
    t.push_back({{.section = s,
                  .key = "depth",
                  .kind = K::quantity,
                  .unit = Unit::centimetres,
                  .least = 4,
                  .most = 12,
                  .standard = "7 cm",
                  .meaning = "skin to heart, before her wall is added",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->depth = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "systole_offset",
                  .kind = K::quantity,
                  .unit = Unit::milliseconds,
                  .least = 210,
                  .most = 270,
                  .standard = "255 ms",
                  .meaning = "first to second sound = this less half the rate",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->systole_offset_ms = v.number; }});
    t.push_back({{.section = s,
                  .key = "movements",
                  .kind = K::quantity,
                  .unit = Unit::per_10min,
                  .least = 0,
                  .most = 40,
                  .standard = "6 per 10 min",
                  .meaning = "bursts of movement that can be felt",
                  .drawn = true},
                 [](Landing& l, const FieldValue& v) { l.baby->movements_per_10min = v.number; }});
    t.push_back({{.section = s,
                  .key = "beam_meets",
                  .kind = K::word,
                  .standard = "whole_heart",
                  .meaning = "what a Doppler meets: valves and walls, or walls alone, where the display of a slow "
                             "heart can double",
                  .words = beam_words},
                 [](Landing& l, const FieldValue& v) {
                     l.baby->beam_meets = which<sim::BeamMeets>(beam_words, v.text);
                 }});
}

void add_event(ScenarioRows& t) {
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

}  // namespace

void add_baby_rows(ScenarioRows& t) {
    add_baby_only(t);
    add_event(t);
}

}  // namespace engine
