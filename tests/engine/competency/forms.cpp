// Comparable forms from one pool. All [Py] unless said.
#include "engine/competency/form_balance.h"
#include "engine/competency/forms.h"
#include "engine/sha256.h"

#include "tests/engine/competency/near.h"

#include <rapidcheck.h>

#include <algorithm>
#include <numeric>
#include <set>

using namespace engine;

namespace {

using Ids = std::vector<std::string>;

const std::vector<Stratum> strata{{"B", {"B01", "B02", "B03", "B04"}},
                                  {"N", {"N01", "N02", "N03", "N04", "N05", "N06"}},
                                  {"T", {"T01", "T02", "T03", "T04"}}};
const std::vector<int> quota{2, 3, 2};

std::vector<int> quotas_of(int total, std::vector<long long> weights) { return quotas(total, weights); }

}  // namespace

TEST_CASE("25 by 50, 20, 20, 10 per cent is 13 5 5 2: a tie of .5 goes to the first", "[competency]") {
    CHECK(quotas_of(25, {50, 20, 20, 10}) == std::vector<int>{13, 5, 5, 2});
    CHECK(quotas_of(10, {1, 1, 1}) == std::vector<int>{4, 3, 3});
    CHECK(quotas_of(7, {40, 35, 25}) == std::vector<int>{3, 2, 2});
    CHECK(quotas_of(25, {46, 27, 27}) == std::vector<int>{11, 7, 7});
    CHECK(quotas_of(0, {1, 2}) == std::vector<int>{0, 0});
    CHECK(quotas_of(5, {0, 1}) == std::vector<int>{0, 5});
}

TEST_CASE("seed 2025-annual: the order of fourteen items for forms A and B, and the seven taken",
          "[competency]") {
    CHECK(sha256_hex("2025-annual|A|B01") ==
          "0dcddcdb8f53e17e3f34620dfb944b4686778062f5d7077df84a14a279ae9482");
    const auto order = [](const char* form, std::size_t h) {
        return drawing_order("2025-annual", form, strata[h].ids);
    };
    CHECK(order("A", 0) == Ids{"B01", "B04", "B03", "B02"});
    CHECK(order("A", 1) == Ids{"N06", "N01", "N02", "N05", "N03", "N04"});
    CHECK(order("A", 2) == Ids{"T02", "T03", "T01", "T04"});
    CHECK(order("B", 0) == Ids{"B01", "B02", "B04", "B03"});
    CHECK(order("B", 1) == Ids{"N01", "N03", "N06", "N05", "N02", "N04"});
    CHECK(order("B", 2) == Ids{"T01", "T02", "T04", "T03"});
    CHECK(draw_form("2025-annual", "A", strata, quota).value() ==
          Ids{"B01", "B04", "N06", "N01", "N02", "T02", "T03"});
    CHECK(draw_form("2025-annual", "B", strata, quota).value() ==
          Ids{"B01", "B02", "N01", "N03", "N06", "T01", "T02"});
}

TEST_CASE("the second form of one order shares no item; an added item leaves the order of the others",
          "[competency]") {
    const Ids first = draw_form("2025-annual", "A", strata, quota).value();
    const Ids second = draw_form("2025-annual", "A", strata, quota, 1).value();
    std::set<std::string> all(first.begin(), first.end());
    all.insert(second.begin(), second.end());
    CHECK(all.size() == 14);
    Ids more = strata[1].ids;
    more.insert(more.begin() + 2, "N99");
    Ids order = drawing_order("2025-annual", "A", more);
    std::erase(order, "N99");
    CHECK(order == Ids{"N06", "N01", "N02", "N05", "N03", "N04"});
}

TEST_CASE("strata too small are faults, each named, never topped up", "[competency]") {
    const std::vector<int> greedy{5, 3, 5};
    const auto drawn = draw_form("s", "A", strata, greedy);
    REQUIRE_FALSE(drawn.ok());
    REQUIRE(drawn.faults().size() == 2);
    CHECK(in_one_line(drawn.faults()[0]) == "stratum B, found 4 items, allowed: at least 5");
    CHECK(in_one_line(drawn.faults()[1]) == "stratum T, found 4 items, allowed: at least 5");
    CHECK(in_one_line(draw_form("s", "A", strata, quota, 2).faults()[0]) ==
          "stratum B, found 4 items, allowed: at least 6");
}

