// The part of a cohort's figures that looks at every counted window: whole-number sums, the same in any order
// of the rows.
#pragma once

#include "engine/competency/cohort.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <vector>

namespace engine {

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
};

// Persons by items, one byte an answer, rows padded to whole words of eight.
struct Answers {
    std::size_t persons = 0, items = 0, width = 0;
    std::vector<std::uint8_t> all;
    static constexpr std::uint8_t given = 1, right = 2;

    Answers() = default;
    Answers(std::size_t persons_, std::size_t items_)
        : persons(persons_), items(items_), width((items_ + 7) / 8 * 8), all(persons_ * width) {}
};

// By RateClass, from not_known on.
constexpr std::size_t rate_classes = 5;

struct CohortSums {
    // by band of the true rate (slow, normal, fast), method, instrument, mode and task, the last one fastest
    std::vector<JointTotals> joint;
    std::vector<int> methods_s, instruments, modes, tasks;            // what each of these is; -1 not known
    std::vector<ErrorTotals> by_person, by_item;                      // by their numbers in the columns
    std::array<std::int64_t, rate_classes * rate_classes> classes{};  // true x said
    Answers answers;  // the first of each person to each item; nobody's where the table would be too large
    std::size_t no_reading = 0, not_judged = 0;
};
// See `cohort_of`.
CohortSums cohort_sums(const CountColumns& counts, const CohortAsked& asked);

}  // namespace engine
