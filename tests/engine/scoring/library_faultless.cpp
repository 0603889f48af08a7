// What a good midwife does in the library's counting, quick, finding and telling-apart scenarios: no aspect
// of her sheet is missed, at five seeds. The first ten of the library have theirs in faultless_listeners.h.
#include "faultless_listeners.h"
#include "library_row.h"

using namespace perfect;

namespace {

using Acts = std::vector<std::string>;
const Acts fast_acts = {"take_temperature", "check_waters", "ask_what_was_given", "inform_senior"};
const Acts slow_acts = {"call_for_help", "off_her_back", "look_for_cord", "check_bleeding", "start_plan"};

Listener at_the_heart(const std::string& id, Instrument with) {
    Listener l = first_touch(library_stem(id), with);
    l.place_best().wrist().wait(16).report_pulse();
    return l;
}

Listener& ends(Listener& l, const Acts& acts, const std::string& done = "") {
    for (const std::string& act : acts) l.act(act);
    l.explain().record("between", "", done).finish();
    return l;
}

// Found, her pulse felt, one whole minute, decided, done.
Listener one_minute(const std::string& id, Instrument with, BaselineIs baseline, const Acts& acts) {
    Listener l = at_the_heart(id, with);
    l.count().lift().decide(SourceIs::baby, baseline);
    return ends(l, acts);
}

// First where her own beat is loud, known for hers; then the heart.
Listener not_hers(const std::string& id, Instrument with, double x, double y, BaselineIs baseline,
                  const Acts& acts) {
    Listener l = first_touch(library_stem(id), with);
    l.place(x, y).wrist().wait(18).report_pulse().decide(SourceIs::mother);
    l.lift().place_best().wait(2).count().lift().decide(SourceIs::baby, baseline);
    return ends(l, acts);
}

const Acts carry_on = {"continue_routine"};

}  // namespace

TEST_CASE("Normal hearts, one whole minute each: nothing missed", "[library][faultless]") {
    for (const char* id : {"c05", "c06", "f01"})
        nothing_missed_at_seeds(
            [&] { return one_minute(id, Instrument::doppler, BaselineIs::normal, carry_on); });
    for (const char* id : {"c02", "c07", "f02", "f04", "f09"})
        nothing_missed_at_seeds(
            [&] { return one_minute(id, Instrument::horn, BaselineIs::normal, carry_on); });
    nothing_missed_at_seeds([] { return one_minute("c09", Instrument::bell, BaselineIs::normal, carry_on); });
    nothing_missed_at_seeds(
        [] { return one_minute("f06", Instrument::doppler, BaselineIs::normal, {"inform_senior"}); });
    nothing_missed_at_seeds(
        [] { return one_minute("t03", Instrument::doppler, BaselineIs::normal, carry_on); });
}

TEST_CASE("Fast hearts, counted a minute and acted on: nothing missed", "[library][faultless]") {
    for (const char* id : {"c03", "t06"})
        nothing_missed_at_seeds(
            [&] { return one_minute(id, Instrument::doppler, BaselineIs::fast, fast_acts); });
    nothing_missed_at_seeds([] {
        Acts acts = fast_acts;
        acts.insert(acts.end(), {"cool_her", "offer_drink", "get_scan_or_monitor"});
        return one_minute("c08", Instrument::horn, BaselineIs::fast, acts);
    });
    nothing_missed_at_seeds([] {
        Acts acts = fast_acts;
        acts.push_back("hold_and_ask_prescriber");
        return one_minute("t09", Instrument::doppler, BaselineIs::fast, acts);
    });
    nothing_missed_at_seeds([] {
        return one_minute("c10", Instrument::doppler, BaselineIs::rising,
                          {"take_temperature", "check_waters", "inform_senior"});
    });
}

TEST_CASE("Slow hearts under 100, called and acted on within the minute: nothing missed",
          "[library][faultless]") {
    Acts acts = slow_acts;
    acts.push_back("examine_inside");
    nothing_missed_at_seeds([&] { return one_minute("c04", Instrument::horn, BaselineIs::slow, acts); });
    nothing_missed_at_seeds([&] { return one_minute("t05", Instrument::doppler, BaselineIs::slow, acts); });
}

TEST_CASE("Her own beat first, known for hers, then the baby: nothing missed", "[library][faultless]") {
    nothing_missed_at_seeds(
        [] { return not_hers("t01", Instrument::doppler, 11, -11, BaselineIs::normal, carry_on); });
    nothing_missed_at_seeds(
        [] { return not_hers("t02", Instrument::horn, -9, -12, BaselineIs::normal, carry_on); });
    nothing_missed_at_seeds(
        [] { return not_hers("t07", Instrument::doppler, 6, -6, BaselineIs::normal, carry_on); });
    nothing_missed_at_seeds(
        [] { return not_hers("f07", Instrument::doppler, 0, -5, BaselineIs::normal, carry_on); });
    nothing_missed_at_seeds(
        [] { return not_hers("f05", Instrument::horn, -1, -9, BaselineIs::fast, fast_acts); });
}

