#include "engine/competency/cohort.h"

#include "engine/competency/cohort_sums.h"
#include "engine/competency/distributions.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>

namespace engine {
namespace {

constexpr int least_for_limits = 10;

CountErrors errors_of(const JointTotals& t, double within_bpm) {
    const auto bpm = [](std::int64_t m) { return static_cast<double>(m) / 1e3; };
    const auto square = [](std::int64_t m) { return static_cast<double>(m) / 1e6; };
    return CountErrors::of_sums({static_cast<std::size_t>(t.n), static_cast<std::size_t>(t.within),
                                 bpm(JointTotals::origin_mbpm), bpm(t.error), square(t.error2), bpm(t.truth),
                                 square(t.truth2), square(t.cross), bpm(t.size), bpm(t.largest)},
                                within_bpm);
}

// Place in the table of classes: slow, normal, fast; below 0 = none of them. By RateClass, from not_known on.
constexpr std::array<std::int8_t, rate_classes> class_places{-1, 1, 2, 0, 2};
static_assert(static_cast<int>(RateClass::not_known) == -1 && static_cast<int>(RateClass::normal) == 0 &&
              static_cast<int>(RateClass::fast) == 1 && static_cast<int>(RateClass::slow) == 2 &&
              static_cast<int>(RateClass::rising) == 3);

constexpr std::uint64_t every_byte = 0x0101'0101'0101'0101;
std::int32_t sum_of_bytes(std::uint64_t word) { return static_cast<std::int32_t>(word * every_byte >> 56); }

// First answers of persons to items, complete persons only.
void analyse_items(const Answers& answers, Cohort& found) {
    const std::size_t items = answers.items;
    std::vector<std::size_t> used;
    for (std::size_t i = 0; i < items; ++i)
        if (found.by_item[i].n > 0) used.push_back(i);
    std::vector<std::int32_t> right(answers.width), totals_of_right(answers.width);
    AnswerSums sums;
    std::size_t firsts = 0;
    for (std::size_t p = 0; p < answers.persons; ++p) {
        const std::uint8_t* row = answers.all.data() + p * answers.width;
        std::int32_t done = 0, total = 0;
        for (std::size_t i = 0; i < answers.width; i += 8) {
            std::uint64_t word;
            std::memcpy(&word, row + i, 8);
            done += sum_of_bytes(word & every_byte * Answers::given);
            total += sum_of_bytes(word >> 1 & every_byte);
        }
        firsts += static_cast<std::size_t>(done);
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
    found.repeats = found.rows - found.no_reading - found.not_judged - firsts;
    found.items = item_analysis(sums);
    if (sums.persons == 0) found.items_remark = "nobody answered every item";
}

}  // namespace

ErrorFigures figures_of(const ErrorTotals& totals) {
    const auto absent = [](const char* why) { return Figure::absent(why); };
    if (totals.n == 0)
        return {0, absent("no counts"), absent("no counts"), absent("no counts"), absent("no counts")};
    const double n = static_cast<double>(totals.n), sum = static_cast<double>(totals.sum_mbpm) / 1000;
    const double bias = sum / n, square = static_cast<double>(totals.square_mbpm2) / 1e6;
    const auto of = static_cast<std::size_t>(totals.n);
    if (totals.n < 2)
        return {of, bias, absent("a spread needs 2 counts, there is 1"), absent("limits need 10 counts"),
                absent("limits need 10 counts")};
    const double sd = std::sqrt(std::max(0.0, square - sum * sum / n) / (n - 1));
    if (totals.n < least_for_limits)
        return {of, bias, sd, absent("limits need 10 counts"), absent("limits need 10 counts")};
    return {of, bias, sd, bias - z95 * sd, bias + z95 * sd};
}

Cohort cohort_of(const CountColumns& c, const CohortAsked& asked) {
    const CohortSums sums = cohort_sums(c, asked);
    Cohort found;
    found.rows = c.person.size();
    found.no_reading = sums.no_reading;
    found.not_judged = sums.not_judged;
    found.methods_s = sums.methods_s;
    found.instruments = sums.instruments;
    found.modes = sums.modes;
    found.tasks = sums.tasks;

    JointTotals all;
    std::vector<JointTotals> bands(3), of_method(sums.methods_s.size()),
        of_instrument(sums.instruments.size()), of_mode(sums.modes.size()), of_task(sums.tasks.size());
    for (std::size_t cell = 0; cell < sums.joint.size(); ++cell) {
        const std::size_t mode = cell / of_task.size(), instrument = mode / of_mode.size(),
                          method = instrument / of_instrument.size();
        const JointTotals& one = sums.joint[cell];
        all.add(one);
        of_task[cell % of_task.size()].add(one);
        of_mode[mode % of_mode.size()].add(one);
        of_instrument[instrument % of_instrument.size()].add(one);
        of_method[method % of_method.size()].add(one);
        bands[method / of_method.size()].add(one);
    }
    const auto figures = [&](const std::vector<JointTotals>& totals) {
        std::vector<CountErrors> list;
        for (const JointTotals& one : totals) list.push_back(errors_of(one, asked.within_bpm));
        return list;
    };
    found.all = errors_of(all, asked.within_bpm);
    found.by_band = figures(bands);
    found.by_method = figures(of_method);
    found.by_instrument = figures(of_instrument);
    found.by_mode = figures(of_mode);
    found.by_task = figures(of_task);
    found.by_person.reserve(sums.by_person.size());
    found.by_item.reserve(sums.by_item.size());
    for (const ErrorTotals& t : sums.by_person) found.by_person.push_back(figures_of(t));
    for (const ErrorTotals& t : sums.by_item) found.by_item.push_back(figures_of(t));
    found.classes.assign(3, std::vector<long long>(3));
    for (std::size_t i = 0; i < sums.classes.size(); ++i) {
        const int is = class_places[i / rate_classes], said = class_places[i % rate_classes];
        if (is >= 0 && said >= 0)
            found.classes[static_cast<std::size_t>(is)][static_cast<std::size_t>(said)] += sums.classes[i];
    }
    found.classes_kappa = kappa(found.classes);
    if (sums.answers.persons > 0)
        analyse_items(sums.answers, found);
    else
        found.items_remark = found.rows == 0 ? "no counts" : "too many people times items";
    return found;
}

}  // namespace engine
