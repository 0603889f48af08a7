#include "engine/drawing/plan.h"

#include "engine/drawing/dice.h"
#include "engine/drawing/goes_together.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <optional>

namespace engine {
namespace {

// How many scenarios have each value; nothing where any will do.
using Counts = std::optional<std::vector<int>>;

std::vector<double> percents(const Shares& shares, std::size_t values) {
    std::vector<double> p;
    for (std::size_t i = 0; i < values; ++i) p.push_back(std::max(0.0, shares.percent[i]));
    return p;
}

std::array<Counts, axis_count> counts_of(const Quota& quota) {
    std::array<Counts, axis_count> counts;
    const auto at = [&](Axis axis) -> Counts& { return counts[static_cast<std::size_t>(axis)]; };
    at(Axis::normal) = in_whole_numbers({quota.normal, 100 - quota.normal}, quota.scenarios);
    at(Axis::boundary) = in_whole_numbers({100 - quota.boundary, quota.boundary}, quota.scenarios);
    for (const Axis axis : {Axis::task, Axis::level, Axis::instrument, Axis::place, Axis::position})
        if (quota.of(axis).given)
            at(axis) = in_whole_numbers(percents(quota.of(axis), words_of(axis).words.size()), quota.scenarios);
    // Shares of the normal ones, or of the others; "-" for all the rest.
    for (const auto& [axis, side] : {std::pair{Axis::calm, normal::yes}, std::pair{Axis::trouble, normal::no}}) {
        if (!quota.of(axis).given) continue;
        const int mine = (*at(Axis::normal))[static_cast<std::size_t>(side)];
        std::vector<int> whole = in_whole_numbers(percents(quota.of(axis), words_of(axis).words.size()), mine);
        whole[0] = quota.scenarios - mine;
        at(axis) = whole;
    }
    std::vector<double> variants = percents(quota.of(Axis::variant), words_of(Axis::variant).words.size());
    variants[0] = 100;
    for (std::size_t i = 1; i < variants.size(); ++i) variants[0] -= variants[i];
    at(Axis::variant) = in_whole_numbers(variants, quota.scenarios);
    return counts;
}

std::string joined(Axis axis, const std::vector<int>& values) {
    std::string all;
    for (const int v : values)
        all += (all.empty() ? "" : ", ") + std::string(words_of(axis).words[static_cast<std::size_t>(v)]);
    return all;
}

// Where an axis is written: for faults.
std::string name_in_file(Axis axis) {
    if (axis == Axis::normal) return "normal";
    if (axis == Axis::boundary) return "boundary";
    return std::string(words_of(axis).section);
}
int line_in_file(const Quota& quota, Axis axis) {
    const int line = axis == Axis::normal     ? quota.normal_line
                     : axis == Axis::boundary ? quota.boundary_line
                                              : quota.of(axis).line;
    return line > 0 ? line : quota.scenarios_line;
}

// Hall's condition between two axes: each set of values on one side finds enough on the other. The smallest set that
// does not is named.
std::optional<Fault> too_few(const Quota& quota, Axis a, const std::vector<int>& need, Axis b,
                             const std::vector<int>& have) {
    std::vector<int> best;
    int best_need = 0, best_have = 0;
    for (unsigned set = 1; set < 1u << need.size(); ++set) {
        std::vector<int> values;
        int needed = 0;
        for (std::size_t v = 0; v < need.size(); ++v)
            if ((set >> v & 1u) && need[v] > 0) {
                values.push_back(static_cast<int>(v));
                needed += need[v];
            } else if (set >> v & 1u) {
                needed = -1 << 20;  // an empty value in the set: the set without it is looked at anyway
            }
        int there = 0;
        for (std::size_t w = 0; w < have.size(); ++w)
            for (const int v : values)
                if (apart(a, v, b, static_cast<int>(w)) == nullptr) {
                    there += have[w];
                    break;
                }
        if (needed <= there || (!best.empty() && values.size() >= best.size())) continue;
        best = values;
        best_need = needed;
        best_have = there;
    }
    if (best.empty()) return std::nullopt;
    std::vector<int> fitting;
    const GoesWith* rule = nullptr;
    for (int w = 0; w < static_cast<int>(have.size()); ++w) {
        bool fits = false;
        for (const int v : best) {
            const GoesWith* keeps_apart = apart(a, v, b, w);
            fits = fits || keeps_apart == nullptr;
            if (keeps_apart != nullptr && have[static_cast<std::size_t>(w)] > 0 && rule == nullptr) rule = keeps_apart;
        }
        if (fits) fitting.push_back(w);
    }
    assert(rule != nullptr);
    return Fault{quota.file, line_in_file(quota, a), name_in_file(a) + "." + joined(a, best),
                 std::to_string(best_need) + " of " + std::to_string(quota.scenarios),
                 "at most " + std::to_string(best_have) + ", as many as " + name_in_file(b) + " asks of " +
                     joined(b, fitting) + " (line " + std::to_string(line_in_file(quota, b)) +
                     "): " + std::string(rule->why)};
}

// Chances where any value will do. Positions as they are met at term, bottom down and across more often, to be
// practised [practice].
const std::vector<double>& chances(Axis axis) {
    static const std::vector<double> even(12, 1.0), troubles{0, 1, 1, 1, 1, 1, 1, 1, 1, 1}, lie{50, 28, 14, 6, 2}, calm_ones{0, 80, 20},
        places{25, 50, 25}, found_with{30, 5, 45, 20};
    switch (axis) {
        case Axis::position: return lie;
        case Axis::calm: return calm_ones;
        case Axis::trouble: return troubles;
        case Axis::place: return places;
        case Axis::instrument: return found_with;
        default: return even;
    }
}

int any_value(Dice& dice, Axis axis) {
    const std::vector<double>& of = chances(axis);
    const int n = values_of(axis);
    double sum = 0;
    for (int v = 0; v < n; ++v) sum += of[static_cast<std::size_t>(v)];
    double u = dice.share() * sum;
    for (int v = 0; v < n; ++v) {
        u -= of[static_cast<std::size_t>(v)];
        if (u < 0) return v;
    }
    return n - 1;
}

constexpr std::size_t at(Axis axis) { return static_cast<std::size_t>(axis); }

// Rows with the counts asked, put together at random, then changed two by two (a free axis: alone) as long as
// something does not go together. Nothing when that does not end. What the heart does always fits whether it is normal:
// those three axes are dealt, and change places, as one.
class Puzzle {
public:
    Puzzle(const std::array<Counts, axis_count>& counts, int n, Dice& dice) : counts_(counts), dice_(dice) {
        rows_.resize(static_cast<std::size_t>(n));
        std::vector<std::size_t> everyone, well, ill;
        for (std::size_t i = 0; i < rows_.size(); ++i) everyone.push_back(i);
        deal(Axis::normal, everyone);
        for (const std::size_t i : everyone) (rows_[i].is_normal() ? well : ill).push_back(i);
        for (std::size_t a = 0; a < axis_count; ++a) {
            const auto axis = static_cast<Axis>(a);
            if (axis == Axis::normal) continue;
            deal(axis, axis == Axis::calm ? well : axis == Axis::trouble ? ill : everyone);
        }
    }

