#include "engine/store/journal.h"

#include "engine/store/owner.h"
#include "engine/store/place.h"
#include "engine/store/sqlite.h"

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <deque>
#include <map>
#include <mutex>
#include <thread>

namespace engine {
namespace {

constexpr int schema_version = 1;
constexpr int application_id = 0x464d6a31;         // "FMj1": tells a journal from any other SQLite file
constexpr std::string_view draft_mark = "draft ";  // such a remark holds what was typed into one field
constexpr auto batch_wait = std::chrono::milliseconds(50);
constexpr auto retry_wait = std::chrono::milliseconds(200);

// One thing to be written. `number` is settled at the first try and kept, so that a try again writes the same
// row.
struct Entry {
    enum class Kind { begin, event, remark, drop };
    Kind kind = Kind::event;
    std::string attempt, text;
    Attempt begun;                    // begin only
    std::vector<std::string> events;  // begin only: its events as JSON
    std::int64_t number = -1;
};

// Wall time by the database's own clock: for the person, never for scoring.
constexpr const char* utc = "strftime('%Y-%m-%dT%H:%M:%fZ','now')";

void make_schema(const sqlite::Connection& db) {
    db.run(
        "CREATE TABLE attempt (id TEXT PRIMARY KEY, person TEXT NOT NULL, scenario_id TEXT NOT NULL,"
        " scenario_sha256 TEXT NOT NULL, protocol_id TEXT NOT NULL, protocol_sha256 TEXT NOT NULL,"
        " seed INTEGER NOT NULL, truth INTEGER NOT NULL, program TEXT NOT NULL, output_mode TEXT NOT NULL,"
        " device_delay_s REAL NOT NULL, scenario_text TEXT NOT NULL, protocol_text TEXT NOT NULL,"
        " process INTEGER NOT NULL, process_started TEXT NOT NULL, boot TEXT NOT NULL, last_utc TEXT NOT "
        "NULL)"
        " STRICT, WITHOUT ROWID");
    db.run(
        "CREATE TABLE event (attempt TEXT NOT NULL, number INTEGER NOT NULL, json TEXT NOT NULL,"
        " PRIMARY KEY (attempt, number)) STRICT, WITHOUT ROWID");
    db.run(
        "CREATE TABLE remark (attempt TEXT NOT NULL, number INTEGER NOT NULL, utc TEXT NOT NULL,"
        " what TEXT NOT NULL, PRIMARY KEY (attempt, number)) STRICT, WITHOUT ROWID");
    db.run("PRAGMA application_id = " + std::to_string(application_id));
    db.run("PRAGMA user_version = " + std::to_string(schema_version));
}

// Changing to WAL needs the file alone for a moment and does not wait for it by itself.
void use_wal(const sqlite::Connection& db) {
    for (int tries = 0;; ++tries) {
        try {
            db.run("PRAGMA journal_mode = WAL");
            break;
        } catch (const sqlite::Refused& refused) {
            if ((refused.code & 0xff) != SQLITE_BUSY || tries == 50) throw;
            std::this_thread::sleep_for(std::chrono::milliseconds(20));
        }
    }
    db.run("PRAGMA synchronous = FULL");
}

std::optional<Fault> bring_up(const sqlite::Connection& db, const std::string& path) {
    const auto fault = [&](const std::string& found, const std::string& allowed) {
        return Fault{path, 0, "the journal", found, allowed};
    };
    if (db.number("SELECT count(*) FROM sqlite_schema") > 0 &&
        db.number("PRAGMA application_id") != application_id)
        return fault("a database of something else", "the journal made by this program, or a new path");
    if (const auto found = db.number("PRAGMA user_version"); found > schema_version)
        return fault("a journal written by a newer program (version " + std::to_string(found) + ")",
                     "version " + std::to_string(schema_version) + " or older; use the newer program");
    use_wal(db);
    db.run("BEGIN IMMEDIATE");  // of two that open a new file at once the second finds it made
    if (db.number("PRAGMA user_version") == 0) make_schema(db);
    db.run("COMMIT");
    return std::nullopt;
}

}  // namespace

struct Journal::Inside {
    std::string path;
    sqlite::Connection writing, reading;
    const Owner owner = this_process();

