#include "engine/scenario/scenario_words.h"

namespace engine {

using namespace scenario_words;
using Landing = ScenarioLanding;

namespace {

void add_top_only(ScenarioRows& t) {
    using K = FieldKind;
    t.push_back({{.section = "",
                  .key = "format",
                  .kind = K::text,
                  .least = 1,
                  .most = 64,
                  .meaning = "kind and number of the format: \"fullminute-scenario/1\"",
                  .needed = true},
                 [](Landing&, const FieldValue&) {}});
    t.push_back({{.section = "",
                  .key = "id",
                  .kind = K::text,
                  .least = 1,
                  .most = 64,
                  .meaning = "name of the file without its ending, 3 to 48 of a-z, 0-9 and -",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.scenario->id = v.text; }});
    t.push_back({{.section = "",
                  .key = "title",
                  .kind = K::text,
                  .least = 1,
                  .most = 80,
                  .meaning = "one line for the library; never hints at the answer",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.scenario->title = v.text; }});
    t.push_back(
        {{.section = "",
          .key = "task",
          .kind = K::word,
          .meaning = "what the trainee is asked: one full-minute count, short windows, where is it loudest, "
                     "whose heart, through contractions, a labour with several listenings",
          .words = task_words,
          .needed = true},
         [](Landing& l, const FieldValue& v) { l.scenario->task = which<Task>(task_words, v.text); }});
    t.push_back({{.section = "",
                  .key = "level",
                  .kind = K::whole,
                  .least = 1,
                  .most = 5,
                  .standard = "1",
                  .meaning = "how hard, 1 = first day"},
                 [](Landing& l, const FieldValue& v) { l.scenario->level = static_cast<int>(v.whole); }});
    t.push_back({{.section = "",
                  .key = "length",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 60,
                  .most = 14400,
                  .meaning = "how long the labour can be listened to",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.scenario->length = {v.number}; }});
    t.push_back({{.section = "",
                  .key = "story",
                  .kind = K::text,
                  .least = 1,
                  .most = 2000,
                  .meaning = "what the trainee is told before the first touch",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.scenario->story = v.text; }});
    t.push_back({{.section = "",
                  .key = "content_note",
                  .kind = K::text,
                  .least = 1,
                  .most = 400,
                  .meaning = "shown before starting where a baby may be lost; lets a person leave it out"},
                 [](Landing& l, const FieldValue& v) { l.scenario->content_note = v.text; }});
    t.push_back({{.section = "",
                  .key = "boundary",
                  .kind = K::flag,
                  .standard = "false",
                  .meaning = "sits on a limit where protocols differ: never used for pass marks"},
                 [](Landing& l, const FieldValue& v) { l.scenario->boundary = v.truth; }});
}

void add_place(ScenarioRows& t) {
    using K = FieldKind;
    const auto s = "place";
    t.push_back({{.section = s,
                  .key = "name",
                  .kind = K::text,
                  .least = 1,
                  .most = 80,
                  .meaning = "where it is; an imaginary place",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.scenario->place.name = v.text; }});
    t.push_back(
        {{.section = s,
          .key = "helpers",
          .kind = K::whole,
          .least = 0,
          .most = 6,
          .standard = "1",
          .meaning = "others who can come at once"},
         [](Landing& l, const FieldValue& v) { l.scenario->place.helpers = static_cast<int>(v.whole); }});
    t.push_back({{.section = s,
                  .key = "to_help",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 0,
                  .most = 14400,
                  .standard = "2 min",
                  .meaning = "from the call to the senior at the bedside"},
                 [](Landing& l, const FieldValue& v) { l.scenario->place.minutes_to_help = v.number / 60; }});
    t.push_back(
        {{.section = s,
          .key = "to_theatre",
          .kind = K::quantity,
          .unit = Unit::seconds,
          .least = 0,
          .most = 36000,
          .standard = "40 min",
          .meaning = "from the call to a theatre"},
         [](Landing& l, const FieldValue& v) { l.scenario->place.minutes_to_theatre = v.number / 60; }});
    t.push_back({{.section = s,
                  .key = "instruments",
                  .kind = K::words,
                  .meaning = "what there is to listen with",
                  .words = instrument_words,
                  .needed = true},
                 [](Landing& l, const FieldValue& v) {
                     for (const std::string& word : v.texts)
                         l.scenario->place.instruments.push_back(static_cast<sim::Instrument>(
                             1 + static_cast<int>(which<sim::Instrument>(instrument_words, word))));
                 }});
    t.push_back({{.section = s,
                  .key = "watch",
                  .kind = K::flag,
                  .standard = "true",
                  .meaning = "a watch with a second hand is there"},
                 [](Landing& l, const FieldValue& v) { l.scenario->place.watch = v.truth; }});
    t.push_back({{.section = s,
                  .key = "trainee",
                  .kind = K::word,
                  .standard = "trained",
                  .meaning = "what the trainee may do here",
                  .words = licence_words},
                 [](Landing& l, const FieldValue& v) {
                     l.scenario->place.trainee = which<Licence>(licence_words, v.text);
                 }});
    t.push_back({{.section = s,
                  .key = "drip_stand",
                  .kind = K::flag,
                  .standard = "true",
                  .meaning = "a drip can be given here"},
                 [](Landing& l, const FieldValue& v) { l.scenario->place.drip_stand = v.truth; }});
}

}  // namespace

void add_top_rows(ScenarioRows& t) {
    add_top_only(t);
    add_place(t);
}

}  // namespace engine
