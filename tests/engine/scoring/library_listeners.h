// One faultless attempt for each scenario of contractions and each whole labour beyond the first ten.
#pragma once

#include "faultless_listeners.h"
#include "library_row.h"

namespace perfect {

// The end of the first contraction that ends at or after `s`, as it runs with what was done so far.
inline double end_after(const Listener& l, double s) {
    std::vector<Event> more = l.events;
    Event finish;
    finish.t = sim::labour_time(l.scenario.length);
    finish.what = Do::finish;
    more.push_back(finish);
    const Played far = play(l.scenario, l.protocol, sim::Seed{static_cast<std::uint64_t>(l.seed)}, more);
    for (const Contraction& c : far.contractions)
        if (c.ended && c.to.seconds() >= s) return c.to.seconds();
    FAIL("no contraction ends after " << s << " s");
    return s;
}

// Placed, her pulse felt and said.
inline Listener at_the_heart(const std::string& id, Instrument with) {
    Listener l = first_touch(library_stem(id), with);
    l.place_best().wrist().wait(16).report_pulse();
    return l;
}

// Through the next contraction to 35 s after its end.
inline void through(Listener& l) { l.until(end_after(l, l.t + 2) + 35); }

inline Listener quiet_through_two(const std::string& id, Instrument with) {
    Listener l = at_the_heart(id, with);
    through(l);
    l.count();
    through(l);
    l.lift();
    l.decide(SourceIs::baby, BaselineIs::normal, Around::no_slowing).explain();
    l.record("between", "no").act("continue_routine").finish();
    return l;
}

inline Listener listener_p01() { return quiet_through_two("p01", Instrument::doppler); }
inline Listener listener_p06() { return quiet_through_two("p06", Instrument::doppler); }

// Found after a contraction: turned, looked, told; then through three more, counted between.
inline void turn_look_tell(Listener& l) {
    l.act("off_her_back").act("look_for_cord").act("check_waters").act("inform_senior");
}
inline void three_more(Listener& l) {
    l.belly();
    through(l);
    l.count();
    for (int more = 0; more < 2; ++more) through(l);
    l.lift();
}

inline Listener listener_p04() {
    Listener l = at_the_heart("p04", Instrument::doppler);
    l.act("check_waters");
    through(l);
    turn_look_tell(l);
    l.act("listen_more_often").act("prepare_newborn_help").act("get_scan_or_monitor");
    three_more(l);
    l.decide(SourceIs::baby, BaselineIs::normal, Around::slow_after_contraction).explain();
    l.record("after", "yes", "turned, senior told, monitor asked for").finish();
    return l;
}

inline Listener listener_p05() {
    Listener l = at_the_heart("p05", Instrument::horn);
    through(l);
    through(l);
    turn_look_tell(l);
    l.act("arrange_transfer");
    three_more(l);
    l.decide(SourceIs::baby, BaselineIs::normal, Around::slow_after_contraction).explain().referral();
    l.record("after", "yes", "turned, nothing seen, rung").finish();
    return l;
}

inline Listener listener_p07() {
    Listener l = at_the_heart("p07", Instrument::horn);
    for (int c = 0; c < 3; ++c) through(l);
    turn_look_tell(l);
    three_more(l);
    l.decide(SourceIs::baby, BaselineIs::normal, Around::slow_after_contraction).explain();
    l.record("after", "yes", "turned, senior told").finish();
    return l;
}

inline Listener listener_p08() {
    Listener l = at_the_heart("p08", Instrument::doppler);
    through(l);
    turn_look_tell(l);
    l.act("arrange_transfer").referral();
    three_more(l);
    l.decide(SourceIs::baby, BaselineIs::normal, Around::slow_after_contraction).explain();
    l.record("after", "yes", "turned, senior told").finish();
    return l;
}

inline Listener listener_p09() {
    Listener l = at_the_heart("p09", Instrument::doppler);
    l.count();
    for (int c = 0; c < 3; ++c) through(l);
    l.lift();
    l.decide(SourceIs::baby, BaselineIs::normal, Around::no_slowing, RhythmIs::irregular).explain();
    l.act("inform_senior")
        .act("get_scan_or_monitor")
        .record("between", "no", "irregular; senior told")
        .finish();
    return l;
}

inline Listener listener_p10() {
    Listener l = at_the_heart("p10", Instrument::doppler);
    through(l);
    turn_look_tell(l);
    l.belly();
    for (int c = 0; c < 2; ++c) through(l);
    l.act("call_for_help").act("prepare_newborn_help").act("push_with_contractions").act("assist_birth_now");
    l.act("take_temperature");
    for (int c = 0; c < 3; ++c) through(l);
    l.until(18 * 60.0).count();
    through(l);
    l.lift().decide(SourceIs::baby, BaselineIs::rising, Around::slow_after_contraction).explain();
    l.record("after", "yes", "help called, birth being made").finish();
    return l;
}

inline Listener listener_l01() {
    Listener l = first_touch(library_stem("l01"), Instrument::doppler);
    for (double due : {0.0, 20 * 60.0, 40 * 60.0}) {
        l.until(due).place_best().wrist().wait(16).report_pulse();
        through(l);
        l.count().lift();
        l.decide(SourceIs::baby, BaselineIs::normal, Around::no_slowing).explain();
        l.record("after", "no").act("continue_routine");
    }
    l.finish();
    return l;
}

inline Listener listener_l02() {
    Listener l = first_touch(library_stem("l02"), Instrument::horn);
    while (l.t < l.scenario.length.value - 240) {
        l.place_best().wrist().wait(16).report_pulse();
        through(l);
        l.count().lift();
        l.decide(SourceIs::baby, BaselineIs::normal, Around::slows_in_contraction);
        l.record("after", "yes").act("continue_routine");
    }
    l.explain().finish();
    return l;
}

inline Listener listener_l04() {
    Listener l = at_the_heart("l04", Instrument::doppler);
    through(l);
    l.act("stop_oxytocin");
    turn_look_tell(l);
    l.act("listen_more_often").belly();
    for (int c = 0; c < 3; ++c) through(l);
    l.act("ask_what_was_given").count();
    l.decide(SourceIs::baby, BaselineIs::normal, Around::slow_after_contraction).explain();
    l.act("arrange_transfer").act("go_with_her").referral();
    l.record("after", "yes", "drip stopped, turned, senior told").lift();
    l.until(20 * 60.0).place_best().wrist().wait(16).report_pulse();
    through(l);
    l.count().lift();
    l.decide(SourceIs::baby, BaselineIs::normal, Around::no_slowing);
    l.record("after", "no", "drip stays off").finish();
    return l;
}

inline Listener listener_l07() {
    Listener l = at_the_heart("l07", Instrument::doppler);
    l.until(145);
    l.act("call_for_help").act("off_her_back").act("push_with_contractions").act("prepare_newborn_help");
    l.act("look_for_cord").act("check_bleeding").act("start_plan").act("assist_birth_now");
    l.count().decide(SourceIs::baby, BaselineIs::slow, Around::stays_down);
    l.act("examine_inside").act("inform_senior");
    l.until(400).count().lift().decide(SourceIs::baby, BaselineIs::slow, Around::stays_down).explain();
    l.record("after", "yes", "help called, birth being made, bag and mask ready").finish();
    return l;
}

inline Listener listener_l08() {
    Listener l = at_the_heart("l08", Instrument::horn);
    l.act("check_waters");
    through(l);
    turn_look_tell(l);
    l.act("pause_pushing").act("arrange_transfer").act("go_with_her").act("prepare_newborn_help");
    l.act("listen_more_often");
    three_more(l);
    l.decide(SourceIs::baby, BaselineIs::normal, Around::slow_after_contraction).explain().referral();
    l.record("after", "yes", "not pushing, on her side, rung, we leave").finish();
    return l;
}

inline Listener listener_l09() {
    Listener l = at_the_heart("l09", Instrument::doppler);
    l.act("check_bleeding")
        .act("call_for_help")
        .act("off_her_back")
        .act("start_plan")
        .act("take_blood_pressure");
    l.act("start_drip")
        .act("look_for_cord")
        .act("arrange_transfer")
        .act("go_with_her")
        .act("prepare_newborn_help");
    l.act("inform_senior").count();
    through(l);
    l.lift().decide(SourceIs::baby, BaselineIs::slow, Around::no_slowing).explain().referral();
    l.record("between", "no", "help, plan, drip, we leave").finish();
    return l;
}

inline Listener listener_l10() {
    Listener l = at_the_heart("l10", Instrument::doppler);
    l.act("second_listener").count();
    l.record("between", "no", "the first, low on her left");
    through(l);
    l.lift().place_best(1).wait(2).wrist().wait(16).count();
    l.act("off_her_back").act("take_temperature").act("check_waters").act("ask_what_was_given");
    l.act("take_blood_pressure").act("inform_senior").act("get_scan_or_monitor").belly();
    for (int c = 0; c < 3; ++c) through(l);
    l.lift().decide(SourceIs::two_babies, BaselineIs::fast, Around::no_slowing).explain();
    l.record("between", "no", "two rates; senior told, monitor").finish();
    return l;
}

inline Listener listener_l11() {
    Listener l = at_the_heart("l11", Instrument::doppler);
    l.count().decide(SourceIs::baby, BaselineIs::fast);
    l.act("off_her_back").act("ask_what_was_given").act("take_temperature").act("check_waters");
    l.act("take_blood_pressure")
        .act("hold_and_ask_prescriber")
        .act("inform_senior")
        .act("offer_drink")
        .belly();
    for (int c = 0; c < 3; ++c) through(l);
    l.lift().decide(SourceIs::baby, BaselineIs::fast, Around::no_slowing);
    l.record("after", "no", "next dose held, senior told");
    l.until(21 * 60.0).act("take_temperature").place_best().wait(2).wrist().wait(16).report_pulse();
    l.act("cool_her").act("arrange_transfer").act("go_with_her").act("inform_senior").count();
    through(l);
    l.lift().decide(SourceIs::baby, BaselineIs::fast, Around::no_slowing).explain().referral();
    l.record("after", "no", "fever now, transfer").finish();
    return l;
}

inline Listener listener_l12() {
    Listener l = at_the_heart("l12", Instrument::doppler);
    through(l);
    l.count().decide(SourceIs::baby, BaselineIs::normal, Around::no_slowing);
    l.record("after", "no").act("inform_senior").act("get_scan_or_monitor");
    l.until(330).wrist();
    l.act("call_for_help").act("off_her_back").act("check_bleeding").act("look_for_cord").act("start_plan");
    l.act("start_drip").act("take_blood_pressure").act("prepare_newborn_help");
    l.until(400).report_pulse().count().lift();
    l.decide(SourceIs::baby, BaselineIs::slow, Around::stays_down).explain();
    l.record("after", "yes", "help, plan, theatre, drip").finish();
    return l;
}

}  // namespace perfect
