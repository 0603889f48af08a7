// The courses of shipped labours do what their plan says.
#include "sim/beats/beat_train.h"
#include "sim/course/course.h"
#include "tests/engine/scenario/shipped.h"

#include <catch2/catch.hpp>

#include <algorithm>

TEST_CASE("p03: after every contraction still 15 bpm down at its end, back 60 s later", "[shipped]") {
    const engine::Scenario s = library("p03");
    int ends = 0, later_ends = 0;
    double after_all = 0, later_all = 0;
    for (std::uint64_t seed = 1; seed <= 8; ++seed) {
        const auto course = sim::course_over(s.patient({seed}), {seed}, {}, s.length);
        for (std::size_t k = 1; k + 4 * 62 < course.size(); ++k) {
            if (!course[k - 1].in_contraction || course[k].in_contraction) continue;
            double after = 0, later = 0;  // means of 5 s and of 8 s, to leave out the beat-to-beat swing
            for (std::size_t i = 0; i < 20; ++i) after += course[k + i].fhr_bpm[0] / 20;
            bool next_began = false;
            for (std::size_t i = 0; i < 32; ++i) later += course[k + 4 * 54 + i].fhr_bpm[0] / 32;
            for (std::size_t i = 0; i < 4 * 62; ++i) next_began = next_began || course[k + i].in_contraction;
            INFO("seed " << seed << ", contraction ends at " << static_cast<double>(k) / 4 << " s");
            // One end may be caught by the slow swing of the heart itself, 10 bpm and less: it is over by the
            // mean.
            CHECK(after <= 142.4 - 15 + 10);
            after_all += after;
            if (!next_began) {
                CHECK(later >= 142.4 - 15);
                later_all += later;
                ++later_ends;
            }
            ++ends;
        }
    }
    CHECK(after_all / ends <= 142.4 - 15);
    CHECK(later_all / later_ends == Approx(142.4).margin(4));
    CHECK(ends >= 30);  // 8 runs of 15 min at 3.5 in 10 min: 42, less what the length cuts off [arithmetic]
}

TEST_CASE("l03: 137 to 94 within 2 min of the fourth minute; on her side back within 90 s", "[shipped]") {
    const engine::Scenario s = library("l03");
    const auto left_alone = sim::course_over(s.patient({1}), {1}, {}, {600});
    CHECK(left_alone[4 * 230].fhr_base_bpm[0] == Approx(137.3).margin(5));
    CHECK(left_alone[4 * 400].fhr_base_bpm[0] == Approx(94).margin(6));
    sim::Change turned;
    turned.kind = sim::Change::Kind::act;
    turned.act = sim::Act::off_her_back;
    turned.at_us = 400'000'000;
    const std::vector<sim::Change> changes{turned};
    const auto helped = sim::course_over(s.patient({1}), {1}, changes, {600});
    const double takes = sim::act_takes(sim::Act::off_her_back).value;
    const std::size_t k = static_cast<std::size_t>((400 + takes + 95) * 4);
    CHECK(helped[k].fhr_base_bpm[0] >= 137.3 - 8);  // nine tenths of 43 bpm
    CHECK(left_alone[k].fhr_base_bpm[0] < 105);
}

TEST_CASE("l06: the fall to 78 begins when the waters break, and not before", "[shipped]") {
    const engine::Scenario s = library("l06");
    REQUIRE(s.call_outs.size() == 1);
    CHECK(s.call_outs[0].kind == engine::CallOut::Kind::waters_break);
    CHECK(s.call_outs[0].at <= s.middle.cause.at);
    const auto course = sim::course_over(s.patient({1}), {1}, {}, {480});
    CHECK(course[4 * 295].fhr_base_bpm[0] == Approx(136.4).margin(5));
    CHECK(course[4 * 380].fhr_base_bpm[0] == Approx(78).margin(6));
}

