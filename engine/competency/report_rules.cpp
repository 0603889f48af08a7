#include "engine/competency/learning.h"
#include "engine/competency/learning_curve.h"
#include "engine/competency/pass_rule.h"
#include "engine/competency/reports.h"
#include "engine/competency/standards.h"
#include "engine/competency/tolerance.h"

#include <cmath>
#include <set>
#include <utility>

namespace engine {

std::string as_typed(double found) {
    std::string text = std::to_string(found);
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text;
}

namespace {

Fault option(const std::string& name, double found, const std::string& allowed) {
    return {"", 0, name, as_typed(found), allowed};
}

// After the signal: an alarm at 4 offers practice; within 50 attempts of an adequate trainee .05 [practice].
constexpr double monitoring_threshold = 4;
constexpr int monitoring_attempts = 50;

bool inside(double share) { return share > 0 && share < 1; }

const char* name_of(PassDecision v) {
    return v == PassDecision::pass ? "pass" : v == PassDecision::fail ? "fail" : "not decided";
}

}  // namespace

Outcome<Report> learning_report(const FiguresAsked& asked, const Table& t) {
    const FailureRates rates{asked.acceptable, asked.unacceptable};
    std::vector<Fault> faults;
    if (const std::string fault = fault_of(rates); !fault.empty())
        faults.push_back({"", 0, "--acceptable, --unacceptable",
                          as_typed(asked.acceptable) + ", " + as_typed(asked.unacceptable), fault});
    if (asked.attempts < 1 || asked.attempts > most_chart_attempts)
        faults.push_back(option("--attempts", asked.attempts, "1 to " + std::to_string(most_chart_attempts)));
    if (!inside(asked.false_signal))
        faults.push_back(option("--false-signal", asked.false_signal, "between 0 and 1"));
    if (!faults.empty()) return faults;

    const Figure h = threshold_for(rates, asked.attempts, asked.false_signal);
    Report r;
    // So few that even all of them right comes by chance more often than is asked.
    const double needed = std::ceil(std::log(asked.false_signal) / std::log1p(-rates.unacceptable));
    const bool reachable = asked.attempts >= needed;
    r.put("attempts", asked.attempts)
        .put("threshold",
             reachable ? h
                       : Figure::absent("none can be reached: at least " +
                                        std::to_string(static_cast<int>(needed)) + " attempts are needed"));
    const auto falsely = learning_signal(rates, *h, rates.unacceptable, asked.attempts);
    const auto truly = learning_signal(rates, *h, rates.acceptable, asked.attempts);
    r.put("false_signal", falsely.back()).put("true_signal", truly.back());
    r.put("median_attempts", median_attempts(truly));
    r.put("monitoring_threshold", monitoring_threshold);
    r.put("false_alarm_within_50",
          monitoring_signal(rates, monitoring_threshold, rates.acceptable, monitoring_attempts).back());
    std::vector<std::vector<bool>> by(1);
    const Column *who = t.find("who"), *item = t.find("item");
    if (who != nullptr) by.resize(who->names.size());
    std::set<std::pair<std::size_t, std::size_t>> seen;
    for (std::size_t i = 0; i < t.rows; ++i) {
        const std::size_t person = who == nullptr ? 0 : who->words[i];
        if (item != nullptr && !seen.insert({person, item->words[i]}).second) continue;
        by[person].push_back(t["right"].numbers[i] > 0);
    }
    if (item != nullptr && seen.size() < t.rows)
        r.remark("left out, an item seen before is not independent: " + std::to_string(t.rows - seen.size()) +
                 (t.rows - seen.size() == 1 ? " row" : " rows"));
    Report::Rows rows;
    for (std::size_t p = 0; p < by.size(); ++p) {
        Chart chart = learning_chart(rates, *h, by[p]);
        Report one;
        if (who != nullptr) one.words("name", who->names[p]);
        const bool late = chart.signal_at > asked.attempts;
        one.put("n", by[p].size());
        one.put("adequate_at", chart.signal_at == 0 ? Figure::absent("no signal yet")
                               : late ? Figure::absent("only after the attempts the threshold is tied to")
                                      : Figure(static_cast<double>(chart.signal_at)));
        if (chart.signal_at > 0 && !late) {
            Chart after =
                monitoring_chart(rates, monitoring_threshold, {by[p].begin() + chart.signal_at, by[p].end()});
            one.put("practice_offered_at", after.signal_at == 0
                                               ? Figure::absent("no alarm since")
                                               : Figure(chart.signal_at + after.signal_at * 1.0));
            one.numbers("monitoring", std::move(after.s));
        }
        rows.push_back(one.numbers("s", std::move(chart.s)));
    }
    return r.rows("persons", rows);
}

Outcome<Report> curve_report(const FiguresAsked&, const Table& t) {
    Report r;
    r.put("n", t.rows);
    Report::Rows rows;
    for (const Curve& c : fit_curves(t["size"].numbers)) {
        Report one;
        one.words("shape", name_of(c.shape))
            .put("a", c.a)
            .put("a_error", c.a_error)
            .put("b", c.b)
            .put("c", c.c);
        rows.push_back(one.put("residual_squares", c.residual_squares).put("aicc", c.aicc).remark(c.remark));
    }
    r.rows("curves", rows);
    if (const Column* right = t.find("right")) {
        const PassingCurve p = fit_passing(std::vector<bool>(right->numbers.begin(), right->numbers.end()));
        Report one;
        one.put("b0", p.b0).put("b1", p.b1).put("b1_error", p.b1_error).put("b1_p", p.b1_p);
        r.part("passing", one.put("attempts_to_90_percent", p.attempts_to(0.9)).remark(p.remark));
    }
    return r;
}

Outcome<Report> passrule_report(const FiguresAsked& asked, const Table& t) {
    Report::Rows rows;
    std::vector<Fault> faults;
    for (std::size_t i = 0; i < t.rows; ++i) {
        const auto cell = [&](const char* name, double otherwise) {
            const Column* c = t.find(name);
            return c == nullptr ? otherwise : c->numbers[i];
        };
        const AbilityLevels levels{t["must_fail"].numbers[i], t["must_pass"].numbers[i]};
        if (const std::string why = fault_of(levels); !why.empty()) {
            faults.push_back(t.fault(i, "must_fail, must_pass",
                                     as_typed(levels.must_fail) + ", " + as_typed(levels.must_pass), why));
            continue;
        }
        const Design d =
            design_fixed(levels, cell("false_pass", asked.false_pass), cell("false_fail", asked.false_fail));
        Report one;
        one.put("must_fail", levels.must_fail).put("must_pass", levels.must_pass).put("items", d.items);
        if (d.items) {
            const FixedRule rule = d.rule.rule;
            one.put("mark", rule.mark)
                .put("false_pass", d.rule.false_pass)
                .put("false_fail", d.rule.false_fail);
            std::vector<double> ability, passes;
            for (int p = 50; p <= 100; p += 5)
                ability.push_back(p / 100.0), passes.push_back(rule.passes(p / 100.0));
            one.numbers("ability", ability).numbers("passes", passes);
            for (const int tries : {2, 3}) {
                const std::string in = "_in_" + std::to_string(tries);
                one.put("false_pass" + in, passes_within(d.rule.false_pass, tries));
                one.put("false_pass_a_try" + in,
                        false_pass_a_try(cell("false_pass", asked.false_pass), tries));
            }
        }
        rows.push_back(one);
    }
    if (!faults.empty()) return faults;
    Report r;
    return r.rows("rules", rows);
}

Outcome<Report> sequential_report(const FiguresAsked& asked, const Table& t) {
    std::vector<Fault> faults;
    const SequentialRule rule{
        {asked.must_fail, asked.must_pass}, asked.false_pass, asked.false_fail, asked.least, asked.most};
    if (const std::string fault = fault_of(rule.levels); !fault.empty())
        faults.push_back({"", 0, "--must-fail, --must-pass",
                          as_typed(asked.must_fail) + ", " + as_typed(asked.must_pass), fault});
    if (!inside(asked.false_pass) || !inside(asked.false_fail) || asked.false_pass + asked.false_fail >= 1)
        faults.push_back({"", 0, "--false-pass, --false-fail",
                          as_typed(asked.false_pass) + ", " + as_typed(asked.false_fail),
                          "above 0, together below 1"});
    if (asked.least < 0 || asked.most < 0 || (asked.most > 0 && asked.least > asked.most) ||
        asked.most > 10'000)
        faults.push_back({"", 0, "--least, --most",
                          std::to_string(asked.least) + ", " + std::to_string(asked.most),
                          "0 to 10000, least not above most"});
    if (!faults.empty()) return faults;
    SequentialWalk w = walk(rule, std::vector<bool>(t["right"].numbers.begin(), t["right"].numbers.end()));
    Report r;
    r.put("pass_at", rule.upper()).put("fail_at", rule.lower()).put("on_right", rule.on_right());
    r.put("on_wrong", rule.on_wrong()).words("verdict", name_of(w.verdict)).put("items_used", w.sum.size());
    r.numbers("sum", std::move(w.sum));
    Report::Rows rows;
    for (int p = 50; p <= 95; p += 5) {
        const Operating o = exact(rule, p / 100.0);
        Report one;
        rows.push_back(one.put("ability", p / 100.0).put("passes", o.passes).put("items", o.items));
    }
    return r.rows("operating", rows);
}

Outcome<Report> tolerance_report(const FiguresAsked& asked, const Table& t) {
    Report::Rows rows;
    std::vector<Fault> faults;
    for (std::size_t i = 0; i < t.rows; ++i) {
        const Column* watch = t.find("watch_sd_s");
        const CountingMethod method{t["window_s"].numbers[i], watch == nullptr ? 0.2 : watch->numbers[i]};
        const double rate = t["rate"].numbers[i];
        if (const char* why = refused(method, rate); *why) {
            faults.push_back(t.fault(i, "window_s", why, "one beat or more"));
            continue;
        }
        Report one;
        one.put("rate", rate).put("window_s", method.window_s).put("holds_95_bpm", holds(method, rate));
        one.put("holds_99_bpm", holds(method, rate, 0.99)).put("allowed_bpm", allowed_bpm(method));
        one.put("chance_within_allowed", chance_within(method, rate, allowed_bpm(method)));
        one.put("reading_sd_bpm", reading_sd_bpm(method, rate));
        rows.push_back(
            one.put("chance_wrong_side", chance_wrong_side(method, rate, asked.low_bpm, asked.high_bpm)));
    }
    if (!faults.empty()) return faults;
    Report r;
    return r.put("low_bpm", asked.low_bpm).put("high_bpm", asked.high_bpm).rows("each", rows);
}

}  // namespace engine
