// The time an act takes where the body answers to it: fixed by the program, no protocol changes physiology.
#pragma once

#include "sim/course/course.h"

#include <optional>
#include <string_view>

namespace engine {

inline std::optional<sim::Seconds> fixed_time_of(std::string_view act_id) {
    const sim::Act act = sim::act_named(act_id);
    if (act == sim::Act::none) return std::nullopt;
    return sim::act_takes(act);
}

}  // namespace engine
