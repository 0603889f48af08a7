#include "engine/competency/pass_rule.h"

#include "engine/competency/distributions.h"

#include <cassert>
#include <cmath>

namespace engine {

std::string fault_of(const AbilityLevels& levels) {
    if (!(levels.must_fail > 0 && levels.must_pass < 1)) return "both levels must lie inside 0 to 1";
    if (!(levels.must_fail < levels.must_pass))
        return "the level that must fail must be below the one that must pass";
    return "";
}

double FixedRule::passes(double ability) const { return binomial_at_least(mark, items, ability); }

double FixedRule::same_twice(double ability) const {
    const double p = passes(ability);
    return p * p + (1 - p) * (1 - p);
}

double all_critical_right(double ability, int critical_items) { return std::pow(ability, critical_items); }

Design design_fixed(const AbilityLevels& levels, double false_pass, double false_fail) {
    if (const std::string fault = fault_of(levels); !fault.empty()) return {Figure::absent(fault), {}};
    if (!(false_pass > 0 && false_pass < 1 && false_fail > 0 && false_fail < 1))
        return {Figure::absent("error rates must lie inside 0 to 1"), {}};
    int mark = 1;  // the lowest that keeps false passes down; never falls as items are added
    for (int items = 1; items <= most_items; ++items) {
        while (mark <= items && binomial_at_least(mark, items, levels.must_fail) > false_pass) ++mark;
        if (mark > items) continue;
        const FixedRule rule{items, mark};
        if (const double passes = rule.passes(levels.must_pass); passes >= 1 - false_fail)
            return {static_cast<double>(items), {rule, rule.passes(levels.must_fail), 1 - passes}};
    }
    return {Figure::absent("more than " + std::to_string(most_items) + " items"), {}};
}

double SequentialRule::upper() const { return std::log((1 - false_fail) / false_pass); }
double SequentialRule::lower() const { return std::log(false_fail / (1 - false_pass)); }
double SequentialRule::on_right() const { return std::log(levels.must_pass / levels.must_fail); }
double SequentialRule::on_wrong() const { return std::log((1 - levels.must_pass) / (1 - levels.must_fail)); }

namespace {

constexpr double dust = 1e-12;

PassDecision verdict_at(const SequentialRule& rule, int n, double sum) {
    if (rule.most > 0 && n >= rule.most) return sum >= -dust ? PassDecision::pass : PassDecision::fail;
    if (n < rule.least) return PassDecision::go_on;
    if (sum >= rule.upper() - dust) return PassDecision::pass;
    if (sum <= rule.lower() + dust) return PassDecision::fail;
    return PassDecision::go_on;
}

}  // namespace

SequentialWalk walk(const SequentialRule& rule, const std::vector<bool>& right) {
    assert(fault_of(rule.levels).empty());
    SequentialWalk w;
    int n = 0, successes = 0;
    for (bool r : right) {
        ++n;
        successes += r;
        const double sum = successes * rule.on_right() + (n - successes) * rule.on_wrong();
        w.sum.push_back(sum);
        w.verdict = verdict_at(rule, n, sum);
        if (w.verdict != PassDecision::go_on) break;
    }
    return w;
}

Operating wald_approximation(const SequentialRule& rule, double ability) {
    const double a = rule.upper(), b = rule.lower(), up = rule.on_right(), down = rule.on_wrong();
    if (ability <= 0) return {0, b / down};
    if (ability >= 1) return {1, a / up};
    const double mean = ability * up + (1 - ability) * down;
    const double square = ability * up * up + (1 - ability) * down * down;
    if (std::fabs(mean) < 1e-9) return {-b / (a - b), -a * b / square};

    // h != 0 with E[e^(h z)] = 1: beyond the minimum of the convex ln E, on the side opposite to the drift.
    const auto log_mean = [&](double h) {
        return std::log(ability * std::exp(h * up) + (1 - ability) * std::exp(h * down));
    };
    double far = mean > 0 ? -1 : 1;
    while (log_mean(far) < 0) far *= 2;
    double near = std::log(-(1 - ability) * down / (ability * up)) / (up - down);  // the minimum
    for (int i = 0; i < 200; ++i) {
        const double middle = (near + far) / 2;
        (log_mean(middle) < 0 ? near : far) = middle;
    }
    const double h = (near + far) / 2;
    const double fails = std::expm1(h * a) / (std::expm1(h * a) - std::expm1(h * b));
    return {1 - fails, (fails * b + (1 - fails) * a) / mean};
}

Operating exact(const SequentialRule& rule, double ability) {
    assert(fault_of(rule.levels).empty() && ability >= 0 && ability <= 1);
    std::vector<double> now{1}, next;  // chance of being undecided with so many right
    Operating found;
    double undecided = 1;
    const double up = rule.on_right(), down = rule.on_wrong();
    for (int n = 1; undecided > 1e-16 && n <= 100'000; ++n) {
        found.items += undecided;
        next.assign(now.size() + 1, 0);
        for (std::size_t s = 0; s < now.size(); ++s) {
            next[s] += now[s] * (1 - ability);
            next[s + 1] += now[s] * ability;
        }
        undecided = 0;
        for (std::size_t s = 0; s < next.size(); ++s) {
            if (next[s] == 0) continue;
            const double right = static_cast<double>(s), sum = right * up + (n - right) * down;
            const PassDecision v = verdict_at(rule, n, sum);
            if (v == PassDecision::pass) found.passes += next[s];
            if (v == PassDecision::go_on)
                undecided += next[s];
            else
                next[s] = 0;
        }
        now.swap(next);
    }
    return found;
}

}  // namespace engine
