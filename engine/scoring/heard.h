// What each spell of listening really gave: the baby, the mother, both too near to tell, or nothing.
#pragma once

#include "engine/attempt/attempt.h"
#include "engine/scenario/scenario.h"
#include "sim/body/abdomen.h"

#include <optional>
#include <vector>

namespace engine {

// unclear: baby there, but not clearly over her
enum class HeardWhat : std::uint8_t { nothing, baby, unclear, mother };

struct HeardPiece {
    sim::LabourTime from, to;
    HeardWhat what = HeardWhat::nothing;
    int baby = 0;  // which of twins
    int spell = 0;
};

// The place as held, moment by moment (every 2 s), neighbours alike joined. Only the sound decides, never the
// distance.
std::vector<HeardPiece> what_was_heard(const Played& played);

// As if somebody had listened at the best place from `from` to `to`; for twins, to both.
std::vector<HeardPiece> heard_throughout(const Played& played, sim::LabourTime from, sim::LabourTime to);

// The place over a stretch of one spell: the verdict that holds for at least four fifths of it, and its
// figures.
struct SiteHeard {
    sim::Countable countable = sim::Countable::not_countable;
    HeardWhat what = HeardWhat::nothing;  // what was there most of the time
    int baby = 0;
    double over_rival_db = 0, over_noise_db = 0;  // means, step 0.01
    bool heard = false;                           // false: nothing was placed in this stretch
};
SiteHeard site_between(const Played& played, sim::LabourTime from, sim::LabourTime to);

// The baby is in it: counts as listening to the baby.
inline bool has_baby(HeardWhat what) { return what == HeardWhat::baby || what == HeardWhat::unclear; }
// What was there at the last place listened at for 5 s or more in [from, to), most of the time: a contraction
// may cover a heart for a while. None: nowhere that long.
std::optional<HeardWhat> at_the_last_place(const Played& played, const std::vector<HeardPiece>& heard,
                                           sim::LabourTime from, sim::LabourTime to);
// Seconds with the baby in them inside [from, to).
double baby_heard_s(const std::vector<HeardPiece>& heard, sim::LabourTime from, sim::LabourTime to);

// --- The run of a labour by its ticks
// ----------------------------------------------------------------------------
const sim::CourseTick& tick_at(const Played& played, sim::LabourTime t);
std::span<const sim::Beat> heart_of(const Played& played, int baby);
bool heart_beats(const Played& played);
// The settled rate at t as a whole minute counts it, bpm: a pattern of beats that are missed is missing from
// the count.
double settled_as_counted(const Played& played, int baby, sim::LabourTime t);

// The labour as it runs with nothing done, over the scenario's whole length; nothing listened to.
Played untouched(const Scenario& scenario, sim::Seed seed);

}  // namespace engine
