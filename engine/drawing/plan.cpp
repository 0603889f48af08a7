#include "engine/drawing/plan.h"

#include "engine/drawing/plan_parts.h"
#include "engine/scenario/quantity.h"
#include "sim/course/measures.h"

#include <algorithm>
#include <cmath>

namespace engine {

bool moves_the_rate(const Case& what) {
    const int t = what[Axis::trouble];
    return t == trouble::late || t == trouble::variable || t == trouble::prolonged;
}

bool has_a_measure(const Case& what) {
    const auto rows = sim::measures();
    return std::any_of(rows.begin(), rows.end(),
                       [&](const sim::Measure& m) { return m.trouble == trouble_of(what[Axis::cause]); });
}

sim::Trouble trouble_of(int cause_value) {
    using sim::Trouble;
    constexpr Trouble all[] = {Trouble::none,
                               Trouble::lying_flat,
                               Trouble::cord_pressure,
                               Trouble::cord_prolapse,
                               Trouble::too_many_contractions,
                               Trouble::fever,
                               Trouble::bleeding,
                               Trouble::mothers_medicine,
                               Trouble::scar_gives_way,
                               Trouble::unknown};
    return all[cause_value];
}

namespace {

// What sits on a limit, rises or falls has rates of its own.
RateRange rate_asked(const Quota& quota, const Case& c) {
    if (c[Axis::boundary] == boundary::yes) return {};
    if (c.is_normal()) return quota.normal_rate;
    if (c[Axis::trouble] == trouble::slow) return quota.slow_rate;
    return c[Axis::trouble] == trouble::fast ? quota.fast_rate : RateRange{};
}

}  // namespace

Outcome<std::vector<AskedShare>> plan_of(const Quota& quota, sim::Seed seed) {
    const AllCounts counts = counts_of(quota);
    const std::vector<Fault> faults = pairs_that_do_not_fit(quota, counts);
    if (!faults.empty()) return faults;
    Dice dice(seed, Part::plan, 0);
    const auto cases = put_together(quota, counts, dice);
    if (!cases.ok()) return cases.faults();
    std::vector<AskedShare> plan;
    std::size_t move = 0, to_nothing = 0;
    std::vector<std::size_t> could_answer;
    for (const Case& c : cases.value()) {
        const bool answers = !moves_the_rate(c) || has_a_measure(c);
        if (moves_the_rate(c)) ++move;
        if (!answers) ++to_nothing;
        if (moves_the_rate(c) && answers) could_answer.push_back(plan.size());
        plan.push_back({c, answers, rate_asked(quota, c)});
    }
    if (move == 0 && quota.to_nothing_line > 0 && quota.to_nothing > 0 &&
        (quota.of(Axis::trouble).given || quota.normal >= 100))
        return std::vector<Fault>{
            {quota.file, quota.to_nothing_line, "to_nothing", in_words(quota.to_nothing, Unit::percent),
             "only with late, variable or prolonged among when_not_normal: nothing else moves "
             "the rate"}};
    // Rounded up: a third of four are two, or less than a third would be left. Those that have no measure
    // anyway are in.
    const double exact = quota.to_nothing / 100 * static_cast<double>(move);
    const auto wanted = static_cast<std::size_t>(std::ceil(exact - 1e-9));
    dice.shuffle(could_answer);
    for (std::size_t i = 0; to_nothing < wanted; ++i, ++to_nothing) plan[could_answer[i]].answers = false;
    return plan;
}

}  // namespace engine
