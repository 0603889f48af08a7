#include "engine/store/store.h"

#include "engine/store/counted.h"
#include "engine/store/cut_text.h"
#include "engine/store/person_code.h"
#include "engine/store/place.h"
#include "engine/store/read_counts.h"
#include "engine/store/schema.h"

#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>

#include <algorithm>
#include <chrono>
#include <thread>

namespace engine {
namespace {

using soci::into;
using soci::use;

// SOCI takes the database's address as words apart by blanks, so that a path must be quoted; SQLite itself
// reads a path that is given as a file: address, where any character can be written.
std::string connection_words(const std::string& path) {
    constexpr char hex[] = "0123456789ABCDEF";
    std::string address = "file:";
    for (const char c : path) {
        const auto byte = static_cast<unsigned char>(c);
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                           c == '/' || c == '.' || c == '_' || c == '-' || byte >= 0x80;
        if (plain) {
            address += c;
        } else {
            address += '%';
            address += hex[byte >> 4];
            address += hex[byte & 15];
        }
    }
    return "dbname=" + address + " timeout=5";
}

// BEGIN IMMEDIATE by hand: SOCI's own transaction begins without the write lock and would fail at once,
// waiting or not, if another program wrote between its reading and its writing.
class Writing {
public:
    explicit Writing(soci::session& sql) : sql_(sql) { sql_ << "BEGIN IMMEDIATE"; }
    ~Writing() {
        if (done_) return;
        try {
            sql_ << "ROLLBACK";
        } catch (const soci::soci_error&) {
            // The database has rolled back by itself.
        }
    }
    Writing(const Writing&) = delete;
    Writing& operator=(const Writing&) = delete;
    void commit() {
        sql_ << "COMMIT";
        done_ = true;
    }

private:
    soci::session& sql_;
    bool done_ = false;
};

// Changing to WAL needs the file alone for a moment and does not wait for it by itself.
void use_wal(soci::session& sql) {
    for (int tries = 0;; ++tries) {
        try {
            std::string mode;
            sql << "PRAGMA journal_mode = WAL", into(mode);
            break;
        } catch (const soci::sqlite3_soci_error& error) {
            if ((error.result() & 0xff) != SQLITE_BUSY || tries == 50) throw;
            std::this_thread::sleep_for(std::chrono::milliseconds(20));
        }
    }
    sql << "PRAGMA synchronous = FULL";
}

int sqlite_code(const soci::soci_error& error) {
    const auto* refused = dynamic_cast<const soci::sqlite3_soci_error*>(&error);
    return refused == nullptr ? SQLITE_ERROR : refused->result();
}

std::string missed_aspects(const ScoreSheet& sheet) {
    std::string list;
    for (const AspectScore& aspect : sheet.aspects)
        if (aspect.verdict == Verdict::missed)
            list += (list.empty() ? "" : ",") + std::string(name_of(aspect.aspect));
    return list;
}

std::vector<std::string> apart(const std::string& list) {
    std::vector<std::string> parts;
    for (std::size_t at = 0; at < list.size();) {
        const std::size_t end = std::min(list.find(',', at), list.size());
        parts.push_back(list.substr(at, end - at));
        at = end + 1;
    }
    return parts;
}

}  // namespace

struct Store::Inside {
    std::string path;
    soci::session sql;

    template <typename Work>
    auto guarded(Work work) -> decltype(work()) {
        try {
            return work();
        } catch (const soci::soci_error& error) {
            return database_fault(sqlite_code(error), path, "the store");
        }
    }

    void keep_text(const std::string& sha256, const std::string& body) {
        sql << "INSERT INTO file_text (sha256, body) VALUES (:sha, :body) ON CONFLICT DO NOTHING",
            use(sha256), use(body);
    }

    std::string text(const std::string& sha256) {
        std::string body;
        sql << "SELECT body FROM file_text WHERE sha256 = :sha", use(sha256), into(body);
        return body;
    }

    // Inside a writing transaction.
    long long person_number(const std::string& code) {
        const std::string low = folded(code);
        sql << "INSERT INTO person (folded, code, number)"
               " SELECT :folded, :code, coalesce(max(number) + 1, 1) FROM person WHERE true ON CONFLICT DO "
               "NOTHING",
            use(low), use(code);
        long long number = 0;
        sql << "SELECT number FROM person WHERE folded = :folded", use(low), into(number);
        return number;
    }

