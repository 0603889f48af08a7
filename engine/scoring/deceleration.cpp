#include "engine/scoring/deceleration.h"

#include <array>
#include <cmath>

namespace engine {

namespace {

constexpr double at_peak_s = 5;  // either side of the contraction's height [practice]

}  // namespace

std::string_view name_of(DecelerationKind kind) {
    constexpr std::array<std::string_view, 7> words = {
        "none", "baseline_change", "prolonged", "variable", "early", "late", "unclassified"};
    return words[static_cast<std::size_t>(kind)];
}

DecelerationKind deceleration_kind(const DecelerationShape& fall, const std::optional<ContractionShape>& womb,
                                   const ProlongedRule& rule) {
    const double length = fall.back.value - fall.onset.value, to_nadir = fall.nadir.value - fall.onset.value;
    if (fall.depth.value < 15 || length < 15) return DecelerationKind::none;
    if (length >= 600) return DecelerationKind::baseline_change;
    if (length > rule.length.value || (rule.length_itself && length >= rule.length.value))
        return DecelerationKind::prolonged;
    if (to_nadir < 30) return DecelerationKind::variable;
    if (!womb) return DecelerationKind::unclassified;
    if (std::fabs(fall.nadir.value - womb->peak.value) <= at_peak_s && fall.back <= womb->end)
        return DecelerationKind::early;
    if (fall.nadir > womb->peak && fall.back > womb->end) return DecelerationKind::late;
    return DecelerationKind::unclassified;
}

bool late_by_figo_2015(const DecelerationShape& fall, const ContractionShape& womb) {
    return fall.onset.value > 20 && fall.nadir.value - fall.onset.value > 30 && fall.nadir > womb.peak &&
           fall.back.value - fall.nadir.value > 30;
}

bool is_acceleration(sim::Bpm above, sim::Seconds length, double gestation_weeks) {
    const double least = gestation_weeks >= 32 ? 15 : 10;
    return above.value >= least && length.value >= least && length.value < 120;
}

}  // namespace engine
