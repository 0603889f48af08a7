// What was done about one rule that asks for an act, and the rules that ask for nothing after all.
#pragma once

#include "engine/scoring/evidence.h"
#include "engine/scoring/expected.h"

#include <cstdint>
#include <string_view>
#include <vector>

namespace engine {

// One rule and what was done about it.
struct Answer {
    enum Verdict { in_time, late, not_done } verdict = in_time;
    const Bound* bound = nullptr;
    sim::LabourTime from, at{-1};
    std::string_view act, by;  // which of the group, and what answered it: see Evidence::Doing
    bool pending = false;      // not done, and no fault: its time had not run out
    std::int64_t due() const {
        const double within = bound->rule->within.value;
        return within > 0 ? from.us + sim::labour_time(sim::Seconds{within}).us : INT64_MAX;
    }
};

// `asked`: all rules that ask for something here.
Answer answer_to(const Evidence&, const Bound&, const std::vector<Bound>& asked);

// These have an aspect of their own; in a normal listening they are not counted again here.
bool judged_elsewhere(const Bound&);
// Asks for nothing after all: the plan is for a heart that has not come back; carrying on is no answer for
// one
// who is unsure, nor where the labour held more than was heard; and without a watch a fast heart that was not
// named asks for whoever can tell, not for its causes.
bool lapsed(const Evidence&, const Bound&);

}  // namespace engine
