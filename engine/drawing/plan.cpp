#include "engine/drawing/plan.h"

#include "engine/drawing/plan_parts.h"

namespace engine {

bool moves_the_rate(const Case& what) {
    const int t = what[Axis::trouble];
    return t == trouble::late || t == trouble::variable || t == trouble::prolonged;
}

Outcome<std::vector<AskedShare>> plan_of(const Quota& quota, sim::Seed seed) {
    const AllCounts counts = counts_of(quota);
    const std::vector<Fault> faults = pairs_that_do_not_fit(quota, counts);
    if (!faults.empty()) return faults;
    Dice dice(seed, Part::plan, 0);
    const auto cases = put_together(quota, counts, dice);
    if (!cases.ok()) return cases.faults();
    std::vector<AskedShare> plan;
    std::vector<std::size_t> movers;
    for (const Case& c : cases.value()) {
        if (moves_the_rate(c)) movers.push_back(plan.size());
        plan.push_back({c, true});
    }
    dice.shuffle(movers);
    for (std::size_t i = 0; i * 3 < movers.size(); ++i) plan[movers[i]].answers = false;
    return plan;
}

}  // namespace engine