    long long item_number(const std::string& scenario_id) {
        sql << "INSERT INTO item (scenario_id, number)"
               " SELECT :id, coalesce(max(number) + 1, 1) FROM item WHERE true ON CONFLICT DO NOTHING",
            use(scenario_id);
        long long number = 0;
        sql << "SELECT number FROM item WHERE scenario_id = :id", use(scenario_id), into(number);
        return number;
    }

    // The attempt's own number, or none when it was there already.
    std::optional<long long> put_attempt(const JudgedAttempt& judged, const std::string& finished_utc) {
        const AttemptHeader& h = judged.attempt.header;
        const std::string person = folded(h.person);
        const std::string missed = missed_aspects(judged.sheet);
        const CutJson cut =
            cut_texts(write_attempt(judged), judged.attempt.scenario_text, judged.attempt.protocol_text);
        const auto seed = static_cast<long long>(h.seed);
        const auto scenario_at = static_cast<long long>(cut.scenario_at);
        const auto protocol_at = static_cast<long long>(cut.protocol_at);
        long long number = 0;
        sql << "SELECT coalesce(max(number) + 1, 1) FROM attempt", into(number);
        soci::statement put =
            (sql.prepare
                 << "INSERT INTO attempt (id, number, person, scenario_id, scenario_sha256, protocol_id,"
                    " protocol_sha256, seed, truth, program, output_mode, device_delay_s, finished_utc,"
                    " missed, json, scenario_at, protocol_at) VALUES (:id, :number, :person, :scenario_id,"
                    " :scenario_sha256, :protocol_id, :protocol_sha256, :seed, :truth, :program,"
                    " :output_mode, :device_delay_s, :finished_utc, :missed, :json, :scenario_at,"
                    " :protocol_at) ON CONFLICT DO NOTHING",
             use(h.id), use(number), use(person), use(h.scenario_id), use(h.scenario_sha256),
             use(h.protocol_id), use(h.protocol_sha256), use(seed), use(h.truth), use(h.program),
             use(h.output_mode), use(h.device_delay_s), use(finished_utc), use(missed), use(cut.json),
             use(scenario_at), use(protocol_at));
        put.execute(true);
        if (put.get_affected_rows() == 0) return std::nullopt;
        return number;
    }