TEST_CASE("true-score cut: 4 of 6 on form A is 3.953433524 on form B, at ability 1.060704317",
          "[competency]") {
    const std::vector<double> a{-1, -.5, 0, .5, 1, 1.5}, b{-.8, -.6, .2, .4, .9, 1.7};
    const EquatedCut cut = equated_cut(a, 4, b);
    CHECK(value(cut.ability) == near(1.060704317));
    CHECK(value(cut.cut) == near(3.953433524));
    CHECK(cut.mark == 4);
    CHECK(chance_at_least(a, *cut.ability, 4) == near(.690679747));
    CHECK(chance_at_least(b, *cut.ability, 4) == near(.675691515));
    CHECK(chance_at_least(a, 0, 4) == near(.229876082));
    CHECK(chance_at_least(b, 0, 4) == near(.216783715));
    CHECK(equated_cut(a, 6, b).cut.why() == "the cut must lie between none and all right");
    CHECK_FALSE(equated_cut(a, 0, b).ability.known());
}

TEST_CASE("two draws of 10 from 40 share 2.5 items on average, 5 or more in 5 of 100", "[competency]") {
    CHECK(overlap(10, 40).mean == near(2.5));
    CHECK(overlap(10, 40).at_least(5) == near(.049752981));
    CHECK(overlap(10, 40).at_least(0) == near(1));
    CHECK(overlap(10, 10).at_least(10) == near(1));
}

TEST_CASE("balanced: mean within 0.15 logit and 90 % of the information; #1, #2 are tried, 200 at most",
          "[competency]") {
    const std::vector<double> pool{-1, -.5, 0, .5, 1, 1.5};
    const FormTarget target = target_of(pool, 1);
    std::vector<double> shifted = pool, far = pool;
    for (double& d : shifted) d += 0.1;
    for (double& d : far) d += 0.16;
    CHECK(balanced(shifted, target));
    CHECK_FALSE(balanced(far, target));
    const std::vector<double> spread{-4, -3.5, 0, .5, 4, 4.5};  // the same mean, less information
    CHECK_FALSE(balanced(spread, target));

    const std::vector<Stratum> one{{"all", {"a", "b", "c", "d", "e", "f"}}};
    const std::vector<int> three{3};
    const auto difficulty_of = [](const std::string& id) { return (id[0] - 'a') * 0.4; };
    const std::vector<double> middle{0.4, 0.8, 1.6};
    const auto found = draw_balanced("s", "A", one, three, difficulty_of, target_of(middle, 1));
    REQUIRE(found.ok());
    CHECK(found->ids.size() == 3);
    std::vector<double> drawn;
    for (const std::string& id : found->ids) drawn.push_back(difficulty_of(id));
    CHECK(balanced(drawn, target_of(middle, 1)));
    const auto never = draw_balanced("s", "A", one, three, difficulty_of, {9, 1, 1});
    REQUIRE_FALSE(never.ok());
    CHECK(never.faults()[0].found == "no balanced draw in 200");
    const std::vector<int> seven{7};
    CHECK(draw_balanced("s", "A", one, seven, difficulty_of, target).faults()[0].what == "stratum all");
}

TEST_CASE("any weights: quotas add up and are within one of the exact share; chances of scores sum to 1",
          "[competency]") {
    CHECK(rc::check([] {
        const int total = *rc::gen::inRange(0, 500);
        auto weights =
            *rc::gen::nonEmpty(rc::gen::container<std::vector<long long>>(rc::gen::inRange(0LL, 1000LL)));
        weights[0] += 1;
        const std::vector<int> q = quotas(total, weights);
        RC_ASSERT(std::accumulate(q.begin(), q.end(), 0) == total);
        const double sum = static_cast<double>(std::accumulate(weights.begin(), weights.end(), 0LL));
        for (std::size_t i = 0; i < q.size(); ++i)
            RC_ASSERT(std::abs(q[i] - total * static_cast<double>(weights[i]) / sum) < 1);
        std::vector<double> difficulty;
        for (long long w : weights) difficulty.push_back(static_cast<double>(w) / 200 - 2.5);
        const auto chance = chance_of_scores(difficulty, 0.3);
        RC_ASSERT(std::abs(std::accumulate(chance.begin(), chance.end(), 0.0) - 1) < 1e-9);
        double mean = 0;
        for (std::size_t r = 0; r < chance.size(); ++r) mean += static_cast<double>(r) * chance[r];
        RC_ASSERT(std::abs(mean - true_score(difficulty, 0.3)) < 1e-9);
    }));
}
