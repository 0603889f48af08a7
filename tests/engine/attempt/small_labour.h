// A small labour and a small protocol by hand, so that these tests need no file.
#pragma once

#include "engine/attempt/attempt.h"

namespace small {

inline engine::Scenario labour(double length_s = 3600) {
    engine::Scenario s;
    s.id = "small";
    s.task = engine::Task::labour;
    s.length = {length_s};
    s.place.instruments = {sim::Instrument::horn, sim::Instrument::doppler, sim::Instrument::diaphragm};
    s.middle.babies.add(sim::Baby{});
    s.middle.labour.irregular = 0;
    return s;
}

inline engine::ActWords act(std::string id, double takes_s, bool reveals = false) {
    engine::ActWords a;
    a.id = std::move(id);
    a.takes = {takes_s};
    a.reveals = reveals;
    return a;
}

inline engine::Protocol protocol() {
    engine::Protocol p;
    p.id = "small";
    for (const auto& [stage, most] : {std::pair{engine::Stage::latent, 3600.0},
                                      {engine::Stage::active, 1800.0},
                                      {engine::Stage::second, 300.0}}) {
        engine::ListeningRule rule;
        rule.stage = stage;
        rule.every_most = {most};
        p.listening.push_back(rule);
    }
    p.acts = {act("continue_routine", 5), act("take_temperature", 60, true), act("off_her_back", 20),
              act("knees_chest_hips_up", 20), act("call_for_help", 5)};
    engine::ActWords pulse = act("feel_pulse", 15);
    pulse.kind = engine::ActKind::seen;
    p.acts.push_back(pulse);
    return p;
}

// Events as a person would write them; a fault fails the test with its words.
inline std::vector<engine::Event> events(const std::string& json) {
    const auto read = engine::read_events(json, "events.json");
    if (!read)
        for (const auto& fault : read.faults()) FAIL(engine::in_one_line(fault));
    return *read;
}

inline const engine::TimedAct* seen(const engine::Played& played, const std::string& id) {
    for (const auto& a : played.acts)
        if (a.id == id && a.seen) return &a;
    return nullptr;
}

inline int times_seen(const engine::Played& played, const std::string& id) {
    int n = 0;
    for (const auto& a : played.acts) n += a.id == id && a.seen ? 1 : 0;
    return n;
}

}  // namespace small
