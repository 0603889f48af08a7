#include "ui/terminal/passrule.h"

#include "engine/drawing/drawing.h"
#include "ui/terminal/commands.h"
#include "ui/terminal/input_output.h"
#include "ui/terminal/option_checks.h"
#include "ui/terminal/report_print.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <tuple>
#include <utility>

namespace ui {
namespace {

std::vector<engine::TrialStation> drawn_form(const PassRuleOptions& options,
                                             const engine::Protocol& protocol) {
    const std::string path = quota_path(options.quota);
    const engine::Quota quota = or_refuse(engine::read_quota(read_file(path), path));
    std::vector<engine::TrialStation> form;
    for (const engine::DrawnScenario& one : or_refuse(engine::draw(quota, protocol, the_seed(options.seed))))
        form.push_back(
            or_refuse(engine::trial_station(or_refuse(engine::read_scenario(one.text, one.id)), protocol)));
    return form;
}

constexpr std::size_t most_levels = 60;
constexpr int most_stations = 500;  // as the rule itself

// Every kind of candidate asked for: each loss with each share of guesses, and so on.
std::vector<engine::SyntheticCounter> kinds_of(const PassRuleOptions& o) {
    std::vector<engine::SyntheticCounter> kinds;
    const std::size_t many =
        o.lost.size() * o.guesses.size() * o.misreads.size() * o.forgets.size() * o.takes_hers.size();
    if (many > most_levels) refuse("levels", std::to_string(many), "at most " + std::to_string(most_levels));
    engine::SyntheticCounter one = o.counter;
    for (const double hers : o.takes_hers)
        for (const double forgets : o.forgets)
            for (const double misreads : o.misreads)
                for (const double guesses : o.guesses)
                    for (const double lost : o.lost) {
                        one.lost = lost, one.guesses = guesses, one.misreads = misreads;
                        one.forgets = forgets, one.takes_hers = hers;
                        kinds.push_back(one);
                    }
    return kinds;
}

void refuse_faulty(const engine::SyntheticCounter& one) {
    const char* why = engine::fault_of(one);
    if (!*why) return;
    engine::SyntheticCounter counts_only;
    counts_only.lost = one.lost, counts_only.guesses = one.guesses;
    counts_only.pull = one.pull, counts_only.watch_sd_s = one.watch_sd_s;
    if (*engine::fault_of(counts_only))
        refuse("--lost, --guesses, --pull, --watch-sd",
               fmt::format("{:g}, {:g}, {:g}, {:g}", one.lost, one.guesses, one.pull, one.watch_sd_s), why);
    refuse("--misreads, --forgets, --late, --takes-hers",
           fmt::format("{:g}, {:g}, {:g}, {:g}", one.misreads, one.forgets, one.late, one.takes_hers), why);
}

}  // namespace

void add_passrule(CLI::App& app, PassRuleOptions& options, std::function<int()>& chosen) {
    CLI::App* c = app.add_subcommand("passrule", "A pass rule's error rates, before anyone is tested");
    c->footer(
        "The rule: enough stations right, no confirmed critical miss, not too many normals called abnormal.\n"
        "With --candidates, made-up ones are put through drawn stations of any task, judged as anybody is.\n"
        "Examples: fullminute passrule --candidates 200 --lost 0,0.5,1 --json\n"
        "          fullminute passrule --quota year-check --candidates 20 --misreads 0,0.3 --forgets 0.1");
    engine::RuleAsked& a = options.asked;
    const auto number = [&](const char* name, auto& into, const char* does) {
        c->add_option(name, into, does)->capture_default_str();
    };
    number("--must-fail", a.levels.must_fail, "share right that must not pass");
    number("--must-pass", a.levels.must_pass, "share right that must pass");
    number("--false-pass", a.false_pass, "chance of a false pass, at most");
    number("--false-fail", a.false_fail, "chance of a false fail, at most");
    c->add_option("--items", a.items, "stations; default the fewest whose mark alone keeps to both chances")
        ->check(whole_from(1, most_stations));
    c->add_option("--mark", a.mark, "stations right to pass")->check(whole_from(1, most_stations));
    c->add_option("--normals", a.normals, "normal stations; default 14 in 25, or as drawn")
        ->check(whole_from(0, most_stations));
    c->add_option("--least-normals", a.least_normals_passed,
                  "normals not over-called; default all but 3 in 14")
        ->check(whole_from(0, most_stations));
    c->add_option("--critical", a.critical, "stations that must not be missed; default 8 in 25, or as drawn")
        ->check(whole_from(0, most_stations));
    c->add_flag("--no-redraw", options.no_redraw, "one critical miss fails, no second station");
    number("--wrong-normal", a.wrong.over_called, "share of wrong normals that are over-called");
    number("--wrong-critical", a.wrong.missed, "share of wrong critical stations that are critical misses");
    number("--candidates", options.candidates, "made-up candidates a level, up to 10000; 0 tries nobody");
    c->add_option("--lost", options.lost,
                  "levels: beats lost, times the usual of an untrained ear; default 0,0.5,1")
        ->delimiter(',');
    c->add_option("--guesses", options.guesses, "levels: share of stations guessed; default 0")
        ->delimiter(',');
    number("--pull", options.counter.pull, "share of the way to 140 by which counts are drawn");
    number("--watch-sd", options.counter.watch_sd_s, "seconds, of each edge of the window");
    const auto levels = [&](const char* name, std::vector<double>& into, const char* does) {
        c->add_option(name, into, does)->delimiter(',');
    };
    levels("--misreads", options.misreads,
           "levels: share of stations where contractions are misread; default 0");
    levels("--forgets", options.forgets, "levels: share of the acts asked for that are forgotten; default 0");
    levels("--takes-hers", options.takes_hers,
           "levels: share of finding and telling apart where her beat is taken for the baby's; default 0");
    number("--late", options.counter.late, "share of the acts with a limit that come after it");
    number("--quota", options.quota, "the stations: a quota file or id, any tasks (count-check, year-check)");
    c->add_option("--protocol", options.protocol, "a protocol file or id; default who-2018");
    c->add_option("--seed", options.seed, "0 to 9007199254740991")->check(a_seed())->capture_default_str();
    c->add_flag("--json", options.json, "as JSON");
    c->callback([&options, &chosen] { chosen = [&options] { return passrule(options); }; });
}

int passrule(const PassRuleOptions& options) {
    engine::RuleAsked asked = options.asked;
    asked.redraw = !options.no_redraw;
    if (options.candidates < 0 || options.candidates > 10'000)
        refuse("--candidates", std::to_string(options.candidates), "0 to 10000");
    std::vector<engine::TrialStation> form;
    const engine::Protocol protocol = the_protocol(options.protocol);
    if (options.candidates == 0) {  // nothing is drawn, but a name that is none is none
        const std::string path = quota_path(options.quota);
        or_refuse(engine::read_quota(read_file(path), path));
    } else {
        form = drawn_form(options, protocol);
        const auto drawn = [&](engine::StationKind kind) {
            return static_cast<int>(
                std::count_if(form.begin(), form.end(), [&](const auto& s) { return s.kind == kind; }));
        };
        for (const auto& [asked_for, kind, name] :
             {std::tuple{&asked.normals, engine::StationKind::normal, "--normals"},
              std::tuple{&asked.critical, engine::StationKind::critical, "--critical"}}) {
            if (*asked_for >= 0 && *asked_for != drawn(kind))
                refuse(name, std::to_string(*asked_for), "as drawn, " + std::to_string(drawn(kind)));
            *asked_for = drawn(kind);
        }
    }
    const engine::PlannedRule rule = or_refuse(engine::planned_rule(asked));
    if (!form.empty() && static_cast<int>(form.size()) != rule.fixed.items)
        refuse("--quota", std::to_string(form.size()) + " stations",
               "as many as the rule has, " + std::to_string(rule.fixed.items));
    const std::vector<engine::SyntheticCounter> kinds = kinds_of(options);
    std::for_each(kinds.begin(), kinds.end(), refuse_faulty);
    std::vector<engine::TrialLevel> levels;
    if (options.candidates > 0)
        for (const engine::SyntheticCounter& one : kinds)
            levels.push_back(engine::try_rule(form, protocol, rule.joined, one, options.candidates,
                                              the_seed(options.seed)));
    engine::Report report = engine::rule_report(asked, rule);
    if (!levels.empty()) report.part("tried", engine::trial_report(rule, form, levels));
    print_report(engine::with_level(std::move(report)), options.json);
    return fine;
}

}  // namespace ui
