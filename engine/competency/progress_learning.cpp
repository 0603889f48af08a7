// Has this person got there: the first attempt at each labour, right or not, on the learning chart; from its
// signal on, on the monitoring chart.
#include "engine/competency/first_goes.h"
#include "engine/competency/progress_parts.h"

#include <algorithm>
#include <set>

namespace engine {
namespace {

constexpr double monitor_h = 4;  // a false alarm within 50 attempts at 10 % failures: 5.1 %
constexpr std::ptrdiff_t monitored = 50;

}  // namespace

LearningSoFar learning_of(const CountColumns& c, const std::vector<std::size_t>& in_time, int mode,
                          const ProgressAsked& asked) {
    LearningSoFar l;
    l.cap = asked.attempt_cap;
    std::set<std::uint32_t> met;
    for (std::size_t at = 0; at < in_time.size();) {
        const std::size_t first = in_time[at];
        bool judged = false, right = true;
        for (; at < in_time.size() && c.attempt[in_time[at]] == c.attempt[first]; ++at) {
            const std::size_t row = in_time[at];
            if (!can_be_right(c, row)) continue;
            judged = true;
            right = right && is_right_of_the_baby(c, row);
        }
        // A labour met in another mode is no longer new.
        const bool is_new = met.insert(c.item[first]).second;
        if (c.mode[first] != mode || !judged) continue;
        if (is_new)
            l.right.push_back(right);
        else
            ++l.repeats;
    }
    l.h = threshold_for(l.rates, l.cap, asked.false_signal);
    if (!l.h.known() || l.right.empty()) return l;
    const auto charted = std::min(l.right.size(), static_cast<std::size_t>(l.cap));
    l.chart = learning_chart(l.rates, *l.h,
                             {l.right.begin(), l.right.begin() + static_cast<std::ptrdiff_t>(charted)});
    if (l.chart.signal_at > 0) {
        // The latest only: over ever more attempts even a good counter alarms once.
        const auto since = std::max(l.right.begin() + l.chart.signal_at,
                                    l.right.end() - std::min(monitored, l.right.end() - l.right.begin()));
        l.monitor_from = static_cast<int>(since - l.right.begin());
        l.monitor = monitoring_chart(l.rates, monitor_h, {since, l.right.end()});
    }
    return l;
}

}  // namespace engine
