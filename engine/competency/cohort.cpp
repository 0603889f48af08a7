#include "engine/competency/cohort.h"

#include "engine/competency/distributions.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <cstring>
#include <numeric>
#include <type_traits>
#include <utility>

namespace engine {
namespace {

constexpr std::size_t most_answers = 50'000'000;  // persons x items in one table of bytes
constexpr int least_for_limits = 10;
constexpr double right_beats = 2, right_bpm = 5;

constexpr std::uint8_t answered = 1, answered_right = 2;

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

// Errors against truths, whole thousandths of a bpm, truths less 140 bpm.
struct JointTotals {
    std::int64_t n = 0, within = 0, error = 0, error2 = 0, truth = 0, truth2 = 0, cross = 0, size = 0,
                 largest = 0;
    static constexpr std::int64_t origin_mbpm = 140'000;

    void add(std::int64_t truth_mbpm, std::int64_t error_mbpm, std::int64_t within_mbpm) {
        const std::int64_t t = truth_mbpm - origin_mbpm, off = error_mbpm < 0 ? -error_mbpm : error_mbpm;
        ++n;
        within += off <= within_mbpm;
        error += error_mbpm;
        error2 += error_mbpm * error_mbpm;
        truth += t;
        truth2 += t * t;
        cross += t * error_mbpm;
        size += off;
        largest = largest < off ? off : largest;
    }
    void add(const JointTotals& more) {
        n += more.n, within += more.within, error += more.error, error2 += more.error2, truth += more.truth;
        truth2 += more.truth2, cross += more.cross, size += more.size,
            largest = std::max(largest, more.largest);
    }
    CountErrors figures(double within_bpm) const {
        const auto bpm = [](std::int64_t m) { return static_cast<double>(m) / 1e3; };
        const auto square = [](std::int64_t m) { return static_cast<double>(m) / 1e6; };
        return CountErrors::of_sums(
            {static_cast<std::size_t>(n), static_cast<std::size_t>(within), bpm(origin_mbpm), bpm(error),
             square(error2), bpm(truth), square(truth2), square(cross), bpm(size), bpm(largest)},
            within_bpm);
    }
};

// The errors of one person or item after the other: rows of one stand together as a rule, so its sums are
// kept at hand and put away when another comes.
class RunningTotals {
public:
    explicit RunningTotals(std::size_t size) : all_(size) {}
    void add(std::size_t whose, std::int32_t error) {
        if (whose != now_) put_away(whose);
        run_.add(error);
    }
    std::vector<ErrorTotals> take() {
        put_away(0);
        return std::move(all_);
    }

private:
    void put_away(std::size_t next) {
        if (run_.n > 0) {
            ErrorTotals& into = all_[now_];
            into.n += run_.n, into.sum_mbpm += run_.sum_mbpm, into.square_mbpm2 += run_.square_mbpm2;
        }
        run_ = {};
        now_ = next;
    }
    std::vector<ErrorTotals> all_;
    ErrorTotals run_;
    std::size_t now_ = 0;
};

std::size_t numbers_used(const std::vector<std::uint32_t>& column) {
    const auto larger = [](std::uint32_t a, std::uint32_t b) { return std::max(a, b); };
    // four at a time
    return column.empty() ? 0 : std::size_t{std::reduce(column.begin(), column.end(), 0U, larger)} + 1;
}

// Place in the table of classes: slow, normal, fast; below 0 = none of them. By RateClass, from not_known on.
constexpr std::size_t rate_classes = 5;
constexpr std::array<std::int8_t, rate_classes> class_places{-1, 1, 2, 0, 2};
static_assert(static_cast<int>(RateClass::not_known) == -1 && static_cast<int>(RateClass::normal) == 0 &&
              static_cast<int>(RateClass::fast) == 1 && static_cast<int>(RateClass::slow) == 2 &&
              static_cast<int>(RateClass::rising) == 3);

// Persons by items, one byte an answer, rows padded to whole words of eight.
struct Answers {
    std::size_t items, width;
    std::vector<std::uint8_t> all;
    Answers(std::size_t persons, std::size_t items_)
        : items(items_), width((items_ + 7) / 8 * 8), all(persons * width) {}
    std::uint8_t& of(std::size_t person, std::size_t item) { return all[person * width + item]; }
};

constexpr std::uint64_t every_byte = 0x0101'0101'0101'0101;
std::int32_t sum_of_bytes(std::uint64_t word) { return static_cast<std::int32_t>(word * every_byte >> 56); }

// First answers of persons to items, complete persons only.
void analyse_items(const Answers& answers, std::size_t persons, Cohort& found) {
    const std::size_t items = answers.items;
    std::vector<std::size_t> used;
    for (std::size_t i = 0; i < items; ++i)
        if (found.by_item[i].n > 0) used.push_back(i);
    std::vector<std::int32_t> right(answers.width), totals_of_right(answers.width);
    AnswerSums sums;
    for (std::size_t p = 0; p < persons; ++p) {
        const std::uint8_t* row = answers.all.data() + p * answers.width;
        std::int32_t done = 0, total = 0;
        for (std::size_t i = 0; i < answers.width; i += 8) {
            std::uint64_t word;
            std::memcpy(&word, row + i, 8);
            done += sum_of_bytes(word & every_byte * answered);
            total += sum_of_bytes(word >> 1 & every_byte);
        }
        if (done == 0) continue;
        if (static_cast<std::size_t>(done) < used.size()) {
            ++found.persons_with_gaps;
            continue;
        }
        ++sums.persons;
        sums.totals += total;
        sums.totals_squared += static_cast<double>(total) * total;
        for (std::size_t i = 0; i < answers.width; ++i) {
            const std::int32_t was_right = row[i] >> 1;
            right[i] += was_right;
            totals_of_right[i] += -was_right & total;
        }
    }
    for (const std::size_t i : used) {
        found.analysed.push_back(static_cast<std::int32_t>(i));
        sums.right.push_back(right[i]);
        sums.totals_of_right.push_back(totals_of_right[i]);
    }
    found.items = item_analysis(sums);
    if (sums.persons == 0) found.items_remark = "nobody answered every item";
}

}  // namespace

ErrorFigures figures_of(const ErrorTotals& totals) {
    const Figure none = Figure::absent("no counts");
    if (totals.n == 0) return {0, none, none, none, none};
    const double n = static_cast<double>(totals.n), sum = static_cast<double>(totals.sum_mbpm) / 1000;
    ErrorFigures f{static_cast<std::size_t>(totals.n), sum / n,
                   Figure::absent("a spread needs 2 counts, there is 1"),
                   Figure::absent("limits need 10 counts"), Figure::absent("limits need 10 counts")};
    if (totals.n < 2) return f;
    const double square = static_cast<double>(totals.square_mbpm2) / 1e6;
    const double sd = std::sqrt(std::max(0.0, square - sum * sum / n) / (n - 1));
    f.sd_bpm = sd;
    if (totals.n >= least_for_limits) {
        f.low_bpm = sum / n - z95 * sd;
        f.high_bpm = sum / n + z95 * sd;
    }
    return f;
}

namespace {

// Rows are taken in blocks that stay near the processor, one short loop a figure: a single loop over
// everything runs out of registers and takes half as long again.
constexpr std::size_t block_rows = 2048;
struct Block {
    std::size_t n = 0;  // those with a reading to judge
    std::array<std::int32_t, block_rows> truth, error;
    std::array<std::uint32_t, block_rows> row, cell;
};

void take_rows(const CountColumns& c, std::size_t from, std::size_t to, Block& b, Cohort& found) {
    const bool all_judged = c.judged.empty(), all_written = c.counted.empty();
    const std::int32_t *truth = c.true_mbpm.data(), *written = c.written_mbpm.data();
    std::size_t n = 0, not_judged = 0, no_reading = 0;
    for (std::size_t row = from; row < to; ++row) {
        if (!all_judged && c.judged[row] == 0) {
            ++not_judged;
            continue;
        }
        const std::int32_t read = written[row] >= 0 || all_written ? written[row] : reading_mbpm(c, row);
        if (truth[row] < 0 || read < 0) {
            ++no_reading;
            continue;
        }
        b.row[n] = static_cast<std::uint32_t>(row);
        b.truth[n] = truth[row];
        b.error[n++] = read - truth[row];
    }
    b.n = n;
    found.not_judged += not_judged;
    found.no_reading += no_reading;
}

// One more axis of the table of sums: the place of each row's value, `stride` cells apart. A missing column
// is one place.
template <typename Number>
void add_axis(Block& b, const std::vector<Number>& column, const Numbered<Number>& numbered,
              std::size_t stride) {
    if (column.empty() || numbered.size() == 1) return;
    const Number* values = column.data();
    const auto apart = static_cast<std::uint32_t>(stride);
    for (std::size_t i = 0; i < b.n; ++i) b.cell[i] += apart * numbered.of(values[b.row[i]]);
}

}  // namespace

Cohort cohort_of(const CountColumns& c, const CohortAsked& asked) {
    const std::size_t rows = c.person.size();
    assert(c.item.size() == rows && c.plan_s.size() == rows && c.true_mbpm.size() == rows &&
           c.written_mbpm.size() == rows && rows <= 0xffff'ffffU);
    const Numbered methods(c.plan_s);
    const Numbered instruments(c.instrument), modes(c.mode), tasks(c.task);
    const std::size_t persons = numbers_used(c.person), items = numbers_used(c.item);
    const std::size_t task_count = tasks.size(), mode_count = modes.size(),
                      instrument_count = instruments.size(), method_count = methods.size();
    const std::size_t of_a_method = instrument_count * mode_count * task_count,
                      of_a_band = method_count * of_a_method;
    const std::int32_t low = in_mbpm(asked.low_bpm), high = in_mbpm(asked.high_bpm);
    std::vector<std::int32_t> tolerance(3 * of_a_band);  // by cell of the table of sums
    for (std::size_t cell = 0; cell < tolerance.size(); ++cell) {
        const int s = methods.values[cell / of_a_method % method_count];
        tolerance[cell] = in_mbpm(s > 0 ? std::max(right_beats * 60 / s, right_bpm) : right_bpm);
    }

    Cohort found;
    found.rows = rows;
    RunningTotals by_person(persons);
    std::vector<ErrorTotals> by_item(items);
    std::vector<JointTotals> joint(3 * of_a_band);
    const bool table = persons > 0 && items <= most_answers / persons;
    Answers answers(table ? persons : 0, items);
    // By RateClass, from -1 on: true x said. Two, taken in turn: most rows have the same pair, and a sum
    // waits for the one before it.
    std::array<std::array<std::int64_t, rate_classes * rate_classes>, 2> classes{};
    const std::int32_t within = in_mbpm(asked.within_bpm);
    const bool with_classes = !c.true_class.empty() && !c.said_class.empty();
    const std::uint32_t *person_of = c.person.data(), *item_of = c.item.data();
    Block b;
    for (std::size_t from = 0; from < rows; from += block_rows) {
        take_rows(c, from, std::min(rows, from + block_rows), b, found);
        for (std::size_t i = 0; i < b.n; ++i)
            b.cell[i] =
                static_cast<std::uint32_t>(of_a_band) * (static_cast<std::uint32_t>(b.truth[i] >= low) +
                                                         static_cast<std::uint32_t>(b.truth[i] > high));
        add_axis(b, c.plan_s, methods, of_a_method);
        add_axis(b, c.instrument, instruments, mode_count * task_count);
        add_axis(b, c.mode, modes, task_count);
        add_axis(b, c.task, tasks, 1);
        for (std::size_t i = 0; i < b.n; ++i) joint[b.cell[i]].add(b.truth[i], b.error[i], within);
        for (std::size_t i = 0; i < b.n; ++i) {
            by_person.add(static_cast<std::size_t>(person_of[b.row[i]]), b.error[i]);
            by_item[static_cast<std::size_t>(item_of[b.row[i]])].add(b.error[i]);
        }
        for (std::size_t i = 0; table && i < b.n; ++i) {
            const std::size_t row = b.row[i];
            std::uint8_t& answer =
                answers.of(static_cast<std::size_t>(person_of[row]), static_cast<std::size_t>(item_of[row]));
            const bool first = answer == 0;
            const bool right = std::abs(b.error[i]) <= tolerance[b.cell[i]];
            found.repeats += !first;  // sums, no branches: right or wrong cannot be foreseen
            answer = static_cast<std::uint8_t>(answer | first * (answered | right * answered_right));
        }
        for (std::size_t i = 0; with_classes && i < b.n; ++i) {
            const auto is = static_cast<std::size_t>(c.true_class[b.row[i]] + 1),
                       said = static_cast<std::size_t>(c.said_class[b.row[i]] + 1);
            ++classes[i % 2][is * rate_classes + said];
        }
    }

    JointTotals all;
    std::vector<JointTotals> bands(3), of_method(method_count), of_instrument(instrument_count),
        of_mode(mode_count), of_task(task_count);
    for (std::size_t cell = 0; cell < joint.size(); ++cell) {
        const std::size_t mode = cell / task_count, instrument = mode / mode_count,
                          method = instrument / instrument_count;
        all.add(joint[cell]);
        of_task[cell % task_count].add(joint[cell]);
        of_mode[mode % mode_count].add(joint[cell]);
        of_instrument[instrument % instrument_count].add(joint[cell]);
        of_method[method % method_count].add(joint[cell]);
        bands[method / method_count].add(joint[cell]);
    }
    const auto figures = [&](const std::vector<JointTotals>& totals) {
        std::vector<CountErrors> list;
        for (const JointTotals& one : totals) list.push_back(one.figures(asked.within_bpm));
        return list;
    };
    found.all = all.figures(asked.within_bpm);
    found.by_band = figures(bands);
    found.by_method = figures(of_method);
    found.by_instrument = figures(of_instrument);
    found.by_mode = figures(of_mode);
    found.by_task = figures(of_task);
    found.methods_s = methods.values;
    found.instruments = instruments.values;
    found.modes = modes.values;
    found.tasks = tasks.values;
    for (const ErrorTotals& t : by_person.take()) found.by_person.push_back(figures_of(t));
    for (const ErrorTotals& t : by_item) found.by_item.push_back(figures_of(t));
    found.classes.assign(3, std::vector<long long>(3));
    for (std::size_t i = 0; i < classes[0].size(); ++i) {
        const int is = class_places[i / rate_classes], said = class_places[i % rate_classes];
        if (is >= 0 && said >= 0)
            found.classes[static_cast<std::size_t>(is)][static_cast<std::size_t>(said)] +=
                classes[0][i] + classes[1][i];
    }
    found.classes_kappa = kappa(found.classes);
    if (table)
        analyse_items(answers, persons, found);
    else
        found.items_remark = rows == 0 ? "no counts" : "too many people times items";
    return found;
}

}  // namespace engine
