// Figures of a whole cohort, people by items, in one pass over counted windows: who is off and how far,
// where, with what; how hard and how telling each item is; how far classes agree. Methods of different
// length, instruments and output modes stand apart; the line over all of them pools and says so.
#pragma once

#include "engine/competency/agreement.h"
#include "engine/competency/categories.h"
#include "engine/competency/count_columns.h"
#include "engine/competency/items.h"

#include <cstdint>
#include <string>
#include <vector>

namespace engine {

struct CohortAsked {
    double low_bpm = 110, high_bpm = 160;  // normal, both included
    double within_bpm = 2;                 // share of errors up to this
};

// Errors of one person or item: whole thousandths of a bpm, so that any order of the rows gives the same
// figures.
struct ErrorTotals {
    std::int64_t n = 0, sum_mbpm = 0, square_mbpm2 = 0;

    void add(std::int32_t error_mbpm) {
        ++n;
        sum_mbpm += error_mbpm;
        square_mbpm2 += static_cast<std::int64_t>(error_mbpm) * error_mbpm;
    }
};
struct ErrorFigures {
    std::size_t n = 0;
    // the last two: limits of agreement, from 10 counts on [practice]
    Figure bias_bpm, sd_bpm, low_bpm, high_bpm;
};
ErrorFigures figures_of(const ErrorTotals& totals);

struct Cohort {
    CountErrors all{2};
    std::vector<CountErrors> by_band;  // slow, normal, fast by the true rate
    std::vector<CountErrors> by_method, by_instrument, by_mode, by_task;
    // what each of these is: planned seconds, numbers; -1 not known
    std::vector<int> methods_s, instruments, modes, tasks;
    std::vector<ErrorFigures> by_person, by_item;  // by their numbers in the columns
    // slow, normal, fast: rows true, columns said; a rising one is fast
    CategoryTable classes;
    Kappa classes_kappa = kappa({});
    // first exposures, right = within two beats or 5 bpm [practice]; by `analysed`
    ItemAnalysis items = item_analysis(AnswerSums{});
    std::vector<std::int32_t> analysed;                    // item numbers
    std::size_t rows = 0, no_reading = 0, not_judged = 0;  // rows looked at; left out, and why
    std::size_t repeats = 0;                               // of an item by the same person: not in `items`
    std::size_t persons_with_gaps = 0;                     // left out of `items`
    std::string items_remark;                              // why there is no item analysis; may be empty
};
// Columns of `counts` other than person, item, plan_s, true_mbpm and written_mbpm may be empty: not known. So
// may `people` and `items`; where they are not, no number may lie beyond them.
Cohort cohort_of(const CountColumns& counts, const CohortAsked& asked = {});

}  // namespace engine
