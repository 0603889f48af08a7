// Listening: what reaches the ear, 2 ms at a time, from a patient, a seed and the changes of the hold.
// One trivially copyable object holds the body, all beats to come, all filters: a copy is a checkpoint to
// play from. render() may be called from the audio thread: no allocation, lock, file, clock, exception or
// system call in it.
#pragma once

#include "sim/beats/beat_train.h"
#include "sim/course/course.h"
#include "sim/hold.h"
#include "sim/patient.h"
#include "sim/sound/beat_queue.h"
#include "sim/sound/ear_sound.h"
#include "sim/units.h"

#include <array>
#include <cstdint>
#include <span>
#include <type_traits>

namespace sim {

class Listening {
public:
    Listening(const Patient& patient, Seed seed, OutputMode mode);

    // [audio thread] Takes a change that applies from the next whole sound tick at or after change.at_us (a
    // late one: the next tick). Returns the change stamped with the tick at which it takes effect. Call in
    // time order; at most 192 may wait for their time.
    Change apply(const Change& change);

    // [audio thread] Mono, 48 kHz, within -1..1. Any number of samples: whole ticks are made inside and
    // handed out in slices, so the samples do not depend on the block size. While skipping, each tick of
    // silence takes the body 32 s on, so that a block of 512 samples never does more than some 700 course
    // ticks.
    void render(std::span<float> out);

    // [audio thread] Labour time of the next sample to be handed out.
    LabourTime now() const;

    // [audio thread] The hold and the body as of the last tick made, for display.
    const Hold& hold() const { return hold_; }
    const CourseTick& body() const { return cells_[0]; }
    // [audio thread] The Doppler's number as it shows now: 0 = dashes.
    int displayed_bpm() const;
    // [audio thread] Time of the last maternal beat made (a finger on her wrist feels it 0.25 s later); -1
    // before one.
    LabourTime last_maternal_beat() const { return {last_maternal_us_}; }

private:
    enum class Sounding : std::uint8_t { off, on, fading };

    void make_tick();
    void take_due(std::int64_t us);
    void take(const Change& change, std::int64_t us);
    void next_cell();
    void start_sounding();
    void hear(double moved_cm);

    Patient patient_;
    Seed seed_;
    Hold hold_;
    Course course_;
    std::array<BeatClock, 2> babies_clock_;
    BeatClock mother_clock_;
    std::array<CourseTick, 3> cells_{};  // the running cell's start, its end, and the next end
    std::array<BeatQueue, 2> baby_beats_;
    BeatQueue mother_beats_;
    std::int64_t last_maternal_us_ = -1;
    FixedList<Change, 192> waiting_;
    std::int64_t last_stamp_us_ = 0;
    std::int64_t tick_ = 0;   // the next sound tick to be made
    std::int64_t cell_ = -1;  // the running course cell
    std::int64_t skip_to_us_ = -1;
    Sounding sounding_ = Sounding::off;
    int fade_steps_ = 0;                        // 0 silent .. 5 full
    Ear ear_;                                   // for all of the hold but its place
    OutputMode mode_ = OutputMode::true_sound;  // from the next start of sounding on
    EarSound sound_;
    std::array<float, samples_per_sound_tick> made_{};
    int handed_out_ = samples_per_sound_tick;
};

static_assert(std::is_trivially_copyable_v<Listening>);

}  // namespace sim
