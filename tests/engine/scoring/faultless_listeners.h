// One faultless attempt for each of the first ten labours: what a good midwife does there.
#pragma once

#include "perfect_listener.h"

#include <map>

namespace perfect {

using sim::Instrument;

inline Listener first_touch(const std::string& stem, Instrument with) {
    Listener l(stem);
    l.greet().wait(10).take(with);
    return l;
}

inline Listener faultless_c01() {
    Listener l = first_touch("c01-own-minute", Instrument::doppler);
    l.place_best().wrist().wait(16).report_pulse().count().wait(2).lift();
    l.decide(SourceIs::baby, BaselineIs::normal)
        .explain()
        .record("between", "")
        .act("continue_routine")
        .finish();
    return l;
}

inline Listener faultless_q01() {
    Listener l = first_touch("q01-six-seconds", Instrument::doppler);
    l.place_best().wrist().wait(16).report_pulse().count(6).count().lift();
    l.decide(SourceIs::baby, BaselineIs::normal)
        .explain()
        .record("between", "")
        .act("continue_routine")
        .finish();
    return l;
}

inline Listener faultless_f03() {
    Listener l = first_touch("f03-feel-first", Instrument::doppler);
    l.belly().wait(10).place_best().wrist().wait(16).report_pulse().count().lift();
    l.decide(SourceIs::baby, BaselineIs::normal)
        .explain()
        .act("inform_senior")
        .record("between", "")
        .finish();
    return l;
}

// First at the place a colleague named: her artery; her pulse in step with it; then up, to the baby.
inline Listener faultless_t04() {
    Listener l = first_touch("t04-whose-heart", Instrument::horn);
    l.place(-3, -12).wrist().wait(18).report_pulse().decide(SourceIs::mother);
    l.lift().place_best().wait(2).count().lift();
    l.decide(SourceIs::baby, BaselineIs::normal)
        .explain()
        .act("inform_senior")
        .record("between", "")
        .finish();
    return l;
}

inline Listener faultless_p02() {
    Listener l = first_touch("p02-through-two", Instrument::doppler);
    l.place_best().wrist().wait(16).report_pulse();
    l.until(l.contraction_end(0) + 35).count();
    l.until(l.contraction_end(2) + 35).lift();
    l.decide(SourceIs::baby, BaselineIs::normal, Around::slows_in_contraction).explain();
    l.record("between", "yes").act("continue_routine").finish();
    return l;
}

inline Listener faultless_p03() {
    Listener l = first_touch("p03-after-the-end", Instrument::doppler);
    l.place_best().wrist().wait(16).report_pulse();
    l.until(l.contraction_end(0) + 33);
    l.act("off_her_back").act("inform_senior").act("check_waters").act("look_for_cord").belly();
    l.until(l.contraction_end(0) + 62).count();
    l.until(l.contraction_end(3) + 35).lift();
    l.decide(SourceIs::baby, BaselineIs::normal, Around::slow_after_contraction).explain();
    l.act("arrange_transfer").referral().record("after", "yes", "turned, senior told").finish();
    return l;
}

inline Listener faultless_l03() {
    Listener l = first_touch("l03-a-long-night", Instrument::doppler);
    l.place_best().wrist().wait(16).report_pulse();
    l.until(180).count();
    l.until(330);
    l.decide(SourceIs::baby, BaselineIs::slow);
    l.act("off_her_back")
        .act("call_for_help")
        .act("look_for_cord")
        .act("check_bleeding")
        .act("inform_senior");
    l.act("listen_more_often");
    l.until(420).count();
    l.until(780).count().lift();
    l.decide(SourceIs::baby, BaselineIs::normal, Around::no_slowing).explain();
    l.record("between", "yes", "off her back, senior told").finish();
    return l;
}

inline Listener faultless_l05() {
    Listener l = first_touch("l05-ninety-minutes-out", Instrument::horn);
    l.place_best().wrist().wait(16).report_pulse().count();
    l.decide(SourceIs::baby, BaselineIs::fast, Around::not_listened);
    l.act("off_her_back")
        .act("take_temperature")
        .act("check_waters")
        .act("ask_what_was_given")
        .act("take_blood_pressure");
    l.act("inform_senior").act("start_plan").act("offer_drink").act("cool_her");
    l.belly();
    l.until(l.contraction_end(3) + 35).lift();
    l.decide(SourceIs::baby, BaselineIs::fast, Around::no_slowing).explain();
    l.act("arrange_transfer")
        .act("go_with_her")
        .act("listen_more_often")
        .act("prepare_newborn_help")
        .referral();
    l.record("after", "no", "transfer, senior told").finish();
    return l;
}

inline Listener faultless_l06() {
    Listener l = first_touch("l06-when-waters-break", Instrument::doppler);
    l.place_best().wrist().wait(16).report_pulse().until(180).count();
    l.until(l.contraction_end(0) + 35);
    l.decide(SourceIs::baby, BaselineIs::normal, Around::no_slowing);
    l.record("between", "no", "listening on");
    l.until(305).act("look_for_cord");
    l.until(322);
    l.act("call_for_help")
        .act("lift_the_part")
        .act("knees_chest_hips_up")
        .act("start_plan")
        .act("arrange_transfer");
    l.act("go_with_her")
        .act("prepare_newborn_help")
        .act("inform_senior")
        .decide(SourceIs::baby, BaselineIs::slow);
    l.until(560).count().until(l.contraction_end(2) + 35).lift();
    l.decide(SourceIs::baby, BaselineIs::normal, Around::no_slowing).explain().referral();
    l.record("between", "yes", "cord: part lifted, knees and chest, plan started").finish();
    return l;
}

inline Listener faultless_f10() {
    Listener l = first_touch("f10-two-instruments", Instrument::doppler);
    l.place(6, -7).wrist().wait(16).report_pulse();
    for (auto [x, y] : {std::pair{-6, -7}, {0, -8}, {0, 4}, {5, 5}}) l.place(x, y).wait(10);
    l.lift().take(Instrument::horn).place(6, -7).wait(15).place(-6, -7).wait(15).lift();
    l.act("call_for_help")
        .decide(SourceIs::not_found)
        .act("get_scan_or_monitor")
        .act("inform_senior")
        .explain();
    l.record("", "", "heart not found, called, scan asked for").finish();
    return l;
}

}  // namespace perfect