TEST_CASE("q02 and q03: a look of 6 s, then the minute near the limit: nothing missed",
          "[library][faultless]") {
    nothing_missed_at_seeds([] {
        Listener l = at_the_heart("q02", Instrument::doppler);
        l.count(6).count().lift().decide(SourceIs::baby, BaselineIs::slow);
        return ends(l, {"off_her_back", "look_for_cord", "inform_senior"});
    });
    nothing_missed_at_seeds([] {
        Listener l = at_the_heart("q03", Instrument::horn);
        l.count(6).count().lift().decide(SourceIs::baby, BaselineIs::fast);
        return ends(l, fast_acts);
    });
}

TEST_CASE("q04: six counts of 10 s through a contraction and a minute, no slowing: nothing missed",
          "[library][faultless]") {
    nothing_missed_at_seeds([] {
        Listener l = at_the_heart("q04", Instrument::doppler);
        l.until(l.contraction_end(0) - 40);
        for (int n = 0; n < 6; ++n) l.count(10);
        l.until(l.contraction_end(0) + 40).count().lift();
        l.decide(SourceIs::baby, BaselineIs::normal, Around::no_slowing);
        return ends(l, carry_on);
    });
}

TEST_CASE("q05: tens in a row over the end of a contraction show the fall, acted on: nothing missed",
          "[library][faultless]") {
    nothing_missed_at_seeds([] {
        Listener l = at_the_heart("q05", Instrument::doppler);
        l.until(l.contraction_end(0) - 25);
        for (int n = 0; n < 5; ++n) l.count(10);
        for (const char* act : {"off_her_back", "look_for_cord", "check_waters", "inform_senior"}) l.act(act);
        l.until(l.contraction_end(0) + 62).count();
        l.until(l.contraction_end(2) + 35).lift();
        l.decide(SourceIs::baby, BaselineIs::normal, Around::slow_after_contraction);
        return ends(l, {}, "turned, senior told");
    });
}

TEST_CASE("q06: four counts of 15 s that jump: irregular, senior, monitor: nothing missed",
          "[library][faultless]") {
    nothing_missed_at_seeds([] {
        Listener l = at_the_heart("q06", Instrument::doppler);
        for (int n = 0; n < 4; ++n) l.count(15);
        l.count().lift();
        l.decide(SourceIs::baby, BaselineIs::normal, Around::not_said, RhythmIs::irregular);
        return ends(l, {"inform_senior", "get_scan_or_monitor"});
    });
}

TEST_CASE("q07 and q08: no watch: whose heart is said, the rate is not: nothing missed",
          "[library][faultless]") {
    for (const char* id : {"q07", "q08"})
        nothing_missed_at_seeds([&] {
            Listener l = first_touch(library_stem(id), Instrument::horn);
            l.place_best().wrist().wait(70).add(Do::compare).to_pulse =
                id == std::string("q08") ? ToPulse::about_twice : ToPulse::more;
            l.lift().decide(SourceIs::baby, BaselineIs::not_checked, Around::not_said, RhythmIs::not_said,
                            true);
            return ends(l, fast_acts, "no watch: one sent for");
        });
}

TEST_CASE("f08: both twins counted at their own places, in one minute with a colleague: nothing missed",
          "[library][faultless]") {
    nothing_missed_at_seeds([] {
        Listener l = at_the_heart("f08", Instrument::doppler);
        l.count().record("between", "", "the first, low on her left").lift();
        l.place_best(1).wait(2).count().act("second_listener").lift();
        l.decide(SourceIs::two_babies, BaselineIs::normal);
        return ends(l, {"inform_senior", "get_scan_or_monitor"});
    });
}

TEST_CASE("t08: a minute with both beats at once, still doubtful, a second listener: nothing missed",
          "[library][faultless]") {
    nothing_missed_at_seeds([] {
        Listener l = at_the_heart("t08", Instrument::doppler);
        l.count().decide(SourceIs::doubtful, BaselineIs::not_checked, Around::not_said, RhythmIs::not_said,
                         true);
        l.act("second_listener").wait(60).lift();
        return ends(l, {"inform_senior"}, "doubtful whose heart, senior told");
    });
}

TEST_CASE("t10: nothing but her own beat, called at once, plan started, not examined inside: nothing missed",
          "[library][faultless]") {
    nothing_missed_at_seeds([] {
        Listener l = first_touch(library_stem("t10"), Instrument::doppler);
        l.place(6, -7).wrist().wait(16).report_pulse();
        for (auto [x, y] : {std::pair{-6, -7}, {0, -8}, {0, 4}}) l.place(x, y).wait(8);
        l.lift().act("call_for_help").act("check_bleeding").act("off_her_back").act("take_blood_pressure");
        l.take(Instrument::horn).place(6, -7).wait(10).lift();
        l.decide(SourceIs::not_found);
        for (const char* act : {"start_plan", "get_scan_or_monitor", "inform_senior", "look_for_cord"})
            l.act(act);
        l.explain().record("", "", "heart not found, womb hard, called, plan started").finish();
        return l;
    });
}
