#include "engine/competency/cohort.h"

#include "engine/competency/distributions.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

namespace engine {
namespace {

constexpr std::size_t most_answers = 50'000'000;  // persons x items in one table of bytes
constexpr int least_for_limits = 10;
constexpr double right_beats = 2, right_bpm = 5;

constexpr std::uint8_t answered = 1, answered_right = 2;

std::int32_t in_mbpm(double bpm) { return static_cast<std::int32_t>(std::floor(bpm * 1000 + 0.5)); }

// Values of a column as numbers 0, 1, ... in rising order. Values lie in -1..32767.
struct Numbered {
    std::vector<int> values;
    std::vector<std::int32_t> place;

    template <typename Number>
    explicit Numbered(const std::vector<Number>& column) {
        std::vector<char> there(32'769);
        if (column.empty()) there[0] = 1;
        for (const Number v : column) there[static_cast<std::size_t>(std::max<int>(v, -1) + 1)] = 1;
        place.resize(there.size());
        for (std::size_t v = 0; v < there.size(); ++v)
            if (there[v]) {
                place[v] = static_cast<std::int32_t>(values.size());
                values.push_back(static_cast<int>(v) - 1);
            }
    }
    std::size_t size() const { return values.size(); }
    std::size_t of(int value) const {
        return static_cast<std::size_t>(place[static_cast<std::size_t>(std::max(value, -1) + 1)]);
    }
};

// Errors against truths, whole thousandths of a bpm, truths less 140 bpm.
struct JointTotals {
    std::int64_t n = 0, within = 0, error = 0, error2 = 0, truth = 0, truth2 = 0, cross = 0, size = 0, largest = 0;
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
        truth2 += more.truth2, cross += more.cross, size += more.size, largest = std::max(largest, more.largest);
    }
    CountErrors figures(double within_bpm) const {
        const auto bpm = [](std::int64_t m) { return static_cast<double>(m) / 1e3; };
        const auto square = [](std::int64_t m) { return static_cast<double>(m) / 1e6; };
        return CountErrors::of_sums({static_cast<std::size_t>(n), static_cast<std::size_t>(within), bpm(origin_mbpm),
                                     bpm(error), square(error2), bpm(truth), square(truth2), square(cross), bpm(size),
                                     bpm(largest)},
                                    within_bpm);
    }
};

// A column that may be missing. Held beside the loop: its bytes are not looked up again for every row.
template <typename Number>
struct Optional {
    const Number* from;
    explicit Optional(const std::vector<Number>& column) : from(column.empty() ? nullptr : column.data()) {}
    int operator[](std::size_t row) const { return from == nullptr ? -1 : from[row]; }
};

template <typename Number>
std::size_t numbers_used(const std::vector<Number>& column) {
    return column.empty() ? 0 : static_cast<std::size_t>(*std::max_element(column.begin(), column.end()) + 1);
}

// Place in the table of classes: slow, normal, fast; below 0 = none of them.
int class_place(int rate_class) {
    switch (static_cast<RateClass>(rate_class)) {
        case RateClass::slow: return 0;
        case RateClass::normal: return 1;
        case RateClass::fast:
        case RateClass::rising: return 2;
        case RateClass::not_known: break;
    }
    return -1;
}

// First answers of persons to items, complete persons only.
void analyse_items(const std::vector<std::uint8_t>& answers, std::size_t persons, std::size_t items, Cohort& found) {
    std::vector<std::size_t> used;
    for (std::size_t i = 0; i < items; ++i)
        if (found.by_item[i].n > 0) used.push_back(i);
    std::vector<std::int32_t> right(items), totals_of_right(items);
    AnswerSums sums;
    for (std::size_t p = 0; p < persons; ++p) {
        const std::uint8_t* row = answers.data() + p * items;
        std::int32_t done = 0, total = 0;
        for (std::size_t i = 0; i < items; ++i) done += row[i] & answered, total += row[i] >> 1;
        if (done == 0) continue;
        if (static_cast<std::size_t>(done) < used.size()) {
            ++found.persons_with_gaps;
            continue;
        }
        ++sums.persons;
        sums.totals += total;
        sums.totals_squared += static_cast<double>(total) * total;
        for (std::size_t i = 0; i < items; ++i) {
            right[i] += row[i] >> 1;
            totals_of_right[i] += (row[i] >> 1) * total;
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
    ErrorFigures f{static_cast<std::size_t>(totals.n), sum / n, Figure::absent("a spread needs 2 counts, there is 1"),
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

Cohort cohort_of(const CountColumns& c, const CohortAsked& asked) {
    const std::size_t rows = c.person.size();
    assert(c.item.size() == rows && c.plan_s.size() == rows && c.true_mbpm.size() == rows &&
           c.written_mbpm.size() == rows);
    const Numbered methods(c.plan_s), instruments(c.instrument), modes(c.mode);
    const std::size_t persons = numbers_used(c.person), items = numbers_used(c.item);
    const std::int32_t low = in_mbpm(asked.low_bpm), high = in_mbpm(asked.high_bpm);
    std::vector<std::int32_t> tolerance;
    for (const int s : methods.values)
        tolerance.push_back(in_mbpm(s > 0 ? std::max(right_beats * 60 / s, right_bpm) : right_bpm));

    Cohort found;
    found.rows = rows;
    std::vector<ErrorTotals> by_person(persons), by_item(items);
    std::vector<JointTotals> joint(3 * methods.size() * instruments.size() * modes.size());
    const bool table = persons > 0 && items <= most_answers / persons;
    std::vector<std::uint8_t> answers(table ? persons * items : 0);
    std::array<std::int64_t, 9> classes{};
    const std::int32_t within = in_mbpm(asked.within_bpm);
    const bool all_written = c.counted.empty();
    const std::int32_t *person_of = c.person.data(), *item_of = c.item.data(), *truth_of = c.true_mbpm.data(),
                       *written = c.written_mbpm.data();
    const std::int16_t* plan = c.plan_s.data();
    const Optional judged(c.judged), instrument_of(c.instrument), mode_of(c.mode), is_class(c.true_class),
        said_class(c.said_class);
    const std::size_t instrument_count = instruments.size(), mode_count = modes.size(), method_count = methods.size();
    std::size_t repeats = 0;
    for (std::size_t row = 0; row < rows; ++row) {
        if (judged[row] == 0) {
            ++found.not_judged;
            continue;
        }
        const std::int32_t truth = truth_of[row];
        const std::int32_t read = all_written ? written[row] : reading_mbpm(c, row);
        if (truth < 0 || read < 0) {
            ++found.no_reading;
            continue;
        }
        const std::int32_t error = read - truth;
        const auto person = static_cast<std::size_t>(person_of[row]), item = static_cast<std::size_t>(item_of[row]);
        by_person[person].add(error);
        by_item[item].add(error);
        const std::size_t band = static_cast<std::size_t>(truth >= low) + static_cast<std::size_t>(truth > high);
        const std::size_t method = methods.of(plan[row]);
        const std::size_t cell = ((band * method_count + method) * instrument_count +
                                  instruments.of(instrument_of[row])) * mode_count + modes.of(mode_of[row]);
        joint[cell].add(truth, error, within);
        if (table) {
            std::uint8_t& answer = answers[person * items + item];
            repeats += answer != 0;
            if (answer == 0) answer = std::abs(error) <= tolerance[method] ? answered | answered_right : answered;
        }
        const int is = class_place(is_class[row]), said = class_place(said_class[row]);
        if (is >= 0 && said >= 0) ++classes[static_cast<std::size_t>(3 * is + said)];
    }
    found.repeats = repeats;

    JointTotals all;
    std::vector<JointTotals> bands(3), of_method(method_count), of_instrument(instrument_count), of_mode(mode_count);
    for (std::size_t cell = 0; cell < joint.size(); ++cell) {
        const std::size_t instrument = cell / mode_count, method = instrument / instrument_count;
        all.add(joint[cell]);
        of_mode[cell % mode_count].add(joint[cell]);
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
    found.methods_s = methods.values;
    found.instruments = instruments.values;
    found.modes = modes.values;
    for (const ErrorTotals& t : by_person) found.by_person.push_back(figures_of(t));
    for (const ErrorTotals& t : by_item) found.by_item.push_back(figures_of(t));
    for (std::size_t i = 0; i < 3; ++i)
        found.classes.push_back({classes[3 * i], classes[3 * i + 1], classes[3 * i + 2]});
    found.classes_kappa = kappa(found.classes);
    if (table)
        analyse_items(answers, persons, items, found);
    else
        found.items_remark = rows == 0 ? "no counts" : "too many people times items";
    return found;
}

}  // namespace engine
