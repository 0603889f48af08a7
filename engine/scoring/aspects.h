// One function an aspect. Each gives its verdict and the evidence in plain words and figures; what a fault
// elsewhere already explains is marked by `follows_from`, so that one fault has one cause.
#pragma once

#include "engine/scoring/evidence.h"
#include "engine/scoring/score_sheet.h"

namespace engine {

AspectScore judge_site(const Evidence&);
AspectScore judge_whose(const Evidence&);
AspectScore judge_window(const Evidence&, const ScoreSheet& so_far);
AspectScore judge_count(const Evidence&);
AspectScore judge_arithmetic(const Evidence&);
AspectScore judge_decision(const Evidence&, const ScoreSheet& so_far);
// Fills sheet.acts and sheet.critical_missed beside its verdict.
AspectScore judge_action(const Evidence&, ScoreSheet& sheet);
AspectScore judge_record(const Evidence&, const ScoreSheet& so_far);
AspectScore judge_care(const Evidence&);

// A Doppler without gel for most of this stretch.
bool without_gel(const Played&, sim::LabourTime from, sim::LabourTime to);

// Adds what the aspects did not name as critical: her pulse written as the baby's, a clear trouble called
// normal.
void critical_misses(const Evidence&, ScoreSheet& sheet);
// The first aspect, in the order of cause, that is missed with a cause of its own, else partly met; care
// never.
std::optional<Aspect> primary_of(const ScoreSheet&);
// At most five plain sentences, most important first, each with its place on the strip.
std::vector<NextTime> next_time(const Evidence&, const ScoreSheet&);

inline const AspectScore* aspect_in(const ScoreSheet& sheet, Aspect aspect) {
    for (const AspectScore& a : sheet.aspects)
        if (a.aspect == aspect) return &a;
    return nullptr;
}
inline bool faulty(const AspectScore& a) {
    return a.verdict == Verdict::partly || a.verdict == Verdict::missed;
}
inline bool faulty(const ScoreSheet& sheet, Aspect aspect) {
    const AspectScore* a = aspect_in(sheet, aspect);
    return a && faulty(*a);
}
inline Verdict worse(Verdict a, Verdict b) {
    if (a == Verdict::not_asked) return b;
    if (b == Verdict::not_asked) return a;
    return a > b ? a : b;
}

}  // namespace engine
