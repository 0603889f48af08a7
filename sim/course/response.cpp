#include "sim/course/response.h"

#include "sim/course/course.h"
#include "sim/course/variability.h"

#include <algorithm>
#include <string_view>

namespace sim {

namespace {

struct ActRow {
    Act act;
    std::string_view id;
    double takes_s;  // until the body can answer [practice]
};

constexpr std::array<ActRow, static_cast<std::size_t>(Act::count_)> acts{{
    {Act::none, "none", 0},
    {Act::off_her_back, "off_her_back", 10},
    {Act::lay_flat, "lay_flat", 10},
    {Act::knees_chest_hips_up, "knees_chest_hips_up", 20},
    {Act::lift_the_part, "lift_the_part", 15},
    {Act::push_cord_back, "push_cord_back", 5},
    {Act::stop_oxytocin, "stop_oxytocin", 5},
    {Act::raise_oxytocin, "raise_oxytocin", 5},
    {Act::slow_contractions_medicine, "slow_contractions_medicine", 90},
    {Act::pause_pushing, "pause_pushing", 5},
    {Act::push_with_contractions, "push_with_contractions", 2},
    {Act::offer_drink, "offer_drink", 20},
    {Act::start_drip, "start_drip", 120},
    {Act::cool_her, "cool_her", 60},
    {Act::fill_bladder, "fill_bladder", 120},
    {Act::break_waters, "break_waters", 60},
    {Act::push_on_fundus, "push_on_fundus", 5},
    {Act::give_oxygen, "give_oxygen", 40},
}};

static_assert([] {
    for (std::size_t i = 0; i < acts.size(); ++i)
        if (static_cast<std::size_t>(acts[i].act) != i) return false;
    return true;
}());

constexpr double nine_tenths = 2.302585092994046;  // time constants to nine tenths of the way

bool off_her_back(Position p) { return p != Position::flat; }

constexpr double step_towards(double over_s) {
    return std::min(1.0, course_step_s * nine_tenths / std::max(1.0, over_s));
}

// The drip's effect leaves over ten minutes (half-life of 3 to 6 min [memory]); a medicine works in about 4.
constexpr double drip_wears_off = step_towards(600);
constexpr double medicine_works = step_towards(240);

// Light covers and medicine: a slow and small fall [practice].
constexpr double cooling_c = 0.6, cooling = step_towards(3600);

}  // namespace

Seconds act_takes(Act act) { return {acts[static_cast<std::size_t>(act)].takes_s}; }

Act act_named(std::string_view id) {
    for (const ActRow& row : acts)
        if (row.id == id) return row.act;
    return Act::none;
}

std::string_view name_of(Act act) { return acts[static_cast<std::size_t>(act)].id; }

Response::Response(const Patient& patient)
    : cause_(patient.cause),
      labour_(patient.labour),
      position_(patient.mother.position),
      position_at_onset_(patient.mother.position),
      drip_(patient.labour.oxytocin_drip),
      pushing_(patient.labour.pushing),
      pushed_(patient.labour.pushing),
      falls_step_(step_towards(patient.cause.falls_over.value)),
      recovers_step_(step_towards(patient.cause.recovers_over.value)),
      pulse_step_(step_towards(patient.cause.pulse_over.value)) {
    for (const Measure& row : measures()) {
        if (row.trouble != cause_.trouble || helping_.full()) continue;
        Helping h{row, step_towards(row.works_over.value), 0};
        if (row.done == Done::not_flat && off_her_back(position_)) h.works = 1;  // she never lay flat
        helping_.add(h);
    }
}

void Response::take(Act act) {
    done_[static_cast<std::size_t>(act)] = true;
    const auto undo = [this](Act other) { done_[static_cast<std::size_t>(other)] = false; };
    switch (act) {
        case Act::off_her_back:
            position_ = Position::left_side;
            undo(Act::lay_flat);
            break;
        case Act::lay_flat:
            position_ = Position::flat;
            undo(Act::off_her_back);
            undo(Act::knees_chest_hips_up);
            break;
        case Act::knees_chest_hips_up:
            position_ = Position::knees_and_chest;
            undo(Act::lay_flat);
            break;
        case Act::stop_oxytocin:
            drip_ = raised_ = false;
            undo(Act::raise_oxytocin);
            break;
        case Act::raise_oxytocin:
            // Nothing to raise where no drip was ever put up.
            drip_ = raised_ = labour_.oxytocin_drip;
            undo(Act::stop_oxytocin);
            break;
        case Act::pause_pushing:
            pushing_ = false;
            undo(Act::push_with_contractions);
            break;
        case Act::push_with_contractions:
            pushing_ = pushed_ = true;
            undo(Act::pause_pushing);
            break;
        default: break;
    }
}

bool Response::harmed_by(Trouble trouble, Act act) const {
    if (act == Act::raise_oxytocin && !labour_.oxytocin_drip) return false;
    return trouble == cause_.trouble && done(act);
}

bool Response::is_done(const Measure& measure) const {
    if (measure.needs == Needs::drip_running && !labour_.oxytocin_drip) return false;
    if (measure.needs == Needs::pushing && !pushed_) return false;
    switch (measure.done) {
        case Done::not_flat: return off_her_back(position_);
        case Done::lies_another: return position_ != position_at_onset_ && off_her_back(position_);
        case Done::by_act: break;
    }
    // That one lasts only as long as she stays so.
    if (measure.act == Act::knees_chest_hips_up) return position_ == Position::knees_and_chest;
    return done(measure.act);
}

double Response::relief() {
    double left = 1.0;
    for (std::int32_t i = 0; i < helping_.size; ++i) {
        Helping& h = helping_[i];
        h.works += ((is_done(h.measure) ? 1.0 : 0.0) - h.works) * h.step;
        left *= 1.0 - h.measure.takes_away * h.works;
    }
    double relief = 1.0 - left;
    for (const Harm& row : harms())
        if (harmed_by(row.trouble, row.act)) relief *= row.leaves_of_relief;
    return relief;
}

void Response::step(std::int64_t tick) {
    // Nothing is wrong, nothing runs into her, nothing was done that lasts: nothing moves.
    if (cause_.trouble == Trouble::none && !labour_.oxytocin_drip && !done(Act::slow_contractions_medicine) &&
        !done(Act::cool_her))
        return;
    const double now_s = static_cast<double>(tick) * course_step_s;
    const double usual = labour_.contractions_per_10min;
    double pace = 1.0, strength = 1.0;
    if (labour_.oxytocin_drip && usual > 0) {
        if (!drip_) pace = labour_.per_10min_without_drip / usual;
        if (raised_) {
            pace = 1.3;
            strength = 1.1;
        }
    }
    double pace_step = drip_wears_off;
    if (done(Act::slow_contractions_medicine)) {
        pace *= 0.4;
        strength *= 0.7;
        pace_step = medicine_works;
    }
    pace_ += (pace - pace_) * pace_step;
    strength_ += (strength - strength_) * pace_step;
    cooled_c_ += ((done(Act::cool_her) ? cooling_c : 0.0) - cooled_c_) * cooling;

    if (now_s < cause_.at.value) {
        position_at_onset_ = position_;
    } else {
        began_ = true;
    }
    if (cause_.trouble == Trouble::none) return;
    const double helps = cause_.answer * relief();
    const double helped = began_ ? helps : 0.0;
    double wanted = 0.0;
    if (began_) {
        wanted = 1.0 - helped;
        // Lying flat does nothing to a woman who is not, and what never fell does not have to recover.
        if (cause_.trouble == Trouble::lying_flat && off_her_back(position_) && fall_ < 1e-9) wanted = 0.0;
        for (const Harm& row : harms())
            if (harmed_by(row.trouble, row.act)) wanted += row.deepens;
    }
    fall_ += (wanted - fall_) * (wanted > fall_ ? falls_step_ : recovers_step_);
    eased_ += (helped - eased_) * recovers_step_;
    pulse_ += (wanted - pulse_) * pulse_step_;
}

double Response::left_of_slowing(int baby, BabyEvent::Kind kind) const {
    if (another_s(baby)) return 1.0;
    switch (cause_.trouble) {
        case Trouble::cord_pressure:
        case Trouble::cord_prolapse:
            return kind == BabyEvent::Kind::variable || kind == BabyEvent::Kind::prolonged ? 1.0 - eased_
                                                                                           : 1.0;
        case Trouble::lying_flat:
        case Trouble::too_many_contractions:
        case Trouble::fever:
        case Trouble::bleeding:
        case Trouble::mothers_medicine:
            return kind == BabyEvent::Kind::late || kind == BabyEvent::Kind::prolonged ? 1.0 - eased_ : 1.0;
        default: return 1.0;
    }
}

}  // namespace sim
