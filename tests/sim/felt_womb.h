// A womb to look at: when a hand feels it, how high it goes, how often it comes.
#pragma once

#include "sim/course/course.h"

#include <algorithm>
#include <vector>

namespace womb {

using namespace sim;

inline Patient woman() {
    Patient p;
    p.babies.add(Baby{});
    return p;
}

struct Spell {
    double from_s, to_s, peak_mmhg, peak_at_s;
    std::int32_t number;
};

// The spells in which a hand feels the womb hard, complete ones only.
inline std::vector<Spell> felt(const std::vector<CourseTick>& course) {
    std::vector<Spell> spells;
    bool inside = course[0].in_contraction;
    Spell now{};
    bool whole = false;
    for (std::size_t k = 1; k < course.size(); ++k) {
        const double t = static_cast<double>(k) * 0.25;
        if (course[k].in_contraction && !inside) {
            now = {t, t, 0, t, course[k].contraction};
            whole = true;
        }
        inside = course[k].in_contraction;
        if (inside && course[k].uc_above_tone_mmhg > now.peak_mmhg) {
            now.peak_mmhg = course[k].uc_above_tone_mmhg;
            now.peak_at_s = t;
        }
        if (!inside && whole) {
            now.to_s = t;
            spells.push_back(now);
            whole = false;
        }
    }
    return spells;
}

inline double average_per_10min(const Patient& p, const std::vector<Change>& acts, double from_s, double to_s,
                                int seeds) {
    double n = 0;
    for (int s = 1; s <= seeds; ++s) {
        // By number: in a womb that hardly rests two run into one for the hand.
        const auto course = course_over(p, Seed{static_cast<std::uint64_t>(s)}, acts, {to_s + 60});
        n += course[static_cast<std::size_t>(to_s * 4)].contraction -
             course[static_cast<std::size_t>(from_s * 4)].contraction;
    }
    return n * 600 / (to_s - from_s) / seeds;
}

inline Change act(double t, Act what) {
    Change c;
    c.at_us = labour_time({t}).us;
    c.kind = Change::Kind::act;
    c.act = what;
    return c;
}

}  // namespace womb
