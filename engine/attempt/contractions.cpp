#include "engine/attempt/played_hands.h"

namespace engine {

// One contraction of the course is one contraction felt: two peaks, or a ripple that dips under the limit for
// a moment, do not make two of it; two that run into each other stay two.
std::vector<Contraction> contractions_in(const std::vector<sim::CourseTick>& course) {
    std::vector<Contraction> all;
    std::int32_t number = -1;
    double highest = 0;
    for (std::size_t k = 0; k < course.size(); ++k) {
        const sim::CourseTick& tick = course[k];
        if (!tick.in_contraction) continue;
        const sim::LabourTime at{static_cast<std::int64_t>(k) * sim::course_tick_us};
        if (all.empty() || tick.contraction != number) {
            number = tick.contraction;
            highest = tick.uc_above_tone_mmhg;
            all.push_back({at, at, at, true});
        }
        Contraction& c = all.back();
        if (tick.uc_above_tone_mmhg > highest) {
            highest = tick.uc_above_tone_mmhg;
            c.peak = at;
        }
        c.to = {at.us + sim::course_tick_us};
        c.ended = k + 1 < course.size();
    }
    return all;
}

}  // namespace engine
