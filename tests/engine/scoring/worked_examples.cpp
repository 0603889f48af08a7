// Worked examples of counting and of classes that the other files do not have. Numbers: arithmetic unless a
// source is named beside them; limits: WHO 2018, WHO Labour Care Guide 2020 (second-hand), Open University
// module (120 to 160).
#include "perfect_listener.h"

#include "engine/scoring/breakdown.h"
#include "engine/scoring/key.h"
#include "engine/scoring/slowing.h"
#include "engine/scoring/steps.h"

#include <algorithm>

using namespace perfect;

namespace {

sim::LabourTime at(double s) { return sim::labour_time(sim::Seconds{s}); }

std::vector<sim::Beat> regular(double first_s, double bpm, int n = 200) {
    std::vector<sim::Beat> train;
    for (int i = 0; i < n; ++i) train.push_back({at(first_s + i * 60.0 / bpm).us, i, sim::BeatKind::normal});
    return train;
}

// Ten windows of 6 s from 100 s on, each with its beats evenly inside it.
std::vector<sim::Beat> of_counts(const std::vector<int>& counts) {
    std::vector<sim::Beat> train;
    for (std::size_t w = 0; w < counts.size(); ++w)
        for (int i = 0; i < counts[w]; ++i)
            train.push_back({at(100 + 6.0 * static_cast<double>(w) + 6.0 * (i + 0.5) / counts[w]).us,
                             static_cast<std::int64_t>(train.size()), sim::BeatKind::normal});
    return train;
}

int beats(const std::vector<sim::Beat>& train, double from, double to) {
    return static_cast<int>(sim::beats_between(train, at(from), at(to)));
}

char class_under(const char* protocol, double bpm) {
    switch (classify(protocol_named(protocol), sim::Bpm{bpm})) {
        case BaselineClass::slow: return 'L';
        case BaselineClass::normal: return 'N';
        case BaselineClass::fast: return 'H';
    }
    return '?';
}

// c01 with a steady baby at `bpm` for `minutes`; `first` is the oldest rate on the chart.
Key steady(double bpm, double minutes = 6, const char* protocol = "who-2018", double first = 0) {
    Scenario s = scenario_named("c01-own-minute");
    s.middle.babies[0].baseline = sim::Bpm{bpm};
    s.middle.babies[0].variability = sim::Variability::minimal;
    s.middle.babies[0].drift = sim::Bpm{0};  // at the limit itself: no wander of its own
    s.drawn.clear();
    s.length = sim::Seconds{60 * minutes};
    s.chart.clear();
    if (first > 0) s.chart.push_back({240, first, 80, ""});
    return key_of(s, protocol_named(protocol), sim::Seed{1});
}
bool has(const Key& k, const char* situation) {
    return std::find(k.situations.begin(), k.situations.end(), situation) != k.situations.end();
}

}  // namespace

TEST_CASE("W12: 143 from a beat on, 6 s: the first beat called one reads 150, called zero 140", "[worked]") {
    const std::vector<sim::Beat> train = regular(100, 143);
    CHECK(beats(train, 100, 106) * factor_of(6) == 150);  // the beat at the start is in it
    const int after_it = beats(train, 100.05, 106.05);    // started by a hand that heard it
    CHECK(after_it * factor_of(6) == 140);
    const Breakdown one = break_down(train, train, {at(100.05), at(106.05), 6, after_it + 1, {}});
    CHECK(one.ear == 10);  // one step too many, all of it in the count
    CHECK(one.reported_bpm == 150);
}

TEST_CASE("W13: ten counts of 6 s, 14 14 15 14 13 14 14 14 14 14: together 140, alone 130 to 150",
          "[worked]") {
    const std::vector<sim::Beat> train = of_counts({14, 14, 15, 14, 13, 14, 14, 14, 14, 14});
    CHECK(beats(train, 100, 160) * factor_of(60) == 140);
    double least = 1000, most = 0;
    for (int w = 0; w < 10; ++w) {
        const double reading = beats(train, 100 + 6 * w, 106 + 6 * w) * factor_of(6);
        least = std::min(least, reading);
        most = std::max(most, reading);
    }
    CHECK(least == 130);
    CHECK(most == 150);
}

