// A made-up candidate does what the protocol asks for in what it believes: soonest due first, some forgotten,
// some late.
#pragma once

#include "engine/scoring/expected.h"
#include "engine/trial/attendant.h"
#include "engine/trial/belief.h"

#include <limits>
#include <set>
#include <string>
#include <vector>

namespace engine {

class Answering {
public:
    explicit Answering(Attendant& attendant) : a_(attendant) {}

    // Everything asked for by now and not yet done.
    void answer(const Belief& belief);
    // Carried on, where nothing else is asked for: kept for the end of a listening.
    void routine_too(bool yes) { routine_ = yes; }
    // When something done late is done; infinite: nothing waits.
    double next_late_s() const;
    void do_late();

private:
    bool answer_once(const Belief& belief);
    void do_one(const std::string& act);
    bool pulse_is_old(const Asked&) const;
    bool findings_awaited(const Played& played);

    Attendant& a_;
    bool routine_ = true;
    struct LateAct {
        double at_s;
        std::string act;
    };
    std::vector<LateAct> late_;
    std::set<std::string> settled_;    // done, forgotten or put off
    std::set<std::string> pulse_for_;  // situations her pulse was felt for
    std::uint32_t asked_ = 0;
};

}  // namespace engine
