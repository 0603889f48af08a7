// The situations a protocol gives rules for, and from when this listener could know each. Situations follow
// from the course, the findings, the place and the story; the clock of an act starts when a person's own
// listening could first show the trouble, never when the computer knew.
#pragma once

#include "engine/attempt/attempt.h"
#include "engine/protocol/protocol.h"
#include "engine/scenario/scenario.h"
#include "engine/scoring/heard.h"
#include "engine/scoring/labour_run.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace engine {

struct Known {
    std::string situation;
    sim::LabourTime from;                         // could first be known
    std::string why;                              // a plain sentence with numbers
    std::optional<sim::LabourTime> worse_from{};  // since when its level is the one it has if it holds
};

// What one person (or a listener throughout) had to go by.
struct Listened {
    std::vector<HeardPiece> heard;
    std::vector<Revealed> found;
    bool throughout = false;  // everything there was to hear and find: the whole scenario's key
};

// How contractions were listened through, and what was there after them.
struct AroundHeard {
    int listened_through = 0;         // contractions heard from their end on for the time the protocol asks
    int slow_after = 0, slow_in = 0;  // of these
    bool stays_down = false;
    sim::LabourTime slow_after_known, slow_in_known, stays_down_known;
    sim::LabourTime over_half_known;  // since when more than half were slow after, of three or more
    bool over_half() const { return listened_through >= 3 && slow_after * 2 > listened_through; }
};

struct Picture {
    std::vector<Known> known;           // by time; "normal" only when nothing else but "always" holds
    std::array<AroundHeard, 2> around;  // per baby
    // The settled rate over the last `baseline_needs` heard, without slowings, step 0.001; 0 = not heard. A
    // lasting fall is in it once it fills most of that stretch, and then alone. The one rate of key,
    // decisions and advice.
    std::array<double, 2> settled_bpm{};
    std::array<bool, 2> down_at_end{};  // heard fallen for 15 s or more in that last stretch
    std::array<double, 2> heard_s{};
    std::array<int, 2> odd_beats{};  // early and missing beats heard
    bool over_half = false;
    // since when: counts from the contraction that made it more than half
    sim::LabourTime over_half_from;
    // outside the limits through the protocol's contractions or its time
    bool rate_held = false;
    sim::LabourTime rate_held_from;
    Level level = Level::green;
    const Known* find(std::string_view situation) const;
    bool has(std::string_view situation) const { return find(situation) != nullptr; }
};

Picture picture_of(const Scenario&, const Protocol&, const Played&, const Listened&, sim::LabourTime from,
                   sim::LabourTime to);
// The same for one of many pictures of one labour, all of them from one run of it.
Picture picture_of(const Scenario&, const Protocol&, const Played&, const Listened&, const LabourRun&,
                   sim::LabourTime from, sim::LabourTime to);

// All that a listener throughout would know: every finding found when it is there, both ends of the scenario.
Listened everything(const Scenario&, const Played&);

// Where a protocol gives no level for a situation of its own.
Level level_of(const Protocol&, std::string_view situation);

// She lies flat at t, as far as acts and holds tell.
bool flat_at(const Played&, sim::LabourTime t);
// Head seen, or fully open with the head at the outlet: birth sooner than help can come [practice].
bool birth_close(const Scenario&, const Played&);

}  // namespace engine