namespace {

// Moments at which the faster heart has gained a whole beat on the slower since they last were in step: two
// beats of it fall between two of the other.
std::vector<double> in_step_s(const std::vector<sim::Beat>& faster, const std::vector<sim::Beat>& slower) {
    std::vector<double> at;
    std::size_t f = 0;
    for (std::size_t n = 1; n < slower.size(); ++n) {
        int between = 0;
        while (f < faster.size() && faster[f].at_us < slower[n].at_us) {
            if (faster[f].at_us >= slower[n - 1].at_us) ++between;
            ++f;
        }
        if (between > 1) at.push_back(static_cast<double>(slower[n].at_us) / 1e6);
    }
    return at;
}

}  // namespace

TEST_CASE("t08: two hearts 3.3 bpm apart come into step every 18 s, each time and not only on average",
          "[shipped]") {
    // 60 / (124.9 - 121.6) = 18.2 s [arithmetic]. Ten minutes hold 33 of them; one more or less is where they
    // begin.
    const engine::Scenario s = library("t08");
    for (std::uint64_t seed = 1; seed <= 8; ++seed) {
        const sim::Patient p = s.patient({seed});
        const auto course = sim::course_over(p, {seed}, {}, s.length);
        const auto at = in_step_s(sim::beats_over(p, {seed}, sim::Who::fetal, course),
                                  sim::beats_over(p, {seed}, sim::Who::maternal, course));
        INFO("seed " << seed);
        REQUIRE(at.size() > 2);
        // What is left of the baby's own swing moves the mean of ten minutes by a quarter of a beat at most.
        CHECK((at.back() - at.front()) / static_cast<double>(at.size() - 1) == Approx(18.2).margin(1.4));
        for (std::size_t i = 1; i < at.size(); ++i) {
            INFO("at " << at[i] << " s, after " << at[i] - at[i - 1]);
            CHECK((at[i] - at[i - 1] > 18.2 / 1.5 && at[i] - at[i - 1] < 18.2 * 1.5));
        }
    }
}

TEST_CASE("p10: falls to 90 with the pushes, back 10, then 20, then 40 s after them, base 138 to 159",
          "[shipped]") {
    // The plan of the labour. Its restlessness taken away, to see the falls alone; back = within 5 bpm.
    const engine::Scenario s = library("p10");
    double back_s[3] = {}, least_bpm[3] = {}, base_bpm[3] = {};
    int falls[3] = {};
    for (std::uint64_t seed = 1; seed <= 8; ++seed) {
        sim::Patient p = s.patient({seed});
        p.babies[0].variability = sim::Variability::minimal;
        const auto course = sim::course_over(p, {seed}, {}, s.length);
        CHECK(course[0].fhr_base_bpm[0] == Approx(138).margin(1.5));
        CHECK(course[4 * 60 * 15].fhr_base_bpm[0] == Approx(159).margin(1.5));
        for (std::size_t k = 4 * 60; k + 4 * 70 < course.size(); ++k) {
            if (!course[k - 1].in_contraction || course[k].in_contraction) continue;
            // A contraction counts where its height lies, some 35 s before its end.
            const double height_s = static_cast<double>(k) / 4 - 35;
            const int part = height_s < 300 ? 0 : height_s < 720 ? 1 : 2;
            std::size_t back = k;
            while (course[back].fhr_base_bpm[0] - course[back].fhr_bpm[0] > 5) ++back;
            double least = 999;
            for (std::size_t i = k - 4 * 60; i < k + 4 * 20; ++i)
                least = std::min(least, course[i].fhr_bpm[0]);
            INFO("seed " << seed << ", ends at " << static_cast<double>(k) / 4 << " s");
            CHECK(least == Approx(90).margin(12));
            back_s[part] += static_cast<double>(back - k) / 4;
            least_bpm[part] += least;
            base_bpm[part] += course[k].fhr_base_bpm[0];
            ++falls[part];
        }
    }
    const double wanted_s[] = {10, 20, 40};
    for (int part = 0; part < 3; ++part) {
        INFO("part " << part);
        REQUIRE(falls[part] >= 12);  // 8 runs of two or more
        CHECK(back_s[part] / falls[part] == Approx(wanted_s[part]).margin(3));
        CHECK(least_bpm[part] / falls[part] == Approx(90).margin(2));
    }
    CHECK(base_bpm[0] / falls[0] < base_bpm[1] / falls[1]);
    CHECK(base_bpm[1] / falls[1] < base_bpm[2] / falls[2]);
}
