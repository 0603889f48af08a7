#include "engine/drawing/axes.h"

namespace engine {

const AxisWords& words_of(Axis axis) {
    static const std::array<AxisWords, axis_count> all{{
        {"", {"normal", "not_normal"}},
        {"", {"inside", "boundary"}},
        {"tasks", {"count", "quick", "find", "tell_apart", "pattern", "labour"}},
        {"levels", {"1", "2", "3", "4", "5"}},
        {"when_normal", {"-", "no_slowing", "early"}},
        {"when_not_normal",
         {"-", "late", "variable", "prolonged", "rising", "fast", "slow", "irregular", "twins", "absent"}},
        {"causes",
         {"-", "lying_flat", "cord_pressure", "cord_prolapse", "too_many_contractions", "fever", "bleeding",
          "mothers_medicine", "scar_gives_way", "none_found"}},
        {"instruments", {"horn", "stethoscope", "doppler", "both"}},
        {"places", {"post", "centre", "hospital"}},
        {"positions", {"back_front", "back_side", "back_behind", "breech", "across"}},
        {"variants",
         {"-", "injection", "high_pressure", "preterm", "thin_green", "generator", "in_water", "interrupted",
          "second_twin"}},
    }};
    return all[static_cast<std::size_t>(axis)];
}

}  // namespace engine
