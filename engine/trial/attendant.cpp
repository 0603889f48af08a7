#include "engine/trial/attendant.h"

#include "sim/body/abdomen.h"
#include "sim/exact_math.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <string>

namespace engine {

namespace {

constexpr double step_s = 2, short_step_s = 1, press_n = 8;  // [practice]
constexpr double clear_of_rivals_db = 9;                     // 3 dB more than countable: the heart moves

// Places are kept to 0.01 cm.
double on_the_grid(double cm) { return std::floor(cm * 100 + 0.5) / 100; }

int nearest(double x) { return static_cast<int>(std::floor(x + 0.5)); }

}  // namespace

Attendant::Attendant(const Scenario& s, const Protocol& p, const SyntheticCounter& c, const CandidateDraws& d)
    : scenario(s), protocol(p), counter(c), draws(d), order_(s, p) {}

Event Attendant::base(Do what) const {
    Event e;
    e.t = sim::labour_time({t});
    e.what = what;
    return e;
}

bool Attendant::add(const Event& event, double takes_s) {
    if (event.what != Do::finish && left_s() < 0) return false;
    if (!order_.refuses(event).empty()) return false;
    order_.take(event);
    events.push_back(event);
    t += takes_s;
    return true;
}

void Attendant::act(std::string_view id) {
    Event e = base(Do::act);
    e.act = std::string(id);
    if (add(e, step_s) || !placed()) return;
    lift();
    e.t = sim::labour_time({t});
    add(e, step_s);
}

void Attendant::take(sim::Instrument with) {
    Event e = base(Do::take);
    e.instrument = with;
    if (add(e, short_step_s)) instrument = with;
    if (with == sim::Instrument::doppler) add(base(Do::gel), short_step_s);
}

void Attendant::place(double x_cm, double y_cm) {
    Event e = base(Do::place);
    e.x_cm = on_the_grid(x_cm);
    e.y_cm = on_the_grid(y_cm);
    e.press_n = press_n;
    add(e, short_step_s);
}

void Attendant::place_at_heart(int baby) {
    const Played& runs = far();
    const auto tick = std::min(runs.course.size() - 1, static_cast<std::size_t>(4 * t));
    const sim::CourseTick& here = runs.course[tick];
    const sim::Spot spot = sim::heart_spot(runs.patient, baby, here);
    sim::Hold hold = order_.hold();
    hold.placed = true;
    hold.x_cm = on_the_grid(spot.x_cm);
    hold.y_cm = on_the_grid(spot.y_cm);
    hold.press_n = press_n;
    const sim::PlaceLevels levels = sim::levels_at(runs.patient, here, hold);
    if (levels.which_baby == baby && sim::countable(levels) == sim::Countable::countable &&
        levels.baby.value - levels.rival.value >= clear_of_rivals_db)
        return place(spot.x_cm, spot.y_cm);
    const sim::BestSpot best = sim::best_spot(runs.patient, here, instrument, baby);
    place(best.x_cm, best.y_cm);
}

void Attendant::lift() {
    if (!placed()) return;
    if (!add(base(Do::lift), step_s)) {  // a horn needs a hand
        Event off = base(Do::hand);
        off.hand = sim::Hand::right;
        off.on = sim::On::none;
        add(off, 0);
        add(base(Do::lift), step_s);
    }
}

void Attendant::lay_hand(sim::On on) {
    Event e = base(Do::hand);
    e.hand = sim::Hand::left;
    e.on = on;
    add(e, short_step_s);
}

void Attendant::report_pulse() {
    const Played& runs = far();
    const double from = std::max(0.0, t - 16);
    Event e = base(Do::report_pulse);
    e.bpm = nearest(sim::rate_between(runs.maternal, sim::labour_time({from}), sim::labour_time({t})).value);
    if (add(e, short_step_s)) pulse_bpm = *e.bpm;
}

void Attendant::compare(int baby) {
    const Played& runs = far();
    const auto a = sim::labour_time({std::max(0.0, t - 30)}), z = sim::labour_time({t});
    const double hers = sim::rate_between(runs.maternal, a, z).value;
    const auto& heart = baby == 1 ? runs.fetal2 : runs.fetal;
    const double ratio = sim::rate_between(heart, a, z).value / std::max(1.0, hers);
    Event e = base(Do::compare);
    e.to_pulse = ratio >= 1.75 && ratio <= 2.25 ? ToPulse::about_twice
                 : ratio > 1.05                 ? ToPulse::more
                 : ratio < 0.95                 ? ToPulse::less
                                                : ToPulse::same;
    add(e, step_s);
}

int Attendant::count(double plan_s, int baby, bool hers) {
    const std::uint32_t nth = windows_++;
    const double from = t;
    Event start = base(Do::start_window);
    start.plan_s = plan_s;
    if (!add(start, 0)) return counted_bpm.value_or(0);
    const double own_s = plan_s - draws.edge_s(counter, nth, false) + draws.edge_s(counter, nth, true);
    t = std::min(end_s(), from + std::max(1.0, own_s));
    add(base(Do::stop_window), step_s);
    const Played& runs = far();
    const auto& heart = hers ? runs.maternal : baby == 1 ? runs.fetal2 : runs.fetal;
    const sim::LabourTime a = start.t, z = events.back().t;
    const int beats = static_cast<int>(sim::beats_between(heart, a, z));
    Event report = base(Do::report);
    report.beats = beats_counted(counter, beats, plan_s, draws, nth);
    report.bpm = nearest(*report.beats * 60.0 / plan_s);
    if (!add(report, short_step_s)) return counted_bpm.value_or(0);
    counted_bpm = *report.bpm;
    last_window = Window{};
    last_window->from = a;
    last_window->to = z;
    last_window->plan_s = plan_s;
    last_window->beats = report.beats;
    last_window->bpm = report.bpm;
    return *report.bpm;
}

void Attendant::decide(const Decision& decision) {
    Event e = base(Do::decide);
    e.decision = decision;
    add(e, step_s);
}

void Attendant::record(const char* when, const char* slowing, const char* done, bool with_rate) {
    Event e = base(Do::record);
    if (with_rate && counted_bpm) e.bpm = counted_bpm;
    if (pulse_bpm > 0) e.pulse_bpm = pulse_bpm;
    e.when = when;
    e.slowing = slowing;
    e.done = done;
    add(e, step_s);
}

void Attendant::hand_over() {
    Event e = base(Do::handover);
    e.situation = "Baby's heart " +
                  (counted_bpm ? std::to_string(*counted_bpm) : std::string("not counted")) + ", her pulse " +
                  std::to_string(pulse_bpm) + ".";
    e.background = "Heard through and after contractions.";
    e.assessment = "Turned to her left, waters and temperature looked at.";
    e.request = "Please be ready for her.";
    add(e, step_s);
}

void Attendant::finish() {
    t = std::min(t, scenario.length.value);
    add(base(Do::finish), 0);
}

const Played& Attendant::far() const {
    if (far_of_ == events.size()) return far_;
    std::vector<Event> more = events;
    if (more.empty() || more.back().what != Do::finish) {
        Event last;
        last.t = sim::labour_time(scenario.length);
        last.what = Do::finish;
        more.push_back(last);
    }
    far_ = play(scenario, protocol, draws.labour(), more);
    far_of_ = events.size();
    return far_;
}

Played Attendant::now() const {
    std::vector<Event> more = events;
    Event last;
    last.t = sim::labour_time({t});
    last.what = Do::finish;
    more.push_back(last);
    return play(scenario, protocol, draws.labour(), more);
}

}  // namespace engine
