#include "sim/course/usual_baseline.h"

#include <algorithm>

namespace sim {

namespace {

constexpr double spread_bpm = 9, least_bpm = 112, most_bpm = 158;
constexpr std::uint64_t first_try = std::uint64_t{1} << 40;  // away from the numbers of quantities in a file

}  // namespace

Bpm usual_baseline(double gestation_weeks) {
    return {144 - 0.81 * (std::clamp(gestation_weeks, 24.0, 43.0) - 24)};
}

Bpm drawn_baseline(double gestation_weeks, Seed seed, int baby) {
    const double median = usual_baseline(gestation_weeks).value;
    // Drawn again until it lies within: cutting would heap babies up at the limits.
    for (std::uint32_t attempt = 0; attempt < 64; ++attempt) {
        const double bpm =
            median + spread_bpm * gaussian(seed, for_baby(Stream::scenario, baby), first_try, attempt);
        if (bpm >= least_bpm && bpm <= most_bpm) return {bpm};
    }
    return {median};
}

}  // namespace sim
