// SQLite's C interface with the closing done by itself: for the journal, which is always a local file. The
// store goes through SOCI instead, because it may one day be a server.
#pragma once

#include <sqlite3.h>

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

namespace engine::sqlite {

// Thrown inside engine/store only; callers turn it into a Fault. `code` is the extended result code.
struct Refused {
    int code;
};

struct Close {
    void operator()(sqlite3* database) const { sqlite3_close_v2(database); }
    void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
};

class Statement {
public:
    Statement(sqlite3* database, std::string_view sql) {
        sqlite3_stmt* made = nullptr;
        const int code =
            sqlite3_prepare_v2(database, sql.data(), static_cast<int>(sql.size()), &made, nullptr);
        statement_.reset(made);
        if (code != SQLITE_OK) throw Refused{sqlite3_extended_errcode(database)};
    }

    // From 1, in the order of the question marks.
    Statement& bind(int place, std::string_view text) {
        check(sqlite3_bind_text(statement_.get(), place, text.data(), static_cast<int>(text.size()),
                                SQLITE_TRANSIENT));
        return *this;
    }
    Statement& bind(int place, std::int64_t number) {
        check(sqlite3_bind_int64(statement_.get(), place, number));
        return *this;
    }
    Statement& bind(int place, double number) {
        check(sqlite3_bind_double(statement_.get(), place, number));
        return *this;
    }

    // True while there is a row.
    bool step() {
        const int code = sqlite3_step(statement_.get());
        if (code == SQLITE_ROW) return true;
        if (code == SQLITE_DONE) return false;
        const int extended = sqlite3_extended_errcode(sqlite3_db_handle(statement_.get()));
        sqlite3_reset(statement_.get());
        throw Refused{extended};
    }

    // Runs it and makes it ready for the next values.
    void run() {
        while (step()) {
        }
        sqlite3_reset(statement_.get());
    }

    // From 0.
    std::string text(int column) const {
        const auto* bytes = reinterpret_cast<const char*>(sqlite3_column_text(statement_.get(), column));
        return bytes == nullptr
                   ? std::string()
                   : std::string(bytes,
                                 static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column)));
    }
    std::int64_t number(int column) const { return sqlite3_column_int64(statement_.get(), column); }
    double real(int column) const { return sqlite3_column_double(statement_.get(), column); }

private:
    void check(int code) const {
        if (code != SQLITE_OK) throw Refused{code};
    }
    std::unique_ptr<sqlite3_stmt, Close> statement_;
};

class Connection {
public:
    explicit Connection(const std::string& path) {
        sqlite3* made = nullptr;
        const int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOMUTEX;
        const int code = sqlite3_open_v2(path.c_str(), &made, flags, nullptr);
        database_.reset(made);
        if (code != SQLITE_OK) throw Refused{made == nullptr ? code : sqlite3_extended_errcode(made)};
        sqlite3_extended_result_codes(made, 1);
        sqlite3_busy_timeout(made, 5000);
    }
    Statement prepare(std::string_view sql) const { return {database_.get(), sql}; }
    void run(std::string_view sql) const { prepare(sql).run(); }
    // `name` in a statement of this connection calls `function`, which finds `with` as its user data.
    void define(const char* name, int values, void (*function)(sqlite3_context*, int, sqlite3_value**),
                void* with) const {
        const int code =
            sqlite3_create_function_v2(database_.get(), name, values, SQLITE_UTF8 | SQLITE_DIRECTONLY, with,
                                       function, nullptr, nullptr, nullptr);
        if (code != SQLITE_OK) throw Refused{code};
    }
    std::int64_t number(std::string_view sql) const {
        Statement statement = prepare(sql);
        return statement.step() ? statement.number(0) : 0;
    }
    bool in_transaction() const { return sqlite3_get_autocommit(database_.get()) == 0; }
    void roll_back() const {
        if (in_transaction()) sqlite3_exec(database_.get(), "ROLLBACK", nullptr, nullptr, nullptr);
    }

private:
    std::unique_ptr<sqlite3, Close> database_;
};

}  // namespace engine::sqlite
