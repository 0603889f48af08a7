#include "sim/course/deceleration.h"

#include "sim/course/variability.h"
#include "sim/exact_math.h"

#include <algorithm>
#include <cmath>

namespace sim {

namespace {

constexpr double early_behind_s = 3.5;  // 2 to 5 s behind the pressure [practice]

// Draws of one thing, by purpose.
enum Draw : std::uint32_t {
    answer = 0,
    lag = 1,
    fall_time = 2,
    back_time = 3,
    shoulder = 4,
    size = 5,
    whole = 6
};

// Numbers of things in the deceleration and acceleration streams: by contraction, by movement, by time, by
// event.
std::uint64_t thing_number(int which, std::uint64_t number) {
    return static_cast<std::uint64_t>(which) + 16 * number;
}
constexpr std::uint64_t own_movement = std::uint64_t{1} << 32;
constexpr std::uint64_t own_rises = std::uint64_t{1} << 33;

}  // namespace

BabyEvents::BabyEvents(const Patient& patient, int baby, Seed seed)
    : baby_(patient.babies[baby]), seed_(seed), which_(baby) {
    const ContractionShape usual =
        ContractionShape::lasting(patient.labour.strength.value, patient.labour.contraction_length.value);
    usual_height_ = usual.height_mmhg;
    for (int e = 0; e < baby_.events.size; ++e) {
        const BabyEvent& event = baby_.events[e];
        Running& running = running_[static_cast<std::size_t>(e)];
        if (event.kind == BabyEvent::Kind::late)
            running.late = LateShape::fitted(usual, event.depth.value, event.back_after.value);
        if (event.by == BabyEvent::Brought_on_by::movement && event.rate_per_10min.value > 0) {
            running.own.mean_gap_s = 600.0 / event.rate_per_10min.value;
            running.own.least_gap_s = std::min(event.length.value * 0.5, running.own.mean_gap_s * 0.5);
            running.own.number = -1;
            running.own.next_s = 0;
        }
    }
    if (baby_.movements_per_10min > 0) {
        movements_.mean_gap_s = 600.0 / baby_.movements_per_10min;
        movements_.least_gap_s = std::min(6.0, movements_.mean_gap_s * 0.5);
        movements_.next_s = 0;
        movements_.number = -1;
    }
    const VariabilitySet& set = variability_set(baby_.variability);
    if (set.rises_per_10min > 0) {
        rises_.mean_gap_s = 600.0 / set.rises_per_10min;
        rises_.least_gap_s = 0.4 * rises_.mean_gap_s;
        rises_.next_s = 0;
        rises_.number = -1;
    }
}

// True at most once a tick; the first look only draws when the first one comes.
bool BabyEvents::due(Happenings& h, int which, double now_s) {
    if (now_s < h.next_s) return false;
    const bool happens = h.number >= 0;
    ++h.number;
    const std::uint64_t base = &h == &movements_ ? own_movement : &h == &rises_ ? own_rises : 0;
    const double u = uniform(seed_, for_baby(Stream::movement, which_),
                             base + thing_number(which, static_cast<std::uint64_t>(h.number)));
    const double gap = h.least_gap_s - (h.mean_gap_s - h.least_gap_s) * exact_log(1.0 - u);
    h.next_s +=
        happens ? gap
                : gap * uniform(seed_, for_baby(Stream::movement, which_), base + thing_number(which, 0), 1);
    return happens;
}

bool BabyEvents::answers(const BabyEvent& event, int which, std::int32_t number, double at_s) const {
    if (at_s < event.from.value || at_s > event.until.value) return false;
    if (event.by == BabyEvent::Brought_on_by::contraction && event.every > 1 &&
        (number + 1) % event.every != 0)
        return false;
    return uniform(seed_, for_baby(Stream::deceleration, which_),
                   thing_number(which, static_cast<std::uint64_t>(number)), answer) < event.share;
}

void BabyEvents::start(Running& running, const BabyEvent& event, int which, std::uint64_t thing,
                       double from_s) {
    const auto draw = [&](Draw what) {
        return uniform(seed_, for_baby(Stream::deceleration, which_), thing_number(which, thing), what);
    };
    const Bump bump = bump_of(event, from_s, {draw(fall_time), draw(back_time), draw(shoulder), draw(size)});
    // Two may run at once; a third one would start while she is already down, and is not seen.
    for (Bump& place : running.bumps) {
        if (place.on) continue;
        place = bump;
        return;
    }
}

// A slowing that follows the pressure itself, contraction by contraction.
double BabyEvents::follow(Running& running, const BabyEvent& event, int which, const Womb& womb,
                          double now_s) {
    double drive = 0;
    const bool late = event.kind == BabyEvent::Kind::late;
    for (; running.awaits < womb.begun(); ++running.awaits)
        if (const Contraction* c = womb.recent(running.awaits))
            running.answered[static_cast<std::size_t>(running.awaits % Womb::remembered)] =
                answers(event, which, running.awaits, c->peak_at_s);
    const double seen_s = now_s - (late ? running.late.delay_s : early_behind_s);
    for (std::int32_t n = std::max(0, womb.begun() - Womb::remembered); n < womb.begun(); ++n) {
        const Contraction* c = womb.recent(n);
        if (seen_s > c->over_s || !running.answered[static_cast<std::size_t>(n) % Womb::remembered]) continue;
        const double p = womb.pressure_of(*c, seen_s);
        if (p <= 0) continue;
        drive =
            std::max(drive, late ? running.late.drive(p, c->shape.height_mmhg) : p / c->shape.height_mmhg);
    }
    if (!late) return event.depth.value * drive;
    running.first_lag += (drive - running.first_lag) * (course_step_s / running.late.lag_s);
    running.second_lag += (running.first_lag - running.second_lag) * (course_step_s / running.late.lag_s);
    return event.depth.value * running.second_lag / running.late.peak;
}

BabyEvents::Change BabyEvents::step(std::int64_t tick, const Womb& womb, const Response& response,
                                    bool well) {
    using Kind = BabyEvent::Kind;
    using By = BabyEvent::Brought_on_by;
    const double now_s = static_cast<double>(tick) * course_step_s;
    Change change;

    bool movement = false;
    if (movements_.mean_gap_s > 0 && due(movements_, 15, now_s)) {
        movement = true;
        moving_until_s_ =
            now_s + 2.0 +
            4.0 * uniform(seed_, for_baby(Stream::movement, which_),
                          own_movement + thing_number(15, static_cast<std::uint64_t>(movements_.number)), 2);
    }

    for (int e = 0; e < baby_.events.size; ++e) {
        const BabyEvent& event = baby_.events[e];
        Running& running = running_[static_cast<std::size_t>(e)];
        double fall = 0;
        const bool follows =
            event.by == By::contraction && (event.kind == Kind::early || event.kind == Kind::late);
        if (follows) {
            fall = follow(running, event, e, womb, now_s);
        } else if (event.by == By::time) {
            if (!running.done &&
                now_s >= event.at.value - (event.kind == Kind::variable ? shoulder_s : 0.0)) {
                running.done = true;
                start(running, event, e, 0, event.at.value);
            }
        } else if (event.by == By::contraction) {
            const double until_s = womb.until_felt(running.awaits, now_s);
            const bool rise = event.kind == Kind::acceleration;
            if (until_s <= (rise ? event.lead.value : shoulder_s)) {
                const auto n = static_cast<std::uint64_t>(running.awaits);
                const double lag_s = rise ? 0.0
                                          : 15.0 * uniform(seed_, for_baby(Stream::deceleration, which_),
                                                           thing_number(e, n), lag);
                const double from_s = rise ? now_s : now_s + until_s + lag_s;
                if (answers(event, e, running.awaits, now_s + until_s)) start(running, event, e, n, from_s);
                ++running.awaits;
            }
        } else {
            const bool own = event.rate_per_10min.value > 0;
            const bool comes = own ? due(running.own, e, now_s) : movement;
            const std::int64_t n = own ? running.own.number : movements_.number;
            if (comes && answers(event, e, static_cast<std::int32_t>(n), now_s)) {
                const double lag_s = 5.0 * uniform(seed_, for_baby(Stream::deceleration, which_),
                                                   thing_number(e, static_cast<std::uint64_t>(n)), lag);
                if (own) moving_until_s_ = std::max(moving_until_s_, now_s + 4.0);
                start(running, event, e, static_cast<std::uint64_t>(n), now_s + lag_s);
            }
        }
        for (Bump& bump : running.bumps) {
            if (!bump.on) continue;
            if (now_s > bump.from_s + bump.whole_s() + 20) bump.on = false;
            const double v = bump.at(now_s);
            fall = v < 0 ? fall + v : std::max(fall, v);
        }
        if (event.kind == Kind::acceleration)
            change.rise_bpm = std::max(change.rise_bpm, fall);
        else
            change.fall_bpm += fall * response.slowing_left(event.kind);
    }

    // The set's own rises, most of them with a movement up to 5 s before; a baby in trouble makes none.
    if (rises_.mean_gap_s > 0 && due(rises_, 14, now_s)) {
        const VariabilitySet& set = variability_set(baby_.variability);
        const auto n = static_cast<std::uint64_t>(rises_.number);
        const auto draw = [&](Draw what) {
            return uniform(seed_, for_baby(Stream::acceleration, which_), n, what);
        };
        if (draw(answer) < 0.8) moving_until_s_ = std::max(moving_until_s_, now_s + 4.0);
        const double length_s = set.rise_s * (0.8 + 0.4 * draw(whole));
        Bump bump;
        bump.on = true;
        bump.from_s = now_s + 5.0 * draw(lag);
        bump.size_bpm = well ? set.rise_bpm * (0.8 + 0.4 * draw(size)) : 0.0;
        bump.down_s = 0.3 * length_s;
        bump.stay_s = 0.2 * length_s;
        bump.up_s = 0.5 * length_s;
        (own_rises_[0].on ? own_rises_[1] : own_rises_[0]) = bump;
    }
    for (Bump& bump : own_rises_) {
        if (!bump.on) continue;
        if (now_s > bump.from_s + bump.whole_s()) bump.on = false;
        change.rise_bpm = std::max(change.rise_bpm, bump.at(now_s));
    }
    change.moving = now_s < moving_until_s_;
    return change;
}

}  // namespace sim
