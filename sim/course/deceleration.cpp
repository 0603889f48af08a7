#include "sim/course/deceleration.h"

#include "sim/course/variability.h"
#include "sim/exact_math.h"

#include <algorithm>
#include <cmath>

namespace sim {

namespace {

constexpr double early_behind_s = 3.5;  // 2 to 5 s behind the pressure [practice]
constexpr double gradual_s = 32;        // onset to nadir of a gradual slowing: 30 s or more (NICHD 2008)
constexpr double back_within_bpm = 5;
constexpr double shoulder_s = 15;  // 10 to 20 s [practice]

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

double ease(double x) { return x <= 0 ? 0 : x >= 1 ? 1 : 0.5 - 0.5 * exact_cos(pi * x); }

// Up and down again over 0..1.
double hump(double x) { return x <= 0 || x >= 1 ? 0 : 0.5 - 0.5 * exact_cos(2 * pi * x); }

// Approach by two equal lags: starts level, so that the rate has no corner.
double by_two_lags(double age_s, double lag_s) {
    if (age_s <= 0) return 0;
    const double x = age_s / lag_s;
    return x > 60 ? 1 : 1 - (1 + x) * exact_exp(-x);
}

// Time, in lags, after which two equal lags have left this share.
double lags_until(double share) {
    double low = 0, high = 20;
    for (int i = 0; i < 40; ++i) {
        const double x = 0.5 * (low + high);
        ((1 + x) * exact_exp(-x) > share ? low : high) = x;
    }
    return high;
}

double over_threshold(double p, double threshold, double height) {
    return std::max(p - threshold, 0.0) / std::max(height - threshold, 1.0);
}

}  // namespace

namespace {

// A usual contraction on the grid, worked out once for all the shapes tried on it.
struct UsualPressure {
    static constexpr double from_s = -60;
    static constexpr int ticks = 1120;
    std::array<double, ticks> mmhg{};
    double height = 0;

