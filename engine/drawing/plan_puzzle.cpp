#include "engine/drawing/name_in_file.h"
#include "engine/drawing/plan_parts.h"

#include <algorithm>

namespace engine {
namespace {

// Chances where any value will do. Positions as they are met at term, bottom down and across more often, to
// be practised [practice].
const std::vector<double>& chances(Axis axis) {
    static const std::vector<double> even(12, 1.0), troubles{0, 1, 1, 1, 1, 1, 1, 1, 1, 1},
        causes{0, 3, 3, 2, 3, 3, 2, 3, 1, 3}, lie{50, 28, 14, 6, 2}, calm_ones{0, 80, 20}, places{25, 50, 25},
        found_with{30, 5, 45, 20};
    switch (axis) {
        case Axis::position: return lie;
        case Axis::calm: return calm_ones;
        case Axis::trouble: return troubles;
        case Axis::cause: return causes;
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
// something does not go together. Nothing when that does not end. What the heart does, and why, always fits
// whether it is normal: those four axes are dealt, and change places, as one.
class Puzzle {
public:
    Puzzle(const AllCounts& counts, int n, Dice& dice) : counts_(counts), dice_(dice) {
        rows_.resize(static_cast<std::size_t>(n));
        std::vector<std::size_t> everyone, well, ill;
        for (std::size_t i = 0; i < rows_.size(); ++i) everyone.push_back(i);
        deal(Axis::normal, everyone);
        for (const std::size_t i : everyone) (rows_[i].is_normal() ? well : ill).push_back(i);
        for (std::size_t a = 0; a < axis_count; ++a) {
            const auto axis = static_cast<Axis>(a);
            if (axis == Axis::normal) continue;
            deal(axis, axis == Axis::calm ? well : of_heart(axis) ? ill : everyone);
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
    // Normal or not, and what follows from it: dealt, and changing places, as one.
    static bool of_heart(Axis axis) {
        return axis == Axis::normal || axis == Axis::calm || axis == Axis::trouble || axis == Axis::cause;
    }

    // Values of one axis to these rows: the counts asked, or any; the "-" of calm, trouble and cause to
    // nobody.
    void deal(Axis axis, const std::vector<std::size_t>& to) {
        std::vector<int> values;
        const bool has_none = of_heart(axis) && axis != Axis::normal;
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
        const bool is_none = of_heart(axis) && axis != Axis::normal && rows_[row][axis] == 0;
        if (of_heart(axis) && (axis == Axis::normal || is_none || dice_.chance(0.5)))
            swap_best(row, {Axis::normal, Axis::calm, Axis::trouble, Axis::cause});
        else if (counts_[at(axis)])
            swap_best(row, {axis});
        else
            set_best(row, axis);
    }

    void set_best(std::size_t row, Axis axis) {
        Case best = rows_[row];
        int least = 1 << 20;
        const int tries = (axis == Axis::trouble || axis == Axis::cause ? 9 : 3) * values_of(axis);
        for (int t = 0; t < tries; ++t) {
            Case changed = rows_[row];
            changed[axis] = any_value(dice_, axis);
            // Few causes fit a trouble: the two change together where both are free.
            const Axis with = axis == Axis::trouble ? Axis::cause : Axis::trouble;
            if ((axis == Axis::trouble || axis == Axis::cause) && !counts_[at(with)] && dice_.chance(0.7))
                changed[with] = any_value(dice_, with);
            if (changed == rows_[row] || broken(changed) >= least) continue;
            least = broken(changed);
            best = changed;
        }
        rows_[row] = best;
    }

    static bool of_one_kind(const Case& c) {
        return c.is_normal() == (c[Axis::calm] != calm::none) &&
               c.is_normal() == (c[Axis::cause] == cause::none);
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
            if (a == rows_[row] || !of_one_kind(a) || !of_one_kind(b)) continue;
            const int change = broken(a) + broken(b) - before;
            if (change < least) {
                least = change;
                with = other;
            }
        }
        // A step to the worse now and then leads out of a corner.
        if (with != row && (least <= 0 || dice_.chance(0.2))) exchange(rows_[row], rows_[with], axes);
    }

    const AllCounts& counts_;
    Dice& dice_;
    std::vector<Case> rows_;
};

Fault left_over(const Quota& quota, const Case& row) {
    for (const GoesWith& rule : what_goes_together()) {
        if (rule.holds(row)) continue;
        return {quota.file, line_in_file(quota, rule.of),
                name_in_file(rule.of) + "." + std::string(row.word(rule.of)) + " with " +
                    name_in_file(rule.needs) + "." + std::string(row.word(rule.needs)),
                "left over when all the rest was put together",
                "shares that go together in one scenario: " + std::string(rule.why)};
    }
    return {quota.file, 0, "shares", "", ""};
}

}  // namespace

Outcome<std::vector<Case>> put_together(const Quota& quota, const AllCounts& counts, Dice& dice) {
    std::optional<Fault> last;
    for (int again = 0; again < 6; ++again) {
        Puzzle puzzle(counts, quota.scenarios, dice);
        if (auto cases = puzzle.solved()) return std::move(*cases);
        if (const Case* row = puzzle.a_broken_row()) last = left_over(quota, *row);
    }
    return *last;
}

}  // namespace engine
