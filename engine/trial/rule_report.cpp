#include "engine/trial/rule_report.h"

#include "engine/competency/forms.h"
#include "engine/competency/proportions.h"

#include <array>
#include <cstdio>
#include <optional>

namespace engine {
namespace {

std::string plain(double x) {
    char text[32];
    std::snprintf(text, sizeof text, "%g", x);
    return text;
}

bool inside(double p) { return p > 0 && p < 1; }
bool share(double p) { return p >= 0 && p <= 1; }

int or_default(int asked, int by_default) { return asked < 0 ? by_default : asked; }

constexpr int most_stations = 500, longest_searched = 100;
constexpr std::array<long long, 3> yearly{14, 8, 3};  // normal, critical and plain stations of 25

// The normals, critical ones and normals to pass that were asked for, the others in the yearly proportion.
void share_out(const RuleAsked& asked, PlannedRule& plan) {
    const std::vector<int> usual = quotas(plan.fixed.items, yearly);
    plan.normals = or_default(asked.normals, usual[0]);
    plan.critical = or_default(asked.critical, usual[1]);
    plan.joined = {plan.fixed.mark,
                   or_default(asked.least_normals_passed, plan.normals - plan.normals * 3 / 14),
                   asked.redraw};
}

// The shortest plan whose three parts together keep to both chances; its mark is the lowest that does.
std::optional<PlannedRule> shortest_whole(const RuleAsked& asked) {
    for (int items = 1; items <= longest_searched; ++items)
        for (int mark = 1; mark <= items; ++mark) {
            PlannedRule plan;
            plan.fixed = {items, mark};
            share_out(asked, plan);
            if (plan.normals + plan.critical > items) break;
            if (plan.fixed.passes(asked.levels.must_pass) < 1 - asked.false_fail) break;  // nor any higher
            const auto passing = [&](double ability) {
                const auto stations = plan.stations(ability, asked.wrong);
                return fault_of(plan.joined, stations).empty() ? passes(plan.joined, stations).passes : -1;
            };
            const double falsely = passing(asked.levels.must_fail);
            if (falsely < 0) break;
            if (falsely > asked.false_pass) continue;
            if (passing(asked.levels.must_pass) >= 1 - asked.false_fail) return plan;
            break;
        }
    return std::nullopt;
}

}  // namespace

std::vector<StationChances> PlannedRule::stations(double ability, const WrongShares& wrong) const {
    return alike_stations(ability, normals, critical, fixed.items - normals - critical, wrong);
}

Outcome<PlannedRule> planned_rule(const RuleAsked& asked) {
    std::vector<Fault> faults;
    const auto fault = [&](const char* option, std::string found, std::string allowed) {
        faults.push_back({"", 0, option, std::move(found), std::move(allowed)});
    };
    if (const std::string why = fault_of(asked.levels); !why.empty())
        fault("--must-fail, --must-pass",
              plain(asked.levels.must_fail) + ", " + plain(asked.levels.must_pass), why);
    if (!inside(asked.false_pass)) fault("--false-pass", plain(asked.false_pass), "between 0 and 1");
    if (!inside(asked.false_fail)) fault("--false-fail", plain(asked.false_fail), "between 0 and 1");
    if (!share(asked.wrong.over_called)) fault("--wrong-normal", plain(asked.wrong.over_called), "0 to 1");
    if (!share(asked.wrong.missed)) fault("--wrong-critical", plain(asked.wrong.missed), "0 to 1");
    if ((asked.items == 0) != (asked.mark == 0))
        fault("--items, --mark", std::to_string(asked.items) + ", " + std::to_string(asked.mark),
              "both or neither");
    if (asked.items < 0 || asked.items > most_stations)
        fault("--items", std::to_string(asked.items), "1 to " + std::to_string(most_stations));
    if (!faults.empty()) return faults;

    PlannedRule plan;
    plan.fixed = {asked.items, asked.mark};
    if (asked.items == 0) {
        const Design design = design_fixed(asked.levels, asked.false_pass, asked.false_fail);
        if (!design.items || *design.items > most_stations)
            return Fault{"", 0, "--must-fail, --must-pass",
                         design.items ? plain(*design.items) + " items" : design.items.why(),
                         "levels that " + std::to_string(most_stations) + " items can tell apart"};
        plan.fixed = design.rule.rule;
    }
    share_out(asked, plan);
    if (plan.normals + plan.critical > plan.fixed.items)
        return Fault{"", 0, "--normals, --critical",
                     std::to_string(plan.normals) + ", " + std::to_string(plan.critical),
                     "together at most the stations, " + std::to_string(plan.fixed.items)};
    if (const std::string why = fault_of(plan.joined, plan.stations(0.5, asked.wrong)); !why.empty())
        return Fault{
            "", 0, "--mark, --least-normals",
            std::to_string(plan.joined.mark) + ", " + std::to_string(plan.joined.least_normals_passed), why};
    return plan;
}

Report rule_report(const RuleAsked& asked, const PlannedRule& rule) {
    const auto joined = [&](double ability) {
        return passes(rule.joined, rule.stations(ability, asked.wrong));
    };
    Report r;
    r.put("items", rule.fixed.items).put("mark", rule.fixed.mark);
    r.put("normals", rule.normals).put("least_normals_passed", rule.joined.least_normals_passed);
    r.put("critical", rule.critical).words("redraw", rule.joined.redraw ? "yes" : "no");
    r.put("must_fail", asked.levels.must_fail).put("must_pass", asked.levels.must_pass);
    r.put("false_pass", rule.fixed.passes(asked.levels.must_fail));
    r.put("false_fail", 1 - rule.fixed.passes(asked.levels.must_pass));
    r.put("joined_false_pass", joined(asked.levels.must_fail).passes);
    r.put("joined_false_fail", 1 - joined(asked.levels.must_pass).passes);
    const std::optional<PlannedRule> whole = shortest_whole(asked);
    const Figure none = Figure::absent("no length up to " + std::to_string(longest_searched) +
                                       " keeps all three parts together to both chances: with every "
                                       "critical station there is one more to miss");
    r.put("items_for_the_whole_rule", whole ? Figure(whole->fixed.items) : none);
    r.put("mark_for_the_whole_rule", whole ? Figure(whole->fixed.mark) : none);
    r.put("wrong_normal_over_called", asked.wrong.over_called)
        .put("wrong_critical_missed", asked.wrong.missed);
    Report::Rows rows;
    for (int p = 50; p <= 100; p += p < 90 ? 5 : p < 98 ? 2 : 1) {
        const double ability = p / 100.0;
        const JoinedPass j = joined(ability);
        Report one;
        one.put("ability", ability).put("mark_alone", rule.fixed.passes(ability)).put("joined", j.passes);
        one.put("no_confirmed_miss", j.no_confirmed_miss).put("normals_passed", j.enough_normals_passed);
        rows.push_back(one.put("same_twice", rule.fixed.same_twice(ability)));
    }
    r.rows("curve", rows);
    r.remark("stations independent given the ability; one try");
    return r.remark(
        "after a fail: practice by the kind of error, then another form; at most two tries, then a person "
        "decides");
}

namespace {

// What the stations of one task showed, all candidates together.
Report::Rows by_task(std::span<const TrialStation> form, const TrialLevel& level) {
    Report::Rows rows;
    for (const Task task :
         {Task::count, Task::quick, Task::find, Task::tell_apart, Task::pattern, Task::labour}) {
        int stations = 0, tried = 0, normal = 0, critical = 0, right = 0, over_called = 0, missed = 0;
        for (std::size_t s = 0; s < form.size(); ++s) {
            if (form[s].scenario.task != task) continue;
            const StationTally& tally = level.stations[s];
            ++stations;
            tried += tally.tried;
            right += tally.right;
            over_called += tally.over_called;
            missed += tally.missed;
            if (form[s].kind == StationKind::normal) normal += tally.tried;
            if (form[s].kind == StationKind::critical) critical += tally.tried;
        }
        if (stations == 0) continue;
        const auto share_of = [](int n, int of, const char* none) {
            return of > 0 ? Figure{static_cast<double>(n) / of} : Figure::absent(none);
        };
        Report one;
        one.words("task", std::string(name_of(task))).put("stations", stations);
        one.put("right", share_of(right, tried, "nobody was tried"));
        if (tried > 0) one.put("right", wilson(right, tried));
        one.put("over_called", share_of(over_called, normal, "no normal station"));
        rows.push_back(one.put("missed", share_of(missed, critical, "no critical station")));
    }
    return rows;
}

}  // namespace

Report trial_report(const PlannedRule& rule, std::span<const TrialStation> form,
                    std::span<const TrialLevel> levels) {
    Report::Rows rows;
    for (const TrialLevel& level : levels) {
        Report one;
        one.put("lost", level.counter.lost)
            .put("guesses", level.counter.guesses)
            .put("pull", level.counter.pull);
        one.put("watch_sd_s", level.counter.watch_sd_s).put("misreads", level.counter.misreads);
        one.put("forgets", level.counter.forgets).put("late", level.counter.late);
        one.put("takes_hers", level.counter.takes_hers).put("candidates", level.candidates);
        one.put("share_right", level.share_right);
        const double n = level.candidates;
        one.put("mark_alone", level.enough_right / n).put("mark_alone", level.enough_right_interval());
        one.put("mark_alone_binomial", level.binomial(rule.joined));
        one.put("joined", level.passed / n).put("joined", level.passed_interval());
        const std::vector<StationChances> own = level.chances(form);
        const JoinedPass exact = passes(rule.joined, own);
        one.put("mark_alone_from_rates_seen", exact.enough_right).put("joined_from_rates_seen", exact.passes);
        one.put("redrawn", level.redrawn).put("missed_again", level.missed_again);
        rows.push_back(one.rows("by_task", by_task(form, level)));
    }
    Report r;
    r.put("stations", form.size()).rows("levels", rows);
    r.remark("made-up counters: how a rule behaves, not how people do");
    r.remark(
        "from rates seen: exact for the rates each station showed, which few candidates show only roughly; "
        "binomial: every station at the mean rate");
    return r.remark(
        "by task: answers of one candidate hang together, so the intervals there are narrower than they "
        "should "
        "be");
}

}  // namespace engine
