#include "engine/competency/cohort_sums.h"

#include "engine/competency/numbered.h"
#include "sim/two_copies.h"

#include <cassert>
#include <cmath>
#include <cstdlib>
#include <cstring>

namespace engine {
namespace {

constexpr std::size_t most_answers = 50'000'000;  // persons x items in one table of bytes
constexpr double right_beats = 2, right_bpm = 5;

std::int32_t in_mbpm(double bpm) { return static_cast<std::int32_t>(std::floor(bpm * 1000 + 0.5)); }

// How many numbers a column of them may use: as many as there are names, if these are known.
std::size_t numbers_used(const std::vector<std::uint32_t>& column, const std::vector<std::string>& names) {
    if (!names.empty()) return names.size();
    return column.empty() ? 0 : *std::max_element(column.begin(), column.end()) + std::size_t{1};
}

// Rows that count, side by side; a missing column is null.
struct Stretch {
    std::size_t n = 0;
    const std::int32_t *truth, *reading;
    const std::uint32_t *person, *item;
    const std::int16_t* plan_s;
    const std::int8_t *instrument, *mode, *task, *true_class, *said_class;
};

template <typename Number>
const Number* from_row(const std::vector<Number>& column, std::size_t row) {
    return column.empty() ? nullptr : column.data() + row;
}

// Whether every row is judged, has a truth and a written rate: then it is taken where it stands.
bool all_count(const CountColumns& c, std::size_t from, std::size_t to) {
    const std::int32_t *truth = c.true_mbpm.data(), *written = c.written_mbpm.data();
    std::int32_t signs = 0;
    for (std::size_t row = from; row < to; ++row) signs |= truth[row] | written[row];
    if (signs < 0) return false;
    return c.judged.empty() || std::memchr(c.judged.data() + from, 0, to - from) == nullptr;
}

Stretch in_place(const CountColumns& c, std::size_t from, std::size_t to) {
    return {to - from,
            from_row(c.true_mbpm, from),
            from_row(c.written_mbpm, from),
            from_row(c.person, from),
            from_row(c.item, from),
            from_row(c.plan_s, from),
            from_row(c.instrument, from),
            from_row(c.mode, from),
            from_row(c.task, from),
            from_row(c.true_class, from),
            from_row(c.said_class, from)};
}

// Room for the rows that count of a stretch where some do not.
class Picked {
public:
    Stretch of(const CountColumns& c, std::size_t from, std::size_t to, CohortSums& found) {
        std::size_t n = 0;
        for (std::size_t row = from; row < to; ++row) {
            if (!c.judged.empty() && c.judged[row] == 0) {
                ++found.not_judged;
                continue;
            }
            const std::int32_t read = c.counted.empty() ? c.written_mbpm[row] : reading_mbpm(c, row);
            if (c.true_mbpm[row] < 0 || read < 0) {
                ++found.no_reading;
                continue;
            }
            row_[n] = row;
            reading_[n++] = read;
        }
        return {n,
                taken(c.true_mbpm, truth_, n),
                reading_.data(),
                taken(c.person, person_, n),
                taken(c.item, item_, n),
                taken(c.plan_s, plan_s_, n),
                taken(c.instrument, instrument_, n),
                taken(c.mode, mode_, n),
                taken(c.task, task_, n),
                taken(c.true_class, true_class_, n),
                taken(c.said_class, said_class_, n)};
    }

private:
    template <typename Number>
    const Number* taken(const std::vector<Number>& column, std::array<Number, most_rows>& into,
                        std::size_t n) {
        if (column.empty()) return nullptr;
        for (std::size_t i = 0; i < n; ++i) into[i] = column[row_[i]];
        return into.data();
    }
    std::array<std::size_t, most_rows> row_;
    std::array<std::int32_t, most_rows> truth_, reading_;
    std::array<std::uint32_t, most_rows> person_, item_;
    std::array<std::int16_t, most_rows> plan_s_;
    std::array<std::int8_t, most_rows> instrument_, mode_, task_, true_class_, said_class_;
};

// How the table of sums is laid out: band, method, instrument, mode and task, the last one fastest.
struct Axes {
    Numbered<std::int16_t> methods;
    Numbered<std::int8_t> instruments, modes, tasks;
    std::size_t of_a_mode, of_an_instrument, of_a_method, of_a_band;  // cells

    explicit Axes(const CountColumns& c)
        : methods(c.plan_s),
          instruments(c.instrument),
          modes(c.mode),
          tasks(c.task),
          of_a_mode(tasks.size()),
          of_an_instrument(modes.size() * of_a_mode),
          of_a_method(instruments.size() * of_an_instrument),
          of_a_band(methods.size() * of_a_method) {}
};

// Thousandths of a bpm; how far off a right answer may be by cell of the table of sums.
struct Limits {
    std::int32_t low, high, within;
    std::vector<std::int32_t> tolerance;

