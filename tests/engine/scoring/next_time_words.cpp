// What to do next time: at most five sentences a midwife would say, the dangerous first, each at a moment
// that can be heard.
#include "library_listeners.h"

#include <algorithm>

using namespace perfect;

namespace {

bool heard_at(const Played& played, double s) {
    return std::any_of(played.spells.begin(), played.spells.end(), [&](const Spell& spell) {
        return spell.from.seconds() - 1e-6 <= s && s < spell.to.seconds();
    });
}
int sentences(const std::string& says) {
    int n = 0;
    for (std::size_t i = 0; i < says.size(); ++i)
        n += says[i] == '.' && (i + 1 == says.size() || says[i + 1] == ' ');
    return n;
}
// Five at most, short, each where something was listened to.
void readable(const Listener& l) {
    const ScoreSheet sheet = l.sheet();
    const Played played = l.played();
    INFO(l.scenario.id << "\n" << told(sheet));
    CHECK(sheet.next_time.size() <= 5);
    for (const NextTime& n : sheet.next_time) {
        CAPTURE(n.says, n.at_s);
        CHECK(n.says.size() < 230);
        CHECK(sentences(n.says) == 1);
        CHECK(n.says.find('_') == std::string::npos);
        CHECK(heard_at(played, n.at_s));
    }
}
Listener at_heart(const char* id, Instrument with = Instrument::doppler) {
    Listener l = first_touch(library_stem(id), with);
    l.place_best().wrist().wait(16).report_pulse();
    return l;
}

}  // namespace

TEST_CASE("Every listener of the library's labours is told at most five things, each where it can be heard",
          "[next]") {
    for (const Listener& l :
         {faultless_c01(), faultless_q01(), faultless_f03(), faultless_t04(), faultless_p02(),
          faultless_p03(), faultless_l03(), faultless_l05(), faultless_l06(), faultless_f10(),
          listener_p01(),  listener_p04(),  listener_p05(),  listener_p07(),  listener_p08(),
          listener_p09(),  listener_p10(),  listener_l01(),  listener_l02(),  listener_l04(),
          listener_l07(),  listener_l08(),  listener_l09(),  listener_l10(),  listener_l11(),
          listener_l12()})
        readable(l);
}

TEST_CASE("The cord pushed back, a beat missed: what must never be done comes first", "[next]") {
    Listener l = faultless_l06();
    l.events.pop_back();
    l.act("push_cord_back").finish();
    readable(l);
    const ScoreSheet sheet = l.sheet();
    REQUIRE_FALSE(sheet.next_time.empty());
    CHECK(sheet.next_time[0].says.rfind("Never here:", 0) == 0);
}

TEST_CASE("Fast undercounted and called normal: the danger first, then its cause, the count", "[next]") {
    Listener l = at_heart("l05", Instrument::horn);
    l.count(60, {0, -18, -1, false}).lift();
    l.decide(SourceIs::baby, BaselineIs::normal, Around::not_listened).explain();
    l.record("between", "not_listened").act("continue_routine").finish();
    readable(l);
    const ScoreSheet sheet = l.sheet();
    REQUIRE(sheet.next_time.size() >= 2);
    CHECK(sheet.next_time[0].says.find("You called this heart normal") == 0);
    CHECK(sheet.next_time[1].says.find("count one to ten") != std::string::npos);
    CHECK(sheet.next_time[1].at_s == sheet.windows.at(0).from_s);
}

TEST_CASE(
    "p03: no slowing said: the place to hear again is the end of a contraction that was listened through",
    "[next]") {
    Listener l = at_heart("p03");
    l.until(l.contraction_end(0) + 35).count().until(l.contraction_end(2) + 35).lift();
    l.decide(SourceIs::baby, BaselineIs::normal, Around::no_slowing)
        .record("after", "no")
        .act("continue_routine")
        .finish();
    readable(l);
    const ScoreSheet sheet = l.sheet();
    REQUIRE_FALSE(sheet.next_time.empty());
    CHECK(sheet.next_time[0].says.find("still slow") != std::string::npos);
    CHECK(sheet.next_time[0].at_s == Approx(l.contraction_end(0) - 20).margin(5));
}

TEST_CASE("Acts left out: told at the moments before they could be known, not where nothing was heard",
          "[next]") {
    Listener l = at_heart("l03");
    l.until(180).count().until(700).lift();
    l.decide(SourceIs::baby, BaselineIs::slow, Around::stays_down).record("between", "yes", "").finish();
    readable(l);
    const ScoreSheet sheet = l.sheet();
    const auto act = std::find_if(sheet.next_time.begin(), sheet.next_time.end(), [](const NextTime& n) {
        return n.says.rfind("As soon as you know", 0) == 0;
    });
    REQUIRE(act != sheet.next_time.end());
    CHECK(act->at_s > 240);
    CHECK(act->at_s < 420);
}
