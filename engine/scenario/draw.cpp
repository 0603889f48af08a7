#include "engine/scenario/scenario.h"
#include "engine/scenario/scenario_table.h"
#include "sim/course/usual_baseline.h"
#include "sim/random.h"

#include <algorithm>

namespace engine {

namespace {

// No two babies lie alike: spread of 1.5 cm, at most 3, to each side of the place the position gives
// [practice].
constexpr double spot_spread_cm = 1.5, spot_most_cm = 3;
// away from the numbers of quantities in a file
constexpr std::uint64_t spot_draw = (std::uint64_t{1} << 40) + 1;

}  // namespace

sim::Patient Scenario::patient(sim::Seed seed) const {
    sim::Patient fixed = middle;
    for (std::size_t i = 0; i < drawn.size(); ++i) {
        const Drawn& d = drawn[i];
        land_drawn(fixed, d.key, d.from + (d.to - d.from) * sim::uniform(seed, sim::Stream::scenario, i));
    }
    for (int b = 0; b < fixed.babies.size; ++b) {
        sim::Baby& baby = fixed.babies[b];
        if (usual_baseline[static_cast<std::size_t>(b)])
            baby.baseline = sim::drawn_baseline(fixed.gestation_weeks, seed, b);
        if (baby.spot_given) continue;
        const auto off = [&](std::uint32_t axis) {
            const double z = sim::gaussian(seed, for_baby(sim::Stream::scenario, b), spot_draw, axis);
            return sim::Centimetres{std::clamp(spot_spread_cm * z, -spot_most_cm, spot_most_cm)};
        };
        baby.spot_off_x = off(0);
        baby.spot_off_y = off(1);
    }
    return fixed;
}

}  // namespace engine
