// What a beat sounds like to a hand-held Doppler: not the heart's own sound but bursts of noise from moving
// walls, valves and blood, through a receiver that turns itself up when little comes back.
#pragma once

#include "sim/body/ear.h"
#include "sim/course/course.h"
#include "sim/patient.h"
#include "sim/sound/beat_queue.h"
#include "sim/sound/echo_shapes.h"

#include <array>

namespace sim {

class DopplerTone {
public:
    DopplerTone(const Patient& patient, Seed seed);

    // The noises of the mix with the probe leaned this much.
    NoiseShapes shapes(double tilt_deg) const;
    // The receiver as it is switched on, `aim` as in look.
    void start(double aim);
    // Once each course cell, in order, whether the Doppler sounds or not.
    void pass_cell(const CourseTick& now, std::int64_t cell);
    // Once each cell that sounds, after pass_cell: what the beam meets in it. `aim` is how well it meets the
    // heart, 1 = square and in the middle. Follows from seed, cell, aim and the last minute of the course,
    // not from what was heard before: a skip and a wait give the same.
    void look(double aim);

    struct Hearts {
        std::array<const BeatQueue*, 2> baby;
        const BeatQueue* mother;
    };
    // How loud each lane of the mix is at a moment; `gain` by Source, `hiss` of the receiver itself.
    void plan(std::int64_t us, const Hearts& hearts, const std::array<double, source_count>& gain,
              double hiss, TickPlan& plan);

    // The heart has slipped out of the beam for a while.
    bool lost() const { return lost_; }

private:
    using Amounts = std::array<double, lane_count>;
    bool slipped_out(double aim) const;
    void add_heart(std::int64_t us, int baby, const BeatQueue& beats, double gain, Amounts& amounts) const;
    void add_vessels(std::int64_t us, const Hearts& hearts, const std::array<double, source_count>& gain,
                     Amounts& amounts) const;

    Seed seed_;
    std::array<BeamMeets, 2> meets_{};
    std::array<bool, 2> steady_{};  // without any variability
    double carrier_mhz_ = 2;
    NoiseShapes square_;
    std::array<double, 6> weights_{1, 1, 1, 1, 1, 1};  // of the six events as the beam drifts over the heart
    static constexpr std::int64_t cells_remembered = 256;
    std::array<std::uint8_t, cells_remembered> restless_{};  // a ring: how much more easily lost, by cell
    std::int64_t cell_ = -1;                                 // the last that was passed
    bool lost_ = false;
    double heard_ = 0;  // what the receiver sets its gain by
};

}  // namespace sim
