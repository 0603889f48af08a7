// Short counts in a row: what they make together and what they show in order. Numbers: arithmetic; the rule
// for a slowing is the protocol's, 15 bpm deep and 15 s long.
#include "library_listeners.h"

#include "engine/scoring/score_json.h"
#include "engine/scoring/series.h"

#include <nlohmann/json.hpp>

#include <numeric>

using namespace perfect;

namespace {

// Contiguous counts of `each_s` from `from_s` on.
std::vector<ShortCount> row_of(const std::vector<double>& rates, double each_s, double from_s = 0) {
    std::vector<ShortCount> counts;
    for (std::size_t i = 0; i < rates.size(); ++i) {
        const double from = from_s + each_s * static_cast<double>(i);
        counts.push_back({sim::labour_time({from}), sim::labour_time({from + each_s}), rates[i]});
    }
    return counts;
}

std::vector<ShortCount> of_beats(const std::vector<int>& beats) {
    std::vector<double> rates;
    for (int n : beats) rates.push_back(n * 10.0);
    return row_of(rates, 6);
}

SeriesReading read(const std::vector<ShortCount>& counts, std::optional<double> settled = {},
                   const std::vector<Contraction>& contractions = {}) {
    return read_series(protocol_named("who-2018"), counts, settled, contractions);
}

Contraction contraction(double from, double to) {
    return {sim::labour_time({from}), sim::labour_time({(from + to) / 2}), sim::labour_time({to}), true};
}

double seconds(const SeriesReading::Fall& f) { return static_cast<double>(f.to.us - f.from.us) / 1e6; }

// At the heart of `id`, `counts` of `plan` s a second or two apart from `from` on, each `off[i]` beats wrong;
// then ends.
Listener in_a_row(const std::string& id, double plan, std::size_t counts, double before_end_s,
                  const std::vector<int>& off = {}) {
    Listener l = at_the_heart(id, sim::Instrument::doppler);
    l.until(l.contraction_end(0) - before_end_s);
    for (std::size_t n = 0; n < counts; ++n) {
        Listener::Slip slip;
        slip.beats_off = n < off.size() ? off[n] : 0;
        l.count(plan, slip);
    }
    return l;
}

ScoreSheet ended(Listener l, Around around) {
    l.lift();
    l.decide(SourceIs::baby, BaselineIs::normal, around).explain().record("after", "").finish();
    return l.sheet();
}

}  // namespace

TEST_CASE("W13: 14 14 15 14 13 14 14 14 14 14 in 6 s each: together 140, from 130 to 150, no slowing",
          "[series]") {
    for (const std::optional<double> settled : {std::optional<double>(), std::optional<double>(140)}) {
        const SeriesReading r = read(of_beats({14, 14, 15, 14, 13, 14, 14, 14, 14, 14}), settled);
        CHECK(r.per_minute_bpm == Approx(140));
        CHECK(r.lowest_bpm == 130);
        CHECK(r.highest_bpm == 150);
        CHECK_FALSE(r.fall);
    }
}

TEST_CASE(
    "W14: 14 14 13 12 10 9 10 12 13 14: together a normal 121, and 30 s at 15 or more below 140 down to 90",
    "[series]") {
    for (const std::optional<double> settled : {std::optional<double>(), std::optional<double>(140)}) {
        const SeriesReading r = read(of_beats({14, 14, 13, 12, 10, 9, 10, 12, 13, 14}), settled);
        CHECK(r.per_minute_bpm == Approx(121));
        CHECK(classify(protocol_named("who-2018"), sim::Bpm{r.per_minute_bpm}) == BaselineClass::normal);
        REQUIRE(r.fall);
        CHECK(seconds(*r.fall) == 30);
        CHECK(r.fall->lowest_bpm == 90);
        CHECK_FALSE(r.after);  // no contraction to go on after
    }
}

TEST_CASE(
    "W37: contraction over at 60 s, then 96 108 120 132 138 every 8 s, settled 138: low until 84 s, after "
    "the end",
    "[series]") {
    const SeriesReading r = read(row_of({96, 108, 120, 132, 138}, 8, 60), 138, {contraction(0, 60)});
    CHECK(r.base_bpm == 138);
    REQUIRE(r.fall);
    CHECK(r.base_bpm - r.fall->lowest_bpm == 42);
    CHECK(r.fall->from == sim::labour_time({60}));
    CHECK(r.fall->to == sim::labour_time({84}));
    CHECK(r.after);
    // The same fall over before the end is one in the contraction.
    CHECK_FALSE(read(row_of({138, 120, 108, 120, 132, 138}, 8, 10), 138, {contraction(0, 60)}).after);
}

