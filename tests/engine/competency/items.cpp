// Items answered right or wrong.
#include "engine/competency/items.h"

#include "tests/engine/competency/near.h"
#include "tests/engine/competency/twelve_by_six.h"

#include <rapidcheck.h>

#include <algorithm>
#include <cmath>

using namespace engine;

TEST_CASE("twelve by six: difficulty, corrected and plain item-total correlation of each item",
          "[competency]") {
    const ItemAnalysis a = item_analysis(responses_of(twelve_by_six));  // [R]; the corrected ones also psych
    const double p[] = {.75, .666667, .5, .416667, .25, .166667};
    const double rest[] = {.392232270, .554321863, .162937634, .392988746, .625543242, .423021712};
    const double total[] = {.598050360, .732459112, .443937261, .625325775, .768921892, .595604336};
    REQUIRE(a.items.size() == 6);
    for (std::size_t i = 0; i < 6; ++i) {
        INFO("item " << i + 1);
        CHECK(value(a.items[i].difficulty) == near(p[i]));
        CHECK(value(a.items[i].with_rest) == near(rest[i]));
        CHECK(value(a.items[i].with_total) == near(total[i]));
        CHECK(a.items[i].remark.empty());  // twelve persons: no flags
    }
}

TEST_CASE("twelve by six: alpha = KR-20 = .683211679, KR-21 .573722628, their intervals, error .993158415",
          "[competency]") {
    const Reliability r =
        item_analysis(responses_of(twelve_by_six)).whole;  // [R]; alpha and Feldt also psych
    CHECK(value(r.variance) == near(3.113636364));
    CHECK(value(r.alpha) == near(.683211679));
    CHECK(value(r.kr21) == near(.573722628));
    CHECK(value(r.feldt.low) == near(.291331517));
    CHECK(value(r.feldt.high) == near(.894899982));
    CHECK(value(r.bonett.low) == near(.172494189));
    CHECK(value(r.bonett.high) == near(.878726120));
    CHECK(value(r.standard_error) == near(.993158415));
    // Bonett's standard error of ln(1 - alpha), from his interval: .489897949 [R]
    const double error = std::log((1 - *r.bonett.low) / (1 - *r.bonett.high)) / (2 * 1.959963985);
    CHECK(error == near(.489897949));
    // KR-20 by its own formula, p(1 - p) over the variance over n: the same number as alpha.
    const double p[] = {9. / 12, 8. / 12, 6. / 12, 5. / 12, 3. / 12, 2. / 12};
    double within = 0;
    for (double share : p) within += share * (1 - share);
    CHECK(6.0 / 5 * (1 - within / (*r.variance * 11 / 12)) == near(.683211679));
    CHECK(value(lord_standard_error(20, 25)) == near(2.041241452));
}

TEST_CASE("no reliability from one person, one item or equal totals; an item all right stays in and is named",
          "[competency]") {
    CHECK(item_analysis(Responses{}).whole.alpha.why() == "needs 2 persons");
    CHECK(item_analysis(Responses{{1, 0, 1}}).whole.alpha.why() == "needs 2 persons");
    CHECK(item_analysis(Responses{{1}, {0}}).whole.alpha.why() == "needs 2 items");
    CHECK(item_analysis(Responses{{1}, {0}}).items[0].with_rest.why() == "needs 2 items");
    const ItemAnalysis equal = item_analysis(Responses{{1, 0}, {0, 1}, {1, 0}});
    CHECK(equal.whole.alpha.why() == "all totals equal");
    CHECK(value(equal.whole.variance) == 0);
    CHECK(equal.items[0].with_total.why() == "all totals equal");
    const ItemAnalysis easy = item_analysis(Responses{{1, 1, 0}, {1, 1, 1}, {1, 0, 0}, {1, 0, 1}});
    CHECK(easy.items[0].with_rest.why() == "all answers to this item are alike");
    CHECK(easy.items[0].remark == "all right: says nothing about the rest");
    CHECK(value(easy.items[0].difficulty) == 1);
    CHECK(easy.whole.items == 3);
    CHECK_FALSE(lord_standard_error(1, 1).known());
    CHECK(kr21(5, 0, 10).why() == "all totals equal");
}

TEST_CASE("alpha below 0 is printed; from twenty persons on a misfitting item and an easy one are named",
          "[competency]") {
    const ItemAnalysis against =
        item_analysis(Responses{{1, 0, 1}, {0, 1, 0}, {1, 0, 0}, {0, 1, 1}, {1, 0, 1}});
    CHECK(value(against.whole.alpha) < 0);
    Responses many;  // five steps, each harder; the fourth turned round; the last answered by all but one
    for (int person = 0; person < 60; ++person) {
        const int skill = person % 6;
        many.push_back({static_cast<char>(skill > 0), static_cast<char>(skill > 1),
                        static_cast<char>(skill > 2), static_cast<char>(skill <= 3),
                        static_cast<char>(skill > 4), static_cast<char>(person != 6)});
    }
    const ItemAnalysis a = item_analysis(many);
    CHECK(a.items[1].remark.empty());
    CHECK(a.items[3].remark == "hardly goes with the rest");
    CHECK(a.items[4].remark == "mostly wrong");  // 10 of 60
    CHECK(a.items[5].remark == "nearly all right");
}

TEST_CASE("any answers: alpha and correlations at most 1, and turning every answer round leaves alpha",
          "[competency]") {
    CHECK(rc::check([] {
        const int persons = *rc::gen::inRange(2, 30), items = *rc::gen::inRange(2, 12);
        Responses as(static_cast<std::size_t>(persons)), turned = as;
        for (std::size_t p = 0; p < as.size(); ++p)
            for (int i = 0; i < items; ++i) {
                as[p].push_back(static_cast<char>(*rc::gen::inRange(0, 2)));
                turned[p].push_back(static_cast<char>(1 - as[p].back()));
            }
        const ItemAnalysis a = item_analysis(as), b = item_analysis(turned);
        RC_ASSERT(a.whole.alpha.known() == b.whole.alpha.known());
        if (a.whole.alpha) {
            RC_ASSERT(*a.whole.alpha <= 1 + 1e-12);
            RC_ASSERT(std::fabs(*a.whole.alpha - *b.whole.alpha) < 1e-9);
        }
        for (const ItemFigures& item : a.items)
            if (item.with_rest) RC_ASSERT(std::fabs(*item.with_rest) <= 1 + 1e-12);
    }));
}
