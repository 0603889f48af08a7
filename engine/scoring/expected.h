// Which rules of a protocol bind here: situation by situation, with what lifts them, who may do what, and
// what the task asks.
#pragma once

#include "engine/scoring/key.h"
#include "engine/scoring/situations.h"

#include <string>
#include <vector>

namespace engine {

// A rule that holds, with the acts of it that can be asked of this trainee here.
struct Bound {
    const Rule* rule = nullptr;
    std::vector<std::string> acts;  // asked of this trainee; never empty
    const Known* known = nullptr;
    // its clock: known-from, or later where it binds only once something holds
    sim::LabourTime from;
};

// A condition under `unless` holds, so the rule is lifted. Conditions nobody knows never lift.
bool lifts(std::string_view condition, const Scenario&, const Played&, const Picture&, const Known&);

// The task asks it: short tasks do not ask for what takes a whole labour, but where that is the news itself.
bool task_asks(const Scenario&, const Played&, const Known&, const Rule&, std::string_view act);
// The place lets this trainee do it.
bool may_do(const Scenario&, const Protocol&, std::string_view act);

// All rules of one grade that bind, in the order of the file. Acts shown by care (greeting, telling her) are
// left out. What one trouble makes unsafe is not expected for another: unsafe wins.
std::vector<Bound> bound_rules(const Scenario&, const Protocol&, const Played&, const Picture&, Grade grade);

// One act, or any-of group, asked for once whatever the number of situations that ask for it.
struct Asked {
    std::vector<std::string> acts;
    // every rule that asks for it, into the list it was made from; never empty
    std::vector<const Bound*> by;
    bool critical() const;
    double shortest_within_s() const;  // 0 = none of them has a limit
    std::vector<std::string> situations() const, sources() const;
    std::string conflict() const;
};

// A group is asked for with the single act that answers it, where that act is asked for anyway and no later.
std::vector<Asked> asked_once(const std::vector<Bound>& bound);

}  // namespace engine