TEST_CASE("W15: 30 s at 155 and 30 s at 185 make 170 in a minute; in tens a rise is no slowing of the base",
          "[series]") {
    const SeriesReading r = read(row_of({155, 155, 155, 185, 185, 185}, 10), 155);
    CHECK(r.per_minute_bpm == Approx(170));
    CHECK(classify(protocol_named("who-2018"), sim::Bpm{r.per_minute_bpm}) == BaselineClass::fast);
    CHECK(classify(protocol_named("who-2018"), sim::Bpm{r.lowest_bpm}) == BaselineClass::normal);
}

TEST_CASE("One low count in a row is a slip or a beat at the edge: two are asked for, and 15 s in all",
          "[series]") {
    CHECK_FALSE(read(row_of({140, 140, 110, 140, 140}, 10)).fall);
    CHECK_FALSE(read(row_of({140, 140, 110, 110, 140}, 6)).fall);  // 12 s
    CHECK(read(row_of({140, 140, 110, 110, 110, 140}, 6)).fall);
    CHECK(read(row_of({140, 140, 125, 125, 140}, 10)).fall);  // 15 below is deep enough
    CHECK_FALSE(read(row_of({140, 140, 126, 126, 140}, 10)).fall);
}

TEST_CASE("q04: six tens through a contraction, rightly counted: one series, judged together, no slowing",
          "[series]") {
    Listener l = in_a_row("q04", 10, 6, 40);
    const ScoreSheet sheet = ended(l, Around::no_slowing);
    INFO(told(sheet));
    REQUIRE(sheet.series.size() == 1);
    const SeriesScore& s = sheet.series[0];
    CHECK(s.counts() == 6);
    CHECK(s.longest_gap_s == Approx(3).margin(1e-6));
    CHECK(s.judged);
    CHECK(s.error_beats == 0);
    CHECK(s.shown.slowing_s == 0);
    CHECK_FALSE(s.fell);
    CHECK(verdict(sheet, Aspect::count) == Verdict::met);
    CHECK(verdict(sheet, Aspect::window) == Verdict::met);
    CHECK(verdict(sheet, Aspect::arithmetic) == Verdict::met);
    CHECK(nlohmann::json::parse(to_json(sheet))["series"][0]["shown"]["slowing_s"] == 0);
}

TEST_CASE(
    "q04: two tens three beats low make a slowing that was not there: count missed, however right the others",
    "[series]") {
    const ScoreSheet sheet = ended(in_a_row("q04", 10, 6, 40, {0, 0, -3, -3, 3, 3}), Around::no_slowing);
    INFO(told(sheet));
    CHECK(sheet.series.at(0).error_beats == 0);
    CHECK(sheet.series.at(0).shown.slowing_s > 15);
    CHECK(sheet.series.at(0).there.slowing_s == 0);
    CHECK(verdict(sheet, Aspect::count) == Verdict::missed);
    CHECK(aspect(sheet, Aspect::count).why.find("no slowing") != std::string::npos);
}

TEST_CASE(
    "Six tens with a beat too many or too few in each, three of either: one minute with no beat wrong, met",
    "[series]") {
    const ScoreSheet sheet = ended(in_a_row("q04", 10, 6, 40, {1, -1, 1, -1, 1, -1}), Around::no_slowing);
    INFO(told(sheet));
    CHECK(sheet.series.at(0).error_beats == 0);
    if (sheet.series.at(0).shown.slowing_s == 0) CHECK(verdict(sheet, Aspect::count) == Verdict::met);
}

