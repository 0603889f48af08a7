// One mother and her baby as plain named facts: everything true about them before the first second. A
// scenario file is read into this (ranges already drawn); the course, the beats and the sounds follow from it
// and a seed. Trivially copyable: the audio callback keeps its own copy.
#pragma once

#include "sim/fixed_list.h"
#include "sim/units.h"

#include <cstdint>
#include <type_traits>

namespace sim {

// --- The baby in the womb
// -------------------------------------------------------------------------------------

enum class Presentation : std::uint8_t { head, breech, across };  // what lies lowest; across = transverse lie

// Where the baby's back points, seen from the mother. `front` is towards the midline of her belly. LOA =
// left_front, LOT = left_side, LOP = left_behind, direct OA = front, direct OP = behind; mirror for right.
// For a baby lying across, left_* / right_* say on which side the HEAD lies, *_front that the back is in
// front.
enum class Back : std::uint8_t {
    left_front,
    left_side,
    left_behind,
    front,
    behind,
    right_front,
    right_side,
    right_behind
};

// Variability sets of the reference table (beat-to-beat and slow swing together). `by_state`: the baby falls
// asleep and wakes by itself, and its rate with it.
enum class Variability : std::uint8_t { quiet, active, awake, labour, minimal, by_state };

// What a Doppler's beam meets of the heart: valves and walls, or walls alone: two like bursts a beat, which
// the display of a slow heart can take for two beats.
enum class BeamMeets : std::uint8_t { whole_heart, walls_only };

// A thing that happens to the baby's rate. Depths are below (acceleration: above) the baseline, in bpm.
struct BabyEvent {
    enum class Kind : std::uint8_t { acceleration, early, late, variable, prolonged };
    enum class Brought_on_by : std::uint8_t { contraction, movement, time };

