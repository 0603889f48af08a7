#include "engine/scoring/score_sheet.h"

#include "engine/scoring/aspects.h"

#include <array>

namespace engine {

std::optional<Aspect> primary_of(const ScoreSheet& sheet) {
    constexpr std::array<Aspect, 8> order_of_cause = {Aspect::whose,  Aspect::site,       Aspect::window,
                                                      Aspect::count,  Aspect::arithmetic, Aspect::decision,
                                                      Aspect::action, Aspect::record};
    // What was missed names the cause before what was only partly met.
    for (Verdict verdict : {Verdict::missed, Verdict::partly})
        for (Aspect aspect : order_of_cause)
            if (const AspectScore* a = aspect_in(sheet, aspect);
                a && a->verdict == verdict && !a->follows_from)
                return aspect;
    return std::nullopt;
}

ScoreSheet judge(const Scenario& scenario, const Protocol& protocol, const Played& played) {
    const Evidence evidence(scenario, protocol, played);
    ScoreSheet sheet;
    sheet.finished = played.finished;
    sheet.boundary = scenario.boundary;
    for (const CountedWindow& w : evidence.windows) sheet.windows.push_back(w.score);
    sheet.series = evidence.series;
    sheet.aspects.push_back(judge_site(evidence));
    sheet.aspects.push_back(judge_whose(evidence));
    sheet.aspects.push_back(judge_window(evidence, sheet));
    sheet.aspects.push_back(judge_count(evidence));
    sheet.aspects.push_back(judge_arithmetic(evidence));
    sheet.aspects.push_back(judge_decision(evidence, sheet));
    sheet.aspects.push_back(judge_action(evidence, sheet));
    sheet.aspects.push_back(judge_record(evidence, sheet));
    sheet.aspects.push_back(judge_care(evidence));
    critical_misses(evidence, sheet);
    sheet.primary = primary_of(sheet);
    sheet.next_time = next_time(evidence, sheet);
    return sheet;
}

}  // namespace engine
