#include "engine/drawing/name_in_file.h"
#include "engine/drawing/plan_parts.h"

#include <algorithm>
#include <cassert>

namespace engine {
namespace {

std::vector<double> percents(const Shares& shares, std::size_t values) {
    std::vector<double> p;
    for (std::size_t i = 0; i < values; ++i) p.push_back(std::max(0.0, shares.percent[i]));
    return p;
}

std::string joined(Axis axis, const std::vector<int>& values) {
    std::string all;
    for (const int v : values)
        all += (all.empty() ? "" : ", ") + std::string(words_of(axis).words[static_cast<std::size_t>(v)]);
    return all;
}

// Hall's condition between two axes: each set of values on one side finds enough on the other. The smallest
// set that does not is named.
std::optional<Fault> too_few(const Quota& quota, Axis a, const std::vector<int>& need, Axis b,
                             const std::vector<int>& have) {
    std::vector<int> best;
    int best_need = 0, best_have = 0;
    for (unsigned set = 1; set < 1u << need.size(); ++set) {
        std::vector<int> values;
        int needed = 0;
        for (std::size_t v = 0; v < need.size(); ++v)
            if ((set >> v & 1u) && need[v] > 0) {
                values.push_back(static_cast<int>(v));
                needed += need[v];
            } else if (set >> v & 1u) {
                needed = -1 << 20;  // an empty value in the set: the set without it is looked at anyway
            }
        int there = 0;
        for (std::size_t w = 0; w < have.size(); ++w)
            for (const int v : values)
                if (apart(a, v, b, static_cast<int>(w)) == nullptr) {
                    there += have[w];
                    break;
                }
        if (needed <= there || (!best.empty() && values.size() >= best.size())) continue;
        best = values;
        best_need = needed;
        best_have = there;
    }
    if (best.empty()) return std::nullopt;
    std::vector<int> fitting;
    const GoesWith* rule = nullptr;
    for (int w = 0; w < static_cast<int>(have.size()); ++w) {
        bool fits = false;
        for (const int v : best) {
            const GoesWith* keeps_apart = apart(a, v, b, w);
            fits = fits || keeps_apart == nullptr;
            if (keeps_apart != nullptr && have[static_cast<std::size_t>(w)] > 0 && rule == nullptr)
                rule = keeps_apart;
        }
        if (fits) fitting.push_back(w);
    }
    assert(rule != nullptr);
    return Fault{quota.file, line_in_file(quota, a), name_in_file(a) + "." + joined(a, best),
                 std::to_string(best_need) + " of " + std::to_string(quota.scenarios),
                 "at most " + std::to_string(best_have) + ", as many as " + name_in_file(b) + " asks of " +
                     joined(b, fitting) + " (line " + std::to_string(line_in_file(quota, b)) +
                     "): " + std::string(rule->why)};
}

}  // namespace

AllCounts counts_of(const Quota& quota) {
    AllCounts counts;
    const auto at = [&](Axis axis) -> Counts& { return counts[static_cast<std::size_t>(axis)]; };
    at(Axis::normal) = in_whole_numbers({quota.normal, 100 - quota.normal}, quota.scenarios);
    at(Axis::boundary) = in_whole_numbers({100 - quota.boundary, quota.boundary}, quota.scenarios);
    for (const Axis axis : {Axis::task, Axis::level, Axis::instrument, Axis::place, Axis::position})
        if (quota.of(axis).given)
            at(axis) =
                in_whole_numbers(percents(quota.of(axis), words_of(axis).words.size()), quota.scenarios);
    // Shares of the normal ones, or of the others; "-" for all the rest.
    for (const auto& [axis, side] :
         {std::pair{Axis::calm, normal::yes}, {Axis::trouble, normal::no}, {Axis::cause, normal::no}}) {
        if (!quota.of(axis).given) continue;
        const int mine = (*at(Axis::normal))[static_cast<std::size_t>(side)];
        std::vector<int> whole =
            in_whole_numbers(percents(quota.of(axis), words_of(axis).words.size()), mine);
        whole[0] = quota.scenarios - mine;
        at(axis) = whole;
    }
    std::vector<double> variants = percents(quota.of(Axis::variant), words_of(Axis::variant).words.size());
    variants[0] = 100;
    for (std::size_t i = 1; i < variants.size(); ++i) variants[0] -= variants[i];
    at(Axis::variant) = in_whole_numbers(variants, quota.scenarios);
    return counts;
}

std::vector<Fault> pairs_that_do_not_fit(const Quota& quota, const AllCounts& counts) {
    // Both sides of a pair sum to the same, so one direction is enough: the one a rule is worded in.
    std::vector<Fault> faults;
    for (std::size_t a = 0; a < axis_count; ++a)
        for (std::size_t b = 0; b < axis_count; ++b) {
            const auto worded = [](std::size_t of, std::size_t needs) {
                return std::any_of(
                    what_goes_together().begin(), what_goes_together().end(), [&](const GoesWith& r) {
                        return r.of == static_cast<Axis>(of) && r.needs == static_cast<Axis>(needs);
                    });
            };
            if (!counts[a] || !counts[b] || !worded(a, b) || (a > b && worded(b, a))) continue;
            if (const auto fault =
                    too_few(quota, static_cast<Axis>(a), *counts[a], static_cast<Axis>(b), *counts[b]))
                faults.push_back(*fault);
        }
    return faults;
}

}  // namespace engine