TEST_CASE(
    "q05: tens over the end of the contraction show the fall to the nineties that goes on after it; the same "
    "minute in one count reads 12 or more above its bottom",
    "[series]") {
    Listener l = in_a_row("q05", 10, 6, 25);
    const ScoreSheet sheet = ended(l, Around::slow_after_contraction);
    INFO(told(sheet));
    REQUIRE(sheet.series.size() == 1);
    const SeriesScore& s = sheet.series[0];
    CHECK(s.shown.slowing_s >= 15);
    CHECK(s.shown.after);
    CHECK(s.shown.lowest_bpm <= 108);  // 139.6 - 43.6 = 96 at the bottom; ten seconds average over it
    CHECK(s.fell);
    CHECK(verdict(sheet, Aspect::count) == Verdict::met);

    Listener minute = at_the_heart("q05", sim::Instrument::doppler);
    minute.until(minute.contraction_end(0) - 25).count();
    CHECK(minute.bpm >= s.shown.lowest_bpm + 12);  // one number adds the fall up with the rest
    CHECK(ended(minute, Around::no_slowing).series.empty());
}

TEST_CASE(
    "q05: a row of tens that ends in the fall, decided normal and slow after: held against the rate it fell "
    "from, "
    "not the last low ten",
    "[series]") {
    Listener l = at_the_heart("q05", sim::Instrument::doppler);
    l.until(l.contraction_end(0) - 62);
    for (int n = 0; n < 6; ++n) l.count(10);
    const int last = l.bpm;
    l.until(l.contraction_end(0) + 36);
    const ScoreSheet sheet = ended(l, Around::slow_after_contraction);
    INFO(told(sheet));
    CHECK(last < 110);
    CHECK(sheet.series.at(0).shown.base_bpm > 125);
    CHECK(aspect(sheet, Aspect::decision).why.find("not what your own number says") == std::string::npos);
}

TEST_CASE("q05: the fall counted away, every ten written as 23: missed", "[series]") {
    Listener probe = in_a_row("q05", 10, 6, 25);
    std::vector<int> off;
    for (const WindowScore& w : ended(probe, Around::no_slowing).windows) off.push_back(23 - w.true_beats);
    const ScoreSheet sheet = ended(in_a_row("q05", 10, 6, 25, off), Around::no_slowing);
    INFO(told(sheet));
    CHECK(sheet.series.at(0).shown.slowing_s == 0);
    CHECK(sheet.series.at(0).there.slowing_s >= 15);
    CHECK(verdict(sheet, Aspect::count) == Verdict::missed);
}

TEST_CASE(
    "No series: one count, counts of different lengths, of 30 s, more than 30 s apart, or with a decision "
    "between; a rate written on the chart after each is no break",
    "[series]") {
    enum class Between { nothing, line, decision };
    const auto series_of_two = [](double first, double second, double apart_s,
                                  Between between = Between::nothing) {
        Listener l = at_the_heart("c01", sim::Instrument::doppler);
        l.count(first);
        if (between == Between::line) l.record("between", "");
        if (between == Between::decision) l.decide(SourceIs::baby, BaselineIs::normal);
        l.wait(apart_s).count(second);
        return ended(l, Around::not_said).series.size();
    };
    CHECK(series_of_two(10, 10, 1) == 1);
    CHECK(series_of_two(15, 15, 26) == 1);
    CHECK(series_of_two(15, 15, 28) == 0);  // 3 s to say the number, 28 more
    CHECK(series_of_two(10, 15, 1) == 0);
    CHECK(series_of_two(30, 30, 1) == 0);
    CHECK(series_of_two(10, 10, 1, Between::line) == 1);
    CHECK(series_of_two(10, 10, 1, Between::decision) == 0);
}

TEST_CASE(
    "A row of tens started half a second late and stopped half a second late each is met, as each alone "
    "would be",
    "[series]") {
    Listener l = at_the_heart("q04", sim::Instrument::doppler);
    for (int n = 0; n < 6; ++n) l.count(10, {10.5, 0, -1, false});
    const ScoreSheet sheet = ended(l, Around::not_listened);
    INFO(told(sheet));
    CHECK(sheet.series.at(0).own_s == Approx(63));
    CHECK(verdict(sheet, Aspect::window) == Verdict::met);
    Listener late = at_the_heart("q04", sim::Instrument::doppler);
    for (int n = 0; n < 6; ++n) late.count(10, {12, 0, -1, false});  // 72 s for 60
    CHECK(verdict(ended(late, Around::not_listened), Aspect::window) == Verdict::missed);
}
