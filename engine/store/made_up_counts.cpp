#include "engine/store/made_up_counts.h"

#include "engine/store/person_code.h"
#include "engine/store/place.h"
#include "engine/store/sqlite.h"

#include <initializer_list>

namespace engine {
namespace {

void fill(const sqlite::Connection& store, const CountColumns& c) {
    store.prepare("BEGIN").run();
    sqlite::Statement person = store.prepare("INSERT INTO person (folded, code, number) VALUES (?, ?, ?)");
    for (std::size_t i = 1; i < c.people.size(); ++i)
        person.bind(1, folded(c.people[i])).bind(2, c.people[i]).bind(3, static_cast<std::int64_t>(i)).run();
    sqlite::Statement item = store.prepare("INSERT INTO item (scenario_id, number) VALUES (?, ?)");
    for (std::size_t i = 1; i < c.items.size(); ++i)
        item.bind(1, c.items[i]).bind(2, static_cast<std::int64_t>(i)).run();
    sqlite::Statement row = store.prepare(
        "INSERT INTO counted (attempt, place, person, item, finished_s, method, instrument, mode, task, "
        "true_beats,"
        " counted, true_mbpm, written_mbpm, verdicts, judged, followed, boundary, true_class, settled_class,"
        " said_class) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    for (std::size_t i = 0; i < c.rows(); ++i) {
        int place = 0;
        for (const std::int64_t value : std::initializer_list<std::int64_t>{
                 c.attempt[i],  c.place[i],      c.person[i],       c.item[i],          c.finished_s[i],
                 c.plan_s[i],   c.instrument[i], c.mode[i],         c.task[i],          c.true_beats[i],
                 c.counted[i],  c.true_mbpm[i],  c.written_mbpm[i], c.verdicts[i],      c.judged[i],
                 c.followed[i], c.boundary[i],   c.true_class[i],   c.settled_class[i], c.said_class[i]})
            row.bind(++place, value);
        row.run();
    }
    store.prepare("COMMIT").run();
}

}  // namespace

Outcome<Done> fill_with_counts(const std::string& path, const CountColumns& counts) {
    try {
        fill(sqlite::Connection(path), counts);
        return Done{};
    } catch (const sqlite::Refused& refused) {
        return database_fault(refused.code, path, "the store");
    }
}

}  // namespace engine
