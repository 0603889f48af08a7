#include "sim/course/course.h"

#include "sim/exact_math.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace sim {

namespace {

constexpr double breathing_ripple_mmhg = 1.0;  // 1 to 2 mmHg from crest to trough [practice]
constexpr double slowest_bpm = 50.0;           // no slowing goes below this [practice]

}  // namespace

Course::Course(const Patient& patient, Seed seed)
    : patient_(patient),
      seed_(seed),
      womb_(patient.labour, seed),
      response_(patient),
      mother_(patient.mother, seed) {
    for (int b = 0; b < patient_.babies.size; ++b) {
        const auto i = static_cast<std::size_t>(b);
        settled_[i] = SettledRate(patient_, b, seed);
        waking_[i] = SleepAndWaking(patient_.babies[b], patient_.gestation_weeks, b, seed);
        variability_[i] = FetalVariability(patient_.babies[b], b, seed);
        events_[i] = BabyEvents(patient_, b, seed);
    }
}

void Course::change(const Change& change) {
    Pending pending;
    double takes_s = 0;
    if (change.kind == Change::Kind::act && change.act != Act::none) {
        pending.act = change.act;
        takes_s = act_takes(change.act).value;
    } else if (change.kind == Change::Kind::position) {
        pending.position = change.position;
    } else {
        return;
    }
    const auto tick_of = [](std::int64_t us) { return (us + course_tick_us - 1) / course_tick_us + 2; };
    assert(tick_of(change.at_us) >= next_ && "a change must be told before its tick is made");
    pending.tick = tick_of(change.at_us + labour_time({takes_s}).us);
    // Sixty things at once are more than two hands do: the rest comes to nothing.
    if (!pending_.full()) pending_.add(pending);
}

void Course::take_what_is_due() {
    std::int32_t kept = 0;
    for (std::int32_t i = 0; i < pending_.size; ++i) {
        const Pending p = pending_[i];
        if (p.tick > next_) {
            pending_[kept++] = p;
        } else if (p.act == Act::none) {
            response_.take(p.position);
        } else {
            response_.take(p.act);
        }
    }
    pending_.size = kept;
}

void Course::advance_baby(int b, double squeeze, CourseTick& tick) {
    const auto i = static_cast<std::size_t>(b);
    const Baby& baby = patient_.babies[b];
    const double settled = settled_[i].step(next_, response_);
    waking_[i].step(next_);
    const bool well = response_.fall(b) < 0.25 || patient_.cause.falls_to.value <= 0;
    const BabyEvents::Change events =
        events_[i].step(next_, womb_, response_, waking_[i].set(), waking_[i].moves(), well);
    const double restless =
        variability_[i].step(next_, waking_[i].set(), settled, std::min(1.0, squeeze), events.held);
    if (baby.comes_down_to >= 0) {
        const double part =
            static_cast<double>(next_) * course_step_s / std::max(1.0, baby.comes_down_over.value);
        tick.come_down_fifths[i] =
            std::max(0.0, baby.fifths_above_brim - baby.comes_down_to) * std::min(1.0, part);
    }
    if (!baby.heart_beats) return;
    const Movements& movements = events_[i].movements();
    tick.moving = tick.moving || movements.moving(static_cast<double>(next_) * course_step_s);
    tick.shifted_x_cm[i] = movements.x_cm();
    tick.shifted_y_cm[i] = movements.y_cm();
    tick.fhr_base_bpm[i] = settled;
    // Slowings on top of a heart already slow have less room.
    const double fall = std::min(events.fall_bpm, std::max(0.0, settled - slowest_bpm));
    tick.fhr_bpm[i] = std::clamp(settled + restless + events.rise_bpm - fall, 35.0, 280.0);
}

// Her breathing as a sensor shows it.
void Course::breathe_on() {
    for (std::size_t i = 0; i < ticks_in_a_row; ++i) {
        const double now_s = static_cast<double>(next_ + static_cast<std::int64_t>(i)) * course_step_s;
        const double breaths = now_s * patient_.mother.breaths_per_min / 60.0;
        ripple_mmhg_[i] = breathing_ripple_mmhg * exact_sin(2.0 * pi * (breaths - std::floor(breaths)));
    }
}

CourseTick Course::advance() {
    CourseTick tick;
    advance(tick);
    return tick;
}

void Course::advance(CourseTick& tick) {
    take_what_is_due();
    response_.step(next_);
    womb_.step(next_, response_.womb());
    if (next_ % ticks_in_a_row == 0) breathe_on();
    const double squeeze = womb_.pressure_mmhg() / patient_.labour.strength.value;
    for (int b = 0; b < patient_.babies.size; ++b) advance_baby(b, squeeze, tick);
    tick.mhr_bpm = mother_.step(next_, squeeze, womb_.push_spell(), response_);
    tick.uc_above_tone_mmhg = womb_.pressure_mmhg() + womb_.push_mmhg();
    tick.uc_mmhg = patient_.labour.tone.value + tick.uc_above_tone_mmhg +
                   ripple_mmhg_[static_cast<std::size_t>(next_ % ticks_in_a_row)];
    tick.pushing = womb_.bearing_down();
    tick.in_contraction = womb_.pressure_mmhg() > felt_above_tone_mmhg;
    tick.contraction = womb_.running();
    tick.temperature_c = patient_.mother.temperature_c + response_.warmer_c();
    ++next_;
}

std::vector<CourseTick> course_over(const Patient& patient, Seed seed, std::span<const Change> changes,
                                    Seconds length) {
    const std::int64_t last = (labour_time(length).us + course_tick_us - 1) / course_tick_us + 1;
    std::vector<CourseTick> ticks;
    ticks.reserve(static_cast<std::size_t>(last + 1));
    Course course(patient, seed);
    const CourseTick blank;
    auto next = changes.begin();
    while (course.ticks() <= last) {
        while (next != changes.end() &&
               (next->at_us + course_tick_us - 1) / course_tick_us + 2 <= course.ticks())
            course.change(*next++);
        ticks.push_back(blank);
        course.advance(ticks.back());
    }
    return ticks;
}

}  // namespace sim
