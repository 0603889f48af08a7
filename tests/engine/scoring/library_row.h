// One row a scenario of the library: what a listener throughout is expected to read there, and what to do
// about it. The rows are the library's table of expected readings, written by a practising midwife's review
// [practice]; the program computes its key from course, findings, place and protocol and has never seen them.
#pragma once

#include "perfect_listener.h"

#include "engine/scoring/key.h"

#include <algorithm>
#include <filesystem>
#include <functional>

namespace perfect {

struct LibraryRow {
    std::string id;  // "c02"
    SourceIs source = SourceIs::baby;
    BaselineIs baseline = BaselineIs::normal;
    Around around = Around::no_slowing;  // not_said: the review says nothing of it
    RhythmIs rhythm = RhythmIs::regular;
    Level level = Level::green;
    std::vector<std::string> acts;    // each is asked for; "a|b": either, as one group or alone
    std::vector<std::string> unsafe;  // each is unsafe here
    double from_s = 0, for_s = 0;     // the key of this spell; both 0: of the whole scenario
};

// "c02" -> "c02-a-second-minute".
inline std::string library_stem(const std::string& id) {
    for (const auto& file : std::filesystem::directory_iterator(FULLMINUTE_SOURCE_DIR "/scenarios/library")) {
        const std::string stem = file.path().stem().string();
        if (stem.rfind(id + "-", 0) == 0 && file.path().extension() == ".toml") return stem;
    }
    FAIL("no scenario " + id + " in the library");
    return id;
}

inline std::vector<std::string> either(const std::string& acts) {
    std::vector<std::string> list;
    std::istringstream in(acts);
    for (std::string act; std::getline(in, act, '|');) list.push_back(act);
    return list;
}

inline bool asks_for(const Key& key, const std::string& acts) {
    for (const std::string& act : either(acts))
        for (const ExpectedAct& e : key.expected)
            if (std::find(e.any_of.begin(), e.any_of.end(), act) != e.any_of.end()) return true;
    return false;
}

// The key under one protocol, seed by seed.
inline void key_reads(const LibraryRow& row, const std::string& protocol = "who-2018", int seeds = 5) {
    const Scenario scenario = scenario_named(library_stem(row.id));
    const Protocol rules = protocol_named(protocol);
    for (int n = 1; n <= seeds; ++n) {
        const sim::Seed seed{static_cast<std::uint64_t>(n)};
        const Key key = row.for_s > 0 ? key_of_spell(scenario, rules, seed, sim::labour_time({row.from_s}),
                                                     sim::labour_time({row.from_s + row.for_s}))
                                      : key_of(scenario, rules, seed);
        INFO(scenario.id << " under " << protocol << ", seed " << n << ": " << to_json(key));
        CHECK(name_of(key.decision.source) == name_of(row.source));
        CHECK(name_of(key.decision.baseline) == name_of(row.baseline));
        if (row.around != Around::not_said) CHECK(name_of(key.decision.around) == name_of(row.around));
        CHECK(name_of(key.decision.rhythm) == name_of(row.rhythm));
        CHECK(name_of(key.level) == name_of(row.level));
        for (const std::string& act : row.acts) {
            INFO("expected: " << act);
            CHECK(asks_for(key, act));
        }
        for (const std::string& act : row.unsafe) {
            INFO("unsafe: " << act);
            CHECK(std::find(key.unsafe.begin(), key.unsafe.end(), act) != key.unsafe.end());
        }
    }
}

// A listener without a fault: no aspect missed, nothing critical missed, nothing unsafe.
inline void nothing_missed(const Listener& l) {
    const ScoreSheet sheet = l.sheet();
    INFO(l.scenario.id << " seed " << l.seed << "\n" << told(sheet));
    std::string missed;
    for (const AspectScore& a : sheet.aspects)
        if (a.verdict == Verdict::missed) missed += std::string(name_of(a.aspect)) + " ";
    CHECK(missed == "");
    CHECK(sheet.critical_missed.empty());
    CHECK(sheet.finished);
}

using MakeListener = std::function<Listener()>;

// The same listener at seeds 1 to `seeds`.
inline void nothing_missed_at_seeds(const MakeListener& make, int seeds = 5) {
    for (int n = 1; n <= seeds; ++n) {
        seed_in_use = n;
        nothing_missed(make());
    }
    seed_in_use = 1;
}

}  // namespace perfect
