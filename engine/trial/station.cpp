#include "engine/trial/station.h"

#include "engine/scoring/key.h"
#include "engine/scoring/score_sheet.h"
#include "sim/body/abdomen.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace engine {
namespace {

constexpr std::uint32_t draw_start = 1, draw_stop = 2;
constexpr double least_length_s = 120, minute_s = 60, ready_s = 30;
constexpr double clearly_out_bpm = 6;  // nearer to the limit one minute may hold as many beats as a normal one [practice]

// Events one after the other, in seconds.
class Doing {
public:
    Event& at(double t_s, Do what) {
        Event e;
        e.t = sim::labour_time({t_s});
        e.what = what;
        events.push_back(e);
        return events.back();
    }
    std::vector<Event> events;
};

BaselineIs class_of(int bpm, const Protocol& protocol) {
    switch (classify(protocol, sim::Bpm{static_cast<double>(bpm)})) {
        case BaselineClass::fast: return BaselineIs::fast;
        case BaselineClass::slow: return BaselineIs::slow;
        case BaselineClass::normal: break;
    }
    return BaselineIs::normal;
}

// Places are kept to 0.01 cm.
double on_the_grid(double cm) { return std::floor(cm * 100 + 0.5) / 100; }

bool can_choose(const Protocol& protocol, std::string_view id) {
    return std::any_of(protocol.acts.begin(), protocol.acts.end(),
                       [&](const ActWords& act) { return act.id == id && act.kind == ActKind::chosen; });
}

const AspectScore& aspect_of(const ScoreSheet& sheet, Aspect a) {
    return sheet.aspects.at(static_cast<std::size_t>(a));
}

}  // namespace

Outcome<CountStation> count_station(const Scenario& scenario, const Protocol& protocol) {
    const auto fault = [&](const char* what, std::string found, const char* allowed) {
        return Fault{scenario.file.empty() ? scenario.id : scenario.file, 0, what, std::move(found), allowed};
    };
    if (scenario.task != Task::count) return fault("task", std::string(name_of(scenario.task)), "count");
    if (!scenario.place.watch) return fault("place.watch", "no watch", "a watch to count by");
    if (scenario.place.instruments.empty()) return fault("place.instruments", "none", "one or more");
    if (scenario.length.value < least_length_s)
        return fault("length", std::to_string(static_cast<int>(scenario.length.value)) + " s", "120 s or more");
    const Key key = key_of(scenario, protocol, {1});
    CountStation station;
    station.scenario = scenario;
    station.baseline = key.decision.baseline;
    if (station.baseline != BaselineIs::normal && station.baseline != BaselineIs::fast &&
        station.baseline != BaselineIs::slow)
        return fault("baseline by the key", std::string(name_of(station.baseline)), "normal, fast or slow");
    const bool clearly_slow =
        station.baseline == BaselineIs::slow && key.baseline_bpm <= protocol.low.bpm.value - clearly_out_bpm;
    station.kind = station.baseline == BaselineIs::normal ? StationKind::normal
                   : clearly_slow                         ? StationKind::critical
                                                          : StationKind::plain;
    const sim::Patient patient = scenario.patient({1});
    const auto course = sim::course_over(patient, {1}, {}, {minute_s});
    bool heard = false;
    for (const sim::Instrument with : scenario.place.instruments) {
        const sim::BestSpot best = sim::best_spot(patient, course.back(), with);
        if (heard || sim::countable(best.levels) != sim::Countable::countable) continue;
        station.instrument = with;
        heard = true;
    }
    if (!heard) return fault("instruments", "the heart is countable with none", "one that lets it be counted");
    return station;
}

std::vector<Event> counted_minute(const CountStation& station, const Protocol& protocol,
                                  const SyntheticCounter& counter, const CandidateDraws& draws) {
    const auto edge = [&](std::uint32_t which) {
        return std::clamp(counter.watch_sd_s * draws.gaussian(which), -3.0, 3.0);
    };
    const double from = ready_s + edge(draw_start), to = ready_s + minute_s + edge(draw_stop);
    const sim::Patient patient = station.scenario.patient(draws.labour());
    const auto course = sim::course_over(patient, draws.labour(), {}, {to + 2});
    const auto beats_in = [&](sim::Who who, double a, double b) {
        const auto train = sim::beats_over(patient, draws.labour(), who, course);
        return static_cast<int>(sim::beats_between(train, sim::labour_time({a}), sim::labour_time({b})));
    };
    const int pulse_bpm = 4 * beats_in(sim::Who::maternal, 10, 25);
    const int counted = beats_counted(counter, beats_in(sim::Who::fetal, from, to), minute_s, draws);
    const BaselineIs called = class_of(counted, protocol);
    const sim::Spot spot = sim::heart_spot(patient, 0, course.at(static_cast<std::size_t>(4 * ready_s)));

    Doing doing;
    doing.at(1, Do::act).act = "greet_and_ask";
    doing.at(4, Do::take).instrument = station.instrument;
    if (station.instrument == sim::Instrument::doppler) doing.at(5, Do::gel);
    Event& place = doing.at(6, Do::place);
    place.x_cm = on_the_grid(spot.x_cm);
    place.y_cm = on_the_grid(spot.y_cm);
    place.press_n = 8;
    Event& wrist = doing.at(7, Do::hand);
    wrist.hand = sim::Hand::left;
    wrist.on = sim::On::wrist;
    doing.at(26, Do::report_pulse).bpm = pulse_bpm;
    doing.at(from, Do::start_window).plan_s = minute_s;
    doing.at(to, Do::stop_window);
    Event& report = doing.at(94.5, Do::report);
    report.beats = report.bpm = counted;
    doing.at(96, Do::lift);
    Event& decide = doing.at(98, Do::decide);
    decide.decision.source = SourceIs::baby;
    decide.decision.baseline = called;
    Event& record = doing.at(102, Do::record);
    record.bpm = counted;
    record.pulse_bpm = pulse_bpm;
    record.when = "between";
    double t = 106;
    if (called == BaselineIs::slow)
        for (const char* act : {"call_for_help", "off_her_back", "start_plan"})
            if (can_choose(protocol, act)) doing.at(t += 2, Do::act).act = act;
    doing.at(t + 2, Do::finish);
    return doing.events;
}

StationResult try_station(const CountStation& station, const Protocol& protocol, const SyntheticCounter& counter,
                          const CandidateDraws& draws) {
    const std::vector<Event> events = counted_minute(station, protocol, counter, draws);
    assert(!check_order(station.scenario, protocol, events, "trial"));
    const Played played = play(station.scenario, protocol, draws.labour(), events);
    const ScoreSheet sheet = judge(station.scenario, protocol, played);
    const BaselineIs called = played.decisions.back().decision.baseline;
    const auto passed = [&](Aspect a) { return aspect_of(sheet, a).verdict != Verdict::missed; };
    // A check's own tolerance: the verdict "missed" is practice's band.
    const auto& count_figures = aspect_of(sheet, Aspect::count).figures;
    const auto right_in_check = count_figures.find("right");
    StationResult result;
    result.right = passed(Aspect::window) && right_in_check != count_figures.end() && right_in_check->second == 1 &&
                   passed(Aspect::arithmetic) && called == station.baseline;
    result.over_called = station.kind == StationKind::normal && called != BaselineIs::normal;
    result.missed = station.kind == StationKind::critical && !sheet.critical_missed.empty();
    if (result.missed) result.right = false;
    return result;
}

}  // namespace engine
