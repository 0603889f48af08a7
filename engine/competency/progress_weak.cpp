// What to practise next: shares of wrong that are worse than they may be, the best supported first.
#include "engine/competency/progress_parts.h"

#include "engine/scoring/score_sheet.h"

#include <algorithm>
#include <set>

namespace engine {
namespace {

constexpr long long least_counts = 5;  // below this nothing is said of a group [practice]
constexpr std::size_t most_lines = 3;

void consider(std::vector<Weakness>& list, Weakness w) {
    if (w.of < least_counts || w.wrong == 0) return;
    w.at_least = *wilson(w.wrong, w.of).low;
    // Supported: even its lower bound is above the share of failures that is accepted.
    if (w.at_least > FailureRates{}.acceptable) list.push_back(std::move(w));
}

// A group is named only beside others and when it is worse than the whole: else counting itself is the
// matter.
void consider_groups(std::vector<Weakness>& list, WeakIn in, const std::vector<CountGroup>& groups) {
    long long wrong = 0, of = 0;
    std::size_t with_counts = 0;
    for (const CountGroup& g : groups) {
        wrong += g.of - g.right;
        of += g.of;
        with_counts += g.of > 0;
    }
    if (with_counts < 2) return;
    for (const CountGroup& g : groups) {
        if (g.of == 0 || (g.of - g.right) * of <= wrong * g.of) continue;
        const Interval bias = g.errors.bias_interval();
        const bool one_sided = bias.low.known() && (*bias.low > 0 || *bias.high < 0);
        consider(list, {in, g.number, g.of - g.right, g.of, 0,
                        one_sided ? g.errors.bias_bpm() : Figure::absent("not to one side")});
    }
}

// Aspects of whole attempts, of every mode but the ear's own: a place or an act does not depend on the
// loudspeaker.
void consider_aspects(std::vector<Weakness>& list, const CountColumns& c) {
    constexpr Aspect aspects[] = {Aspect::site,       Aspect::whose,  Aspect::window,
                                  Aspect::arithmetic, Aspect::action, Aspect::record};
    for (const Aspect aspect : aspects) {
        Weakness w{aspect == Aspect::whose ? WeakIn::whose : WeakIn::aspect, static_cast<int>(aspect)};
        std::set<std::int32_t> seen;
        for (std::size_t row = 0; row < c.rows(); ++row) {
            if (!seen.insert(c.attempt[row]).second) continue;
            const auto verdict = static_cast<Verdict>(c.verdicts[row] >> (2 * static_cast<int>(aspect)) & 3);
            if (verdict == Verdict::not_asked) continue;
            ++w.of;
            w.wrong += verdict == Verdict::missed;
        }
        consider(list, w);
    }
}

}  // namespace

std::vector<Weakness> weaknesses_of(const Progress& p, const CountColumns& c) {
    std::vector<Weakness> list;
    consider_groups(list, WeakIn::band, p.bands);
    consider_groups(list, WeakIn::method, p.methods);
    consider_groups(list, WeakIn::instrument, p.instruments);
    consider_groups(list, WeakIn::task, p.tasks);
    if (list.empty()) {
        Weakness counting{WeakIn::counting};
        for (const CountGroup& m : p.methods) counting.wrong += m.of - m.right, counting.of += m.of;
        consider(list, counting);
    }
    const long long missed = p.calls[0][1] + p.calls[2][1], over = p.calls[1][0] + p.calls[1][2];
    consider(list,
             {WeakIn::missed_abnormal, 0, missed,
              p.calls[0][0] + p.calls[0][1] + p.calls[0][2] + p.calls[2][0] + p.calls[2][1] + p.calls[2][2]});
    consider(list, {WeakIn::overcalled, 0, over, over + p.calls[1][1]});
    consider_aspects(list, c);
    std::stable_sort(list.begin(), list.end(), [](const Weakness& a, const Weakness& b) {
        // A wrong "normal" is far worse than anything else that is likely.
        if ((a.in == WeakIn::missed_abnormal) != (b.in == WeakIn::missed_abnormal))
            return a.in == WeakIn::missed_abnormal;
        return a.at_least > b.at_least;
    });
    if (list.size() > most_lines) list.resize(most_lines);
    return list;
}

}  // namespace engine
