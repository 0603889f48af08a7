#include "engine/store/read_counts.h"

#include "engine/store/person_code.h"
#include "engine/store/place.h"
#include "engine/store/sqlite.h"

#include <algorithm>
#include <new>
#include <utility>

namespace engine {
namespace {

constexpr std::size_t few_rows = 256;  // room made at first for one person's

// A number outside what the column can hold was not written by this program: kept as not known.
template <typename Number>
void put(Number& kept, std::int64_t value) {
    const auto narrow = static_cast<Number>(value);
    kept = narrow == value ? narrow : Number{-1};
}

// A number that names nobody is number 0, which has an empty name.
void put_named(std::uint32_t& kept, std::int64_t value, const std::vector<std::string>& names) {
    const bool named = value > 0 && value < static_cast<std::int64_t>(names.size());
    kept = named ? static_cast<std::uint32_t>(value) : 0;
}

// A class that this program does not have is not known.
void put_class(std::int8_t& kept, std::int64_t value) {
    const bool known = value >= 0 && value <= static_cast<std::int64_t>(RateClass::rising);
    kept = known ? static_cast<std::int8_t>(value) : std::int8_t{-1};
}

void make_rows(CountColumns& c, std::size_t rows) {
    const auto all = [&](auto&... columns) { (columns.resize(rows), ...); };
    all(c.attempt, c.place, c.person, c.item, c.finished_s, c.plan_s, c.instrument, c.mode, c.task,
        c.true_beats, c.counted, c.true_mbpm, c.written_mbpm, c.verdicts, c.judged, c.followed, c.boundary,
        c.true_class, c.settled_class, c.said_class);
}

// Numbers of persons and items run from 1 without holes; index 0 is left empty so that no row needs a change.
std::vector<std::string> names(const sqlite::Connection& store, const char* sql) {
    std::vector<std::string> list;
    sqlite::Statement rows = store.prepare(sql);
    while (rows.step()) {
        const auto number = static_cast<std::size_t>(std::max<std::int64_t>(rows.number(0), 0));
        if (list.size() <= number) list.resize(number + 1);
        list[number] = rows.text(1);
    }
    return list;
}

struct Reading {
    CountColumns columns;  // with room for rows to come
    std::size_t rows = 0;  // read so far
};

// SQLite calls this for each row, with the columns as `read` names them: to ask a statement for twenty
// numbers a row, one by one, takes a fifth longer.
void keep_row(sqlite3_context* context, int, sqlite3_value** values) {
    Reading& reading = *static_cast<Reading*>(sqlite3_user_data(context));
    CountColumns& c = reading.columns;
    const auto number = [&](int column) { return sqlite3_value_int64(values[column]); };
    const std::size_t row = reading.rows++;
    try {
        if (row == c.rows()) make_rows(c, std::max(few_rows, 2 * row));
    } catch (const std::bad_alloc&) {  // must not pass through SQLite
        sqlite3_result_error_nomem(context);
        return;
    }
    put_class(c.said_class[row], number(0));
    put(c.attempt[row], number(1));
    put(c.place[row], number(2));
    put_named(c.person[row], number(3), c.people);
    put_named(c.item[row], number(4), c.items);
    put(c.finished_s[row], number(5));
    put(c.plan_s[row], number(6));
    put(c.instrument[row], number(7));
    put(c.mode[row], number(8));
    put(c.task[row], number(9));
    put(c.true_beats[row], number(10));
    put(c.counted[row], number(11));
    put(c.true_mbpm[row], number(12));
    put(c.written_mbpm[row], number(13));
    put(c.verdicts[row], number(14));
    put(c.judged[row], number(15));
    put(c.followed[row], number(16));
    put(c.boundary[row], number(17));
    put_class(c.true_class[row], number(18));
    put_class(c.settled_class[row], number(19));
}

CountColumns read(const sqlite::Connection& store, const std::optional<std::string>& person) {
    Reading reading;
    CountColumns& c = reading.columns;
    c.people = names(store, "SELECT number, code FROM person ORDER BY number");
    c.items = names(store, "SELECT number, scenario_id FROM item ORDER BY number");
    // said_class is a row's last number: asked for first, SQLite finds where all of them begin in one go.
    std::string sql =
        "SELECT keep_row(said_class, attempt, place, person, item, finished_s, method, instrument,"
        " mode, task, true_beats, counted, true_mbpm, written_mbpm, verdicts, judged, followed,"
        " boundary, true_class, settled_class) FROM counted";
    if (person) {
        sql += " WHERE person = (SELECT number FROM person WHERE folded = ?)";
    } else {
        make_rows(c, static_cast<std::size_t>(store.number("SELECT count(*) FROM counted")));
    }
    store.define("keep_row", 20, keep_row, &reading);
    // Rows are added attempt after attempt: the order of the table itself, which costs nothing to keep.
    sqlite::Statement rows = store.prepare(sql + " ORDER BY rowid");
    if (person) rows.bind(1, folded(*person));
    rows.run();
    make_rows(c, reading.rows);
    return std::move(c);
}

}  // namespace

Outcome<CountColumns> read_counts(const std::string& path, const std::optional<std::string>& person) {
    try {
        return read(sqlite::Connection(path), person);
    } catch (const sqlite::Refused& refused) {
        return database_fault(refused.code, path, "the store");
    }
}

}  // namespace engine
