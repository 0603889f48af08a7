// Counting, finding, telling apart, short counts in a row.
#include "engine/scoring/series.h"
#include "engine/trial/tasks.h"

#include "sim/body/abdomen.h"

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

namespace engine {

namespace {

constexpr double wrist_s = 16, ten_s = 10, minute_s = 60;
constexpr double one_of_row_s = 13, row_after_end_s = 35;  // counted, written, the next begun
constexpr int least_in_a_row = 6, most_in_a_row = 12;
// so little above, a minute is counted again before it is called fast [practice]
constexpr double near_a_limit_bpm = 10;

// The place where her own beat is loudest: her artery or the blow of the womb.
struct HerPlace {
    double x_cm = 0, y_cm = 0;
};
HerPlace her_place(const Attendant& a) {
    const sim::Surroundings& s = a.far().patient.surroundings;
    if (s.vessel.value >= s.souffle.value) return {s.vessel_x.value, s.vessel_y.value};
    return {s.souffle_x.value, s.souffle_y.value};
}

int babies_of(const Attendant& a) { return std::max<int>(1, a.scenario.middle.babies.size); }

BaselineIs worse_class(BaselineIs a, BaselineIs b) { return a == BaselineIs::normal ? b : a; }

// A number only just above the limits may be a stir of the baby: counted again, and the second stands. Below
// them nobody counts again before help is called.
BaselineIs counted_class(Attendant& a, int baby) {
    const int bpm = a.count(minute_s, baby);
    const BaselineIs once = class_of_count(a.protocol, bpm);
    if (once != BaselineIs::fast || bpm - a.protocol.high.bpm.value > near_a_limit_bpm ||
        a.left_s() < minute_s + 30)
        return once;
    return class_of_count(a.protocol, a.count(minute_s, baby));
}

void count_hers(Attendant& a) {
    const HerPlace at = her_place(a);
    a.place(at.x_cm, at.y_cm);
    a.until(a.t + 3);
    Belief belief;
    belief.hers = true;
    belief.own_class = class_of_count(a.protocol, a.count(minute_s, 0, true));
    a.lift();
    Answering answering(a);
    close(a, belief, answering);
}

}  // namespace

void close(Attendant& a, Belief belief, Answering& answering) {
    const Decision said = belief.said(a);
    a.decide(said);
    if (said.unsure) {
        answering.routine_too(false);
        a.act(a.scenario.place.helpers > 0 ? "second_listener" : "inform_senior");
    }
    answering.answer(belief);
    a.act("explain_findings");
    const bool through = said.around != Around::not_said && said.around != Around::not_listened;
    const bool slows = through && said.around != Around::no_slowing;
    a.record(through ? "after" : "between",
             !through ? ""
             : slows  ? "yes"
                      : "no",
             a.scenario.place.watch ? "as found" : "no watch: one sent for",
             said.source != SourceIs::not_found);
    for (double at = answering.next_late_s(); at < a.end_s() - 4; at = answering.next_late_s()) {
        a.until(at);
        answering.do_late();
    }
}

void search_in_vain(Attendant& a) {
    Belief belief;
    Answering answering(a);
    a.place(6, -7);
    a.wrist();
    a.until(a.t + wrist_s);
    a.report_pulse();
    for (const auto& [x, y] : {std::pair{-6.0, -7.0}, {0.0, -8.0}, {0.0, 4.0}}) {
        a.place(x, y);
        a.until(a.t + 8);
    }
    answering.routine_too(false);
    answering.answer(belief);
    for (const char* act : {"check_bleeding", "look_for_cord"}) a.act(act);
    a.lift();
    for (const sim::Instrument other : a.scenario.place.instruments)
        if (other != a.instrument) {
            a.take(other);
            a.place(6, -7);
            a.until(a.t + 12);
            a.lift();
            break;
        }
    a.until(a.t + wrist_s);
    close(a, belief, answering);
}

void compare_by_ear(Attendant& a) {
    a.place_at_heart(0);
    a.wrist();
    a.until(a.t + 70);
    a.compare(0);
    a.lift();
    Answering answering(a);
    close(a, Belief{}, answering);
}

void count_where_it_lies(Attendant& a, bool takes_hers) {
    if (takes_hers) return count_hers(a);
    Belief belief;
    for (int baby = 0; baby < babies_of(a); ++baby) {
        if (baby > 0) {
            a.record("between", "", "the first", true);
            a.lift();
        }
        a.place_at_heart(baby);
        if (baby == 0) {
            a.wrist();
            a.until(a.t + wrist_s);
            a.report_pulse();
        }
        belief.own_class = worse_class(belief.own_class.value_or(BaselineIs::normal), counted_class(a, baby));
    }
    a.lift();
    Answering answering(a);
    close(a, belief, answering);
}

void short_counts(Attendant& a) {
    a.place_at_heart(0);
    a.wrist();
    a.until(a.t + wrist_s);
    a.report_pulse();
    // From the first sign of a contraction until half a minute after it, where that leaves time for the
    // minute.
    int counts = least_in_a_row;
    for (const Contraction& c : a.far().contractions) {
        const double from = c.from.seconds() - 5, to = c.to.seconds() + row_after_end_s;
        if (!c.ended || from < a.t || to + minute_s + 30 > a.end_s()) continue;
        a.until(from);
        counts = std::clamp(static_cast<int>((to - from) / one_of_row_s) + 1, least_in_a_row, most_in_a_row);
        break;
    }
    std::vector<ShortCount> row;
    for (int n = 0; n < counts && a.left_s() > ten_s + minute_s + 30; ++n) {
        const int bpm = a.count(ten_s, 0);
        if (a.last_window) row.push_back({a.last_window->from, a.last_window->to, static_cast<double>(bpm)});
    }
    a.until(a.t + 5);
    Belief belief;
    belief.own_class = counted_class(a, 0);
    // What the contractions have to do with it is read from the row alone.
    std::optional<SeriesReading> reading;
    if (!row.empty()) reading = read_series(a.protocol, row, std::nullopt, a.far().contractions);
    belief.row_shows = !reading         ? Around::not_listened
                       : !reading->fall ? Around::no_slowing
                       : reading->after ? Around::slow_after_contraction
                                        : Around::slows_in_contraction;
    a.lift();
    Answering answering(a);
    close(a, belief, answering);
}

}  // namespace engine
