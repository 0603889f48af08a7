#include "engine/scoring/expected.h"

#include <algorithm>
#include <array>
#include <optional>

namespace engine {

namespace {

constexpr std::array<std::string_view, 2> shown_by_care = {"greet_and_ask", "explain_findings"};

constexpr std::array<std::string_view, 9> takes_a_labour = {
    "listen_through",     "listen_three_contractions", "listen_more_often",
    "count_contractions", "prepare_newborn_help",      "arrange_transfer",
    "go_with_her",        "write_referral_note",       "take_blood_pressure"};

constexpr double within_a_short_task_s = 15 * 60;  // what is due later than this lies beyond it [practice]

template <std::size_t n>
bool one_of(const std::array<std::string_view, n>& list, std::string_view word) {
    return std::find(list.begin(), list.end(), word) != list.end();
}

bool here(const Scenario& scenario, std::string_view act) {
    if (act == "change_instrument") return scenario.place.instruments.size() > 1;
    if (act == "second_listener") return scenario.place.helpers > 0;
    if (act == "start_drip") return scenario.place.drip_stand;
    // Without a watch there is no rate: nothing to count, and nothing that could be called routine.
    if (act == "count_full_minute" || act == "continue_routine") return scenario.place.watch;
    return true;
}

// The scenario goes on for three more contractions and what there is to hear after them.
bool three_more_contractions(const Scenario& scenario, const Played& played, sim::LabourTime from) {
    int more = 0;
    std::optional<sim::LabourTime> before;
    sim::LabourTime last = from, gap{0};
    for (const Contraction& c : played.contractions) {
        if (before) gap = {c.peak.us - before->us};
        before = c.peak;
        if (c.from >= from) ++more;
        last = std::max(last, c.peak);
    }
    // The course may end with the attempt; beyond it the contractions come as before.
    const std::int64_t end = sim::labour_time(scenario.length).us;
    while (gap.us > 0 && more < 3 && last.us + gap.us + 60'000'000 < end) {
        last.us += gap.us;
        ++more;
    }
    return more >= 3;
}

void add_once(std::vector<std::string>& list, const std::string& word) {
    if (!word.empty() && std::find(list.begin(), list.end(), word) == list.end()) list.push_back(word);
}

bool same_acts(const std::vector<std::string>& a, const std::vector<std::string>& b) {
    return a.size() == b.size() && std::is_permutation(a.begin(), a.end(), b.begin());
}

// The single act answers the group, and is due no later.
bool answers(const Asked& single, const Asked& group) {
    if (single.acts.size() != 1 || group.acts.size() < 2) return false;
    if (std::find(group.acts.begin(), group.acts.end(), single.acts[0]) == group.acts.end()) return false;
    if (group.critical() && !single.critical()) return false;
    const double asked = group.shortest_within_s(), due = single.shortest_within_s();
    return asked <= 0 || (due > 0 && due <= asked);
}

}  // namespace

bool lifts(std::string_view condition, const Scenario& scenario, const Played& played, const Picture& picture,
           const Known& known) {
    const bool bleeds = picture.has("bleeding");
    if (condition == "drip_not_running") return !played.patient.labour.oxytocin_drip;
    if (condition == "not_on_her_back") return !flat_at(played, known.from) && !picture.has("lying_flat");
    if (condition == "not_pushing") return !played.patient.labour.pushing;
    // an attempt always begins with its first listening
    if (condition == "not_first_listening") return false;
    if (condition == "birth_close") return birth_close(scenario, played);
    if (condition == "birth_not_close") return !birth_close(scenario, played);
    if (condition == "bleeding") return bleeds;
    if (condition == "no_bleeding") return !bleeds;
    if (condition == "theatre_here") return scenario.place.minutes_to_theatre <= 30;
    if (condition == "alone") return scenario.place.helpers == 0;
    if (condition == "not_licensed") return scenario.place.trainee < Licence::licensed;
    if (condition == "not_trained") return scenario.place.trainee < Licence::trained;
    if (condition == "cord_seen") return picture.has("cord_prolapse");
    if (condition == "not_worsened") return !known.worse_from;
    if (condition == "not_heard_before")
        return std::none_of(scenario.chart.begin(), scenario.chart.end(),
                            [](const ChartLine& line) { return line.bpm > 0; });
    return false;
}

bool task_asks(const Scenario& scenario, const Played& played, const Known& known, const Rule& rule,
               std::string_view act) {
    if (scenario.task == Task::labour || scenario.task == Task::pattern) return true;
    if (known.situation == "lying_across" && act == "arrange_transfer") return true;
    if (known.situation == "slow_after_contraction" && act == "listen_three_contractions")
        return three_more_contractions(scenario, played, known.from);
    return !one_of(takes_a_labour, act) && rule.within.value <= within_a_short_task_s;
}

bool may_do(const Scenario& scenario, const Protocol& protocol, std::string_view act) {
    const ActWords* words = protocol.act(act);
    if (!words || words->who <= scenario.place.trainee) return true;
    return act == "lift_the_part" && scenario.place.helpers == 0;  // any hand that is there must do it
}

namespace {

sim::LabourTime clock_of(const Rule& rule, const Known& known) {
    sim::LabourTime from = known.from;
    for (const std::string& condition : rule.unless)
        if (condition == "not_worsened" && known.worse_from) from = std::max(from, *known.worse_from);
    return from;
}

}  // namespace

std::vector<Bound> bound_rules(const Scenario& scenario, const Protocol& protocol, const Played& played,
                               const Picture& picture, Grade grade) {
    std::vector<Bound> bound;
    std::vector<std::string> unsafe;
    if (grade == Grade::expected)
        for (const Bound& b : bound_rules(scenario, protocol, played, picture, Grade::unsafe))
            unsafe.insert(unsafe.end(), b.acts.begin(), b.acts.end());
    for (const Rule& rule : protocol.rules) {
        if (rule.grade != grade) continue;
        const Known* known = picture.find(rule.situation);
        if (!known) continue;
        // A sound heart in a baby that does not lie head down: the heart asks for nothing more, the lie does.
        const bool not_routine =
            rule.situation == "normal" && (picture.has("breech") || picture.has("lying_across"));
        if (std::any_of(rule.unless.begin(), rule.unless.end(), [&](const std::string& condition) {
                return lifts(condition, scenario, played, picture, *known);
            }))
            continue;
        Bound b{&rule, {}, known, clock_of(rule, *known)};
        for (const std::string& act : rule.acts) {
            const bool asked = !one_of(shown_by_care, act) &&
                               task_asks(scenario, played, *known, rule, act) && here(scenario, act) &&
                               may_do(scenario, protocol, act) &&
                               !(act == "assist_birth_now" && !birth_close(scenario, played)) &&
                               !(not_routine && act == "continue_routine") &&
                               std::find(unsafe.begin(), unsafe.end(), act) == unsafe.end();
            if (grade != Grade::expected || asked) b.acts.push_back(act);
        }
        if (!b.acts.empty()) bound.push_back(std::move(b));
    }
    return bound;
}

bool Asked::critical() const {
    return std::any_of(by.begin(), by.end(), [](const Bound* b) { return b->rule->critical; });
}

double Asked::shortest_within_s() const {
    double shortest = 0;
    for (const Bound* b : by)
        if (const double s = b->rule->within.value; s > 0 && (shortest <= 0 || s < shortest)) shortest = s;
    return shortest;
}

std::vector<std::string> Asked::situations() const {
    std::vector<std::string> all;
    for (const Bound* b : by) add_once(all, b->rule->situation);
    return all;
}

std::vector<std::string> Asked::sources() const {
    std::vector<std::string> all;
    for (const Bound* b : by)
        for (const std::string& source : b->rule->sources) add_once(all, source);
    return all;
}

std::string Asked::conflict() const {
    std::vector<std::string> all;
    for (const Bound* b : by) add_once(all, b->rule->conflict);
    std::string joined;
    for (const std::string& one : all) joined += (joined.empty() ? "" : " ") + one;
    return joined;
}

std::vector<Asked> asked_once(const std::vector<Bound>& bound) {
    std::vector<Asked> all, kept;
    for (const Bound& b : bound) {
        const auto same =
            std::find_if(all.begin(), all.end(), [&](const Asked& a) { return same_acts(a.acts, b.acts); });
        if (same != all.end())
            same->by.push_back(&b);
        else
            all.push_back({b.acts, {&b}});
    }
    for (const Asked& group : all)
        for (Asked& single : all)
            if (answers(single, group)) single.by.insert(single.by.end(), group.by.begin(), group.by.end());
    for (const Asked& a : all)
        if (std::none_of(all.begin(), all.end(), [&](const Asked& single) { return answers(single, a); }))
            kept.push_back(a);
    return kept;
}

}  // namespace engine
