#include "engine/competency/cohort_sums.h"

#include <cassert>
#include <cmath>
#include <cstdlib>
#include <cstring>
#include <type_traits>

namespace engine {
namespace {

constexpr std::size_t most_answers = 50'000'000;  // persons x items in one table of bytes
constexpr double right_beats = 2, right_bpm = 5;

std::int32_t in_mbpm(double bpm) { return static_cast<std::int32_t>(std::floor(bpm * 1000 + 0.5)); }

// Values of a column as numbers 0, 1, ... in rising order; all below 0 are -1. Looked up by the value's bits,
// so that no sign has to be asked a million times.
template <typename Number>
class Numbered {
public:
    explicit Numbered(const std::vector<Number>& column) : place_(std::size_t{1} << 8 * sizeof(Number)) {
        std::vector<char> there(place_.size());
        if (column.empty()) there[bits(-1)] = 1;
        // One value throughout is the commonest column: comparing it with itself, moved by one, is quicker
        // than marking.
        const bool one = std::equal(column.begin() + !column.empty(), column.end(), column.begin());
        const Number* until = column.data() + (one ? std::min<std::size_t>(1, column.size()) : column.size());
        for (const Number* v = column.data(); v != until; ++v) there[bits(*v)] = 1;
        const std::size_t below_zero = place_.size() / 2;
        if (std::find(there.begin() + static_cast<std::ptrdiff_t>(below_zero), there.end(), 1) != there.end())
            values.push_back(-1);
        for (std::size_t v = 0; v < below_zero; ++v)
            if (there[v]) {
                place_[v] = static_cast<std::uint16_t>(values.size());
                values.push_back(static_cast<int>(v));
            }
    }
    std::size_t size() const { return values.size(); }
    std::uint32_t of(Number value) const { return place_[bits(value)]; }
    std::vector<int> values;

private:
    static std::size_t bits(int value) { return static_cast<std::make_unsigned_t<Number>>(value); }
    std::vector<std::uint16_t> place_;
};

// One more than the largest. Compared with their signs, four at a time: no number reaches 2^31.
std::size_t numbers_used(const std::vector<std::uint32_t>& column) {
    std::int32_t largest = -1;
    for (const std::uint32_t v : column) largest = std::max(largest, static_cast<std::int32_t>(v));
    return static_cast<std::size_t>(largest + 1);
}

// Rows are taken in stretches that stay near the processor, one short loop a figure: a single loop over
// everything runs out of registers and takes half as long again.
constexpr std::size_t most_rows = 2048;

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

// One more axis of the table of sums: the place of each row's value, `apart` cells apart. A missing column
// is one place.
template <typename Number>
void add_axis(std::uint32_t* cell, const Number* values, std::size_t n, const Numbered<Number>& numbered,
              std::size_t apart) {
    if (values == nullptr || numbered.size() == 1) return;
    for (std::size_t i = 0; i < n; ++i) cell[i] += static_cast<std::uint32_t>(apart) * numbered.of(values[i]);
}

// Rows of one person stand together as a rule.
void add_errors(std::vector<ErrorTotals>& of, const std::uint32_t* whose, const std::int32_t* error,
                std::size_t n) {
    for (std::size_t i = 0; i < n;) {
        const std::uint32_t one = whose[i];
        ErrorTotals run;
        for (; i < n && whose[i] == one; ++i) run.add(error[i]);
        ErrorTotals& into = of[one];
        into.n += run.n, into.sum_mbpm += run.sum_mbpm, into.square_mbpm2 += run.square_mbpm2;
    }
}

// How many answers came again to an item answered before.
std::size_t answer(Answers& answers, const Stretch& s, const std::int32_t* error, const std::uint32_t* cell,
                   const std::vector<std::int32_t>& tolerance) {
    std::uint8_t* all = answers.all.data();
    const std::size_t width = answers.width, n = s.n;
    const std::uint32_t *person = s.person, *item = s.item;
    const std::int32_t* most = tolerance.data();
    std::size_t again = 0;
    for (std::size_t i = 0; i < n; ++i) {
        std::uint8_t& one = all[person[i] * width + item[i]];
        const bool first = one == 0, right = std::abs(error[i]) <= most[cell[i]];
        again += !first;  // sums, no branches: right or wrong cannot be foreseen
        one = static_cast<std::uint8_t>(one | first * (Answers::given | right * Answers::right));
    }
    return again;
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

}  // namespace

CohortSums cohort_sums(const CountColumns& c, const CohortAsked& asked) {
    const std::size_t rows = c.person.size();
    assert(c.item.size() == rows && c.plan_s.size() == rows && c.true_mbpm.size() == rows &&
           c.written_mbpm.size() == rows && rows <= 0xffff'ffffU);
    const Numbered methods(c.plan_s);
    const Numbered instruments(c.instrument), modes(c.mode), tasks(c.task);
    const std::size_t persons = numbers_used(c.person), items = numbers_used(c.item);
    const std::size_t of_a_mode = tasks.size(), of_an_instrument = modes.size() * of_a_mode,
                      of_a_method = instruments.size() * of_an_instrument,
                      of_a_band = methods.size() * of_a_method;
    const std::int32_t low = in_mbpm(asked.low_bpm), high = in_mbpm(asked.high_bpm),
                       within = in_mbpm(asked.within_bpm);
    std::vector<std::int32_t> tolerance(3 * of_a_band);  // by cell of the table of sums
    for (std::size_t cell = 0; cell < tolerance.size(); ++cell) {
        const int s = methods.values[cell / of_a_method % methods.size()];
        tolerance[cell] = in_mbpm(s > 0 ? std::max(right_beats * 60 / s, right_bpm) : right_bpm);
    }

    CohortSums found;
    found.joint.resize(3 * of_a_band);
    found.by_person.resize(persons);
    found.by_item.resize(items);
    if (persons > 0 && items <= most_answers / persons) found.answers = Answers(persons, items);
    ClassTable classes;
    Picked picked;
    std::array<std::int32_t, most_rows> error;
    std::array<std::uint32_t, most_rows> cell;
    for (std::size_t from = 0; from < rows; from += most_rows) {
        const std::size_t to = std::min(rows, from + most_rows);
        const Stretch s = all_count(c, from, to) ? in_place(c, from, to) : picked.of(c, from, to, found);
        for (std::size_t i = 0; i < s.n; ++i) {
            error[i] = s.reading[i] - s.truth[i];
            cell[i] = static_cast<std::uint32_t>(of_a_band) * (static_cast<std::uint32_t>(s.truth[i] >= low) +
                                                               static_cast<std::uint32_t>(s.truth[i] > high));
        }
        add_axis(cell.data(), s.plan_s, s.n, methods, of_a_method);
        add_axis(cell.data(), s.instrument, s.n, instruments, of_an_instrument);
        add_axis(cell.data(), s.mode, s.n, modes, of_a_mode);
        add_axis(cell.data(), s.task, s.n, tasks, 1);
        for (std::size_t i = 0; i < s.n; ++i) found.joint[cell[i]].add(s.truth[i], error[i], within);
        add_errors(found.by_person, s.person, error.data(), s.n);
        for (std::size_t i = 0; i < s.n; ++i) found.by_item[s.item[i]].add(error[i]);
        classes.add(s.true_class, s.said_class, s.n);
        if (found.answers.persons > 0)
            found.repeats += answer(found.answers, s, error.data(), cell.data(), tolerance);
    }
    found.classes = classes.sum();
    found.methods_s = methods.values;
    found.instruments = instruments.values;
    found.modes = modes.values;
    found.tasks = tasks.values;
    return found;
}

}  // namespace engine
