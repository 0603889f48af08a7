// A store with counts of made-up persons, written past the program: what figures say is known beforehand.
#pragma once

#include "tests/engine/store/made_up.h"

#include "engine/store/store.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <string>
#include <vector>

namespace kept {

struct Count {
    double truth_bpm = 140;
    int written_bpm = 140;
    int plan_s = 60;
    int verdicts = 0;
};

// One attempt a count, each at a labour of its own, a day apart from 2026-03-01 on.
inline void put(const std::string& store, const std::string& person, const std::vector<Count>& counts) {
    REQUIRE(engine::Store::open(store).value()->person(person).ok());
    std::string sql = "BEGIN;";
    for (std::size_t i = 0; i < counts.size(); ++i) {
        const Count& c = counts[i];
        const std::string item = fmt::format("labour-{}-{}", person, i);
        sql += fmt::format("INSERT INTO item SELECT '{}', coalesce(max(number), 0) + 1 FROM item;", item);
        sql += fmt::format(
            "INSERT INTO counted SELECT (SELECT coalesce(max(attempt), 0) + 1 FROM counted), 0,"
            " (SELECT number FROM person WHERE code = '{}'),"
            " (SELECT number FROM item WHERE scenario_id = '{}'), {}, 1, {}, -1, {}, {}, {}, {},"
            " 0, 0, 1, 0, 0, {}, -1, -1;",
            person, item, c.plan_s, static_cast<int>(c.truth_bpm * c.plan_s / 60 + 0.5),
            static_cast<long>(c.truth_bpm * 1000 + 0.5), 1000L * c.written_bpm, c.verdicts,
            1772389200 + 86400 * static_cast<long>(i),
            c.truth_bpm < 110   ? 2
            : c.truth_bpm > 160 ? 1
                                : 0);
    }
    made_up::sql(store, sql + "COMMIT;");
}

// Truth and reading of the eight counts whose figures R gives: bias -1.25, limits -5.905835 and 3.405835.
inline std::vector<Count> eight() {
    return {{120, 118}, {132, 130}, {140, 144}, {148, 146}, {152, 150}, {160, 156}, {110, 108}, {144, 144}};
}

// Fast ones read low, slow ones high, most others well; every fourth over 15 s, the first dozen rougher.
inline std::vector<Count> many(int n) {
    std::vector<Count> counts;
    for (int i = 0; i < n; ++i) {
        const double truth = 84 + (i * 37) % 108;
        const double pull = truth > 160 || truth < 110 ? -0.13 * (truth - 135) : 0;
        counts.push_back({truth,
                          static_cast<int>(truth + pull + (i * 7) % 5 - 2.0 + (i < 12 ? (i % 3) * 4 : 0)),
                          i % 4 == 3 ? 15 : 60, i % 3 == 0 ? 2 : 0});
    }
    return counts;
}

}  // namespace kept
