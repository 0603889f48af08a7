#include "engine/outcome.h"

namespace engine {

std::string in_one_line(const Fault& fault) {
    std::string s;
    if (!fault.file.empty()) {
        s += fault.file;
        if (fault.line > 0) s += ":" + std::to_string(fault.line);
        s += ": ";
    }
    s += fault.what;
    if (!fault.found.empty()) s += ", found " + fault.found;
    if (!fault.allowed.empty()) s += ", allowed: " + fault.allowed;
    for (char& c : s)
        if (c == '\n' || c == '\r') c = ' ';
    return s;
}

}  // namespace engine
