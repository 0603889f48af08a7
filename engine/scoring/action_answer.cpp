#include "engine/scoring/action_answer.h"

#include "engine/scoring/slowing.h"
#include "engine/scoring/steps.h"

#include <algorithm>
#include <set>

namespace engine {

namespace {
// ended this shortly before: the count that showed it [practice]
constexpr std::int64_t shown_by_us = 60'000'000;
}  // namespace

Answer answer_to(const Evidence& e, const Bound& b) {
    Answer answer;
    answer.bound = &b;
    answer.from = b.from;
    for (const std::string& id : b.acts) {
        // A minute counted long before the trouble is no counting again; the one that showed it is.
        const bool again =
            id == "count_full_minute" && b.rule->situation != "normal" && b.rule->situation != "always";
        const Evidence::DoneHow how =
            e.done_how(id, {again ? std::max<std::int64_t>(0, b.from.us - shown_by_us) : 0});
        if (how.at.us < 0 || (answer.at.us >= 0 && how.at >= answer.at)) continue;
        answer.at = how.at;
        answer.act = id;
        answer.by = how.by;
    }
    if (b.acts.front() == "record_findings" && !e.decisions.empty()) {
        // What was decided last is to be written; the chart's last line is it.
        answer.from = std::max(answer.from, e.decisions.back().said.at);
        if (!e.played.records.empty()) answer.at = e.played.records.back().at;
    }
    const bool limited = b.rule->within.value > 0;
    if (answer.at.us >= 0)
        answer.verdict = limited && answer.at.us > answer.due() ? Answer::late : Answer::in_time;
    else if (!e.played.finished && (!limited || answer.due() > e.played.end.us))
        answer.pending = true;
    else
        answer.verdict = Answer::not_done;
    return answer;
}

bool judged_elsewhere(const Bound& b) {
    const auto all_are = [&](std::string_view act) { return b.acts.size() == 1 && b.acts[0] == act; };
    if (all_are("record_findings") || all_are("write_referral_note") || all_are("count_full_minute"))
        return true;
    return all_are("feel_pulse") && (b.rule->situation == "normal" || b.rule->situation == "always");
}

bool came_back(const Evidence& e, const Bound& b) {
    const std::set<std::string_view> down = {"slow", "slow_steady", "stays_down"};
    const std::set<std::string_view> plan = {"start_plan", "arrange_transfer", "examine_inside",
                                             "assist_birth_now", "not_close_to_birth"};
    if (!down.count(b.rule->situation) ||
        !std::all_of(b.acts.begin(), b.acts.end(), [&](const std::string& a) { return plan.count(a) > 0; }))
        return false;
    const sim::LabourTime by{b.from.us + sim::labour_time(b.rule->within).us};
    if (by >= e.played.end) return false;
    return !fallen_at(e.protocol, e.played, e.run.babies[0].falls, 0, by) &&
           classify(e.protocol, sim::Bpm{settled_as_counted(e.played, 0, by)}) != BaselineClass::slow;
}

bool no_routine_yet(const Evidence& e, const Bound& b) {
    if (b.rule->situation != "normal" || b.acts != std::vector<std::string>{"continue_routine"}) return false;
    if (e.decisions.empty()) return false;
    const StandingDecision& last = e.decisions.back();
    return last.said.decision.unsure || last.said.decision.source == SourceIs::doubtful ||
           !last.truth.has("normal");
}

}  // namespace engine
