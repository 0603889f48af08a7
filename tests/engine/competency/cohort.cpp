// A cohort in one pass: the same figures as the tested one-at-a-time functions give, which have theirs from
// outside.
#include "engine/competency/cohort.h"

#include "tests/engine/competency/near.h"
#include "tests/engine/competency/twelve_by_six.h"

#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>

using namespace engine;

namespace {

// Only what must be there.
struct Rows {
    CountColumns columns;

    Rows& add(int person, int item, double truth_bpm, double typed_bpm, int plan_s = 60) {
        columns.person.push_back(static_cast<std::uint32_t>(person));
        columns.item.push_back(static_cast<std::uint32_t>(item));
        columns.true_mbpm.push_back(static_cast<std::int32_t>(std::lround(truth_bpm * 1000)));
        columns.written_mbpm.push_back(static_cast<std::int32_t>(std::lround(typed_bpm * 1000)));
        columns.plan_s.push_back(static_cast<std::int16_t>(plan_s));
        return *this;
    }
};

const std::vector<double> truths{120, 132, 140, 148, 152, 160, 110, 144};
const std::vector<double> typed{118, 130, 144, 146, 150, 156, 108, 144};

}  // namespace

TEST_CASE("eight counts of one person in columns: bias -1.25, SD 2.375469878; no limits below ten",
          "[cohort]") {
    Rows rows;
    for (std::size_t i = 0; i < 8; ++i) rows.add(0, static_cast<int>(i), truths[i], typed[i]);
    const Cohort c = cohort_of(rows.columns);  // values [R], as in agreement.cpp
    CHECK(value(c.all.bias_bpm()) == near(-1.25));
    CHECK(value(c.all.concordance()) == near(0.986788618));
    REQUIRE(c.by_person.size() == 1);
    CHECK(value(c.by_person[0].bias_bpm) == near(-1.25));
    CHECK(value(c.by_person[0].sd_bpm) == near(2.375469878));
    CHECK(c.by_person[0].low_bpm.why() == "limits need 10 counts");
    CHECK(c.by_item[6].n == 1);
    CHECK(value(c.by_item[6].bias_bpm) == near(-2));
    CHECK(c.by_item[6].sd_bpm.why() == "a spread needs 2 counts, there is 1");
    CHECK(c.by_band[1].n() == 8);
}

TEST_CASE("twelve by six in columns: alpha .683211679, difficulties and correlations as item by item",
          "[cohort]") {
    Rows rows;  // right: on the beat; wrong: 20 too many
    for (std::size_t p = 0; p < twelve_by_six.size(); ++p)
        for (std::size_t i = 0; i < 6; ++i)
            rows.add(static_cast<int>(p), static_cast<int>(i), 140, twelve_by_six[p][i] == '1' ? 140 : 160);
    const Cohort c = cohort_of(rows.columns);  // [R], as in items.cpp
    CHECK(value(c.items.whole.alpha) == near(.683211679));
    CHECK(value(c.items.whole.kr21) == near(.573722628));
    CHECK(value(c.items.whole.feldt.low) == near(.291331517));
    CHECK(value(c.items.items[4].difficulty) == near(.25));
    CHECK(value(c.items.items[4].with_rest) == near(.625543242));
    CHECK(c.analysed == std::vector<std::int32_t>{0, 1, 2, 3, 4, 5});
    CHECK(c.persons_with_gaps == 0);
    CHECK(c.repeats == 0);

    rows.add(3, 2, 140, 160);   // a repeat: the first answer stays
    rows.add(12, 0, 140, 140);  // a person with gaps: in the counts, not in the items
    const Cohort more = cohort_of(rows.columns);
    CHECK(value(more.items.whole.alpha) == near(.683211679));
    CHECK(more.repeats == 1);
    CHECK(more.persons_with_gaps == 1);
    CHECK(more.by_person[12].n == 1);
}

TEST_CASE("right is within two beats or 5 bpm, whichever is more: 5 at 60 s, 8 at 15 s, 20 at 6 s",
          "[cohort]") {
    Rows rows;
    for (const auto& [plan, edge] : {std::pair{60, 5.0}, std::pair{15, 8.0}, std::pair{6, 20.0}})
        for (int p = 0; p < 2; ++p) rows.add(p, plan, 140, 140 + edge + (p == 0 ? 0 : 1), plan);
    const Cohort c = cohort_of(rows.columns);
    REQUIRE(c.items.items.size() == 3);
    for (const ItemFigures& item : c.items.items) CHECK(value(item.difficulty) == near(.5));
    CHECK(c.methods_s == std::vector<int>{6, 15, 60});
    CHECK(value(c.by_method[1].bias_bpm()) == near(8.5));
}