    void put_counted(const CountedRow& row, long long attempt, long long place, long long person,
                     long long item, long long finished_s) {
        sql << "INSERT INTO counted (attempt, place, person, item, method, instrument, true_beats, counted,"
               " true_mbpm, written_mbpm, verdicts, finished_s, task, mode, judged, followed, boundary,"
               " true_class, settled_class, said_class) VALUES (:attempt, :place, :person, :item, :method,"
               " :instrument, :true_beats, :counted, :true_mbpm, :written_mbpm, :verdicts, :finished_s, "
               ":task,"
               " :mode, :judged, :followed, :boundary, :true_class, :settled_class, :said_class)",
            use(attempt), use(place), use(person), use(item), use(row.method), use(row.instrument),
            use(row.true_beats), use(row.counted), use(row.true_mbpm), use(row.written_mbpm),
            use(row.verdicts), use(finished_s), use(row.task), use(row.mode), use(row.judged),
            use(row.followed), use(row.boundary), use(row.true_class), use(row.settled_class),
            use(row.said_class);
    }
};

Store::Store(std::unique_ptr<Inside> inside) : inside_(std::move(inside)) {}
Store::~Store() = default;

Outcome<std::unique_ptr<Store>> Store::open(const std::string& path) {
    if (path.rfind("postgresql:", 0) == 0 || path.rfind("postgres:", 0) == 0)
        return Fault{"", 0, "the store", "the address of a server",
                     "a file; this version keeps its store in a file"};
    if (auto fault = wrong_place(path, "the store")) return *std::move(fault);
    auto inside = std::make_unique<Inside>();
    inside->path = path;
    using Opened = Outcome<std::unique_ptr<Store>>;
    return inside->guarded([&]() -> Opened {
        soci::session& sql = inside->sql;
        sql.open(soci::sqlite3, connection_words(path));
        const auto too_new_or_foreign = [&](int version) -> std::optional<Fault> {
            if (version < 0)
                return Fault{path, 0, "the store", "a database of something else",
                             "the store made by this program, or a new path"};
            if (version > store_version)
                return Fault{path, 0, "the store",
                             "a store written by a newer program (version " + std::to_string(version) + ")",
                             "version " + std::to_string(store_version) + " or older; use the newer program"};
            return std::nullopt;
        };
        // Looked at before anything is changed: a file that is not ours is left as it is.
        int version = version_of(sql);
        if (auto fault = too_new_or_foreign(version)) return *std::move(fault);
        use_wal(sql);
        if (version < store_version) {
            Writing writing(sql);
            version = version_of(sql);  // another program may have been quicker
            if (auto fault = too_new_or_foreign(version)) return *std::move(fault);
            migrate(sql, version);
            writing.commit();
        }
        return std::unique_ptr<Store>(new Store(std::move(inside)));
    });
}

Outcome<Done> Store::keep(const JudgedAttempt& judged, const std::string& finished_utc) {
    const AttemptHeader& h = judged.attempt.header;
    if (auto fault = wrong_person_code(h.person)) return *std::move(fault);
    Inside& in = *inside_;
    return in.guarded([&]() -> Outcome<Done> {
        Writing writing(in.sql);
        in.keep_text(h.scenario_sha256, judged.attempt.scenario_text);
        in.keep_text(h.protocol_sha256, judged.attempt.protocol_text);
        const long long person = in.person_number(h.person);
        const long long item = in.item_number(h.scenario_id);
        if (const auto number = in.put_attempt(judged, finished_utc)) {
            long long place = 0;
            for (const CountedRow& row : counted_rows(judged))
                in.put_counted(row, *number, place++, person, item, seconds_of_utc(finished_utc));
        }
        writing.commit();
        return Done{};
    });
}

Outcome<CountColumns> Store::counts(const std::optional<std::string>& person) {
    return read_counts(inside_->path, person);
}

Outcome<std::vector<AttemptLine>> Store::attempts_of(const std::string& person) {
    Inside& in = *inside_;
    return in.guarded([&]() -> Outcome<std::vector<AttemptLine>> {
        const std::string low = folded(person);
        std::vector<AttemptLine> lines;
        AttemptLine line;
        std::string missed;
        soci::statement rows =
            (in.sql.prepare << "SELECT a.id, p.code, a.scenario_id, a.protocol_id, a.finished_utc, a.missed"
                               " FROM attempt a JOIN person p ON p.folded = a.person WHERE a.person = :folded"
                               " ORDER BY a.finished_utc DESC, a.id",
             use(low), into(line.id), into(line.person), into(line.scenario_id), into(line.protocol_id),
             into(line.finished_utc), into(missed));
        rows.execute();
        while (rows.fetch()) {
            line.missed = apart(missed);
            lines.push_back(line);
        }
        return lines;
    });
}

Outcome<std::string> Store::attempt_json(const std::string& id) {
    Inside& in = *inside_;
    return in.guarded([&]() -> Outcome<std::string> {
        CutJson cut;
        long long scenario_at = -1, protocol_at = -1;
        std::string scenario_sha256, protocol_sha256;
        in.sql << "SELECT json, scenario_at, protocol_at, scenario_sha256, protocol_sha256 FROM attempt "
                  "WHERE id = :id",
            use(id), into(cut.json), into(scenario_at), into(protocol_at), into(scenario_sha256),
            into(protocol_sha256);
        if (!in.sql.got_data())
            return Fault{in.path, 0, "attempt", '"' + id + '"', "the id of an attempt kept in this store"};
        cut.scenario_at = scenario_at;
        cut.protocol_at = protocol_at;
        return put_back(cut, in.text(scenario_sha256), in.text(protocol_sha256));
    });
}

Outcome<std::vector<std::string>> Store::people() {
    Inside& in = *inside_;
    return in.guarded([&]() -> Outcome<std::vector<std::string>> {
        std::vector<std::string> codes;
        std::string code;
        soci::statement rows = (in.sql.prepare << "SELECT code FROM person ORDER BY folded", into(code));
        rows.execute();
        while (rows.fetch()) codes.push_back(code);
        return codes;
    });
}

Outcome<std::string> Store::person(const std::string& code) {
    if (auto fault = wrong_person_code(code)) return *std::move(fault);
    Inside& in = *inside_;
    return in.guarded([&]() -> Outcome<std::string> {
        Writing writing(in.sql);
        in.person_number(code);
        const std::string low = folded(code);
        std::string first;
        in.sql << "SELECT code FROM person WHERE folded = :folded", use(low), into(first);
        writing.commit();
        return first;
    });
}

}  // namespace engine
