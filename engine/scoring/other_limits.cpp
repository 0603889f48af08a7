#include "engine/scoring/other_limits.h"

#include <fmt/core.h>

#include <array>

namespace engine {

namespace {

// Normal ranges as published; the limits themselves are normal.
struct Range {
    double low_bpm, high_bpm;
    const char* who;
};
constexpr std::array<Range, 3> published = {
    {{110, 160, "WHO 2018, NICE 2022 and FIGO 2015"},
     {120, 160, "older community practice"},
     {100, 180, "the WHO manual for midwives and doctors, 1st edition"}}};

const char* class_in_words(BaselineClass c) {
    return c == BaselineClass::normal ? "normal" : c == BaselineClass::slow ? "too slow" : "too fast";
}

}  // namespace

std::string limits_elsewhere(const Protocol& protocol, sim::Bpm bpm) {
    const BaselineClass here = classify(protocol, bpm);
    std::string others;
    for (const Range& r : published) {
        const BaselineClass there = bpm.value < r.low_bpm    ? BaselineClass::slow
                                    : bpm.value > r.high_bpm ? BaselineClass::fast
                                                             : BaselineClass::normal;
        if (there == here) continue;
        others += fmt::format("{}{} by {:.0f} to {:.0f} ({})", others.empty() ? "" : ", ",
                              class_in_words(there), r.low_bpm, r.high_bpm, r.who);
    }
    if (others.empty()) return "";
    return fmt::format("Guidance differs at {:.0f}: {} by {:.0f} to {:.0f}, the limits in force here; {}.",
                       bpm.value, class_in_words(here), protocol.low.bpm.value, protocol.high.bpm.value,
                       others);
}

}  // namespace engine
