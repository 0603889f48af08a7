// Everything the aspects judge from, gathered once: windows with their counts taken apart, listenings,
// decisions that stand, and what this person could know when.
#pragma once

#include "engine/scoring/expected.h"
#include "engine/scoring/heard.h"
#include "engine/scoring/score_sheet.h"
#include "engine/scoring/situations.h"

#include <array>
#include <optional>
#include <vector>

namespace engine {

struct CountedWindow {
    WindowScore score;  // true_beats are the baby's
    const Window* window = nullptr;
    SiteHeard site;
    double factor = 1;
    int followed_beats = 0;                 // beats, in the own window, of the heart that was followed
    bool recognised = false;                // they said afterwards that this was the mother
    std::optional<double> own_bpm() const;  // written rate, or count x factor
    // count less the beats of the heart followed; from the written rate when no count of beats was given
    std::optional<double> error_bpm() const;
};

// One decision that stands (a later one after the same listening replaces it) and what it could rest on.
struct StandingDecision {
    TimedDecision said;
    sim::LabourTime from;  // start of the listening it rests on
    Picture heard;         // what that listening could show
    Picture truth;         // what a listener throughout the attempt could have known
    SourceIs source_there = SourceIs::not_said;
    const CountedWindow* counted = nullptr;  // the number it rests on
};

struct Evidence {
    const Scenario& scenario;
    const Protocol& protocol;
    const Played& played;
    Listened listened;
    LabourRun run;                       // worked out once
    Picture picture;                     // the whole attempt; known-from moved forward by own decisions
    std::vector<CountedWindow> windows;  // all, in time order; those with score.judged are judged
    std::vector<SeriesScore> series;     // short counts in a row: judged together, not one by one
    std::vector<StandingDecision> decisions;
    std::vector<std::string> own_situations;  // what their decisions say, true or not

    Evidence(const Scenario&, const Protocol&, const Played&);
    bool listened_at_all() const { return !played.spells.empty(); }
    const CountedWindow* last_judged() const;
    // First time an act was done, chosen or seen; -1 when never.
    sim::LabourTime done_at(std::string_view act) const;
    sim::LabourTime done_at_or_after(std::string_view act, sim::LabourTime from) const;
    // Once done. `by`: "" = chosen, "seen" = hands, ears and clock, or the id of another act that answers it.
    struct Doing {
        sim::LabourTime at, done;
        sim::LabourTime until;  // how long her pulse lay under the fingers; of all else when it was done
        std::string_view by;
    };
    std::vector<Doing> doings(std::string_view act) const;  // every time, in no order
};

}  // namespace engine
