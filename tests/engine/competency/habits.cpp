// Habits of fence, watch and ear over many counts without taps.
#include "engine/competency/habits.h"
#include "engine/competency/figures_of.h"

#include "tests/engine/competency/near.h"

#include <sstream>

using namespace engine;

TEST_CASE(
    "habits from nine counts without taps: only the missed beats differ from 0, no fencepost is claimed",
    "[competency]") {
    std::vector<UntappedCount> counts;
    const double surplus[] = {-1, 0, -1, -1, -1, -1, -2, -2, -2};
    for (int i = 0; i < 9; ++i)
        counts.push_back({i % 3 == 0   ? 110.0
                          : i % 3 == 1 ? 140.0
                                       : 170.0,
                          i < 3   ? 15.0
                          : i < 6 ? 30.0
                                  : 60.0,
                          surplus[i]});
    const Habits h = habits_of(counts);  // [R]
    CHECK(value(h.fencepost_beats.value) == near(-1.222222222));
    CHECK(value(h.fencepost_beats.standard_error) == near(0.695369754));
    CHECK(value(h.window_late_s.value) == near(0.438943894));
    CHECK(value(h.window_late_s.standard_error) == near(0.308438164));
    CHECK(value(h.missed_share.value) == near(-0.012541254));
    CHECK(value(h.missed_share.standard_error) == near(0.002704315));
    CHECK(value(h.residual_sd_beats) == near(0.359531537));
    CHECK(h.fencepost_remark == "not separable: the interval spans 0");
    CHECK(h.window_remark == "not separable: the interval spans 0");
    CHECK(h.missed_remark.empty());
}

TEST_CASE("one beat too few at every rate and length: a fencepost of -1 and nothing else, not even rounding",
          "[competency]") {
    std::vector<UntappedCount> counts;
    for (const double rate : {110.0, 140.0, 170.0})
        for (const double window : {15.0, 30.0, 60.0}) counts.push_back({rate, window, -1});
    const Habits h = habits_of(counts);
    CHECK(value(h.fencepost_beats.value) == near(-1));
    CHECK(value(h.window_late_s.value) == 0);
    CHECK(value(h.missed_share.value) == 0);
    CHECK(value(h.residual_sd_beats) == 0);
}

TEST_CASE("habits: none below nine counts, with one window length, or with one rate", "[competency]") {
    std::vector<UntappedCount> counts(8, UntappedCount{140, 15, 0});
    CHECK(habits_of(counts).missed_remark == "habits need 9 counts");
    for (int i = 0; i < 4; ++i) counts.push_back({110.0 + 10 * i, 15, 0});
    CHECK(habits_of(counts).missed_share.value.why() ==
          "with one window length, a late stop and missed beats look the same");
    const std::vector<UntappedCount> one_rate(9, UntappedCount{140, 15, 0});
    CHECK(habits_of(one_rate).fencepost_beats.value.why() == "habits need two rates");
    std::vector<UntappedCount> tied;  // rate and window always together
    for (int i = 0; i < 10; ++i)
        tied.push_back(i % 2 == 0 ? UntappedCount{120, 15, 0} : UntappedCount{140, 30, 0});
    CHECK(habits_of(tied).window_late_s.value.why() == "rates and windows always changed together");
}

TEST_CASE(
    "figures of habits, from a table: the same nine counts, -0.012541 missed and no fence or watch to speak "
    "of",
    "[competency]") {
    std::ostringstream csv;
    csv << "rate,window_s,surplus\n";
    const int surplus[] = {-1, 0, -1, -1, -1, -1, -2, -2, -2};
    for (int i = 0; i < 9; ++i)
        csv << 110 + 30 * (i % 3) << ',' << (i < 3 ? 15 : i < 6 ? 30 : 60) << ',' << surplus[i] << '\n';
    FiguresAsked asked;
    asked.of = "habits";
    const auto report = figures_of(asked, "counts.csv", csv.str());
    REQUIRE(report.ok());
    int found = 0;
    for (const Report::Line& line : report->lines()) {
        if (line.name == "missed_share") {
            CHECK(*std::get<Figure>(line.value) == near(-0.012541254));  // [R]
            ++found;
        }
        if (line.name == "fencepost_remark" || line.name == "window_remark") {
            CHECK(std::get<std::string>(line.value) == "not separable: the interval spans 0");
            ++found;
        }
        if (line.name == "missed_remark") CHECK(std::get<std::string>(line.value).empty());
    }
    CHECK(found == 3);
}

TEST_CASE("figures of habits below nine counts say so, and give no number", "[competency]") {
    FiguresAsked asked;
    asked.of = "habits";
    const auto report = figures_of(asked, "counts.csv", "rate,window_s,surplus\n140,15,0\n120,60,-1\n");
    REQUIRE(report.ok());
    for (const Report::Line& line : report->lines())
        if (const auto* figure = std::get_if<Figure>(&line.value); figure && line.name != "n") {
            CHECK_FALSE(figure->known());
            CHECK_FALSE(figure->why().empty());
        }
}
