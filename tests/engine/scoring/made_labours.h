// Labours made for one question: a steady baby, a quiet mother, nothing found, nothing drawn; a test changes
// one thing.
#pragma once

#include "perfect_listener.h"

#include "engine/scoring/key.h"

#include <algorithm>

namespace perfect {

inline constexpr const char* four_protocols[] = {"who-2018", "community-120-160", "figo-2015", "nice-2022"};

inline Scenario plain_labour(double minutes = 20, double bpm = 138.4) {
    Scenario s = scenario_named("c01-own-minute");
    s.task = Task::labour;
    s.length = sim::Seconds{60 * minutes};
    s.drawn.clear();
    s.chart.clear();
    s.findings.clear();
    s.call_outs.clear();
    s.labour = {};
    sim::Patient& p = s.middle;
    p.cause = {};
    p.labour = {};
    p.labour.irregular = 0;
    p.mother.pulse = sim::Bpm{82};
    sim::Baby& baby = p.babies[0];
    baby.baseline = sim::Bpm{bpm};
    baby.variability = sim::Variability::minimal;
    baby.drift = sim::Bpm{0};
    baby.rhythm = {};
    baby.events = {};
    return s;
}

// Slow after contractions: `depth` down, back `back` s after the end, for contractions that begin before
// `until`.
inline void slow_after(Scenario& s, double until = 1e6, double depth = 30, double back = 50) {
    sim::BabyEvent event;
    event.kind = sim::BabyEvent::Kind::late;
    event.depth = sim::Bpm{depth};
    event.back_after = sim::Seconds{back};
    event.until = sim::Seconds{until};
    s.middle.babies[0].events.add(event);
}

// Slow in contractions and back when they end.
inline void slow_in(Scenario& s, double depth = 25) {
    sim::BabyEvent event;
    event.kind = sim::BabyEvent::Kind::early;
    event.depth = sim::Bpm{depth};
    s.middle.babies[0].events.add(event);
}

inline void found(Scenario& s, const char* act, const char* says, const char* situation) {
    Finding f;
    f.act = act;
    f.says = says;
    f.situation = situation;
    s.findings.push_back(f);
}

inline Key key_of_made(const Scenario& s, const std::string& protocol = "who-2018", int seed = 1) {
    return key_of(s, protocol_named(protocol), sim::Seed{static_cast<std::uint64_t>(seed)});
}

inline bool in_list(const std::vector<std::string>& list, const std::string& word) {
    return std::find(list.begin(), list.end(), word) != list.end();
}
inline bool has_situation(const Key& k, const std::string& situation) {
    return in_list(k.situations, situation);
}
inline bool is_unsafe(const Key& k, const std::string& act) { return in_list(k.unsafe, act); }
// Asked for, alone or as one of several.
inline const ExpectedAct* asked(const Key& k, const std::string& act) {
    for (const ExpectedAct& e : k.expected)
        if (in_list(e.any_of, act)) return &e;
    return nullptr;
}
// Asked for with a time of at most `s`.
inline bool asked_by(const Key& k, const std::string& act, double s) {
    return std::any_of(k.expected.begin(), k.expected.end(), [&](const ExpectedAct& e) {
        return in_list(e.any_of, act) && e.within_s > 0 && e.within_s <= s;
    });
}
inline const ActScore* line_for(const ScoreSheet& sheet, const std::string& act) {
    for (const ActScore& a : sheet.acts)
        if (a.act == act || a.act.find(act + " or ") == 0 || a.act.find(" or " + act) != std::string::npos)
            return &a;
    return nullptr;
}

// A listener at a made labour, at the best place with her pulse felt and said.
inline Listener at_made(const Scenario& s, const std::string& protocol = "who-2018") {
    Listener l("c01-own-minute", protocol_named(protocol));
    l.scenario = s;
    l.greet().wait(5).take(sim::Instrument::doppler).place_best().wrist().wait(17).report_pulse();
    return l;
}

}  // namespace perfect
