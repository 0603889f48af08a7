// The judgement without a watch: her pulse under the fingers beside the beat that is heard. Rules: it settles
// whose heart it is, never that it is normal; two rates slip past each other once in 60 / difference seconds
// [arithmetic]; a heart need not be twice hers [practice].
#include "faultless_listeners.h"
#include "library_row.h"

using namespace perfect;

namespace {

Listener& say(Listener& l, ToPulse word) {
    l.add(Do::compare).to_pulse = word;
    return l.wait(1);
}
Listener no_watch(const char* id) { return first_touch(library_stem(id), Instrument::horn); }
Listener& leave_open(Listener& l) {
    return l.lift().decide(SourceIs::baby, BaselineIs::not_checked, Around::not_said, RhythmIs::not_said,
                           true);
}
bool says(const AspectScore& a, const char* part) { return a.why.find(part) != std::string::npos; }

// t01's place over her own artery.
Listener at_her_artery() {
    Listener l = first_touch(library_stem("t01"), Instrument::doppler);
    l.place(11, -11);
    return l;
}

}  // namespace

TEST_CASE("q07: 131 beside 106 is faster than hers, 1.24 times, both together for 40 s: the baby, met",
          "[compare]") {
    Listener l = no_watch("q07");
    l.place_best().wrist().wait(40);
    leave_open(say(l, ToPulse::more));
    const ScoreSheet sheet = l.finish().sheet();
    INFO(told(sheet));
    const AspectScore& whose = aspect(sheet, Aspect::whose);
    CHECK(whose.verdict == Verdict::met);
    CHECK(whose.figures.at("compared_ratio") == Approx(131.4 / 106).margin(0.08));
    CHECK(whose.figures.at("compared_together_s") == Approx(40).margin(1.5));
    CHECK(whose.figures.at("compared_needed_s") == 15);
}

TEST_CASE("q07: \"about twice\" said of 1.24 times: partly, and why: it need not be twice hers",
          "[compare]") {
    Listener l = no_watch("q07");
    l.place_best().wrist().wait(40);
    leave_open(say(l, ToPulse::about_twice));
    const ScoreSheet sheet = l.finish().sheet();
    INFO(told(sheet));
    CHECK(verdict(sheet, Aspect::whose) == Verdict::partly);
    CHECK(says(aspect(sheet, Aspect::whose), "need not be twice hers"));
}

TEST_CASE("q08: 188 beside 94 is twice: not hers, met; nothing in it says normal", "[compare]") {
    Listener l = no_watch("q08");
    l.place_best().wrist().wait(40);
    leave_open(say(l, ToPulse::about_twice));
    const ScoreSheet sheet = l.finish().sheet();
    INFO(told(sheet));
    CHECK(verdict(sheet, Aspect::whose) == Verdict::met);
    CHECK(aspect(sheet, Aspect::whose).figures.at("compared_ratio") == Approx(2.0).margin(0.12));
    CHECK(says(aspect(sheet, Aspect::whose), "it takes a clock"));
}

TEST_CASE("q08: twice her pulse and therefore called normal: missed, and critical", "[compare]") {
    Listener l = no_watch("q08");
    l.place_best().wrist().wait(70);
    say(l, ToPulse::about_twice).lift().decide(SourceIs::baby, BaselineIs::normal);
    const ScoreSheet sheet = l.finish().sheet();
    INFO(told(sheet));
    CHECK(verdict(sheet, Aspect::decision) == Verdict::missed);
    CHECK_FALSE(sheet.critical_missed.empty());
}

TEST_CASE("q07: against her pulse called normal, and it is: right by luck, partly", "[compare]") {
    Listener l = no_watch("q07");
    l.place_best().wrist().wait(70);
    say(l, ToPulse::more).lift().decide(SourceIs::baby, BaselineIs::normal);
    const ScoreSheet sheet = l.finish().sheet();
    INFO(told(sheet));
    CHECK(verdict(sheet, Aspect::decision) == Verdict::partly);
    CHECK(says(aspect(sheet, Aspect::decision), "never whether it is normal"));
}

TEST_CASE("Faster than hers, said without a finger on her wrist: right, and not supported: partly",
          "[compare]") {
    Listener l = no_watch("q07");
    l.place_best().wait(40);
    leave_open(say(l, ToPulse::more));
    const ScoreSheet sheet = l.finish().sheet();
    INFO(told(sheet));
    CHECK(verdict(sheet, Aspect::whose) == Verdict::partly);
    CHECK(says(aspect(sheet, Aspect::whose), "not under your fingers"));
    CHECK(aspect(sheet, Aspect::whose).figures.at("compared_together_s") == 0);
}

TEST_CASE("t08: 125 and 122 slip past each other in about 18 s: \"the same\" after 5 s is not supported",
          "[compare]") {
    Listener l = first_touch(library_stem("t08"), Instrument::doppler);
    l.place_best().wrist().wait(5);
    say(l, ToPulse::same).lift().decide(SourceIs::doubtful, BaselineIs::not_checked);
    const ScoreSheet sheet = l.finish().sheet();
    INFO(told(sheet));
    CHECK(verdict(sheet, Aspect::whose) == Verdict::partly);
    CHECK(says(aspect(sheet, Aspect::whose), "slip past each other"));
    CHECK(aspect(sheet, Aspect::whose).figures.at("compared_needed_s") >= 15);
}

TEST_CASE("Her own artery and \"the same\" after 20 s: met; after 5 s right but too short: partly",
          "[compare]") {
    for (const auto& [s, wanted] : {std::pair{20.0, Verdict::met}, {5.0, Verdict::partly}}) {
        Listener l = at_her_artery();
        l.wrist().wait(s);
        say(l, ToPulse::same).hand(sim::Hand::left, sim::On::none).lift().decide(SourceIs::mother);
        const ScoreSheet sheet = l.finish().sheet();
        INFO(told(sheet));
        CHECK(verdict(sheet, Aspect::whose) == wanted);
        CHECK(aspect(sheet, Aspect::whose).figures.at("compared_ratio") == 1);
    }
}

TEST_CASE("Her own artery and \"faster\": missed, hers taken for another heart is the dangerous way round",
          "[compare]") {
    Listener l = at_her_artery();
    l.wrist().wait(20);
    say(l, ToPulse::more).lift().decide(SourceIs::doubtful);
    CHECK(verdict(l.finish().sheet(), Aspect::whose) == Verdict::missed);
}

TEST_CASE("Said anew in the same listening: the last word stands, the first is not held against it",
          "[compare]") {
    Listener l = no_watch("q07");
    l.place_best().wrist().wait(20);
    say(l, ToPulse::same).wait(20);
    leave_open(say(l, ToPulse::more));
    CHECK(verdict(l.finish().sheet(), Aspect::whose) == Verdict::met);
}