TEST_CASE("the table of 20 5 / 10 15 as classes true and said: kappa 0.4; a rising one said fast agrees",
          "[cohort]") {
    Rows rows;
    const auto add = [&](int n, RateClass is, RateClass said) {
        for (int i = 0; i < n; ++i) {
            rows.add(0, 0, 140, 140);
            rows.columns.true_class.push_back(static_cast<std::int8_t>(is));
            rows.columns.said_class.push_back(static_cast<std::int8_t>(said));
        }
    };
    add(20, RateClass::normal, RateClass::normal);
    add(5, RateClass::normal, RateClass::slow);
    add(10, RateClass::slow, RateClass::normal);
    add(15, RateClass::slow, RateClass::slow);
    CHECK(value(cohort_of(rows.columns).classes_kappa.kappa) == near(0.4));  // [R] [Py], as in categories.cpp
    add(3, RateClass::not_known, RateClass::fast);
    add(4, RateClass::rising, RateClass::fast);
    const Cohort c = cohort_of(rows.columns);
    CHECK(c.classes[2][2] == 4);
    CHECK(c.classes_kappa.n == 54);
    CHECK(cohort_of(Rows{}.add(0, 0, 140, 140).columns).classes_kappa.kappa.why() == "no calls");
}

TEST_CASE("no rows, no reading, not judged: nothing made up, all of it counted", "[cohort]") {
    const Cohort none = cohort_of({});
    CHECK(none.all.bias_bpm().why() == "no counts");
    CHECK(none.by_person.empty());
    CHECK(none.items_remark == "no counts");
    Rows rows;
    rows.add(1, 1, 140, 141).add(1, 2, 140, -0.001).add(1, 3, 140, 190);
    rows.columns.counted = {-1, -1, -1};
    rows.columns.judged = {1, 1, 0};
    const Cohort c = cohort_of(rows.columns);
    CHECK(c.rows == 3);
    CHECK(c.no_reading == 1);
    CHECK(c.not_judged == 1);
    CHECK(c.all.n() == 1);
    CHECK(c.by_person[0].n == 0);
    CHECK(c.by_person[0].bias_bpm.why() == "no counts");
    rows.columns.counted = {-1, 71, -1};  // no rate written: beats x factor
    rows.columns.plan_s[1] = 30;
    CHECK(value(cohort_of(rows.columns).by_item[2].bias_bpm) == near(2));
}

TEST_CASE(
    "any cohort: each person's figures are those of one at a time; the order of the rows does not matter",
    "[cohort]") {
    CHECK(rc::check([] {
        const int people = *rc::gen::inRange(1, 6), items = *rc::gen::inRange(1, 6),
                  n = *rc::gen::inRange(1, 60);
        Rows rows;
        std::vector<std::vector<double>> truth_of(6), typed_of(6);
        std::set<std::pair<int, int>> seen;
        for (int i = 0; i < n; ++i) {
            const int p = *rc::gen::inRange(0, people), item = *rc::gen::inRange(0, items);
            if (!seen.insert({p, item}).second) continue;
            const double truth = *rc::gen::inRange(60, 220), read = *rc::gen::inRange(0, 300);
            rows.add(p, item, truth, read, *rc::gen::element(60, 30, 15));
            truth_of[static_cast<std::size_t>(p)].push_back(truth);
            typed_of[static_cast<std::size_t>(p)].push_back(read);
        }
        const Cohort c = cohort_of(rows.columns);
        for (std::size_t p = 0; p < c.by_person.size(); ++p) {
            const CountErrors alone = count_errors(truth_of[p], typed_of[p]);
            RC_ASSERT(c.by_person[p].n == alone.n());
            RC_ASSERT(c.by_person[p].bias_bpm.known() == alone.bias_bpm().known());
            if (alone.bias_bpm()) RC_ASSERT(std::fabs(*c.by_person[p].bias_bpm - *alone.bias_bpm()) < 1e-9);
            RC_ASSERT(c.by_person[p].sd_bpm.known() == alone.sd_bpm().known());
            if (alone.sd_bpm()) RC_ASSERT(std::fabs(*c.by_person[p].sd_bpm - *alone.sd_bpm()) < 1e-6);
        }
        std::size_t in_bands = 0;
        for (const CountErrors& band : c.by_band) in_bands += band.n();
        RC_ASSERT(in_bands == c.all.n());

        CountColumns turned = rows.columns;
        for (auto* column : {&turned.person, &turned.item}) std::reverse(column->begin(), column->end());
        for (auto* column : {&turned.true_mbpm, &turned.written_mbpm})
            std::reverse(column->begin(), column->end());
        std::reverse(turned.plan_s.begin(), turned.plan_s.end());
        const Cohort again = cohort_of(turned);
        for (std::size_t p = 0; p < c.by_person.size(); ++p) {
            if (c.by_person[p].n > 0) RC_ASSERT(*again.by_person[p].bias_bpm == *c.by_person[p].bias_bpm);
            if (c.by_person[p].n > 1) RC_ASSERT(*again.by_person[p].sd_bpm == *c.by_person[p].sd_bpm);
        }
        RC_ASSERT(again.items.whole.alpha.known() == c.items.whole.alpha.known());
        if (c.items.whole.alpha) RC_ASSERT(*again.items.whole.alpha == *c.items.whole.alpha);
    }));
}