    std::optional<std::vector<Case>> solved() {
        const int steps = 600 + 60 * static_cast<int>(rows_.size());
        for (int step = 0; step < steps; ++step) {
            const auto row = a_broken_one();
            if (!row) return rows_;
            mend(*row);
        }
        return std::nullopt;
    }
    const Case* a_broken_row() {
        const auto row = a_broken_one();
        return row ? &rows_[*row] : nullptr;
    }

private:
    // Values of one axis to these rows: the counts asked, or any; the "-" of calm and trouble to nobody.
    void deal(Axis axis, const std::vector<std::size_t>& to) {
        std::vector<int> values;
        const bool has_none = axis == Axis::calm || axis == Axis::trouble;
        if (const Counts& counts = counts_[at(axis)])
            for (std::size_t v = has_none ? 1 : 0; v < counts->size(); ++v)
                values.insert(values.end(), static_cast<std::size_t>((*counts)[v]), static_cast<int>(v));
        else
            for (std::size_t i = 0; i < to.size(); ++i) values.push_back(any_value(dice_, axis));
        dice_.shuffle(values);
        for (std::size_t i = 0; i < to.size(); ++i) rows_[to[i]][axis] = values[i];
    }

    std::optional<std::size_t> a_broken_one() {
        const auto n = rows_.size();
        const auto start = static_cast<std::size_t>(dice_.below(static_cast<int>(n)));
        for (std::size_t k = 0; k < n; ++k)
            if (broken(rows_[(start + k) % n]) > 0) return (start + k) % n;
        return std::nullopt;
    }

    void mend(std::size_t row) {
        std::vector<Axis> axes;
        for (const GoesWith& rule : what_goes_together())
            if (!rule.holds(rows_[row])) {
                axes.push_back(rule.of);
                axes.push_back(rule.needs);
            }
        const Axis axis = dice_.one_of(axes);
        const bool of_heart = axis == Axis::normal || axis == Axis::calm || axis == Axis::trouble;
        const bool is_none = of_heart && axis != Axis::normal && rows_[row][axis] == 0;
        if (of_heart && (axis == Axis::normal || is_none || dice_.chance(0.5)))
            swap_best(row, {Axis::normal, Axis::calm, Axis::trouble});
        else if (counts_[at(axis)])
            swap_best(row, {axis});
        else
            set_best(row, axis);
    }

