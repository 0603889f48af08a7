// The course: the truth over time. Rates of baby (or babies) and mother and the pressure of the womb, on a
// fixed grid of 0.25 s. Advances tick by tick, so an act at a given time always has the same result.
#pragma once

#include "sim/course/contraction.h"
#include "sim/course/deceleration.h"
#include "sim/course/maternal_rate.h"
#include "sim/course/response.h"
#include "sim/course/settled_rate.h"
#include "sim/course/sleep_and_waking.h"
#include "sim/course/variability.h"
#include "sim/hold.h"
#include "sim/patient.h"
#include "sim/random.h"
#include "sim/units.h"

#include <array>
#include <cstdint>
#include <span>
#include <string_view>
#include <type_traits>
#include <vector>

namespace sim {

// The state of the body at one grid point, time = k * 0.25 s.
struct CourseTick {
    std::array<double, 2> fhr_bpm{};  // 0 where there is no baby or no heart
    std::array<double, 2>
        fhr_base_bpm{};  // the settled rate: baseline with rise and lasting cause, without the
                         // contraction's slowing, rises and variability: what "baseline" means
    double mhr_bpm = 0;
    double uc_mmhg = 0;  // womb pressure as a sensor shows it: tone, pushes, her breathing included
    double uc_above_tone_mmhg = 0;  // contractions and pushes, without tone and breathing
    bool pushing = false;           // bearing down at this moment
    bool moving = false;            // the baby moves at this moment
    bool in_contraction = false;    // a hand can feel it: more than 10 mmHg over tone
    std::int32_t contraction = -1;  // number of the running or last contraction, -1 before the first
    double temperature_c = 36.8;
    std::array<double, 2> come_down_fifths{};  // how far each baby has come down since the start
    std::array<double, 2> shifted_x_cm{},
        shifted_y_cm{};  // what its movements have put its heart off the spot, 0..3
};

// Felt above this pressure over tone [memory].
inline constexpr double felt_above_tone_mmhg = 10.0;

// The course as a machine. Trivially copyable. Tick k fixes the cell from t_k to t_(k+1); an act done at t
// (plus what it takes, see `act_takes`) first changes the value at tick ceil(t / 0.25 s) + 2. Everything
// before stays.
class Course {
public:
    Course(const Patient& patient, Seed seed);

    // Next grid point; the first call gives tick 0.
    CourseTick advance();
    // The same where it is wanted, into a tick as it comes new.
    void advance(CourseTick& fresh);
    // Number of points given so far.
    std::int64_t ticks() const { return next_; }
    // Acts and changes of her position; others are ignored. Must come in time order and not before the last
    // one.
    void change(const Change& change);

private:
    // Acts on their way: the body has not answered yet.
    struct Pending {
        std::int64_t tick = 0;
        Act act = Act::none;  // none: a change of her position
        Position position = Position::half_sitting;
    };
    void take_what_is_due();
    void advance_baby(int baby, double squeeze, CourseTick& tick);
    void breathe_on();

    Patient patient_;
    Seed seed_;
    std::int64_t next_ = 0;
    FixedList<Pending, 64> pending_;
    Womb womb_;
    Response response_;
    MaternalRate mother_;
    std::array<double, ticks_in_a_row> ripple_mmhg_{};  // of her breathing
    std::array<SettledRate, 2> settled_;
    std::array<SleepAndWaking, 2> waking_;
    std::array<FetalVariability, 2> variability_;
    std::array<BabyEvents, 2> events_;
};

static_assert(std::is_trivially_copyable_v<Course>);

// A whole course: points 0 .. ceil(length / 0.25 s), both ends, plus one spare cell. Changes in time order.
std::vector<CourseTick> course_over(const Patient&, Seed, std::span<const Change> changes, Seconds length);

// Seconds an act takes before the body can answer, 0..120; fixed by the program, not by a protocol.
Seconds act_takes(Act act);
// Act by its id in files, e.g. "off_her_back"; Act::none when the body knows no such act.
Act act_named(std::string_view id);
std::string_view name_of(Act act);

}  // namespace sim
