#include "sim/course/contraction.h"

#include "tests/sim/felt_womb.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace womb;

TEST_CASE("the published shape stays over 10 mmHg for 44, 58, 68 and 75 s at 30, 45, 60 and 80 mmHg",
          "[contraction]") {
    // Asymmetric generalised Gaussian, exponent 2.2, widths before/after 18/24, 20/28, 22/30, 22/32 s
    // [computed].
    const double rows[4][4] = {{30, 18, 24, 44}, {45, 20, 28, 58}, {60, 22, 30, 68}, {80, 22, 32, 75}};
    for (const auto& row : rows) {
        const ContractionShape shape{row[0], row[1], row[2]};
        CHECK(shape.before_peak(10) + shape.after_peak(10) == Approx(row[3]).margin(0.6));
        int ticks = 0;
        for (int k = -400; k <= 400; ++k) ticks += shape.at(k * 0.25) > 10;
        CHECK(ticks * 0.25 == Approx(row[3]).margin(0.8));
        CHECK(shape.at(0) == Approx(row[0]));
    }
}

TEST_CASE("the shape is A exp(-|t / w|^2.2) to a thousandth of a mmHg, and nothing beyond 2.8 widths",
          "[contraction]") {
    // Form: Liu et al., uterine contraction modelling (conference abstract); here by the library's exp and
    // pow.
    const ContractionShape shape{80, 22, 32};
    for (int k = -700; k <= 1000; ++k) {
        const double t = k * 0.1, x = t < 0 ? -t / 22 : t / 32;
        CHECK(shape.at(t) == Approx(x > 2.8 ? 0 : 80 * std::exp(-std::pow(x, 2.2))).margin(0.001));
    }
}

TEST_CASE("a clockwork labour: first peak where the author put it, felt for as long as he said",
          "[contraction]") {
    Patient p = woman();
    p.labour.irregular = 0;
    p.labour.first_contraction = {90};
    for (double length : {44.0, 60.0, 75.0}) {
        p.labour.contraction_length = {length};
        const auto spells = felt(course_over(p, Seed{3}, {}, {900}));
        REQUIRE(spells.size() >= 4);
        CHECK(spells[0].peak_at_s == Approx(90).margin(0.3));
        CHECK(spells[0].number == 0);
        for (std::size_t i = 0; i < spells.size(); ++i) {
            CHECK(spells[i].to_s - spells[i].from_s == Approx(length).margin(0.6));
            CHECK(spells[i].peak_mmhg == Approx(p.labour.strength.value).margin(0.1));
            if (i > 0) CHECK(spells[i].peak_at_s - spells[i - 1].peak_at_s == Approx(600 / 3.5).margin(0.3));
        }
    }
}

TEST_CASE("frequency keeps the author's number over two hours: 2, 3.5, 5 and 7 in ten minutes",
          "[contraction]") {
    for (double asked : {2.0, 3.5, 5.0, 7.0}) {
        Patient p = woman();
        p.labour.contractions_per_10min = asked;
        CHECK(average_per_10min(p, {}, 600, 3600, 4) == Approx(asked).epsilon(0.06));
    }
}

TEST_CASE("gaps of an irregular labour have the author's spread of 0.35 within a fifth", "[contraction]") {
    Patient p = woman();
    p.labour.irregular = 0.35;
    double sum = 0, squares = 0;
    int n = 0;
    for (std::uint64_t s = 1; s <= 4; ++s) {
        const auto spells = felt(course_over(p, Seed{s}, {}, {5400}));
        for (std::size_t i = 1; i < spells.size(); ++i) {
            const double gap = spells[i].peak_at_s - spells[i - 1].peak_at_s;
            sum += gap;
            squares += gap * gap;
            ++n;
        }
    }
    const double mean = sum / n;
    CHECK(std::sqrt(squares / n - mean * mean) / mean == Approx(0.35).epsilon(0.2));
}

TEST_CASE("active labour of 5 contractions of 45 mmHg is over 200 Montevideo units", "[contraction]") {
    // Adequate activity: sum of peaks above tone in ten minutes over 200 (open pages on uterine activity).
    Patient p = woman();
    p.labour.contractions_per_10min = 5;
    double units = 0;
    for (const Spell& spell : felt(course_over(p, Seed{2}, {}, {3600}))) units += spell.peak_mmhg;
    CHECK(units / 6 > 200);
    CHECK(units / 6 < 260);
}

