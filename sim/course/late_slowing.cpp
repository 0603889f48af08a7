#include "sim/course/late_slowing.h"

#include "sim/course/bump.h"
#include "sim/course/variability.h"

#include <algorithm>
#include <array>
#include <cstddef>

namespace sim {

namespace {

// A usual contraction on the grid, worked out once for all the shapes tried on it.
struct UsualPressure {
    static constexpr double from_s = -60;
    static constexpr int ticks = 1120;
    std::array<double, ticks> mmhg{};
    double height = 0;

    explicit UsualPressure(const ContractionShape& shape) : height(shape.height_mmhg) {
        for (int i = 0; i < ticks; ++i)
            mmhg[static_cast<std::size_t>(i)] = shape.at(from_s + i * course_step_s);
    }
    struct Span {
        int first, last;
    };
    // First and last tick above a pressure, a little early and late: rounding must not matter.
    Span ticks_above(double level) const {
        Span span{ticks, -1};
        for (int i = 0; i < ticks; ++i)
            if (mmhg[static_cast<std::size_t>(i)] > level - 1e-6) {
                span.first = std::min(span.first, i);
                span.last = i;
            }
        return span;
    }
    double at(double place) const {
        if (place < 0 || place >= ticks - 1) return 0;
        const auto i = static_cast<std::size_t>(place);
        return mmhg[i] + (place - static_cast<double>(i)) * (mmhg[i + 1] - mmhg[i]);
    }
};

LateShape::Dip dip_of(const LateShape& late, const UsualPressure& pressure, double onset_share,
                      double back_share) {
    constexpr int ticks = UsualPressure::ticks;
    std::array<double, ticks> answer;
    LateShape::Dip dip{0, 0, 0, 0};
    const double delay = late.delay_s / course_step_s;
    const double step = course_step_s / late.lag_s;
    // Nothing drives the lags outside these ticks: before them they rest at zero, after them they only sink.
    const auto driven = pressure.ticks_above(late.threshold_mmhg);
    const int from = std::clamp(static_cast<int>(driven.first - 1 + delay), 0, ticks);
    const int to = std::clamp(static_cast<int>(driven.last + 2 + delay), 0, ticks);
    double first = 0, second = 0;
    int end = from;
    for (; end < ticks; ++end) {
        const double drive = end <= to ? late.drive(pressure.at(end - delay), pressure.height) : 0.0;
        first += (drive - first) * step;
        second += (first - second) * step;
        answer[static_cast<std::size_t>(end)] = second;
        if (second > dip.peak) {
            dip.peak = second;
            dip.nadir_s = UsualPressure::from_s + end * course_step_s;
        } else if (end > to && std::max(first, second) <= std::min(onset_share, back_share) * dip.peak) {
            break;
        }
    }
    const auto over = [&](int i, double share) {
        return answer[static_cast<std::size_t>(i)] > share * dip.peak;
    };
    int onset = from, back = end - 1;
    while (onset < end && !over(onset, onset_share)) ++onset;
    while (back >= from && !over(back, back_share)) --back;
    dip.onset_s = UsualPressure::from_s + (onset < end ? onset : ticks) * course_step_s;
    dip.back_s = UsualPressure::from_s + (back >= from ? back + 1 : 0) * course_step_s;
    return dip;
}

}  // namespace

LateShape::Dip LateShape::dip(const ContractionShape& usual, double level_share) const {
    return dip_of(*this, UsualPressure(usual), level_share, level_share);
}

LateShape LateShape::fitted(const ContractionShape& usual, double depth_bpm, double back_after_s) {
    const UsualPressure pressure(usual);
    const double wanted_s = usual.after_peak(10.0) + back_after_s;
    const double back_share = std::min(0.9, back_within_bpm / std::max(depth_bpm, back_within_bpm + 1));
    const double onset_share = std::min(0.2, 1.0 / depth_bpm);
    LateShape shape;
    LateShape::Dip dip{};
    // Slower in one piece: a later start and a longer lag. From 20 mmHg on if that is gradual enough; a quick
    // one has to begin with the first hardening.
    for (const double threshold : {20.0, 14.0, 9.0, 5.0, 2.5}) {
        shape.threshold_mmhg = std::min(threshold, 0.44 * usual.height_mmhg);
        double low = 0.1, high = 5;
        for (int i = 0; i < 12; ++i) {
            const double s = 0.5 * (low + high);
            shape.delay_s = 8.0 * s;
            shape.lag_s = std::max(10.0 * s, 1.0);
            dip = dip_of(shape, pressure, onset_share, back_share);
            (dip.back_s < wanted_s ? low : high) = s;
        }
        if (dip.nadir_s - dip.onset_s >= gradual_s - 1.5) break;
    }
    shape.peak = dip.peak;
    return shape;
}

}  // namespace sim
