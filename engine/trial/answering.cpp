#include "engine/trial/answering.h"

#include <algorithm>

namespace engine {

namespace {

constexpr double never_s = std::numeric_limits<double>::infinity();
constexpr double too_late_s = 60;  // after the limit [practice]
constexpr int most_rounds = 8;

bool chosen(const Protocol& protocol, std::string_view act) {
    const ActWords* words = protocol.act(act);
    return words && words->kind == ActKind::chosen;
}

// Of a group the one that is chosen rather than seen, and not unsafe here.
std::string pick(const Protocol& protocol, const std::vector<std::string>& acts,
                 const std::vector<Bound>& unsafe) {
    const auto is_unsafe = [&](const std::string& act) {
        return std::any_of(unsafe.begin(), unsafe.end(), [&](const Bound& b) {
            return std::find(b.acts.begin(), b.acts.end(), act) != b.acts.end();
        });
    };
    for (const std::string& act : acts)
        if (chosen(protocol, act) && !is_unsafe(act)) return act;
    return is_unsafe(acts.front()) ? "" : acts.front();
}

}  // namespace

void Answering::answer(const Belief& belief) {
    for (int round = 0; round < most_rounds && a_.left_s() > 2; ++round)
        if (!answer_once(belief)) return;
}

bool Answering::answer_once(const Belief& belief) {
    const Played played = a_.now();
    const Picture picture = belief.of(a_.scenario, a_.protocol, played);
    const auto bound = bound_rules(a_.scenario, a_.protocol, played, picture, Grade::expected);
    const auto unsafe = bound_rules(a_.scenario, a_.protocol, played, picture, Grade::unsafe);
    struct Due {
        double at_s, limit_s;
        std::string act;
        bool anew;
    };
    std::vector<Due> todo;
    for (const Asked& asked : asked_once(bound)) {
        const std::string act = pick(a_.protocol, asked.acts, unsafe);
        if (act.empty() || act == "record_findings") continue;
        const bool anew = act == "feel_pulse" && pulse_is_old(asked);
        if (settled_.count(act) && !anew) continue;
        if (act == "continue_routine" && !routine_) continue;
        double at_s = never_s, limit_s = 0;
        for (const Bound* b : asked.by)
            if (b->rule->within.value > 0 && b->from.seconds() + b->rule->within.value < at_s) {
                at_s = b->from.seconds() + b->rule->within.value;
                limit_s = at_s;
            }
        if (act == "feel_pulse")
            for (const Bound* b : asked.by) pulse_for_.insert(b->rule->situation);
        todo.push_back({at_s, limit_s, act, anew});
    }
    std::stable_sort(todo.begin(), todo.end(), [](const Due& a, const Due& b) { return a.at_s < b.at_s; });
    for (const Due& due : todo) {
        if (due.act == "examine_inside" && findings_awaited(played)) return true;
        settled_.insert(due.act);
        const std::uint32_t nth = asked_++;
        if (a_.draws.forgets(a_.counter, nth)) continue;
        if (due.limit_s > 0 && a_.draws.late(a_.counter, nth)) {
            late_.push_back({std::max(a_.t, due.limit_s) + too_late_s, due.act});
            continue;
        }
        if (due.anew) a_.pulse_bpm = 0;
        do_one(due.act);
    }
    return !todo.empty();
}

// Her pulse felt before the heart fell says nothing of a heart that has fallen since. Once for each trouble.
bool Answering::pulse_is_old(const Asked& asked) const {
    double felt_s = -1;
    for (const Event& e : a_.events)
        if (e.what == Do::report_pulse) felt_s = e.t.seconds();
    return felt_s >= 0 && std::any_of(asked.by.begin(), asked.by.end(), [&](const Bound* b) {
               return b->rule->situation != "normal" && b->rule->situation != "always" &&
                      b->from.seconds() - a_.protocol.baseline_needs.value > felt_s &&
                      !pulse_for_.count(b->rule->situation);
           });
}

// Nobody examines inside before it is known whether she bleeds.
bool Answering::findings_awaited(const Played& played) {
    double done_s = 0;
    for (const TimedAct& act : played.acts)
        if (act.id == "check_bleeding") done_s = std::max(done_s, act.done_at.seconds());
    if (done_s < a_.t) return false;
    a_.until(done_s + 1);
    return a_.t > done_s;
}

void Answering::do_one(const std::string& act) {
    if (chosen(a_.protocol, act)) return a_.act(act);
    if (act == "feel_pulse") {
        if (a_.pulse_bpm > 0) return;
        a_.wrist();
        a_.until(a_.t + 16);
        a_.report_pulse();
    } else if (act == "write_referral_note") {
        a_.hand_over();
    }
    // The rest shows in how it listens.
}

double Answering::next_late_s() const {
    double next = never_s;
    for (const LateAct& l : late_) next = std::min(next, l.at_s);
    return next;
}

void Answering::do_late() {
    for (std::size_t i = 0; i < late_.size();) {
        if (late_[i].at_s > a_.t) {
            ++i;
            continue;
        }
        const std::string act = late_[i].act;
        late_.erase(late_.begin() + static_cast<std::ptrdiff_t>(i));
        if (act == "feel_pulse") a_.pulse_bpm = 0;
        do_one(act);
    }
}

}  // namespace engine
