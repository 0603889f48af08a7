// Counted windows as plain columns: what figures of one person and of many are computed from. Row i of every
// column is the same window. The columns say nothing about scenarios or protocols beyond what stands here.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace engine {

// As in the columns `true_class`, `settled_class` and `said_class`.
enum class RateClass : std::int8_t { not_known = -1, normal = 0, fast = 1, slow = 2, rising = 3 };
// Whose beats were counted.
enum class HeartCounted : std::int8_t { not_known = -1, baby = 0, mother = 1, nobody = 2 };

// -1 = not known or not given, in every column that can lack a value.
struct CountColumns {
    std::vector<std::int32_t> attempt;  // in the order attempts were kept
    std::vector<std::int16_t> place;    // of the window within its attempt, from 0
    std::vector<std::uint32_t> person;  // into `people`
    std::vector<std::uint32_t> item;    // into `items`
    // of the attempt: seconds since 1970 UTC; attempts may be kept out of order
    std::vector<std::int64_t> finished_s;
    std::vector<std::int16_t> plan_s;        // length meant; methods of different length are never pooled
    std::vector<std::int8_t> instrument;     // sim::Instrument
    std::vector<std::int8_t> mode;           // sim::OutputMode; scores from different modes are never pooled
    std::vector<std::int8_t> task;           // engine::Task
    std::vector<std::int16_t> true_beats;    // of the baby, in the trainee's own window
    std::vector<std::int16_t> counted;       // -1 = no count of beats given
    std::vector<std::int32_t> true_mbpm;     // the baby's rate over the window as meant, thousandths of a bpm
    std::vector<std::int32_t> written_mbpm;  // -1 = no rate written
    // of the whole attempt: two bits an aspect, the first aspect lowest
    std::vector<std::int32_t> verdicts;
    // 0 = corrected or repeated later in the same listening, or not to stand
    std::vector<std::int8_t> judged;
    std::vector<std::int8_t> followed;    // HeartCounted
    std::vector<std::int8_t> boundary;    // 1 = sits on a limit: too near to it for a fair class
    std::vector<std::int8_t> true_class;  // RateClass of true_mbpm, by the protocol in force
    // what the listening behind the decision showed; only with said_class
    std::vector<std::int8_t> settled_class;
    std::vector<std::int8_t> said_class;  // the decision that rests on this count

    // From a store numbers run from 1 and [0] is empty; from a table they run from 0.
    std::vector<std::string> items;   // scenario ids
    std::vector<std::string> people;  // codes as first typed

    std::size_t rows() const { return attempt.size(); }
};

// Written rate, or beats x factor when no rate was written, thousandths of a bpm; -1 = neither.
inline std::int32_t reading_mbpm(const CountColumns& c, std::size_t row) {
    if (c.written_mbpm[row] >= 0) return c.written_mbpm[row];
    if (c.counted[row] < 0 || c.plan_s[row] <= 0) return -1;
    return (c.counted[row] * 60000 + c.plan_s[row] / 2) / c.plan_s[row];
}

}  // namespace engine
