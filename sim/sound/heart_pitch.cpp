#include "sim/sound/heart_pitch.h"

#include <algorithm>
#include <array>

namespace sim {

HeartPitch heart_pitch(double gestation_weeks) {
    constexpr std::array<double, 7> first = {53.6, 45.4, 41.6, 39.4, 37.9, 37.5, 36.9};
    constexpr std::array<double, 7> second = {65.6, 63.4, 59.3, 57.9, 56.6, 56.0, 55.2};
    const double at = std::clamp(gestation_weeks - 34, 0.0, 5.999);
    const auto i = static_cast<std::size_t>(at);
    const double part = at - static_cast<double>(i);
    HeartPitch pitch{};
    pitch.first_hz = first[i] + part * (first[i + 1] - first[i]);
    pitch.second_hz = second[i] + part * (second[i + 1] - second[i]);
    pitch.first_ms = 85;
    pitch.second_ms = 58;
    return pitch;
}

}  // namespace sim
