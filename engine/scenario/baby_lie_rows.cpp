// How the baby lies: position, how deep, where it is loudest, what a beam meets.
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

}  // namespace

void add_baby_lie_rows(ScenarioRows& t) {
    using K = FieldKind;
    const auto s = "baby";
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
    t.push_back(
        {{.section = s,
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

}  // namespace engine
