#include "ui/files.h"

#include <sodium.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fmt/chrono.h>
#include <fmt/format.h>

namespace fs = std::filesystem;

namespace ui {
namespace {

std::string environment(const char* name) {
    const char* value = std::getenv(name);
    return value == nullptr ? "" : value;
}

// A file of a shipped folder by its path, its stem, or the part of the stem before the first '-'.
std::string shipped(const std::string& folder, const std::string& asked) {
    std::error_code ignored;
    if (fs::is_regular_file(asked, ignored)) return asked;
    const fs::path dir = fs::path(data_folder()) / "scenarios" / folder;
    if (fs::is_regular_file(dir / (asked + ".toml"), ignored)) return (dir / (asked + ".toml")).string();
    if (!fs::is_directory(dir, ignored) || asked.empty()) return "";
    for (const auto& entry : fs::directory_iterator(dir, ignored))
        if (entry.path().extension() == ".toml" && entry.path().stem().string().rfind(asked + "-", 0) == 0)
            return entry.path().string();
    return "";
}

}  // namespace

std::string data_folder() {
    if (std::string asked = environment("FULLMINUTE_DATA"); !asked.empty()) return asked;
    std::error_code ignored;
    if (fs::is_directory(FULLMINUTE_SOURCE_DIR "/scenarios", ignored)) return FULLMINUTE_SOURCE_DIR;
    return "/usr/share/fullminute";
}

std::string scenario_path(const std::string& path_or_id) { return shipped("library", path_or_id); }

std::string protocol_path(const std::string& path_or_id) {
    return shipped("protocols", path_or_id.empty() ? "who-2018" : path_or_id);
}

std::string store_path(const std::string& asked) {
    if (!asked.empty()) return asked;
    if (std::string from = environment("FULLMINUTE_STORE"); !from.empty()) return from;
    std::string base = environment("XDG_DATA_HOME");
    if (base.empty()) base = (environment("HOME").empty() ? "." : environment("HOME")) + "/.local/share";
    std::error_code ignored;  // opening the store says what is wrong, with the path
    fs::create_directories(base + "/fullminute", ignored);
    return base + "/fullminute/fullminute.db";
}

std::string journal_path(const std::string& store) {
    fs::path path(store);
    return (path.parent_path() / (path.stem().string() + ".journal.db")).string();
}

std::string utc_now() {
    const auto now =
        std::chrono::time_point_cast<std::chrono::milliseconds>(std::chrono::system_clock::now());
    const auto ms = now.time_since_epoch().count() % 1000;
    return fmt::format("{:%Y-%m-%dT%H:%M:%S}.{:03}Z", fmt::gmtime(std::chrono::system_clock::to_time_t(now)),
                       ms);
}

std::string new_id() {
    unsigned char bytes[16];
    randombytes_buf(bytes, sizeof bytes);
    char hex[33];
    sodium_bin2hex(hex, sizeof hex, bytes, sizeof bytes);
    return hex;
}

unsigned long long new_seed() {
    unsigned long long bits = 0;
    randombytes_buf(&bits, sizeof bits);
    return bits >> 11;
}

std::string program_version() { return FULLMINUTE_VERSION; }

}  // namespace ui
