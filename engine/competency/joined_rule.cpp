#include "engine/competency/joined_rule.h"

#include <algorithm>
#include <cassert>

namespace engine {
namespace {

constexpr double dust = 1e-9;

bool share(double p) { return p >= 0 && p <= 1; }

std::size_t index(int n) { return static_cast<std::size_t>(n); }

// Chance of being here with so many right and so many over-called, no miss confirmed.
struct Tally {
    int stations;
    std::vector<double> chance;

    explicit Tally(std::size_t n)
        : stations(static_cast<int>(n)), chance(index((stations + 1) * (stations + 1))) {
        chance[0] = 1;
    }
    double& at(int right, int over) { return chance[index(right * (stations + 1) + over)]; }

    void add(double right, double over, double wrong, int done) {
        for (int r = done; r >= 0; --r)
            for (int o = done - r; o >= 0; --o) {
                const double here = at(r, o);
                at(r + 1, o) += here * right;
                at(r, o + 1) += here * over;
                at(r, o) = here * wrong;
            }
    }
    double at_least(int mark, int most_over) {
        double sum = 0;
        for (int r = std::max(0, mark); r <= stations; ++r)
            for (int o = 0; o <= std::min(most_over, stations - r); ++o) sum += at(r, o);
        return sum;
    }
};

int normals_of(std::span<const StationChances> stations) {
    return static_cast<int>(std::count_if(stations.begin(), stations.end(), [](const StationChances& s) {
        return s.kind == StationKind::normal;
    }));
}

}  // namespace

std::string fault_of(const JoinedRule& rule, std::span<const StationChances> stations) {
    if (stations.empty()) return "no stations";
    if (stations.size() > 500) return "at most 500 stations";
    if (rule.mark < 1 || rule.mark > static_cast<int>(stations.size()))
        return "the mark must be 1 to the number of stations, " + std::to_string(stations.size());
    const int normals = normals_of(stations);
    if (rule.least_normals_passed < 0 || rule.least_normals_passed > normals)
        return "the normals to be passed must be 0 to the number of normal stations, " +
               std::to_string(normals);
    for (const StationChances& s : stations) {
        const double wrong = s.kind == StationKind::normal     ? s.over_called
                             : s.kind == StationKind::critical ? s.missed
                                                               : 0;
        if (!share(s.right) || !share(wrong) || !share(s.missed_again) || s.right + wrong > 1 + dust)
            return "chances of one station must lie inside 0 to 1 and not sum to more than 1";
    }
    return "";
}

JoinedPass passes(const JoinedRule& rule, std::span<const StationChances> stations) {
    assert(fault_of(rule, stations).empty());
    Tally joined(stations.size()), apart(stations.size());
    JoinedPass found;
    found.no_confirmed_miss = 1;
    int done = 0;
    for (const StationChances& s : stations) {
        const bool normal = s.kind == StationKind::normal, critical = s.kind == StationKind::critical;
        const double over = normal ? s.over_called : 0;
        const double confirmed = critical ? s.missed * (rule.redraw ? s.missed_again : 1) : 0;
        const double wrong = std::max(0.0, 1 - s.right - over);
        joined.add(s.right, over, std::max(0.0, wrong - confirmed), done);
        apart.add(s.right, over, wrong, done);
        found.no_confirmed_miss *= 1 - confirmed;
        ++done;
    }
    const int most_over = normals_of(stations) - rule.least_normals_passed;
    found.passes = joined.at_least(rule.mark, most_over);
    found.enough_right = apart.at_least(rule.mark, apart.stations);
    found.enough_normals_passed = apart.at_least(0, most_over);
    return found;
}

std::vector<StationChances> alike_stations(double ability, int normal, int critical, int plain,
                                           const WrongShares& wrong) {
    const double over = (1 - ability) * wrong.over_called, missed = (1 - ability) * wrong.missed;
    std::vector<StationChances> all(index(normal), {StationKind::normal, ability, over, 0, 0});
    all.insert(all.end(), index(critical), {StationKind::critical, ability, 0, missed, missed});
    all.insert(all.end(), index(plain), {StationKind::plain, ability, 0, 0, 0});
    return all;
}

}  // namespace engine
