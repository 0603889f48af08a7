#include "engine/trial/station.h"

#include "engine/scoring/key.h"
#include "engine/scoring/score_sheet.h"
#include "engine/trial/tasks.h"
#include "sim/body/abdomen.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace engine {
namespace {

constexpr double least_length_s = 120, least_quick_s = 180, least_through_s = 240, ready_s = 60;
// nearer to the limit one minute may hold as many beats as a normal one [practice]
constexpr double clearly_out_bpm = 6;

bool through_contractions(Task task) { return task == Task::pattern || task == Task::labour; }

double least_s(Task task) {
    return through_contractions(task) ? least_through_s
           : task == Task::quick      ? least_quick_s
                                      : least_length_s;
}

bool goes_with(sim::Instrument with, sim::Position lies) {
    return with != sim::Instrument::horn ||
           (lies != sim::Position::sitting && lies != sim::Position::hands_and_knees &&
            lies != sim::Position::knees_and_chest);
}

// Where her beat is most easily taken for the baby's: it climbs as she pushes, or is as good as the same.
bool hers_at_hand(const Scenario& scenario, const Protocol& protocol, double baby_bpm) {
    const double apart = std::fabs(baby_bpm - scenario.middle.mother.pulse.value);
    return scenario.middle.labour.pushing || apart <= 2 * protocol.near_pulse.value;
}

bool troubled(Around around) {
    return around == Around::slow_after_contraction || around == Around::stays_down;
}

StationKind kind_of(const Scenario& scenario, const Protocol& protocol, const Key& key) {
    const Decision& there = key.decision;
    if (there.source == SourceIs::not_found) return StationKind::critical;
    if (there.baseline == BaselineIs::slow && key.baseline_bpm <= protocol.low.bpm.value - clearly_out_bpm)
        return StationKind::critical;
    if (scenario.task == Task::tell_apart && hers_at_hand(scenario, protocol, key.baseline_bpm))
        return StationKind::critical;
    if (through_contractions(scenario.task) && troubled(there.around)) return StationKind::critical;
    if (scenario.task == Task::labour && key.level >= Level::orange) return StationKind::critical;
    const bool quiet = there.source == SourceIs::baby && there.baseline == BaselineIs::normal &&
                       there.rhythm != RhythmIs::irregular;
    if (scenario.task == Task::labour)
        return quiet && key.level == Level::green ? StationKind::normal : StationKind::plain;
    // Where a minute is counted, what it does around contractions is not asked.
    const bool around_asked = scenario.task == Task::pattern || scenario.task == Task::quick;
    return quiet && !(around_asked && troubled(there.around)) ? StationKind::normal : StationKind::plain;
}

const AspectScore& aspect_of(const ScoreSheet& sheet, Aspect a) {
    return sheet.aspects.at(static_cast<std::size_t>(a));
}
bool passed(const ScoreSheet& sheet, Aspect a) { return aspect_of(sheet, a).verdict != Verdict::missed; }
double figure_of(const ScoreSheet& sheet, Aspect a, const char* name) {
    const auto& figures = aspect_of(sheet, a).figures;
    const auto found = figures.find(name);
    return found == figures.end() ? 0 : found->second;
}

// A check's own tolerance: the verdict "missed" is practice's band.
bool minute_right(const ScoreSheet& sheet) {
    return passed(sheet, Aspect::window) && figure_of(sheet, Aspect::count, "right") == 1 &&
           passed(sheet, Aspect::arithmetic);
}

bool nothing_grave(const ScoreSheet& sheet) {
    return sheet.critical_missed.empty() && figure_of(sheet, Aspect::action, "unsafe") == 0;
}

}  // namespace

