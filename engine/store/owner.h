// Which process writes an attempt, so that one still running is not offered to another for resuming.
#pragma once

#include <cstdint>
#include <string>

namespace engine {

// Names a process for as long as the machine runs, without asking any clock: its number, the kernel's count
// of ticks at its start (a number is used again, number and start never) and the boot's own id.
struct Owner {
    std::int64_t process = 0;
    std::string started, boot;
    friend bool operator==(const Owner&, const Owner&) = default;
};

Owner this_process();
// False when that process has ended, or the machine was started again since. Where /proc cannot be read:
// false, so that nothing is ever kept from its owner; the same attempt may then be offered twice.
bool still_running(const Owner& owner);

}  // namespace engine
