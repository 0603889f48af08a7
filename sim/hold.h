// Where the instrument is, how it is pressed, where the hands are; and the one message that changes any of
// it.
#pragma once

#include "sim/patient.h"
#include "sim/units.h"

#include <cstdint>
#include <type_traits>

namespace sim {

enum class Instrument : std::uint8_t { none, horn, bell, diaphragm, doppler };
enum class Hand : std::uint8_t { left, right };
enum class On : std::uint8_t { none, wrist, belly, instrument };
enum class OutputMode : std::uint8_t { true_sound, assisted, shifted };

struct Hold {
    Instrument instrument = Instrument::none;
    bool placed = false;
    double x_cm = 0, y_cm = 0;    // steps of 0.01; origin navel, +x her left, +y her head
    double press_n = 6;           // newtons, steps of 0.01, 0..30
    double tilt_deg = 0;          // lean away from square to the skin, 0..60, steps of 0.1
    double tilt_towards_deg = 0;  // direction of the lean: 0 = her left, 90 = her head
    bool gel = false;
    On left = On::none, right = On::none;
    Position position = Position::half_sitting;
};

// Acts with an effect on the body. Words, worth and who may do them belong to the protocol; this is the
// physiology.
enum class Act : std::uint8_t {
    none,
    off_her_back,
    lay_flat,
    knees_chest_hips_up,
    lift_the_part,
    push_cord_back,
    stop_oxytocin,
    raise_oxytocin,
    slow_contractions_medicine,
    pause_pushing,
    push_with_contractions,
    offer_drink,
    start_drip,
    cool_her,
    fill_bladder,
    break_waters,
    push_on_fundus,
    give_oxygen,
    count_
};

// What a trainee's event does to the patient or the sound. Also the ring message: one cache line, plain
// bytes.
struct Change {
    enum class Kind : std::uint8_t {
        take,
        place,
        move,
        press,
        tilt,
        gel,
        lift,
        hand,
        position,
        act,
        mode,
        skip
    };

    std::int64_t at_us = 0;     // labour time; takes effect on the first sound tick not before it
    double x_cm = 0, y_cm = 0;  // place, move
    float press_n = 6;          // place, press
    float tilt_deg = 0, tilt_towards_deg = 0;
    Kind kind = Kind::lift;
    Instrument instrument = Instrument::none;  // take
    Hand hand = Hand::left;
    On on = On::none;  // hand
    Position position = Position::half_sitting;
    Act act = Act::none;
    OutputMode mode = OutputMode::true_sound;
    bool gel = true;
    std::int64_t skip_to_us = 0;  // skip: the body goes on to here in silence
    std::uint64_t ticket = 0;  // given back by the renderer so that the sender knows which change was applied
};

static_assert(sizeof(Change) == 64 && std::is_trivially_copyable_v<Change>);

// What `change` does to a hold. Changes of the body (act, skip) leave it as it is, except acts that move her.
void apply(const Change& change, Hold& hold);

}  // namespace sim
