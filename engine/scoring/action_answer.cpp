#include "engine/scoring/action_answer.h"

#include "engine/scoring/acts_that_hold.h"
#include "engine/scoring/slowing.h"
#include "engine/scoring/steps.h"
#include "engine/scoring/trouble_began.h"

#include <algorithm>
#include <set>

namespace engine {

namespace {

constexpr double first_measures_s = 120;  // what is asked for sooner is done before one leaves [practice]

// She ended before the time of a later step had run out, and somebody had been told: the step is theirs as
// well. Who tells nobody has left a baby in trouble, and leaving sooner excuses nothing.
bool not_reached(const Evidence& e, const Answer& answer, const std::vector<Bound>& asked) {
    const Bound& b = *answer.bound;
    if (b.rule->within.value <= first_measures_s || answer.due() <= e.played.end.us) return false;
    if (b.rule->situation == "always") return false;
    for (const char* told : {"call_for_help", "inform_senior", "start_plan"})
        for (const Evidence::Doing& doing : e.doings(told))
            if (answers(e, b, told, doing, asked)) return true;
    return false;
}

}  // namespace

Answer answer_to(const Evidence& e, const Bound& b, const std::vector<Bound>& asked) {
    Answer answer;
    answer.bound = &b;
    answer.from = b.from;
    if (b.rule->situation != "always") answer.from = std::max(answer.from, answerable_from(e, *b.known));
    for (const std::string& id : b.acts)
        for (const Evidence::Doing& doing : e.doings(id)) {
            if (!answers(e, b, id, doing, asked) || (answer.at.us >= 0 && doing.at >= answer.at)) continue;
            answer.at = doing.at;
            answer.act = id;
            answer.by = doing.by;
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
    else if (e.played.finished && not_reached(e, answer, asked))
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

namespace {

// Nothing else that is grave: the heart alone.
bool only_a_fall(const Evidence& e) {
    const std::set<std::string_view> falls = {"slow", "slow_steady", "stays_down", "lying_flat",
                                              "not_close_to_birth"};
    return std::none_of(e.picture.known.begin(), e.picture.known.end(), [&](const Known& k) {
        return !falls.count(k.situation) &&
               (level_of(e.protocol, k.situation) >= Level::orange || k.worse_from);
    });
}

// Judged when its time runs out, or where she left before; what has no time of its own when a fall is one
// that stays.
bool came_back(const Evidence& e, const Bound& b) {
    const std::set<std::string_view> down = {"slow", "slow_steady", "stays_down"};
    const std::set<std::string_view> plan = {"start_plan",         "arrange_transfer",     "examine_inside",
                                             "assist_birth_now",   "prepare_newborn_help", "go_with_her",
                                             "write_referral_note"};
    if (!down.count(b.rule->situation) && !(b.rule->situation == "not_close_to_birth" && only_a_fall(e)))
        return false;
    if (!std::all_of(b.acts.begin(), b.acts.end(), [&](const std::string& a) { return plan.count(a) > 0; }))
        return false;
    const sim::Seconds within = b.rule->within.value > 0 ? b.rule->within : e.protocol.stays_down;
    const sim::LabourTime by =
        std::min(sim::LabourTime{b.from.us + sim::labour_time(within).us}, e.played.end);
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

bool cannot_be_told_without_a_watch(const Evidence& e, const Bound& b) {
    const std::set<std::string_view> rates = {"fast", "slow_steady", "rising"};
    const std::string& s = b.rule->situation;
    if (e.scenario.place.watch || !rates.count(s)) return false;
    if (std::find(e.own_situations.begin(), e.own_situations.end(), s) != e.own_situations.end())
        return false;
    return std::none_of(b.acts.begin(), b.acts.end(),
                        [](const std::string& act) { return act == "inform_senior" || act == "feel_pulse"; });
}

}  // namespace

bool lapsed(const Evidence& e, const Bound& b) {
    return came_back(e, b) || no_routine_yet(e, b) || cannot_be_told_without_a_watch(e, b);
}

}  // namespace engine
