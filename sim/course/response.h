// What is wrong, and how the body answers to what is done, by the rows of measures.h.
#pragma once

#include "sim/course/contraction.h"
#include "sim/course/measures.h"
#include "sim/fixed_list.h"
#include "sim/hold.h"
#include "sim/patient.h"

#include <array>

namespace sim {

class Response {
public:
    Response() = default;
    explicit Response(const Patient& patient);

    // An act whose time has come; a change of her position.
    void take(Act act);
    void take(Position position) { position_ = position; }
    // To the next grid point.
    void step(std::int64_t tick);

    WombOrders womb() const { return {pace_, strength_, pushing_}; }
    // How much of the cause's fall is there now, 0..1 (a little over 1 when made worse).
    double fall(int baby) const { return another_s(baby) ? 0.0 : fall_; }
    // What is left of one baby's slowings of this kind that the cause explains, 0..1.
    double slowing_left(int baby, BabyEvent::Kind kind) const {
        return cause_.trouble == Trouble::none ? 1.0 : left_of_slowing(baby, kind);
    }
    // Degrees against the temperature she came with.
    double warmer_c() const { return -cooled_c_; }
    // What the cause adds to her own pulse now, against her pulse at rest.
    Bpm pulse_change(Bpm at_rest) const {
        return cause_.pulse_to.value > 0 ? pulse_ * (cause_.pulse_to - at_rest) : Bpm{0};
    }
    bool pushing() const { return pushing_; }
    Position position() const { return position_; }

private:
    double left_of_slowing(int baby, BabyEvent::Kind kind) const;
    bool done(Act act) const { return done_[static_cast<std::size_t>(act)]; }
    bool harmed_by(Trouble trouble, Act act) const;
    // A cord is the first baby's; everything else is both twins'.
    bool another_s(int baby) const {
        return baby != 0 &&
               (cause_.trouble == Trouble::cord_pressure || cause_.trouble == Trouble::cord_prolapse);
    }
    bool is_done(const Measure& measure) const;
    double relief();  // on by one grid point: 0..1

    // A measure against this trouble and how far it works by now, 0..1.
    struct Helping {
        Measure measure;
        double step = 0, works = 0;
    };

    Cause cause_;
    Labour labour_;
    std::array<bool, static_cast<std::size_t>(Act::count_)> done_{};
    Position position_ = Position::half_sitting;
    Position position_at_onset_ = Position::half_sitting;
    bool drip_ = false, raised_ = false, pushing_ = false, pushed_ = false;
    FixedList<Helping, 8> helping_;
    bool began_ = false;
    double falls_step_ = 0, recovers_step_ = 0, pulse_step_ = 0;
    double fall_ = 0;   // share of the fall that is there
    double eased_ = 0;  // share of slowings taken away
    double pulse_ = 0;  // share of her pulse's change that is there
    double pace_ = 1, strength_ = 1;
    double cooled_c_ = 0;
};

}  // namespace sim
