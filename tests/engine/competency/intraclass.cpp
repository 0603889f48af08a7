// Do trainees on the same windows agree.
#include "engine/competency/icc.h"

#include "tests/engine/competency/near.h"

using namespace engine;

TEST_CASE("Shrout and Fleiss's six targets and four judges: six coefficients, agreement .2898",
          "[competency]") {
    // Shrout & Fleiss 1979 [V: data as in the psych manual]; numbers [R], psych and irr
    const Intraclass i =
        intraclass({{9, 2, 5, 8}, {6, 1, 3, 2}, {8, 4, 6, 8}, {7, 1, 2, 6}, {10, 5, 6, 9}, {6, 2, 4, 7}});
    CHECK(value(i.between_rows) == near(11.241666667));
    CHECK(value(i.between_columns) == near(32.486111111));
    CHECK(value(i.left_over) == near(1.019444444));
    CHECK(value(i.within_rows) == near(6.263888889));
    CHECK(value(i.one_way) == near(.165741768));
    CHECK(value(i.agreement) == near(.289763780));
    CHECK(value(i.consistency) == near(.714840715));
    CHECK(value(i.one_way_mean) == near(.442797134));
    CHECK(value(i.agreement_mean) == near(.620050548));
    CHECK(value(i.consistency_mean) == near(.909315542));
    CHECK(value(i.agreement_interval.low) == near(.018786513));
    CHECK(value(i.agreement_interval.high) == near(.761084370));
    CHECK(value(i.interval_degrees) == near(4.785143862));
    CHECK(value(i.consistency_interval.low) == near(.342464765));
    CHECK(value(i.consistency_interval.high) == near(.945858260));
    CHECK(value(i.agreement_error_bpm) == near(2.502776236));
    // As published, two digits [M]: .17 .29 .71 .44 .62 .91
    CHECK(value(i.agreement) == near(.29, .005));
    CHECK(value(i.consistency_mean) == near(.91, .005));
}

TEST_CASE("five windows, three trainees: agreement .972649966, standard error 2.816617 bpm", "[competency]") {
    const Intraclass i =  // [R]
        intraclass({{120, 118, 124}, {140, 138, 141}, {152, 150, 158}, {132, 132, 134}, {164, 160, 166}});
    CHECK(value(i.between_rows) == near(848.4));
    CHECK(value(i.between_columns) == near(31.666666667));
    CHECK(value(i.left_over) == near(2));
    CHECK(value(i.agreement) == near(.972649966));
    CHECK(value(i.agreement_interval.low) == near(.707979330));
    CHECK(value(i.agreement_interval.high) == near(.997182641));
    CHECK(value(i.consistency) == near(.992961051));
    CHECK(value(i.agreement_error_bpm) == near(2.816617357));
}

TEST_CASE("two trainees who disagree in opposite ways: agreement -2, kept raw, no interval", "[competency]") {
    const Intraclass i = intraclass({{1, 3}, {2, 2}, {3, 1}, {2, 2}});  // [R]
    CHECK(value(i.agreement) == near(-2));
    CHECK(value(i.consistency) == near(-1));
    CHECK_FALSE(i.agreement_interval.low.known());
    CHECK_FALSE(i.agreement_interval.high.known());
    CHECK(i.consistency_interval.low.why() == "the windows do not differ: no interval");
    // The mean's: (0 - 4/3) / (0 + (0 - 4/3) / 4) = 4, a share beyond 1 out of no agreement at all.
    CHECK(i.agreement_mean.why() ==
          "the windows differ less than the counts of one window: the ratio means nothing");
}

TEST_CASE("no coefficient passes 1, over 400 small tables of any numbers", "[competency]") {
    unsigned state = 7;
    int known = 0, absent = 0;
    for (int table = 0; table < 400; ++table) {
        std::vector<std::vector<double>> rows(3, std::vector<double>(2));
        for (auto& row : rows)
            for (double& cell : row)
                cell = 130 + static_cast<double>((state = state * 1664525U + 1013904223U) >> 30);
        const Intraclass i = intraclass(rows);
        for (const Figure& f :
             {i.one_way, i.one_way_mean, i.agreement, i.agreement_mean, i.consistency, i.consistency_mean}) {
            ++(f ? known : absent);
            if (f) CHECK(*f <= 1 + 1e-12);
        }
    }
    CHECK(known > 1000);
    CHECK(absent > 50);
}

TEST_CASE("no coefficient from one window, one trainee or identical counts; 1 without interval when perfect",
          "[competency]") {
    CHECK(intraclass({}).agreement.why() == "needs 2 windows");
    CHECK(intraclass({{140, 141}}).agreement.why() == "needs 2 windows");
    CHECK(intraclass({{140}, {150}}).agreement.why() == "needs 2 trainees");
    const Intraclass same = intraclass({{140, 140}, {140, 140}, {140, 140}});
    CHECK(same.agreement.why() == "all identical");
    CHECK(value(same.agreement_error_bpm) == 0);
    const Intraclass perfect = intraclass({{120, 120}, {140, 140}, {161, 161}});
    CHECK(value(perfect.agreement) == near(1));
    CHECK(perfect.agreement_interval.low.why() == "perfect agreement");
}
