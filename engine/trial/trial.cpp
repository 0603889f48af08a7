#include "engine/trial/trial.h"

#include "engine/competency/pass_rule.h"
#include "engine/competency/proportions.h"

#include <cassert>

namespace engine {
namespace {

constexpr std::uint32_t redraw_from = 1000;  // station numbers of redraws: no draw is used twice

// The next critical station of the same task, else of any; with no other, the same again.
std::size_t next_critical(std::span<const TrialStation> form, std::size_t after) {
    std::size_t any = after;
    for (std::size_t step = 1; step <= form.size(); ++step) {
        const std::size_t at = (after + step) % form.size();
        if (form[at].kind != StationKind::critical) continue;
        if (form[at].scenario.task == form[after].scenario.task) return at;
        if (any == after) any = at;
    }
    return any;
}

}  // namespace

TrialLevel try_rule(std::span<const TrialStation> form, const Protocol& protocol, const JoinedRule& rule,
                    const SyntheticCounter& counter, int candidates, sim::Seed seed) {
    assert(form.size() < redraw_from && candidates >= 0);
    TrialLevel level{counter, candidates, std::vector<StationTally>(form.size()), 0, 0,
                     0,       0,          Figure::absent("nobody was tried")};
    long long all_right = 0;
    for (int candidate = 0; candidate < candidates; ++candidate) {
        int right = 0, normals_passed = 0;
        bool confirmed = false;
        for (std::size_t s = 0; s < form.size(); ++s) {
            const auto draws = [&](std::uint32_t station) {
                return CandidateDraws{seed, static_cast<std::uint32_t>(candidate), station};
            };
            const StationResult found =
                try_station(form[s], protocol, counter, draws(static_cast<std::uint32_t>(s)));
            StationTally& tally = level.stations[s];
            ++tally.tried;
            tally.right += found.right;
            tally.over_called += found.over_called;
            tally.missed += found.missed;
            right += found.right;
            normals_passed += form[s].kind == StationKind::normal && !found.over_called;
            if (!found.missed) continue;
            bool again = true;
            if (rule.redraw) {
                ++level.redrawn;
                again = try_station(form[next_critical(form, s)], protocol, counter,
                                    draws(redraw_from + static_cast<std::uint32_t>(s)))
                            .missed;
                level.missed_again += again;
            }
            confirmed = confirmed || again;
        }
        all_right += right;
        level.enough_right += right >= rule.mark;
        level.passed += right >= rule.mark && normals_passed >= rule.least_normals_passed && !confirmed;
    }
    const auto tried = static_cast<double>(form.size()) * candidates;
    if (tried > 0) level.share_right = static_cast<double>(all_right) / tried;
    return level;
}

Interval TrialLevel::enough_right_interval() const { return wilson(enough_right, candidates); }
Interval TrialLevel::passed_interval() const { return wilson(passed, candidates); }

Figure TrialLevel::binomial(const JoinedRule& rule) const {
    if (!share_right) return share_right;
    return FixedRule{static_cast<int>(stations.size()), rule.mark}.passes(*share_right);
}

std::vector<StationChances> TrialLevel::chances(std::span<const TrialStation> form) const {
    std::vector<StationChances> all;
    for (std::size_t s = 0; s < form.size(); ++s) {
        const StationTally& t = stations[s];
        const double n = t.tried > 0 ? t.tried : 1;
        all.push_back({form[s].kind, t.right / n, t.over_called / n, t.missed / n,
                       redrawn > 0 ? static_cast<double>(missed_again) / redrawn : 0});
    }
    return all;
}

}  // namespace engine
