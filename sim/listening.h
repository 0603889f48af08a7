// Listening: what reaches the ear, 2 ms at a time, from a patient, a seed and the changes of the hold.
// One trivially copyable object holds the body, all beats to come, all filters: a copy is a checkpoint to play from.
// render() may be called from the audio thread: no allocation, lock, file, clock, exception or system call in it.
#pragma once

#include "sim/beats/beat_train.h"
#include "sim/course/course.h"
#include "sim/hold.h"
#include "sim/patient.h"
#include "sim/units.h"

#include <cstdint>
#include <memory>
#include <span>

namespace sim {

class Listening {
public:
    Listening(const Patient& patient, Seed seed, OutputMode mode);

    // [audio thread] Takes a change that applies from the next whole sound tick at or after change.at_us (a late one:
    // the next tick). Returns the change stamped with the tick at which it takes effect. Call in time order.
    Change apply(const Change& change);

    // [audio thread] Mono, 48 kHz, within -1..1. Any number of samples: whole ticks are made inside and handed out in
    // slices, so the samples do not depend on the block size.
    void render(std::span<float> out);

    // [audio thread] Labour time of the next sample to be handed out.
    LabourTime now() const;

    // [audio thread] The hold and the body as of the last tick made, for display.
    const Hold& hold() const;
    const CourseTick& body() const;
    // [audio thread] The Doppler's number as it shows now: 0 = dashes.
    int displayed_bpm() const;
    // [audio thread] Time of the last maternal beat made (a finger on her wrist feels it 0.25 s later).
    LabourTime last_maternal_beat() const;

private:
    OutputMode mode_;
    // the owner of this file shapes what is kept
};

}  // namespace sim
