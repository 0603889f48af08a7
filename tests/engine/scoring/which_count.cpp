// A sentence about one of several counts says which; about a single one nothing is added.
#include "engine/scoring/aspects.h"
#include "engine/scoring/which_count.h"
#include "library_listeners.h"

using namespace perfect;

namespace {

const AspectScore& aspect_of(const ScoreSheet& sheet, Aspect aspect) {
    return sheet.aspects.at(static_cast<std::size_t>(aspect));
}
Listener counted_twice(Listener::Slip second) {
    Listener l = first_touch(library_stem("c01"), Instrument::doppler);
    l.place_best().wrist().wait(16).report_pulse();
    l.count().decide(SourceIs::baby, BaselineIs::normal).record("between", "no").wait(20);
    l.count(60, second).lift().decide(SourceIs::baby, BaselineIs::normal).record("between", "no").finish();
    return l;
}
bool told_of(const ScoreSheet& sheet, const std::string& words) {
    for (const NextTime& n : sheet.next_time)
        if (n.says.find(words) != std::string::npos) return true;
    return false;
}

}  // namespace

TEST_CASE("Clock and order in words: 190 s is 03:10, the 1st is first, then 11th, 21st, 112th", "[which]") {
    CHECK(clock_time(190) == "03:10");
    CHECK(clock_time(3599.9) == "59:59");
    CHECK(ordinal(1) == "first");
    CHECK(ordinal(10) == "tenth");
    CHECK(ordinal(11) == "11th");
    CHECK(ordinal(21) == "21st");
    CHECK(ordinal(112) == "112th");
}

TEST_CASE("Two counts, the second 6 beats short in a minute run to 64 s: each why names the second",
          "[which]") {
    const Listener l = counted_twice({64, -6, 120, false});
    const ScoreSheet sheet = l.sheet();
    REQUIRE(sheet.windows.size() == 2);
    const std::string second = "the second count, 64 s at " + clock_time(sheet.windows[1].from_s);
    for (Aspect aspect : {Aspect::window, Aspect::count, Aspect::arithmetic}) {
        CAPTURE(aspect_of(sheet, aspect).why);
        CHECK(faulty(aspect_of(sheet, aspect)));
        CHECK(aspect_of(sheet, aspect).why.find(second) != std::string::npos);
    }
    CHECK(told_of(sheet, "second count"));
    CHECK(aspect_of(sheet, Aspect::count).why.find("the first count") == std::string::npos);
}

TEST_CASE("One count alone is called by no number", "[which]") {
    Listener l = first_touch(library_stem("c01"), Instrument::doppler);
    l.place_best().wrist().wait(16).report_pulse();
    l.count(60, {64, -6, 120, false}).lift();
    l.decide(SourceIs::baby, BaselineIs::normal).record("between", "no").finish();
    const ScoreSheet sheet = l.sheet();
    for (const AspectScore& a : sheet.aspects) CHECK(a.why.find("first count") == std::string::npos);
    CHECK_FALSE(told_of(sheet, "first count"));
}

TEST_CASE("138 beats counted as 69 or as 276: the advice names half and double", "[which]") {
    Listener::Slip slip;
    slip.beats_off = -69;
    CHECK(told_of(counted_twice(slip).sheet(), "it comes to half"));
    slip.beats_off = 138;
    CHECK(told_of(counted_twice(slip).sheet(), "it comes to double"));
}

TEST_CASE(
    "Six counts of 10 s where short counts are asked, the third run to 13 s: the watch is named, no whole "
    "minute asked",
    "[which]") {
    Listener l = first_touch(library_stem("q04"), Instrument::doppler);
    l.place_best().wrist().wait(16).report_pulse();
    for (int i = 0; i < 6; ++i) l.count(10, {i == 2 ? 13.0 : 10.0, 0, -1, false});
    l.lift().finish();
    const ScoreSheet sheet = l.sheet();
    CHECK(faulty(aspect_of(sheet, Aspect::window)));
    CHECK(told_of(sheet, "the third count, 13 s at "));
    CHECK(told_of(sheet, "ran 13.0 s for 10 s meant"));
    CHECK_FALSE(told_of(sheet, "before you write and decide"));
    CHECK_FALSE(told_of(sheet, "too short"));
    const SeriesScore& series = sheet.series.at(0);  // every beat counted: only the watch was wrong
    CHECK(series.error_beats == 0);
    CHECK(series.there.slowing_s == 0);  // 31 beats in 13 s are 143 a minute, not 186
    CHECK(series.shown.slowing_s > 15);
    CHECK(aspect_of(sheet, Aspect::count).verdict == Verdict::met);
    CHECK(aspect_of(sheet, Aspect::count).why.find("The watch made the difference, not the ear.") !=
          std::string::npos);
}
