#include "engine/competency/first_goes.h"

#include "engine/competency/progress_parts.h"

#include <set>
#include <utility>

namespace engine {

bool is_of_the_baby(const CountColumns& c, std::size_t row) {
    const auto heart = static_cast<HeartCounted>(c.followed[row]);
    return heart == HeartCounted::baby || heart == HeartCounted::not_known;
}

bool is_right_of_the_baby(const CountColumns& c, std::size_t row) {
    return is_of_the_baby(c, row) && count_is_right(c, row);
}

bool can_be_right(const CountColumns& c, std::size_t row) {
    return c.judged[row] != 0 && c.true_beats[row] > 0;
}

FirstGoes first_goes(const CountColumns& c) {
    const std::vector<std::size_t> in_time = rows_in_time(c);
    FirstGoes found;
    std::set<std::pair<std::uint32_t, std::uint32_t>> met;
    for (std::size_t at = 0; at < in_time.size();) {
        const std::size_t first = in_time[at];
        bool judged = false, right = true;
        for (; at < in_time.size() && c.attempt[in_time[at]] == c.attempt[first]; ++at) {
            if (!can_be_right(c, in_time[at])) continue;
            judged = true;
            right = right && is_right_of_the_baby(c, in_time[at]);
        }
        if (!met.insert({c.person[first], c.item[first]}).second)
            ++found.repeats;
        else if (!judged)
            ++found.nothing_judged;
        else
            found.goes.push_back({c.person[first], c.item[first], right});
    }
    return found;
}

}  // namespace engine
