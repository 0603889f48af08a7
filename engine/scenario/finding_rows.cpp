#include "engine/scenario/scenario_words.h"

namespace engine {

using namespace scenario_words;
using Landing = ScenarioLanding;

void add_finding_rows(ScenarioRows& t) {
    using K = FieldKind;
    const auto s = "finding";
    t.push_back({{.section = s,
                  .key = "act",
                  .kind = K::word,
                  .meaning = "the act that finds it",
                  .words = finding_acts,
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.finding->act = v.text; }});
    t.push_back({{.section = s,
                  .key = "says",
                  .kind = K::text,
                  .least = 1,
                  .most = 300,
                  .meaning = "what is then shown",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.finding->says = v.text; }});
    t.push_back({{.section = s,
                  .key = "situation",
                  .kind = K::word,
                  .meaning = "the situation it establishes, if any",
                  .words = situation_ids()},
                 [](Landing& l, const FieldValue& v) { l.finding->situation = v.text; }});
    t.push_back({{.section = s,
                  .key = "from",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 0,
                  .most = 14400,
                  .standard = "0 s",
                  .meaning = "there to be found from here"},
                 [](Landing& l, const FieldValue& v) { l.finding->from = {v.number}; }});
    t.push_back({{.section = s,
                  .key = "until",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 0,
                  .most = 14400,
                  .meaning = "and until here"},
                 [](Landing& l, const FieldValue& v) { l.finding->until = {v.number}; }});
    const auto c = "chart";
    t.push_back({{.section = c,
                  .key = "ago",
                  .kind = K::quantity,
                  .unit = Unit::seconds,
                  .least = 60,
                  .most = 86400,
                  .meaning = "how long before the trainee arrives",
                  .needed = true},
                 [](Landing& l, const FieldValue& v) { l.line->minutes_ago = v.number / 60; }});
    t.push_back({{.section = c,
                  .key = "rate",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 40,
                  .most = 240,
                  .meaning = "rate written then"},
                 [](Landing& l, const FieldValue& v) { l.line->bpm = v.number; }});
    t.push_back({{.section = c,
                  .key = "pulse",
                  .kind = K::quantity,
                  .unit = Unit::bpm,
                  .least = 30,
                  .most = 200,
                  .meaning = "her pulse written then"},
                 [](Landing& l, const FieldValue& v) { l.line->pulse_bpm = v.number; }});
    t.push_back({{.section = c,
                  .key = "remark",
                  .kind = K::text,
                  .least = 1,
                  .most = 200,
                  .meaning = "what else was written"},
                 [](Landing& l, const FieldValue& v) { l.line->remark = v.text; }});
}

}  // namespace engine
