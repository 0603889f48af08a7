#include "sim/course/deceleration.h"

#include "sim/course/variability.h"
#include "sim/exact_math.h"

#include <algorithm>
#include <cmath>

namespace sim {

namespace {

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

constexpr std::uint64_t own_rises = std::uint64_t{1} << 33;  // their place in the movement stream

}  // namespace

BabyEvents::BabyEvents(const Patient& patient, int baby, Seed seed)
    : baby_(patient.babies[baby]), seed_(seed), which_(baby), movements_(patient.babies[baby], baby, seed) {
    const ContractionShape usual =
        ContractionShape::lasting(patient.labour.strength.value, patient.labour.contraction_length.value);
    for (int e = 0; e < baby_.events.size; ++e) {
        const BabyEvent& event = baby_.events[e];
        Running& running = running_[static_cast<std::size_t>(e)];
        if (event.kind == BabyEvent::Kind::late)
            running.late = LateShape::fitted(usual, event.depth.value, event.back_after.value);
        if (event.by == BabyEvent::Brought_on_by::movement && event.rate_per_10min.value > 0) {
            running.own_per_tick = event.rate_per_10min.value / 600.0 * course_step_s;
            running.own.least = std::min(event.length.value * event.rate_per_10min.value / 1200.0, 0.5);
        }
    }
    rises_.least = 0.2;
}

double BabyEvents::draw(int which, std::uint64_t thing, std::uint32_t purpose) const {
    return uniform(seed_, for_baby(Stream::deceleration, which_),
                   static_cast<std::uint64_t>(which) + 16 * thing, purpose);
}

bool BabyEvents::answers(const BabyEvent& event, int which, std::int64_t number, double at_s) const {
    if (at_s < event.from.value || at_s > event.until.value) return false;
    if (event.by == BabyEvent::Brought_on_by::contraction && event.every > 1 &&
        (number + 1) % event.every != 0)
        return false;
    return draw(which, static_cast<std::uint64_t>(number), answer) < event.share;
}

void BabyEvents::start(Running& running, const BabyEvent& event, int which, std::uint64_t thing,
                       double from_s) {
    const Bump bump =
        bump_of(event, from_s,
                {draw(which, thing, fall_time), draw(which, thing, back_time), draw(which, thing, shoulder)});
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
    for (; running.awaits < womb.begun(); ++running.awaits) {
        const Contraction* c = womb.recent(running.awaits);
        if (c == nullptr) continue;
        const auto place = static_cast<std::size_t>(running.awaits % Womb::remembered);
        running.answered[place] = answers(event, which, running.awaits, c->peak_at_s);
        // An early one mirrors the pressure 2 to 5 s behind it [practice].
        running.early_by_s[place] = 2.0 + 3.0 * draw(which, static_cast<std::uint64_t>(running.awaits), lag);
    }
    running.follows = std::max(running.follows, womb.oldest());
    for (std::int32_t n = running.follows; n < womb.begun(); ++n) {
        const Contraction* c = womb.recent(n);
        const auto place = static_cast<std::size_t>(n) % Womb::remembered;
        const double seen_s = now_s - (late ? running.late.delay_s : running.early_by_s[place]);
        if (seen_s > c->over_s || !running.answered[place]) {
            if (n == running.follows) ++running.follows;  // nor will it matter later
            continue;
        }
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

// Things with a shape of their own: does one begin, or is one about to?
void BabyEvents::look_for_starts(Running& running, const BabyEvent& event, int which, const Womb& womb,
                                 double now_s, bool movement) {
    using By = BabyEvent::Brought_on_by;
    const double warning_s =
        event.kind == BabyEvent::Kind::variable && event.shoulders.value > 0 ? longest_shoulder_s : 0.0;
    if (event.by == By::time) {
        if (running.done || now_s < event.at.value - warning_s) return;
        running.done = true;
        start(running, event, which, 0, event.at.value);
    } else if (event.by == By::contraction) {
        const double until_s = womb.until_felt(running.awaits, now_s);
        const bool rise = event.kind == BabyEvent::Kind::acceleration;
        if (until_s > (rise ? event.lead.value : warning_s)) return;
        const auto n = static_cast<std::uint64_t>(running.awaits);
        // Anywhere in the first 15 s of it [practice]: the lag is what tells it from an early or late one.
        const double from_s = rise ? now_s : now_s + std::max(until_s, 0.0) + 15.0 * draw(which, n, lag);
        if (answers(event, which, running.awaits, now_s + until_s)) start(running, event, which, n, from_s);
        ++running.awaits;
    } else {
        const bool own = running.own_per_tick > 0;
        const bool comes =
            own ? running.own.due(running.own_per_tick, seed_, for_baby(Stream::movement, which_),
                                  static_cast<std::uint64_t>(which))
                : movement;
        const std::int64_t n = own ? running.own.number : movements_.number();
        if (!comes || !answers(event, which, n, now_s)) return;
        if (own) movements_.also_until(now_s + 4.0);
        const auto thing = static_cast<std::uint64_t>(n);
        start(running, event, which, thing, now_s + warning_s + 5.0 * draw(which, thing, lag));
    }
}

// The set's own rises, most of them with a movement up to 5 s before.
double BabyEvents::rises_of_the_set(const VariabilitySet& set, double now_s, bool well) {
    if (set.rises_per_10min > 0 && rises_.due(set.rises_per_10min / 600.0 * course_step_s, seed_,
                                              for_baby(Stream::movement, which_), own_rises + 14)) {
        const auto n = static_cast<std::uint64_t>(rises_.number);
        const auto chance = [&](Draw what) {
            return uniform(seed_, for_baby(Stream::acceleration, which_), n, what);
        };
        if (chance(answer) < 0.8) movements_.also_until(now_s + 4.0);
        const double length_s = set.rise_s * (0.8 + 0.4 * chance(whole));
        Bump bump;
        bump.on = true;
        bump.from_s = now_s + 5.0 * chance(lag);
        bump.size_bpm = well ? set.rise_bpm * (0.8 + 0.4 * chance(size)) : 0.0;
        bump.down_s = 0.3 * length_s;
        bump.stay_s = 0.2 * length_s;
        bump.up_s = 0.5 * length_s;
        for (Bump& place : own_rises_)
            if (!place.on) {
                place = bump;
                ++own_rises_on_;
                break;
            }
    }
    if (own_rises_on_ == 0) return 0;
    double rise = 0;
    for (Bump& bump : own_rises_) {
        if (!bump.on) continue;
        if (now_s > bump.from_s + bump.whole_s()) {
            bump.on = false;
            --own_rises_on_;
        }
        rise += bump.at(now_s);
    }
    // Rises that run into one another add, the more the less, or the heart would race past 210.
    const double usual = 1.4 * set.rise_bpm;
    return rise <= usual ? rise : usual + 0.4 * (rise - usual);
}

BabyEvents::Change BabyEvents::step(std::int64_t tick, const Womb& womb, const Response& response,
                                    const VariabilitySet& set, double moves, bool well) {
    using Kind = BabyEvent::Kind;
    const double now_s = static_cast<double>(tick) * course_step_s;
    Change change;
    const bool movement = movements_.step(now_s, moves);
    for (int e = 0; e < baby_.events.size; ++e) {
        const BabyEvent& event = baby_.events[e];
        Running& running = running_[static_cast<std::size_t>(e)];
        double fall = 0, held = 0;
        if (event.by == BabyEvent::Brought_on_by::contraction &&
            (event.kind == Kind::early || event.kind == Kind::late))
            fall = follow(running, event, e, womb, now_s);
        else
            look_for_starts(running, event, e, womb, now_s, movement);
        for (Bump& bump : running.bumps) {
            if (!bump.on) continue;
            if (now_s > bump.from_s + bump.whole_s() + longest_shoulder_s) bump.on = false;
            const double v = bump.at(now_s);
            fall = v < 0 ? fall + v : std::max(fall, v);
            if (event.kind == Kind::variable) held = std::max(held, bump.held(now_s));
        }
        if (event.kind == Kind::acceleration) {
            change.rise_bpm = std::max(change.rise_bpm, fall);
        } else {
            const double left = response.slowing_left(which_, event.kind);
            change.fall_bpm += fall * left;
            change.held = std::max(change.held, held * left);
        }
    }
    // A heart in a slow even swing has none of its own.
    if (baby_.sinusoid.value <= 0)
        change.rise_bpm = std::max(change.rise_bpm, rises_of_the_set(set, now_s, well));
    return change;
}

}  // namespace sim