    Kind kind = Kind::late;
    Brought_on_by by = Brought_on_by::contraction;
    Bpm depth{20};       // 5..100
    Seconds length{60};  // acceleration, variable, prolonged: whole length from start to back; 10..900
    Seconds back_after{
        30};          // late: back at the baseline this long after the contraction is no longer felt; 5..90
    Seconds lead{0};  // acceleration before a contraction: starts this long before the contraction; 0..60
    Seconds at{0};    // by time: when it starts
    double share = 1.0;      // by contraction or movement: how many of them it answers, 0..1, drawn for each
    std::int32_t every = 1;  // 1 = any may answer; n = only every n-th contraction (the n-th, 2n-th, ...)
    Seconds from{0};         // no earlier
    Seconds until{1e6};      // no later
    Bpm rate_per_10min{0};   // by movement: how many in ten minutes, 0..20
    Bpm shoulders{0};        // variable: a small rise before and after it, 0..20
};

// Rhythm: chance per beat, or a fixed pattern.
struct Rhythm {
    double early_beat = 0.0;       // conducted early beat, chance per beat 0..0.2
    double dropped_beat = 0.0;     // blocked early beat (a pause), chance per beat 0..0.2
    std::int32_t drop_every = 0;   // n = every n-th beat is missing (0 = never); 2 = half the rate, even
    std::int32_t early_every = 0;  // n = every n-th beat is an early one (0 = never); 2 = in pairs
    // early beats come from a lower chamber: the pause after them makes up for it
    bool from_chamber = false;
    double silent_beat = 0.0;  // the beat is there, nobody hears it (contact, movement), chance 0..0.05
};

struct Baby {
    bool heart_beats = true;  // false: there is no fetal heart to be found
    Bpm baseline{138.4};      // 50..240
    Variability variability = Variability::labour;
    Bpm rise{0};  // slow rise of the baseline (a rising baseline), reached after `rise_over`
    Seconds rise_over{1800};
    Bpm drift{1.5};   // standard deviation of the baseline's own wander over 10 to 20 min, 0..6
    Bpm sinusoid{0};  // amplitude of a sinusoidal pattern, 0 = none
    Rhythm rhythm;
    Presentation presentation = Presentation::head;
    Back back = Back::left_front;
    double fifths_above_brim = 4;  // head felt above the brim: 5 = free, 0 = deep; drives how low the spot is
    double comes_down_to = -1;     // fifths above the brim once it has come down; -1 = stays where it is
    Seconds comes_down_over{3600};  // from the start until it is there; the best spot goes with it
    bool spot_given = false;  // the author placed the best spot; else it follows from presentation, back
    Centimetres spot_x{6}, spot_y{-7};  // on the abdomen: origin navel, +x her left, +y her head
    // added to a spot that follows from the position: no two babies alike
    Centimetres spot_off_x{0}, spot_off_y{0};
    Centimetres depth{7};            // skin to heart, before her wall is added; 4..12
    double systole_offset_ms = 255;  // first to second sound = offset - 0.5 x rate, 210..270
    double movements_per_10min = 6;  // felt bursts of movement, 0..40
    BeamMeets beam_meets = BeamMeets::whole_heart;
    FixedList<BabyEvent, 12> events;
};

// --- The mother
// -------------------------------------------------------------------------------------------------

enum class Placenta : std::uint8_t { back, front, left, right, low };

// How she lies or stands. A horn needs flat, half_sitting, left_side, right_side or standing.
enum class Position : std::uint8_t {
    flat,
    half_sitting,
    left_side,
    right_side,
    sitting,
    standing,
    hands_and_knees,
    knees_and_chest
};

struct Mother {
    Bpm pulse{84};            // at rest, 40..180
    Bpm with_contraction{6};  // change at the height of a contraction; negative = falls
    Bpm with_push{35};        // rise with each push
    double restless = 1;      // size of her pulse's own wander and swings against the usual, 0 (a clock) .. 2
    double breaths_per_min = 16;
    double temperature_c = 36.8;  // 34..42
    Centimetres fat{2};           // belly wall, 0.5..8
    Placenta placenta = Placenta::back;
    double extra_fluid_cm = 0;  // more waters than usual: the baby lies this much deeper, 0..4
    Position position = Position::half_sitting;
};

struct Labour {
    double contractions_per_10min = 3.5;  // 0..9
    Millimetres_Hg strength{45};          // peak above tone, 15..100
    Millimetres_Hg tone{10};              // at rest, 5..40; a womb that stays hard: above 25
    Seconds contraction_length{60};       // time a hand can feel it (above 10 mmHg over tone), 20..120
    double irregular = 0.15;              // spread of gaps, 0 (a clock) .. 0.5
    double double_peaks = 0.0;            // share of contractions with two peaks, 0..1
    Seconds first_contraction{60};        // peak of the first one
    bool pushing = false;                 // she bears down with each contraction
    bool oxytocin_drip = false;
    double per_10min_without_drip = 3.5;  // where the frequency settles after the drip is stopped
    Seconds contractions_stop{1e6};       // from here there are none (a scar giving way)
};

// --- What is wrong, if anything, and how it answers
// -------------------------------------------------------------

enum class Trouble : std::uint8_t {
    none,
    lying_flat,
    cord_pressure,
    cord_prolapse,
    too_many_contractions,
    fever,
    bleeding,
    mothers_medicine,
    scar_gives_way,
    unknown
};

// A lasting fall (or, for fever and medicine, a raised rate already in `baseline`) with its own answer to
// measures.
struct Cause {
    Trouble trouble = Trouble::none;
    Seconds at{1e6};            // when the fall starts
    Bpm falls_to{0};            // where it settles; 0 = the cause moves no rate by itself
    Seconds falls_over{60};     // nine tenths of the way after this long, 5..600
    Seconds recovers_over{90};  // nine tenths of the way back after the right measures, 10..1200
    double answer = 1.0;        // how much of the fall the right measures take away, 0 (nothing helps) .. 1
    Bpm pulse_to{0};            // where her own pulse goes with it (bleeding, shock, a medicine); 0 = stays
    Seconds pulse_over{180};    // nine tenths of the way there after this long, 5..1800
};

// --- What else is to be heard
// -----------------------------------------------------------------------------------

// Steps of difficulty: power of the heart's beats over the noise in 20-150 Hz, +12, +6, 0 and -5 dB.
enum class Ladder : std::uint8_t { easy, normal, hard, very_hard };

struct Surroundings {
    Ladder ladder = Ladder::easy;
    Decibels ward{-40};     // voices, trolleys, at the instrument before a good seal; -60 = none, 0 = loud
    Decibels souffle{-14};  // womb blow at the mother's rate, at its own best place; -60 = none
    Centimetres souffle_x{-8}, souffle_y{-9};
    Decibels vessel{-10};  // mother's artery, at its own best place (groin side); -60 = none
    Centimetres vessel_x{-5}, vessel_y{-13};
    Decibels cord_souffle{-60};  // blow at the baby's rate over a cord loop
    Centimetres cord_x{2}, cord_y{2};
    double bowel_per_min = 4;   // 0..20
    double knocks_per_min = 0;  // loud disturbances (a trolley, a door, the mother's talk), 0..10
    double doppler_mhz = 2;     // carrier of the hand-held Doppler, 1..3.5: pitch and depth follow from it
};

struct Patient {
    double gestation_weeks = 39.5;
    FixedList<Baby, 2> babies;  // one, or twins
    Mother mother;
    Labour labour;
    Cause cause;
    Surroundings surroundings;
};

static_assert(std::is_trivially_copyable_v<Patient>);

}  // namespace sim
