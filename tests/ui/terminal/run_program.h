// Runs the built program as a person would, in an empty folder of its own.
#pragma once

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <sys/wait.h>
#include <unistd.h>
#include <vector>

struct Run {
    int exit = -1;
    std::string out, err;
};

inline std::string text_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

inline std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) lines.push_back(line);
    return lines;
}

class Folder {
public:
    Folder() {
        std::string name = (std::filesystem::temp_directory_path() / "fullminute-XXXXXX").string();
        path_ = mkdtemp(name.data());
    }
    ~Folder() { std::filesystem::remove_all(path_); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;

    std::filesystem::path operator/(const std::string& name) const { return path_ / name; }
    void write(const std::string& name, const std::string& text) const {
        std::ofstream(path_ / name) << text;
    }

    // `words` as typed in a shell, in this folder.
    Run run(const std::string& words) const {
        const std::string command = "cd '" + path_.string() + "' && '" FULLMINUTE_BINARY_DIR "/fullminute' " +
                                    words + " >.out 2>.err </dev/null";
        const int status = std::system(command.c_str());
        return {WIFEXITED(status) ? WEXITSTATUS(status) : 128, text_of(path_ / ".out"),
                text_of(path_ / ".err")};
    }

private:
    std::filesystem::path path_;
};