    explicit UsualPressure(const ContractionShape& shape) : height(shape.height_mmhg) {
        for (int i = 0; i < ticks; ++i)
            mmhg[static_cast<std::size_t>(i)] = shape.at(from_s + i * course_step_s);
    }
    double at(double place) const {
        if (place < 0 || place >= ticks - 1) return 0;
        const auto i = static_cast<std::size_t>(place);
        return mmhg[i] + (place - static_cast<double>(i)) * (mmhg[i + 1] - mmhg[i]);
    }
};

LateShape::Dip dip_of(const LateShape& late, const UsualPressure& pressure, double onset_share,
                      double back_share) {
    std::array<double, UsualPressure::ticks> answer{};
    LateShape::Dip dip{0, 0, 0, 0};
    const double delay = late.delay_s / course_step_s;
    const double step = course_step_s / late.lag_s;
    double first = 0, second = 0;
    for (int i = 0; i < UsualPressure::ticks; ++i) {
        first +=
            (over_threshold(pressure.at(i - delay), late.threshold_mmhg, pressure.height) - first) * step;
        second += (first - second) * step;
        answer[static_cast<std::size_t>(i)] = second;
        if (second <= dip.peak) continue;
        dip.peak = second;
        dip.nadir_s = UsualPressure::from_s + i * course_step_s;
    }
    const auto over = [&dip](double share) {
        return [level = share * dip.peak](double y) { return y > level; };
    };
    const auto onset = std::find_if(answer.begin(), answer.end(), over(onset_share));
    const auto back = std::find_if(answer.rbegin(), answer.rend(), over(back_share));
    dip.onset_s = UsualPressure::from_s + static_cast<double>(onset - answer.begin()) * course_step_s;
    dip.back_s = UsualPressure::from_s + static_cast<double>(answer.rend() - back) * course_step_s;
    return dip;
}

}  // namespace

LateShape::Dip LateShape::dip(const ContractionShape& usual, double level_share) const {
    return dip_of(*this, UsualPressure(usual), level_share, level_share);
}

LateShape LateShape::fitted(const ContractionShape& usual, double depth_bpm, double back_after_s) {
    const UsualPressure pressure(usual);
    const double wanted_s = usual.after_peak(10.0) + back_after_s;
    const double back_share = std::min(0.9, back_within_bpm / std::max(depth_bpm, back_within_bpm + 1));
    const double onset_share = std::min(0.2, 1.0 / depth_bpm);
    LateShape shape;
    LateShape::Dip dip{};
    // Slower in one piece: a later start and a longer lag. From 20 mmHg on if that is gradual enough; a quick
    // one has to begin with the first hardening.
    for (const double threshold : {20.0, 14.0, 9.0, 5.0, 2.5}) {
        shape.threshold_mmhg = std::min(threshold, 0.44 * usual.height_mmhg);
        double low = 0.1, high = 5;
        for (int i = 0; i < 12; ++i) {
            const double s = 0.5 * (low + high);
            shape.delay_s = 8.0 * s;
            shape.lag_s = std::max(10.0 * s, 1.0);
            dip = dip_of(shape, pressure, onset_share, back_share);
            (dip.back_s < wanted_s ? low : high) = s;
        }
        if (dip.nadir_s - dip.onset_s >= gradual_s - 1.5) break;
    }
    shape.peak = dip.peak;
    return shape;
}

double Bump::whole_s() const { return slow_tail ? down_s + stay_s + 12 * up_s : down_s + stay_s + up_s; }

double Bump::at(double time_s) const {
    if (!on) return 0;
    const double age = time_s - from_s;
    if (slow_tail) return size_bpm * by_two_lags(age, down_s) * (1 - by_two_lags(age - stay_s, up_s));
    double value = size_bpm * ease(age / down_s) * (1 - ease((age - down_s - stay_s) / up_s));
    const double after = age - whole_s();
    if (before_bpm > 0 && age < 0) value -= before_bpm * hump(1 + age / shoulder_s);
    if (after_bpm > 0 && after > 0) value -= after_bpm * hump(after / shoulder_s);
    return value;
}

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
    Bump bump;
    bump.on = true;
    bump.from_s = from_s;
    bump.size_bpm = event.depth.value;
    const double length_s = std::max(event.length.value, 10.0);
    switch (event.kind) {
        case BabyEvent::Kind::acceleration:
            // Up in 0.3, stays 0.2, down in 0.5 of its length [practice]; up in under 30 s (NICHD 2008).
            bump.down_s = std::min(0.3 * length_s, 25.0);
            bump.up_s = std::min(0.5 * length_s, 40.0);
            break;
        case BabyEvent::Kind::variable:
            // Abrupt: onset to nadir under 30 s (NICHD 2008).
            bump.down_s = std::min(5.0 + 9.0 * draw(fall_time), 0.35 * length_s);
            bump.up_s = std::min(6.0 + 9.0 * draw(back_time), 0.4 * length_s);
            if (draw(shoulder) < 0.4) {
                bump.after_bpm = 5.0 + 3.0 * draw(size);
                // One before it needs warning, which a movement does not give.
                if (event.by != BabyEvent::Brought_on_by::movement) bump.before_bpm = bump.after_bpm;
            }
            break;
        case BabyEvent::Kind::early:
        case BabyEvent::Kind::late:
            bump.down_s = std::max(gradual_s, 0.4 * length_s);
            bump.up_s = std::max(gradual_s, 0.4 * length_s);
            break;
        case BabyEvent::Kind::prolonged: {
            bump.slow_tail = true;
            bump.down_s = std::min(5.0 + 3.0 * draw(fall_time), 0.06 * length_s);
            bump.up_s = std::min(15.0 + 8.0 * draw(back_time), 0.12 * length_s);
            const double share = std::min(0.9, back_within_bpm / bump.size_bpm);
            bump.stay_s = std::max(0.0, length_s - bump.up_s * lags_until(share));
            break;
        }
    }
    if (!bump.slow_tail) bump.stay_s = std::max(0.0, length_s - bump.down_s - bump.up_s);
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
        if (!c || !running.answered[static_cast<std::size_t>(n % Womb::remembered)]) continue;
        const double p = womb.pressure_of(*c, seen_s);
        if (p <= 0) continue;
        drive = std::max(drive, late ? over_threshold(p, running.late.threshold_mmhg, c->shape.height_mmhg)
                                     : p / c->shape.height_mmhg);
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
