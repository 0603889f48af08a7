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
    double at(double place) const {
        if (place < 0 || place >= ticks - 1) return 0;
        const auto i = static_cast<std::size_t>(place);
        return mmhg[i] + (place - static_cast<double>(i)) * (mmhg[i + 1] - mmhg[i]);
    }
};

LateShape::Dip dip_of(const LateShape& late, const UsualPressure& pressure, double onset_share,
                      double back_share) {
    std::array<double, UsualPressure::ticks> answer{};
    LateShape::Dip dip{0, 0, 0, 0};
    const double delay = late.delay_s / course_step_s;
    const double step = course_step_s / late.lag_s;
    double first = 0, second = 0;
    for (int i = 0; i < UsualPressure::ticks; ++i) {
        first += (late.drive(pressure.at(i - delay), pressure.height) - first) * step;
        second += (first - second) * step;
        answer[static_cast<std::size_t>(i)] = second;
        if (second <= dip.peak) continue;
        dip.peak = second;
        dip.nadir_s = UsualPressure::from_s + i * course_step_s;
    }
    const auto over = [&dip](double share) {
        return [level = share * dip.peak](double y) { return y > level; };
    };
    const auto onset = std::find_if(answer.begin(), answer.end(), over(onset_share));
    const auto back = std::find_if(answer.rbegin(), answer.rend(), over(back_share));
    dip.onset_s = UsualPressure::from_s + static_cast<double>(onset - answer.begin()) * course_step_s;
    dip.back_s = UsualPressure::from_s + static_cast<double>(answer.rend() - back) * course_step_s;
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

double LateShape::drive(double mmhg, double height_mmhg) const {
    return std::max(mmhg - threshold_mmhg, 0.0) / std::max(height_mmhg - threshold_mmhg, 1.0);
}

}  // namespace sim
