// The beat train: the exact beat times that follow from a course. The answer key for every count.
// Integral pulse frequency modulation: the rate is integrated until it reaches one beat.
// Beat times are whole microseconds; sound, screen, scoring and files all use these same numbers.
#pragma once

#include "sim/course/course.h"
#include "sim/fixed_list.h"
#include "sim/patient.h"
#include "sim/units.h"

#include <cstdint>
#include <span>
#include <type_traits>
#include <vector>

namespace sim {

enum class Who : std::uint8_t { fetal, fetal2, maternal };
enum class BeatKind : std::uint8_t { normal, ectopic, dropped };  // dropped: did not happen, never counted

struct Beat {
    std::int64_t at_us = 0;
    std::int64_t number = 0;  // 0, 1, 2 ... also index of the beat's draws; dropped ones have numbers too
    BeatKind kind = BeatKind::normal;
    bool silent = false;  // happened and counts, but no instrument gives it (contact, movement)
};

// Beats of one heart, cell by cell. Trivially copyable. A cell of 0.25 s holds 0, 1 or (above 240 bpm) 2
// beats.
class BeatClock {
public:
    BeatClock(const Patient& patient, Seed seed, Who who);
    // The beats in [k, k+1) * 0.25 s, for the k-th call, rate going straight from h0 to h1 (bpm, 0..300).
    // They stand in the clock itself until the next call.
    const FixedList<Beat, 4>& advance(double h0_bpm, double h1_bpm);

private:
    // How far the next beat lies from the one before, in beats of the running rate, and of what kind it is.
    // Early and blocked beats that this rate has no room for (under 0.2 s, over 2 s) come less early or not
    // at all.
    void draw_next(double rate_bpm);

    Rhythm rhythm_;
    Seed seed_;
    Stream stream_ = Stream::rhythm;
    std::int64_t cell_ = 0;
    std::int64_t number_ = 0;  // of the beat to come
    double left_ = 0;          // beats of phase until it
    double after_early_ = 0;   // extra share of a beat that follows an early one
    BeatKind kind_ = BeatKind::normal;
    std::int64_t last_us_ = -1;  // of the last beat that happened; below 0: none yet
    bool alive_ = true;
    FixedList<Beat, 4> beats_;  // of this cell
};

static_assert(std::is_trivially_copyable_v<BeatClock>);

// All beats of one heart over a course.
std::vector<Beat> beats_over(const Patient&, Seed, Who, std::span<const CourseTick> course);

// Beats that happened with from <= t < to.
std::int64_t beats_between(std::span<const Beat> train, LabourTime from, LabourTime to);

// The rate of a window without rounding: 60 x (phase(to) - phase(from)) / length, phase = number of happened
// beats interpolated between beats. Needs a beat on both sides; otherwise the rate of the beats inside; 0 if
// under two.
Bpm rate_between(std::span<const Beat> train, LabourTime from, LabourTime to);

}  // namespace sim