    void set_best(std::size_t row, Axis axis) {
        Case best = rows_[row];
        int least = 1 << 20;
        for (int t = 0; t < 3 * values_of(axis); ++t) {
            Case changed = rows_[row];
            changed[axis] = any_value(dice_, axis);
            if (changed == rows_[row] || broken(changed) >= least) continue;
            least = broken(changed);
            best = changed;
        }
        rows_[row] = best;
    }

    static void exchange(Case& a, Case& b, const std::vector<Axis>& axes) {
        for (const Axis axis : axes) std::swap(a[axis], b[axis]);
    }

    void swap_best(std::size_t row, const std::vector<Axis>& axes) {
        const auto n = rows_.size();
        const auto start = static_cast<std::size_t>(dice_.below(static_cast<int>(n)));
        std::size_t with = row;
        int least = 1 << 20;
        for (std::size_t k = 0; k < n; ++k) {
            const std::size_t other = (start + k) % n;
            Case a = rows_[row], b = rows_[other];
            const int before = broken(a) + broken(b);
            exchange(a, b, axes);
            if (a == rows_[row] || a.is_normal() != (a[Axis::calm] != calm::none) ||
                b.is_normal() != (b[Axis::calm] != calm::none))
                continue;
            const int change = broken(a) + broken(b) - before;
            if (change < least) {
                least = change;
                with = other;
            }
        }
        // A step to the worse now and then leads out of a corner.
        if (with != row && (least <= 0 || dice_.chance(0.2))) exchange(rows_[row], rows_[with], axes);
    }

    const std::array<Counts, axis_count>& counts_;
    Dice& dice_;
    std::vector<Case> rows_;
};

Fault left_over(const Quota& quota, const Case& row) {
    for (const GoesWith& rule : what_goes_together()) {
        if (rule.holds(row)) continue;
        return {quota.file, line_in_file(quota, rule.of),
                name_in_file(rule.of) + "." + std::string(row.word(rule.of)) + " with " + name_in_file(rule.needs) + "." +
                    std::string(row.word(rule.needs)),
                "left over when all the rest was put together",
                "shares that go together in one scenario: " + std::string(rule.why)};
    }
    return {quota.file, 0, "shares", "", ""};
}

}  // namespace

bool moves_the_rate(const Case& what) {
    const int t = what[Axis::trouble];
    return t == trouble::late || t == trouble::variable || t == trouble::prolonged;
}

Outcome<std::vector<Asked>> plan_of(const Quota& quota, sim::Seed seed) {
    const auto counts = counts_of(quota);
    // Both sides of a pair sum to the same, so one direction is enough: the one a rule is worded in.
    std::vector<Fault> faults;
    for (std::size_t a = 0; a < axis_count; ++a)
        for (std::size_t b = 0; b < axis_count; ++b) {
            const auto worded = [](std::size_t of, std::size_t needs) {
                return std::any_of(what_goes_together().begin(), what_goes_together().end(), [&](const GoesWith& r) {
                    return r.of == static_cast<Axis>(of) && r.needs == static_cast<Axis>(needs);
                });
            };
            if (!counts[a] || !counts[b] || !worded(a, b) || (a > b && worded(b, a))) continue;
            if (const auto fault = too_few(quota, static_cast<Axis>(a), *counts[a], static_cast<Axis>(b), *counts[b]))
                faults.push_back(*fault);
        }
    if (!faults.empty()) return faults;
    Dice dice(seed, Part::plan, 0);
    std::optional<std::vector<Case>> cases;
    std::optional<Fault> last;
    for (int again = 0; again < 6 && !cases; ++again) {
        Puzzle puzzle(counts, quota.scenarios, dice);
        cases = puzzle.solved();
        if (cases) break;
        if (const Case* row = puzzle.a_broken_row()) last = left_over(quota, *row);
    }
    if (!cases) return *last;
    std::vector<Asked> plan;
    std::vector<std::size_t> movers;
    for (const Case& c : *cases) {
        if (moves_the_rate(c)) movers.push_back(plan.size());
        plan.push_back({c, true});
    }
    dice.shuffle(movers);
    for (std::size_t i = 0; i * 3 < movers.size(); ++i) plan[movers[i]].answers = false;
    return plan;
}

}  // namespace engine