TEST_CASE("two tasks at two modes stand apart: errors of 1 and 2, of 3 and 4", "[cohort]") {
    Rows rows;
    for (const double off : {1.0, 2.0, 3.0, 4.0}) rows.add(0, 0, 140, 140 + off);
    rows.columns.task = {0, 1, 0, 1};
    rows.columns.mode = {0, 0, 2, 2};
    const Cohort c = cohort_of(rows.columns);  // means by hand
    CHECK(c.tasks == std::vector<int>{0, 1});
    CHECK(value(c.by_task[0].bias_bpm()) == near(2));
    CHECK(value(c.by_task[1].bias_bpm()) == near(3));
    CHECK(c.modes == std::vector<int>{0, 2});
    CHECK(value(c.by_mode[0].bias_bpm()) == near(1.5));
    CHECK(value(c.by_mode[1].bias_bpm()) == near(3.5));
    CHECK(value(c.all.bias_bpm()) == near(2.5));
}

TEST_CASE("10,000 rows, 12 lengths met one after another, each off by its own 1 to 12 bpm: each stands apart",
          "[cohort]") {
    constexpr std::array<int, 12> lengths{6, 10, 12, 15, 20, 30, 45, 60, 90, 120, 300, 600};
    Rows rows;
    std::array<int, lengths.size()> n_of{};
    for (int i = 0; i < 10'000; ++i) {
        // one more every 900 rows, the last of them without a length; instruments 0 to 5 and none
        const int newest = std::min(i / 900, 11), which = i * 7 % (newest + 1);
        ++n_of[static_cast<std::size_t>(which)];
        rows.add(i / 100, i % 50, 140, 141 + which,
                 which == 11 ? -4 : lengths[static_cast<std::size_t>(which)]);
        rows.columns.instrument.push_back(static_cast<std::int8_t>(which % 7 - 1));
    }
    rows.columns.people.assign(101, "A");  // number 100 counted nothing
    rows.columns.items.assign(50, "c");
    const Cohort c = cohort_of(rows.columns);  // means by hand
    REQUIRE(c.methods_s == std::vector<int>{-1, 6, 10, 12, 15, 20, 30, 45, 60, 90, 120, 300});
    for (std::size_t m = 0; m < 12; ++m) {
        const std::size_t which = m == 0 ? 11 : m - 1;
        CAPTURE(m);
        CHECK(c.by_method[m].n() == static_cast<std::size_t>(n_of[which]));
        CHECK(value(c.by_method[m].bias_bpm()) == near(1 + static_cast<double>(which)));
    }
    REQUIRE(c.instruments == std::vector<int>{-1, 0, 1, 2, 3, 4, 5});
    CHECK(c.by_instrument[6].n() == static_cast<std::size_t>(n_of[6]));
    CHECK(value(c.by_instrument[6].bias_bpm()) == near(7));
    CHECK(c.by_person.size() == 101);
    CHECK(c.by_person[100].n == 0);
    CHECK(c.repeats == 5'000);  // each of 100 people met 50 items twice
    CHECK(c.items.whole.persons == 100);
}