Outcome<TrialStation> trial_station(const Scenario& scenario, const Protocol& protocol) {
    const auto fault = [&](const char* what, std::string found, std::string allowed) {
        return Fault{scenario.file.empty() ? scenario.id : scenario.file, 0, what, std::move(found),
                     std::move(allowed)};
    };
    if (!scenario.place.watch && (scenario.task == Task::count || through_contractions(scenario.task)))
        return fault("place.watch", "no watch", "a watch to count by");
    if (scenario.place.instruments.empty()) return fault("place.instruments", "none", "one or more");
    const double least = least_s(scenario.task);
    if (scenario.length.value < least)
        return fault("length", std::to_string(static_cast<int>(scenario.length.value)) + " s",
                     std::to_string(static_cast<int>(least)) + " s or more for " +
                         std::string(name_of(scenario.task)));
    const Key key = key_of(scenario, protocol, {1});
    TrialStation station;
    station.scenario = scenario;
    station.there = key.decision;
    station.settled_bpm = key.baseline_bpm;
    station.kind = kind_of(scenario, protocol, key);
    station.instrument = scenario.place.instruments[0];
    if (key.decision.source == SourceIs::not_found) return station;
    const sim::Patient patient = scenario.patient({1});
    const auto course = sim::course_over(patient, {1}, {}, {ready_s});
    const auto countable_with = [&](sim::Instrument with) {
        return goes_with(with, scenario.middle.mother.position) &&
               sim::countable(sim::best_spot(patient, course.back(), with).levels) ==
                   sim::Countable::countable;
    };
    const auto& all = scenario.place.instruments;
    const auto found = std::find_if(all.begin(), all.end(), countable_with);
    if (found == all.end())
        return fault("instruments", "the heart is countable with none", "one that lets it be counted");
    station.instrument = *found;
    return station;
}

std::vector<Event> attempt_at(const TrialStation& station, const Protocol& protocol,
                              const SyntheticCounter& counter, const CandidateDraws& draws) {
    Attendant a(station.scenario, protocol, counter, draws);
    a.until(1);
    a.act("greet_and_ask");
    a.until(12);
    a.take(station.instrument);
    const Task task = station.scenario.task;
    const bool may_take_hers = task == Task::find || task == Task::tell_apart;
    if (may_take_hers && station.scenario.place.watch && draws.takes_hers(counter))
        count_where_it_lies(a, true);
    else if (station.there.source == SourceIs::not_found)
        search_in_vain(a);
    else if (!station.scenario.place.watch)
        compare_by_ear(a);
    else if (through_contractions(task))
        listen_through(a);
    else if (task == Task::quick)
        short_counts(a);
    else
        count_where_it_lies(a, false);
    a.finish();
    return a.events;
}

StationResult result_of(const TrialStation& station, const Protocol& protocol, const Played& played,
                        const ScoreSheet& sheet) {
    StationResult result;
    const Task task = station.scenario.task;
    if (played.decisions.empty()) return result;
    const Decision& said = played.decisions.back().decision;
    const bool rate_called = said.baseline == BaselineIs::fast || said.baseline == BaselineIs::slow ||
                             said.baseline == BaselineIs::rising;
    result.over_called = station.kind == StationKind::normal &&
                         (rate_called || figure_of(sheet, Aspect::decision, "over_called") > 0);
    result.missed = station.kind == StationKind::critical && !sheet.critical_missed.empty();
    if (station.there.source == SourceIs::not_found) {
        result.right = said.source == SourceIs::not_found && nothing_grave(sheet);
    } else if (task == Task::labour) {
        result.right = nothing_grave(sheet) && passed(sheet, Aspect::record) && !result.over_called;
    } else if (task == Task::pattern) {
        // By what this labour let them hear, not by what another run of it holds.
        const Key heard = key_of_spell(station.scenario, protocol, played, {0}, {played.end.us + 1});
        result.right = figure_of(sheet, Aspect::decision, "contractions_listened_through") > 0 &&
                       said.around == heard.decision.around;
    } else if (!station.scenario.place.watch || said.source == SourceIs::doubtful) {
        result.right = passed(sheet, Aspect::whose) && passed(sheet, Aspect::decision);
    } else {
        result.right = minute_right(sheet) && said.baseline == station.there.baseline;
        if (task == Task::find) result.right = result.right && passed(sheet, Aspect::site);
        if (task != Task::count && task != Task::quick)
            result.right = result.right && passed(sheet, Aspect::whose);
        if (task == Task::quick)
            result.right = result.right && passed(sheet, Aspect::count) && passed(sheet, Aspect::decision);
    }
    if (result.missed) result.right = false;
    return result;
}

StationResult try_station(const TrialStation& station, const Protocol& protocol,
                          const SyntheticCounter& counter, const CandidateDraws& draws) {
    const std::vector<Event> events = attempt_at(station, protocol, counter, draws);
    assert(!check_order(station.scenario, protocol, events, "trial"));
    const Played played = play(station.scenario, protocol, draws.labour(), events);
    return result_of(station, protocol, played, judge(station.scenario, protocol, played));
}

}  // namespace engine