    Limits(const CohortAsked& asked, const Axes& axes)
        : low(in_mbpm(asked.low_bpm)),
          high(in_mbpm(asked.high_bpm)),
          within(in_mbpm(asked.within_bpm)),
          tolerance(3 * axes.of_a_band) {
        for (std::size_t cell = 0; cell < tolerance.size(); ++cell) {
            const int s = axes.methods.values[cell / axes.of_a_method % axes.methods.size()];
            tolerance[cell] = in_mbpm(s > 0 ? std::max(right_beats * 60 / s, right_bpm) : right_bpm);
        }
    }
};

// Rows of one person stand together as a rule. Their answers will be written soon: fetched meanwhile, where
// they are few.
void add_errors(std::vector<ErrorTotals>& of, const std::uint32_t* whose, const std::int32_t* error,
                std::size_t n, const Answers& answers) {
    const std::size_t fetched = answers.width <= 512 ? answers.width : 0;
    for (std::size_t i = 0; i < n;) {
        const std::uint32_t one = whose[i];
        assert(one < of.size());
        for (std::size_t at = 0; at < fetched; at += 64)
            __builtin_prefetch(answers.all.data() + one * answers.width + at, 1);
        ErrorTotals run;
        for (; i < n && whose[i] == one; ++i) run.add(error[i]);
        ErrorTotals& into = of[one];
        into.n += run.n, into.sum_mbpm += run.sum_mbpm, into.square_mbpm2 += run.square_mbpm2;
    }
}

// The first of a person to an item stays.
void answer(Answers& answers, const Stretch& s, const std::int32_t* error, const std::uint32_t* cell,
            const std::vector<std::int32_t>& tolerance) {
    std::array<std::uint8_t, most_rows> is;
    const std::int32_t* most = tolerance.data();
    for (std::size_t i = 0; i < s.n; ++i)
        is[i] = Answers::given | (std::abs(error[i]) <= most[cell[i]] ? Answers::right : std::uint8_t{0});
    std::uint8_t* all = answers.all.data();
    const std::size_t width = answers.width, n = s.n;
    const std::uint32_t *person = s.person, *item = s.item;
    for (std::size_t i = 0; i < n; ++i) {
        std::uint8_t& one = all[person[i] * width + item[i]];
        // no branch: right or wrong cannot be foreseen
        one = static_cast<std::uint8_t>(one | (is[i] & ((one & Answers::given) - 1)));
    }
}

// Two tables, taken in turn: most rows have the same pair, and a sum waits for the one before it.
class ClassTable {
public:
    void add(const std::int8_t* is, const std::int8_t* said, std::size_t n) {
        if (is == nullptr || said == nullptr) return;
        std::array<std::uint8_t, most_rows> pair;
        for (std::size_t i = 0; i < n; ++i)
            pair[i] = static_cast<std::uint8_t>((is[i] + 1) * static_cast<int>(rate_classes) + said[i] + 1);
        for (std::size_t i = 0; i < n; ++i) ++turns_[i % 2][pair[i]];
    }
    std::array<std::int64_t, rate_classes * rate_classes> sum() const {
        auto all = turns_[0];
        for (std::size_t i = 0; i < all.size(); ++i) all[i] += turns_[1][i];
        return all;
    }

private:
    std::array<std::array<std::int64_t, rate_classes * rate_classes>, 2> turns_{};
};

// One short loop a figure: a single loop over everything runs out of registers and takes half as long again.
SIM_TWO_COPIES void add_stretch(CohortSums& found, ClassTable& classes, const Stretch& s, const Axes& axes,
                                const Limits& limits) {
    std::array<std::int32_t, most_rows> error;
    std::array<std::uint32_t, most_rows> cell;
    const std::int32_t low = limits.low, high = limits.high, within = limits.within;
    const auto of_a_band = static_cast<std::uint32_t>(axes.of_a_band);
    for (std::size_t i = 0; i < s.n; ++i) {
        error[i] = s.reading[i] - s.truth[i];
        cell[i] = of_a_band * (static_cast<std::uint32_t>(s.truth[i] >= low) +
                               static_cast<std::uint32_t>(s.truth[i] > high));
    }
    axes.methods.add_places(cell.data(), s.plan_s, s.n, axes.of_a_method);
    axes.instruments.add_places(cell.data(), s.instrument, s.n, axes.of_an_instrument);
    axes.modes.add_places(cell.data(), s.mode, s.n, axes.of_a_mode);
    axes.tasks.add_places(cell.data(), s.task, s.n, 1);
    for (std::size_t i = 0; i < s.n; ++i) found.joint[cell[i]].add(s.truth[i], error[i], within);
    add_errors(found.by_person, s.person, error.data(), s.n, found.answers);
    for (std::size_t i = 0; i < s.n; ++i) found.by_item[s.item[i]].add(error[i]);
    classes.add(s.true_class, s.said_class, s.n);
    if (found.answers.persons > 0) answer(found.answers, s, error.data(), cell.data(), limits.tolerance);
}

}  // namespace

CohortSums cohort_sums(const CountColumns& c, const CohortAsked& asked) {
    const std::size_t rows = c.person.size();
    assert(c.item.size() == rows && c.plan_s.size() == rows && c.true_mbpm.size() == rows &&
           c.written_mbpm.size() == rows && rows <= 0xffff'ffffU);
    const Axes axes(c);
    const Limits limits(asked, axes);
    const std::size_t persons = numbers_used(c.person, c.people), items = numbers_used(c.item, c.items);

    CohortSums found;
    found.joint.resize(limits.tolerance.size());
    found.by_person.resize(persons);
    found.by_item.resize(items);
    if (persons > 0 && items <= most_answers / persons) found.answers = Answers(persons, items);
    ClassTable classes;
    Picked picked;
    for (std::size_t from = 0; from < rows; from += most_rows) {
        const std::size_t to = std::min(rows, from + most_rows);
        const Stretch s = all_count(c, from, to) ? in_place(c, from, to) : picked.of(c, from, to, found);
        add_stretch(found, classes, s, axes, limits);
    }
    found.classes = classes.sum();
    found.methods_s = axes.methods.values;
    found.instruments = axes.instruments.values;
    found.modes = axes.modes.values;
    found.tasks = axes.tasks.values;
    return found;
}

}  // namespace engine