    std::mutex mutex;  // guards what follows
    std::condition_variable to_writer, to_waiting;
    std::deque<Entry> queue;
    std::map<std::string, std::size_t> on_disk;
    std::uint64_t queued = 0, done = 0, failed_tries = 0;
    std::optional<Fault> last_fault;
    bool hurry = false, closing = false;

    std::map<std::string, std::int64_t> next_number;  // writer thread only: of events
    std::thread writer;

    explicit Inside(const std::string& at) : path(at), writing(at), reading(at) {}

    void put(Entry entry) {
        {
            const std::lock_guard lock(mutex);
            queue.push_back(std::move(entry));
            ++queued;
        }
        to_writer.notify_one();
    }

    std::int64_t after_last(const char* table, const std::string& attempt) const {
        sqlite::Statement s = writing.prepare(std::string("SELECT coalesce(max(number) + 1, 0) FROM ") +
                                              table + " WHERE attempt = ?");
        s.bind(1, attempt).step();
        return s.number(0);
    }

    void write_event(const std::string& attempt, std::int64_t number, const std::string& json) const {
        writing.prepare("INSERT INTO event VALUES (?, ?, ?) ON CONFLICT DO NOTHING")
            .bind(1, attempt)
            .bind(2, number)
            .bind(3, json)
            .run();
    }

    void write_begin(const Entry& entry) {
        const AttemptHeader& h = entry.begun.header;
        writing
            .prepare(
                std::string("INSERT INTO attempt VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ") +
                utc +
                ") ON CONFLICT (id) DO UPDATE SET process = excluded.process,"
                " process_started = excluded.process_started, boot = excluded.boot")
            .bind(1, h.id)
            .bind(2, h.person)
            .bind(3, h.scenario_id)
            .bind(4, h.scenario_sha256)
            .bind(5, h.protocol_id)
            .bind(6, h.protocol_sha256)
            .bind(7, static_cast<std::int64_t>(h.seed))
            .bind(8, std::int64_t{h.truth})
            .bind(9, h.program)
            .bind(10, h.output_mode)
            .bind(11, h.device_delay_s)
            .bind(12, entry.begun.scenario_text)
            .bind(13, entry.begun.protocol_text)
            .bind(14, owner.process)
            .bind(15, owner.started)
            .bind(16, owner.boot)
            .run();
        const std::int64_t there = after_last("event", h.id);
        const auto given = static_cast<std::int64_t>(entry.events.size());
        for (std::int64_t n = there; n < given; ++n)
            write_event(h.id, n, entry.events[static_cast<std::size_t>(n)]);
        next_number[h.id] = std::max(there, given);
    }

    void write(Entry& entry) {
        switch (entry.kind) {
            case Entry::Kind::begin: write_begin(entry); break;
            case Entry::Kind::event: {
                if (!next_number.contains(entry.attempt))
                    next_number[entry.attempt] = after_last("event", entry.attempt);
                std::int64_t& next = next_number[entry.attempt];
                if (entry.number < 0) entry.number = next;
                next = std::max(next, entry.number + 1);
                write_event(entry.attempt, entry.number, entry.text);
                break;
            }
            case Entry::Kind::remark:
                if (entry.number < 0) entry.number = after_last("remark", entry.attempt);
                writing
                    .prepare(std::string("INSERT INTO remark VALUES (?, ?, ") + utc +
                             ", ?) ON CONFLICT DO NOTHING")
                    .bind(1, entry.attempt)
                    .bind(2, entry.number)
                    .bind(3, entry.text)
                    .run();
                break;
            case Entry::Kind::drop:
                for (const char* sql :
                     {"DELETE FROM event WHERE attempt = ?", "DELETE FROM remark WHERE attempt = ?",
                      "DELETE FROM attempt WHERE id = ?"})
                    writing.prepare(sql).bind(1, entry.attempt).run();
                next_number.erase(entry.attempt);
                break;
        }
    }

