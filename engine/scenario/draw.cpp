#include "engine/scenario/scenario.h"
#include "engine/scenario/scenario_table.h"
#include "sim/random.h"

namespace engine {

sim::Patient Scenario::patient(sim::Seed seed) const {
    sim::Patient fixed = middle;
    for (std::size_t i = 0; i < drawn.size(); ++i) {
        const Drawn& d = drawn[i];
        land_drawn(fixed, d.key, d.from + (d.to - d.from) * sim::uniform(seed, sim::Stream::scenario, i));
    }
    return fixed;
}

}  // namespace engine
