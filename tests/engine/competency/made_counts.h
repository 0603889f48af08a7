// Count columns made up for tests of one person's progress.
#pragma once

#include "engine/competency/count_columns.h"

namespace made_counts {

struct One {
    double truth_bpm = 140, written_bpm = 140;
    int plan_s = 60;
    int item = 0;    // 0 = a new labour each time
    int beats = -1;  // the baby's in the own window; -1 = as the truth says
    int mode = 0, instrument = 1, task = 0;
    int judged = 1, followed = 0;
    int settled = -1, said = -1, boundary = 0;
    int verdicts = 0;          // all nine met
    int attempt = 0;           // 0 = the next
    long long finished_s = 0;  // 0 = a day after the one before
};

inline void add(engine::CountColumns& c, const One& one) {
    const auto n = static_cast<int>(c.rows()) + 1;
    const int attempt = one.attempt > 0 ? one.attempt : n;
    const int item = one.item > 0 ? one.item : 1000 + n;
    c.attempt.push_back(attempt);
    c.place.push_back(static_cast<std::int16_t>(n));
    c.person.push_back(1);
    c.item.push_back(static_cast<std::uint32_t>(item));
    c.finished_s.push_back(one.finished_s > 0 ? one.finished_s : 1772389200 + 86400LL * n);
    c.plan_s.push_back(static_cast<std::int16_t>(one.plan_s));
    c.instrument.push_back(static_cast<std::int8_t>(one.instrument));
    c.mode.push_back(static_cast<std::int8_t>(one.mode));
    c.task.push_back(static_cast<std::int8_t>(one.task));
    const double beats = one.truth_bpm * one.plan_s / 60;
    c.true_beats.push_back(
        static_cast<std::int16_t>(one.beats >= 0 ? one.beats : static_cast<int>(beats + 0.5)));
    c.counted.push_back(-1);
    c.true_mbpm.push_back(static_cast<std::int32_t>(one.truth_bpm * 1000 + 0.5));
    c.written_mbpm.push_back(one.written_bpm < 0 ? -1
                                                 : static_cast<std::int32_t>(one.written_bpm * 1000 + 0.5));
    c.verdicts.push_back(one.verdicts);
    c.judged.push_back(static_cast<std::int8_t>(one.judged));
    c.followed.push_back(static_cast<std::int8_t>(one.followed));
    c.boundary.push_back(static_cast<std::int8_t>(one.boundary));
    c.true_class.push_back(-1);
    c.settled_class.push_back(static_cast<std::int8_t>(one.settled));
    c.said_class.push_back(static_cast<std::int8_t>(one.said));
    if (c.items.size() <= static_cast<std::size_t>(item)) c.items.resize(static_cast<std::size_t>(item) + 1);
    c.items[static_cast<std::size_t>(item)] = "labour-" + std::to_string(item);
}

}  // namespace made_counts