    // One transaction. None when all of it is on disk.
    std::optional<Fault> write_batch(std::deque<Entry>& batch) {
        try {
            writing.run("BEGIN IMMEDIATE");
            const std::string* touched = nullptr;
            for (Entry& entry : batch) {
                write(entry);
                if (touched != nullptr && *touched == entry.attempt) continue;
                touched = &entry.attempt;
                writing.prepare(std::string("UPDATE attempt SET last_utc = ") + utc + " WHERE id = ?")
                    .bind(1, entry.attempt)
                    .run();
            }
            writing.run("COMMIT");
            return std::nullopt;
        } catch (const sqlite::Refused& refused) {
            writing.roll_back();
            return database_fault(refused.code, path, "the journal");
        }
    }

    void note_done(const std::deque<Entry>& batch) {
        for (const Entry& entry : batch) {
            if (entry.kind == Entry::Kind::drop) on_disk.erase(entry.attempt);
            if (entry.kind == Entry::Kind::begin || entry.kind == Entry::Kind::event)
                on_disk[entry.attempt] = static_cast<std::size_t>(next_number[entry.attempt]);
        }
        done += batch.size();
        last_fault.reset();
    }

    void write_all() {
        std::unique_lock lock(mutex);
        int tries_while_closing = 0;
        for (;;) {
            to_writer.wait(lock, [&] { return closing || !queue.empty(); });
            if (queue.empty()) return;
            to_writer.wait_for(lock, batch_wait, [&] { return closing || hurry; });
            hurry = false;
            std::deque<Entry> batch = std::move(queue);
            queue.clear();
            lock.unlock();
            std::optional<Fault> fault = write_batch(batch);
            lock.lock();
            if (!fault) {
                note_done(batch);
                to_waiting.notify_all();
                continue;
            }
            last_fault = std::move(fault);
            ++failed_tries;
            // Back in front, in order: nothing that was typed is given up while the program runs.
            queue.insert(queue.begin(), std::make_move_iterator(batch.begin()),
                         std::make_move_iterator(batch.end()));
            to_waiting.notify_all();
            if (closing && ++tries_while_closing == 5) return;
            to_writer.wait_for(lock, retry_wait, [&] { return hurry; });
        }
    }
};

Journal::Journal(std::unique_ptr<Inside> inside) : inside_(std::move(inside)) {
    inside_->writer = std::thread([in = inside_.get()] { in->write_all(); });
}

Journal::~Journal() {
    {
        const std::lock_guard lock(inside_->mutex);
        inside_->closing = true;
    }
    inside_->to_writer.notify_one();
    inside_->writer.join();
}

Outcome<std::unique_ptr<Journal>> Journal::open(const std::string& path) {
    if (auto fault = wrong_place(path, "the journal")) return *std::move(fault);
    try {
        auto inside = std::make_unique<Inside>(path);
        if (auto fault = bring_up(inside->writing, path)) return *std::move(fault);
        inside->reading.run("PRAGMA query_only = 1");
        return std::unique_ptr<Journal>(new Journal(std::move(inside)));
    } catch (const sqlite::Refused& refused) {
        return database_fault(refused.code, path, "the journal");
    }
}

void Journal::begin(const Attempt& attempt) {
    Entry entry;
    entry.kind = Entry::Kind::begin;
    entry.attempt = attempt.header.id;
    entry.begun = attempt;
    entry.begun.events.clear();
    for (const Event& event : attempt.events) entry.events.push_back(to_json(event));
    inside_->put(std::move(entry));
}

void Journal::add(const std::string& attempt_id, const Event& event) {
    Entry entry;
    entry.attempt = attempt_id;
    entry.text = to_json(event);
    inside_->put(std::move(entry));
}

void Journal::remark(const std::string& attempt_id, const std::string& what) {
    Entry entry;
    entry.kind = Entry::Kind::remark;
    entry.attempt = attempt_id;
    entry.text = what;
    inside_->put(std::move(entry));
}

void Journal::draft(const std::string& attempt_id, const std::string& field, const std::string& text) {
    remark(attempt_id, std::string(draft_mark) + field + ":" + text);
}

void Journal::drop(const std::string& attempt_id) {
    Entry entry;
    entry.kind = Entry::Kind::drop;
    entry.attempt = attempt_id;
    inside_->put(std::move(entry));
}

std::size_t Journal::committed(const std::string& attempt_id) const {
    const std::lock_guard lock(inside_->mutex);
    const auto found = inside_->on_disk.find(attempt_id);
    return found == inside_->on_disk.end() ? 0 : found->second;
}

Outcome<Done> Journal::flush() {
    Inside& in = *inside_;
    std::unique_lock lock(in.mutex);
    const std::uint64_t target = in.queued;
    const std::uint64_t tries = in.failed_tries;
    if (in.done < target) {
        in.hurry = true;
        in.to_writer.notify_one();
    }
    in.to_waiting.wait(lock, [&] { return in.done >= target || in.failed_tries > tries; });
    if (in.done >= target) return Done{};
    return *in.last_fault;
}

Outcome<std::vector<Interrupted>> Journal::interrupted() {
    (void)flush();  // a disk that refuses hides only what is newest; what is there can still be offered
    try {
        std::vector<Interrupted> list;
        sqlite::Statement rows = inside_->reading.prepare(
            "SELECT id, person, scenario_id, scenario_sha256, protocol_id, protocol_sha256, seed, truth, "
            "program,"
            " output_mode, device_delay_s, scenario_text, protocol_text, process, process_started, boot, "
            "last_utc"
            " FROM attempt ORDER BY last_utc DESC, id");
        while (rows.step()) {
            const Owner owner{rows.number(13), rows.text(14), rows.text(15)};
            if (owner != inside_->owner && still_running(owner)) continue;
            Interrupted one;
            AttemptHeader& h = one.header;
            h.id = rows.text(0);
            h.person = rows.text(1);
            h.scenario_id = rows.text(2);
            h.scenario_sha256 = rows.text(3);
            h.protocol_id = rows.text(4);
            h.protocol_sha256 = rows.text(5);
            h.seed = static_cast<std::uint64_t>(rows.number(6));
            h.truth = static_cast<int>(rows.number(7));
            h.program = rows.text(8);
            h.output_mode = rows.text(9);
            h.device_delay_s = rows.real(10);
            one.scenario_text = rows.text(11);
            one.protocol_text = rows.text(12);
            one.last_utc = rows.text(16);
            std::string json = "[";
            sqlite::Statement events =
                inside_->reading.prepare("SELECT json FROM event WHERE attempt = ? ORDER BY number");
            events.bind(1, h.id);
            while (events.step()) json += (json.size() > 1 ? ",\n" : "") + events.text(0);
            sqlite::Statement remarks =
                inside_->reading.prepare("SELECT what FROM remark WHERE attempt = ? ORDER BY number");
            remarks.bind(1, h.id);
            while (remarks.step()) {
                const std::string what = remarks.text(0);
                const std::size_t colon = what.find(':');
                if (what.rfind(draft_mark, 0) != 0 || colon == std::string::npos) continue;
                one.drafts[what.substr(draft_mark.size(), colon - draft_mark.size())] =
                    what.substr(colon + 1);
            }
            Outcome<std::vector<Event>> read = read_events(json + "]", inside_->path + ", attempt " + h.id);
            if (read)
                one.events = std::move(read.value());
            else
                one.unreadable = read.faults().front();
            list.push_back(std::move(one));
        }
        return list;
    } catch (const sqlite::Refused& refused) {
        return database_fault(refused.code, inside_->path, "the journal");
    }
}

}  // namespace engine