TEST_CASE("W14: 14 14 13 12 10 9 10 12 13 14 sum to a normal 121, and hold a slowing to 90", "[worked]") {
    // Five windows, 30 s, at least 15 below 140: a slowing by NICHD 2008 (15 bpm, 15 s).
    const std::vector<int> counts = {14, 14, 13, 12, 10, 9, 10, 12, 13, 14};
    const std::vector<sim::Beat> train = of_counts(counts);
    CHECK(beats(train, 100, 160) == 121);
    CHECK(class_under("who-2018", 121) == 'N');
    Played played;
    sim::Baby baby;
    sim::BabyEvent event;
    event.kind = sim::BabyEvent::Kind::variable;
    baby.events.add(event);
    played.patient.babies.add(baby);
    for (int k = 0; k <= 4 * 240; ++k) {
        sim::CourseTick tick;
        tick.fhr_base_bpm[0] = 140;
        const int w = static_cast<int>(std::floor((k * 0.25 - 100) / 6));
        tick.fhr_bpm[0] = w >= 0 && w < 10 ? 10.0 * counts[static_cast<std::size_t>(w)] : 140;
        played.course.push_back(tick);
    }
    played.end = {240'000'000};
    const auto found = slowings(protocol_named("who-2018"), played, 0);
    REQUIRE(found.size() == 1);
    CHECK(found[0].depth_bpm > 35);  // 50 at its deepest, less what 10 s of smoothing take away
    CHECK(found[0].depth_bpm <= 50);
}

TEST_CASE("W15: 30 s at 155 and 30 s at 185 count 170: fast by the number, normal by the settled rate",
          "[worked]") {
    std::vector<sim::Beat> train = regular(100.01, 155, 77);  // 77 whole gaps in 30 s
    for (const sim::Beat& b : regular(130.01, 185, 93)) train.push_back(b);
    CHECK(beats(train, 100, 160) == 170);
    CHECK(class_under("who-2018", 170) == 'H');
    CHECK(class_under("who-2018", 155) == 'N');
}

TEST_CASE("W16: 160 is normal in both protocols, and an alert in the labour guide's column alone",
          "[worked]") {
    for (const char* id : {"who-2018", "community-120-160"})
        CHECK(steady(160, 6, id).decision.baseline == BaselineIs::normal);
    CHECK(alerts(protocol_named("who-2018"), sim::Bpm{160}));
    CHECK_FALSE(alerts(protocol_named("who-2018"), sim::Bpm{159.999}));
    CHECK_FALSE(alerts(protocol_named("community-120-160"), sim::Bpm{160}));
}

TEST_CASE("W17 and W18: 161 for 12 min has held, for 4 min not yet: orange against yellow", "[worked]") {
    // Ten minutes name a baseline: NICHD 2008, FIGO 2015 (second-hand); WHO 2018 over three contractions.
    for (const char* id : {"who-2018", "community-120-160"}) {
        CAPTURE(id);
        const Key held = steady(161, 12, id), brief = steady(161, 4, id);
        CHECK(held.decision.baseline == BaselineIs::fast);
        CHECK(held.level == Level::orange);
        CHECK(brief.decision.baseline == BaselineIs::fast);
        CHECK(brief.level == Level::yellow);
        bool three = false;
        for (const ExpectedAct& a : steady(161, 12, id).expected)
            three = three || a.any_of.front() == "feel_pulse";
        CHECK(three);  // the first measures do not wait for the ten minutes
    }
}

TEST_CASE("W19: 115 is normal under WHO 2018 and low under 120 to 160; 119.999 low, 120 normal there",
          "[worked]") {
    CHECK(steady(115).decision.baseline == BaselineIs::normal);
    const Key older = steady(115, 6, "community-120-160");
    CHECK(older.decision.baseline == BaselineIs::slow);
    CHECK(has(older, "slow_steady"));
    CHECK(class_under("community-120-160", 119.999) == 'L');
    CHECK(class_under("community-120-160", 120) == 'N');
    CHECK(class_under("community-120-160", 160) == 'N');
    CHECK(class_under("community-120-160", 160.001) == 'H');
}

