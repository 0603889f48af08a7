// The key: the computed answer. Never typed by an author: it follows from the course, the findings, the place
// and the protocol, for the whole scenario or only for what could be heard in one spell.
#pragma once

#include "engine/attempt/attempt.h"
#include "engine/protocol/protocol.h"
#include "engine/scenario/scenario.h"

#include <string>
#include <vector>

namespace engine {

struct ExpectedAct {  // once, however many situations ask for it
    std::vector<std::string> any_of;
    double within_s = 0;                  // the shortest asked, from known-from; 0 = no limit
    bool critical = false;                // for one of the situations at least
    std::string situation;                // the one that asks for it soonest
    std::vector<std::string> situations;  // all that ask for it
    std::vector<std::string> sources;
    std::string conflict;
};

struct Key {
    double baseline_bpm = 0;  // settled rate as last heard, step 0.001; 0 when there is no heart
    int twin = 0;             // of twins the one it speaks of, 1 or 2; 0: there is one baby
    // each part, or not_said / not_listened where it could not be known
    Decision decision;
    Level level = Level::green;
    std::vector<std::string> situations;
    std::vector<ExpectedAct> expected;
    std::vector<std::string> unsafe;  // act ids unsafe here
    std::vector<std::string> why;     // plain sentences with numbers
    // when a listener who listened throughout could first know the trouble
    double known_from_s = 0;
};

// Whole scenario, heard from start to end at the best place with nothing done.
Key key_of(const Scenario&, const Protocol&, sim::Seed);
// What could be heard between from and to (course as it ran in `played`).
Key key_of_spell(const Scenario&, const Protocol&, const Played&, sim::LabourTime from, sim::LabourTime to);
// The same with nothing done, for the terminal.
Key key_of_spell(const Scenario&, const Protocol&, sim::Seed, sim::LabourTime from, sim::LabourTime to);

std::string to_json(const Key&);  // as the format page has it

}  // namespace engine