TEST_CASE("her breathing moves the trace by 1 to 2 mmHg and never the hand: one feeling per contraction",
          "[contraction]") {
    Patient p = woman();
    const auto course = course_over(p, Seed{6}, {}, {3600});
    double low = 1e9, high = -1e9;
    for (std::size_t k = 0; k < 40; ++k) {  // before the first contraction begins
        low = std::min(low, course[k].uc_mmhg);
        high = std::max(high, course[k].uc_mmhg);
    }
    CHECK(high - low >= 1);
    CHECK(high - low <= 2.01);
    const auto spells = felt(course);
    for (std::size_t i = 1; i < spells.size(); ++i) {
        CHECK(spells[i].number == spells[i - 1].number + 1);
        CHECK(spells[i].from_s - spells[i - 1].to_s > 5);
    }
}

TEST_CASE("double peaks: a second rise after a dip, felt as one longer contraction", "[contraction]") {
    Patient p = woman();
    p.labour.double_peaks = 1;
    p.labour.irregular = 0;
    const auto course = course_over(p, Seed{6}, {}, {200});
    double first = 0, dip = 1e9, second = 0;
    for (std::size_t k = 0; k < course.size(); ++k) {
        const double t = static_cast<double>(k) * 0.25, p_mmhg = course[k].uc_above_tone_mmhg;
        if (t < 75) first = std::max(first, p_mmhg);
        if (t >= 75 && t < 105) dip = std::min(dip, p_mmhg);
        if (t >= 100 && t < 150) second = std::max(second, p_mmhg);
    }
    CHECK(first == Approx(45).margin(1));
    CHECK(second > 0.6 * first);
    CHECK(dip < 0.8 * second);
}

TEST_CASE("bearing down: 3 to 5 pushes of 5 to 7 s a contraction, 30 to 50 mmHg on top", "[contraction]") {
    Patient p = woman();
    p.labour.pushing = true;
    p.labour.contraction_length = {80};
    p.labour.strength = {60};
    const auto course = course_over(p, Seed{4}, {}, {1200});
    std::vector<int> pushes(20, 0);
    double run = 0, highest = 0;
    for (std::size_t k = 1; k < course.size(); ++k) {
        if (course[k].pushing) {
            CHECK(course[k].in_contraction);
            if (!course[k - 1].pushing) ++pushes[static_cast<std::size_t>(course[k].contraction)];
            run += 0.25;
        } else if (run > 0) {
            CHECK(run <= 7.3);
            CHECK(run >= 4.2);
            run = 0;
        }
        highest = std::max(highest, course[k].uc_above_tone_mmhg);
    }
    for (std::size_t n = 1; n < 5; ++n) CHECK((pushes[n] >= 3 && pushes[n] <= 5));
    CHECK(highest > 80);  // second stage 80 to 100 mmHg and more
    CHECK(highest < 125);

    const std::vector<Change> paused{act(300, Act::pause_pushing)};
    const auto quiet = course_over(p, Seed{4}, paused, {1200});
    for (std::size_t k = 4 * 306 + 2; k < quiet.size(); ++k) CHECK_FALSE(quiet[k].pushing);
}

TEST_CASE("contractions stop where the author said, the womb keeps its tone", "[contraction]") {
    Patient p = woman();
    p.labour.contractions_stop = {600};
    const auto course = course_over(p, Seed{1}, {}, {1500});
    for (std::size_t k = 4 * 640; k < course.size(); ++k) {
        CHECK(course[k].uc_above_tone_mmhg < 1);
        CHECK(course[k].uc_mmhg == Approx(p.labour.tone.value).margin(2));
    }
    CHECK(felt(course).size() >= 2);
}

TEST_CASE("no contractions at all: flat tone, number -1", "[contraction]") {
    Patient p = woman();
    p.labour.contractions_per_10min = 0;
    for (const CourseTick& tick : course_over(p, Seed{1}, {}, {600})) {
        CHECK(tick.contraction == -1);
        CHECK(tick.uc_above_tone_mmhg == 0);
    }
}

TEST_CASE("drip stopped: from 7 in ten minutes to 4 within about 8 minutes; raised: more than before",
          "[contraction][response]") {
    Patient p = woman();
    p.labour.contractions_per_10min = 7;
    p.labour.oxytocin_drip = true;
    p.labour.per_10min_without_drip = 4;
    const std::vector<Change> stopped{act(600, Act::stop_oxytocin)}, raised{act(600, Act::raise_oxytocin)};
    CHECK(average_per_10min(p, stopped, 0, 600, 4) == Approx(7).epsilon(0.1));
    CHECK(average_per_10min(p, stopped, 600 + 480, 600 + 480 + 1200, 4) == Approx(4).epsilon(0.1));
    CHECK(average_per_10min(p, raised, 600 + 480, 600 + 480 + 1200, 4) > 8);

    p.labour.oxytocin_drip = false;  // nothing to stop
    CHECK(average_per_10min(p, stopped, 600 + 480, 600 + 480 + 1200, 4) == Approx(7).epsilon(0.1));
}
