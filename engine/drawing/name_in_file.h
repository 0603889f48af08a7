// Where an axis is written in a quota file: for faults.
#pragma once

#include "engine/drawing/quota.h"

#include <string>

namespace engine {

inline std::string name_in_file(Axis axis) {
    if (axis == Axis::normal) return "normal";
    if (axis == Axis::boundary) return "boundary";
    return std::string(words_of(axis).section);
}
inline int line_in_file(const Quota& quota, Axis axis) {
    const int line = axis == Axis::normal     ? quota.normal_line
                     : axis == Axis::boundary ? quota.boundary_line
                                              : quota.of(axis).line;
    return line > 0 ? line : quota.scenarios_line;
}

}  // namespace engine
