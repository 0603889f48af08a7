#include "engine/store/place.h"

#include <sqlite3.h>
#include <unistd.h>

#include <filesystem>
#include <system_error>

namespace fs = std::filesystem;

namespace engine {

std::optional<Fault> wrong_place(const std::string& path, const std::string& what) {
    const auto fault = [&](const std::string& found, const std::string& allowed) {
        return Fault{path, 0, what, found, allowed};
    };
    if (path.empty()) return fault("no path", "a file that can be written");
    if (path.find('\0') != std::string::npos)
        return fault("a path with a zero byte", "a file that can be written");
    std::error_code error;
    const fs::file_status status = fs::status(path, error);
    if (fs::is_directory(status)) return fault("a directory", "a file, or a place where one can be made");
    fs::path folder = fs::path(path).parent_path();
    if (folder.empty()) folder = ".";
    if (!fs::is_directory(folder, error))
        return fault("no folder " + folder.string(), "a file in a folder that is there");
    // Not only the file: the database keeps its own log beside it while it works.
    if (access(folder.c_str(), W_OK | X_OK) != 0)
        return fault("a folder that cannot be written, " + folder.string(), "a folder that can be written");
    if (!fs::exists(status)) return std::nullopt;
    if (!fs::is_regular_file(status))
        return fault("something that is not a file", "a file that can be written");
    if (access(path.c_str(), R_OK) != 0)
        return fault("a file that cannot be read", "a file that can be written");
    if (access(path.c_str(), W_OK) != 0)
        return fault("a file that cannot be written (read-only)", "a file that can be written");
    // What is in it, the database says: opening the file here as well would, on closing it again, take away
    // the locks that this process may hold on it already (POSIX record locks).
    return std::nullopt;
}

Fault database_fault(int sqlite_code, const std::string& path, const std::string& what) {
    const auto fault = [&](const std::string& found, const std::string& allowed) {
        return Fault{path, 0, what, found, allowed};
    };
    if (sqlite_code == SQLITE_IOERR_WRITE || sqlite_code == SQLITE_IOERR_FSYNC ||
        sqlite_code == SQLITE_IOERR_TRUNCATE || sqlite_code == SQLITE_IOERR_SHMSIZE)
        return fault("a disk that took nothing more (full, or its limit reached)", "a disk with room");
    switch (sqlite_code & 0xff) {
        case SQLITE_FULL: return fault("a full disk", "a disk with room");
        case SQLITE_READONLY:
        case SQLITE_PERM:
            return fault("a file or folder that cannot be written", "a file that can be written");
        case SQLITE_NOTADB:
            return fault("a file of another kind (not a database)",
                         what + " made by this program, or a new path");
        case SQLITE_CORRUPT: return fault("a damaged file", "a copy from before the damage, or a new path");
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            return fault("a file that another program keeps locked",
                         "waiting until that program has finished");
        case SQLITE_CANTOPEN: return fault("a file that cannot be opened", "a file that can be written");
        case SQLITE_IOERR: return fault("a disk that could not be read or written", "a disk that works");
        case SQLITE_NOMEM: return fault("too little memory", "more memory");
        default:
            return fault("a database that refused (code " + std::to_string(sqlite_code) + ")",
                         what + " made by this program");
    }
}

}  // namespace engine
