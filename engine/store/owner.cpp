#include "engine/store/owner.h"

#include <unistd.h>

#include <fstream>
#include <sstream>

namespace engine {
namespace {

// Field 22 of /proc/N/stat (proc(5)); empty for a process that is not there or is dead but not yet waited
// for.
std::string start_of(std::int64_t process) {
    std::ifstream file("/proc/" + std::to_string(process) + "/stat");
    std::string line;
    std::getline(file, line);
    // The second field is the program's name in brackets and may hold blanks and brackets itself.
    const std::size_t name_end = line.rfind(')');
    if (name_end == std::string::npos) return "";
    std::istringstream rest(line.substr(name_end + 1));
    std::string word;
    for (int field = 3; field <= 22 && rest >> word; ++field)
        if (field == 3 && (word == "Z" || word == "X")) return "";
    return word;
}

std::string boot_id() {
    std::ifstream file("/proc/sys/kernel/random/boot_id");
    std::string id;
    std::getline(file, id);
    return id;
}

}  // namespace

Owner this_process() { return {getpid(), start_of(getpid()), boot_id()}; }

bool still_running(const Owner& owner) {
    return !owner.started.empty() && owner.boot == boot_id() && start_of(owner.process) == owner.started;
}

}  // namespace engine
