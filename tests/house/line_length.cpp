// How wide the house writes. Text between R"( and )" keeps its own lines: files and tables quoted as they
// are.
#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

namespace fs = std::filesystem;

namespace {

constexpr std::size_t most_columns = 110;

// Letters, not bytes: whatever does not continue a letter begins one (UTF-8).
std::size_t columns_of(const std::string& line) {
    std::size_t columns = 0;
    for (const char byte : line) columns += (static_cast<unsigned char>(byte) & 0xc0U) != 0x80U;
    return columns;
}

struct LongLines {
    std::vector<std::string> places;  // "file:line: columns"
    std::size_t files = 0;
};

void read_file(const fs::path& path, LongLines& found) {
    ++found.files;
    std::ifstream file(path);
    std::string line, quote_ends;
    for (int number = 1; std::getline(file, line); ++number) {
        const bool quoted = !quote_ends.empty();
        std::size_t at = 0;
        for (;;) {
            if (!quote_ends.empty()) {
                at = line.find(quote_ends, at);
                if (at == std::string::npos) break;
                at += quote_ends.size();
                quote_ends.clear();
            }
            at = line.find("R\"", at);
            const std::size_t open = at == std::string::npos ? at : line.find('(', at);
            if (open == std::string::npos) break;
            quote_ends = ')' + line.substr(at + 2, open - at - 2) + '"';
            at = open + 1;
        }
        if (quoted || !quote_ends.empty() || line.find("R\"") != std::string::npos) continue;
        if (columns_of(line) > most_columns)
            found.places.push_back(fs::relative(path, FULLMINUTE_SOURCE_DIR).string() + ":" +
                                   std::to_string(number) + ": " + std::to_string(columns_of(line)));
    }
}

}  // namespace

TEST_CASE("no line of code or comment is wider than 110 columns", "[house]") {
    LongLines found;
    for (const char* top : {"sim", "engine", "ui", "tests"})
        for (const auto& entry : fs::recursive_directory_iterator(fs::path(FULLMINUTE_SOURCE_DIR) / top))
            if (entry.path().extension() == ".cpp" || entry.path().extension() == ".h")
                read_file(entry.path(), found);
    CHECK(found.files > 300);
    std::string places;
    for (const std::string& place : found.places) places += place + "\n";
    INFO(places);
    CHECK(found.places.empty());
}
