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

// How much of the fall one measure takes away by itself, for each cause; several together leave the product
// of what each leaves. Direction: WHO MCPC S-95 to S-98 (fetal distress in labour, prolapsed cord); RCOG
// Green-top 50, umbilical cord prolapse [second-hand]; sizes [practice]. Oxygen, fluids and drinks move no rate here: the evidence
// disagrees.
struct MeasureRow {
    Trouble trouble;
    Act act;
    double takes_away;
};

constexpr MeasureRow measures[] = {
    {Trouble::cord_pressure, Act::knees_chest_hips_up, 0.3},  // on top of the change of position itself
    {Trouble::cord_pressure, Act::pause_pushing, 0.3},
    {Trouble::cord_pressure, Act::slow_contractions_medicine, 0.4},
    {Trouble::cord_pressure, Act::stop_oxytocin, 0.3},
    {Trouble::cord_prolapse, Act::lift_the_part, 0.9},  // most: the part no longer presses
    {Trouble::cord_prolapse, Act::fill_bladder, 0.6},
    {Trouble::cord_prolapse, Act::knees_chest_hips_up, 0.5},
    {Trouble::cord_prolapse, Act::slow_contractions_medicine, 0.3},
    {Trouble::cord_prolapse, Act::off_her_back, 0.2},
    {Trouble::too_many_contractions, Act::stop_oxytocin, 0.9},  // only where a drip runs
    {Trouble::too_many_contractions, Act::slow_contractions_medicine, 0.9},
    {Trouble::too_many_contractions, Act::off_her_back, 0.3},
    {Trouble::fever, Act::cool_her, 0.3},
    {Trouble::bleeding, Act::start_drip, 0.3},
    {Trouble::bleeding, Act::off_her_back, 0.2},
    {Trouble::mothers_medicine, Act::off_her_back, 0.2},
};

// What makes it worse: the share of all relief that remains after it.
struct HarmRow {
    Trouble trouble;
    Act act;
    double leaves_of_relief;
    double deepens;
};

constexpr HarmRow harms[] = {
    {Trouble::cord_prolapse, Act::push_cord_back, 0.4, 0.2},  // handling the cord: spasm (RCOG [second-hand])
    {Trouble::cord_prolapse, Act::push_with_contractions, 0.6, 0.1},
    {Trouble::cord_pressure, Act::push_on_fundus, 0.6, 0.1},
    {Trouble::cord_prolapse, Act::push_on_fundus, 0.6, 0.1},
    {Trouble::scar_gives_way, Act::push_on_fundus, 0.5, 0.2},
    {Trouble::bleeding, Act::lay_flat, 0.7, 0.1},
    {Trouble::too_many_contractions, Act::raise_oxytocin, 0.0, 0.1},
};

constexpr double nine_tenths = 2.302585092994046;  // time constants to nine tenths of the way

double step_towards(double over_s) {
    return std::min(1.0, course_step_s * nine_tenths / std::max(1.0, over_s));
}

bool off_her_back(Position p) { return p != Position::flat; }

// The drip's effect leaves over about 8 min (half-life of 3 to 6 min [memory]); a medicine works in about 4.
constexpr double drip_wears_off_s = 480;
constexpr double medicine_works_s = 240;

// Light covers and medicine: a slow and small fall [practice].
constexpr double cooling_c = 0.6, cooling_over_s = 3600;

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
      falls_step_(step_towards(patient.cause.falls_over.value)),
      recovers_step_(step_towards(patient.cause.recovers_over.value)) {}

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
            pushing_ = true;
            undo(Act::pause_pushing);
            break;
        default: break;
    }
}

bool Response::harmed_by(Trouble trouble, Act act) const {
    if (act == Act::raise_oxytocin && !labour_.oxytocin_drip) return false;
    return trouble == cause_.trouble && done(act);
}

double Response::relief() const {
    if (cause_.trouble == Trouble::lying_flat) return off_her_back(position_) ? 1.0 : 0.0;
    double left = 1.0;
    for (const MeasureRow& row : measures) {
        if (row.trouble != cause_.trouble || !done(row.act)) continue;
        if (row.act == Act::stop_oxytocin && !labour_.oxytocin_drip) continue;
        left *= 1.0 - row.takes_away;
    }
    if (cause_.trouble == Trouble::cord_pressure && position_ != position_at_onset_ &&
        off_her_back(position_))
        left *= 0.2;
    double relief = 1.0 - left;
    for (const HarmRow& row : harms)
        if (harmed_by(row.trouble, row.act)) relief *= row.leaves_of_relief;
    return relief;
}

void Response::step(std::int64_t tick) {
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
    double pace_over_s = drip_wears_off_s;
    if (done(Act::slow_contractions_medicine)) {
        pace *= 0.4;
        strength *= 0.7;
        pace_over_s = medicine_works_s;
    }
    pace_ += (pace - pace_) * step_towards(pace_over_s);
    strength_ += (strength - strength_) * step_towards(pace_over_s);
    cooled_c_ += ((done(Act::cool_her) ? cooling_c : 0.0) - cooled_c_) * step_towards(cooling_over_s);

    if (now_s < cause_.at.value) {
        position_at_onset_ = position_;
    } else {
        began_ = true;
    }
    const double helped = began_ && cause_.trouble != Trouble::none ? cause_.answer * relief() : 0.0;
    double wanted = 0.0;
    if (began_ && cause_.trouble != Trouble::none) {
        wanted = 1.0 - helped;
        // Lying flat does nothing to a woman who is not, and what never fell does not have to recover.
        if (cause_.trouble == Trouble::lying_flat && off_her_back(position_) && fall_ < 1e-9) wanted = 0.0;
        for (const HarmRow& row : harms)
            if (harmed_by(row.trouble, row.act)) wanted += row.deepens;
    }
    fall_ += (wanted - fall_) * (wanted > fall_ ? falls_step_ : recovers_step_);

    eased_ += (helped - eased_) * recovers_step_;
}

WombOrders Response::womb() const { return {pace_, strength_, pushing_}; }

double Response::fall(int baby) const {
    const bool cord = cause_.trouble == Trouble::cord_pressure || cause_.trouble == Trouble::cord_prolapse;
    return cord && baby != 0 ? 0.0 : fall_;
}

double Response::slowing_left(BabyEvent::Kind kind) const {
    switch (cause_.trouble) {
        case Trouble::cord_pressure:
        case Trouble::cord_prolapse:
            return kind == BabyEvent::Kind::variable || kind == BabyEvent::Kind::prolonged ? 1.0 - eased_
                                                                                           : 1.0;
        case Trouble::lying_flat:
        case Trouble::too_many_contractions:
            return kind == BabyEvent::Kind::late || kind == BabyEvent::Kind::prolonged ? 1.0 - eased_ : 1.0;
        default: return 1.0;
    }
}

}  // namespace sim