TEST_CASE("W20, W21, W22: 109 and 100 are low and steady, 98 is well below: red", "[worked]") {
    for (const char* id : {"who-2018", "community-120-160"}) {
        CAPTURE(id);
        CHECK(has(steady(109, 6, id), "slow_steady"));
        CHECK(steady(109, 6, id).level == Level::yellow);
        CHECK(
            has(steady(100, 6, id), "slow_steady"));  // "below 100": FIGO 2015 (second-hand), WHO manual S-95
        CHECK_FALSE(has(steady(100, 6, id), "slow"));
        CHECK(has(steady(98, 6, id), "slow"));
        CHECK(steady(98, 6, id).level == Level::red);
    }
    CHECK(alerts(protocol_named("who-2018"), sim::Bpm{109}));
    CHECK_FALSE(alerts(protocol_named("who-2018"), sim::Bpm{110}));
}

TEST_CASE("W23: 180 and 181 are both fast under the two shipped protocols", "[worked]") {
    // The WHO manual alone (100 to 180) divides them; it is not shipped as a listening protocol.
    for (const char* id : {"who-2018", "community-120-160"})
        for (double bpm : {180.0, 181.0}) CHECK(class_under(id, bpm) == 'H');
}

TEST_CASE("W24 and W25: 125 at the start of labour: 145 has risen, 144 has not, both inside the limits",
          "[worked]") {
    for (const char* id : {"who-2018", "community-120-160"}) {  // a rise of 20: NICE 2022 [memory]
        CAPTURE(id);
        const Key risen = steady(145, 6, id, 125), not_yet = steady(144, 6, id, 125);
        CHECK(risen.decision.baseline == BaselineIs::rising);
        CHECK(has(risen, "rising"));
        CHECK(risen.level == Level::yellow);
        CHECK(not_yet.decision.baseline == BaselineIs::normal);
        CHECK_FALSE(has(not_yet, "rising"));
    }
}

TEST_CASE("W48: the blow of the womb's vessels at her own rate, counted as the baby: whose, missed",
          "[worked]") {
    // Uterine souffle = maternal pulse: Where There Is No Doctor and older textbooks, second-hand.
    Listener l("t04-whose-heart");
    l.greet().wait(10).take(sim::Instrument::horn).place(-9, -10).wrist().wait(16).report_pulse();
    l.count(60, {0, 0, -1, true})
        .lift()
        .decide(SourceIs::baby, BaselineIs::slow)
        .record("between", "")
        .finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK(sheet.windows.at(0).followed == "mother");
    CHECK(verdict(sheet, Aspect::whose) == Verdict::missed);
}

TEST_CASE("W56: loudest above the navel at term: the bottom lies below, the senior is told", "[worked]") {
    // A Book for Midwives 2010, pp. 139-140; Where There Is No Doctor.
    const Listener l("f03-feel-first");
    const Key k = key_of(l.scenario, l.protocol, sim::Seed{1});
    CHECK(has(k, "breech"));
    CHECK_FALSE(has(key_of(scenario_named("c01-own-minute"), l.protocol, sim::Seed{1}), "breech"));
}

TEST_CASE("W60: a perfect 6 s count of 140 is always 140; of 143 it reads 150 three times in ten",
          "[worked]") {
    for (double rate : {140.0, 143.0}) {
        int over = 0;
        for (int step = 0; step < 1000; ++step) {
            const auto train = regular(95 + 60 / rate * (step + 0.5) / 1000, rate);
            const double reading = beats(train, 100, 106) * factor_of(6);
            CHECK((reading == 140 || (rate == 143 && reading == 150)));
            if (reading - rate > 5) ++over;
        }
        CHECK(over / 1000.0 == Approx(rate == 143 ? 0.3 : 0).margin(0.005));
    }
}
