// One trainee's counts against the truth.
#include "engine/competency/agreement.h"

#include "tests/engine/competency/near.h"

#include <rapidcheck.h>

#include <cmath>

using namespace engine;

namespace {

const std::vector<double> truths{120, 132, 140, 148, 152, 160, 110, 144};
const std::vector<double> typed{118, 130, 144, 146, 150, 156, 108, 144};

}  // namespace

TEST_CASE("eight counts: bias -1.25, SD 2.375469878, RMSE 2.549509757, concordance 0.986788618",
          "[competency]") {
    const CountErrors e = count_errors(truths, typed);  // all [R]
    CHECK(value(e.bias_bpm()) == near(-1.25));
    CHECK(value(e.sd_bpm()) == near(2.375469878));
    CHECK(value(e.mean_size_bpm()) == near(2.25));
    CHECK(value(e.largest_size_bpm()) == near(4));
    CHECK(value(e.share_within()) == near(0.75));
    CHECK(value(e.rmse_bpm()) == near(2.549509757));
    CHECK(value(e.cv_percent()) == near(1.718242227));
    CHECK(value(e.concordance()) == near(0.986788618));  // over n; over n - 1 it would be 0.987180505
    CHECK(value(e.bias_interval().low) == near(-3.235942517));
    CHECK(value(e.bias_interval().high) == near(0.735942517));
}

TEST_CASE("five windows counted twice: SD 1.673320053, repeatability 4.638121322", "[competency]") {
    const std::vector<double> first{140, 132, 150, 126, 144}, second{142, 130, 150, 130, 142};
    const Repeatability r = repeatability(first, second);  // [R]
    CHECK(value(r.sd_bpm) == near(1.673320053));
    CHECK(value(r.coefficient_bpm) == near(4.638121322));
    CHECK(repeatability({}, {}).sd_bpm.why() == "no window was counted twice");
}

TEST_CASE("no counts: every figure absent with its reason; one count: bias and RMSE, no spread",
          "[competency]") {
    const CountErrors none = count_errors({}, {});
    for (const Figure& f :
         {none.bias_bpm(), none.sd_bpm(), none.rmse_bpm(), none.mean_size_bpm(), none.cv_percent(),
          none.concordance(), none.share_within(), none.largest_size_bpm(), none.bias_interval().low}) {
        CHECK_FALSE(f.known());
        CHECK(f.why() == "no counts");
    }
    const std::vector<double> t{140}, c{136};
    const CountErrors one = count_errors(t, c);
    CHECK(value(one.bias_bpm()) == -4);
    CHECK(value(one.mean_size_bpm()) == 4);
    CHECK(value(one.rmse_bpm()) == 4);
    CHECK_FALSE(one.sd_bpm().known());
    CHECK_FALSE(one.cv_percent().known());
    CHECK_FALSE(one.bias_interval().high.known());
    CHECK(one.sd_bpm().why() == "a spread needs 2 counts, there is 1");
}

TEST_CASE("all truths 140 and all counts 140, or all 144: concordance is 0/0 and absent, or 0",
          "[competency]") {
    const std::vector<double> t(5, 140), same(5, 140), off(5, 144);
    CHECK(count_errors(t, same).concordance().why() == "all truths equal and all counts equal");
    CHECK(count_errors(t, off).concordance().why() == "all truths equal and all counts equal");
    const std::vector<double> spread{138, 139, 140, 141, 142};
    CHECK(value(count_errors(t, spread).concordance()) == near(0));
}

TEST_CASE("slow, normal and fast: 116 for 100, 140 for 140, 164 for 180 shows the pull to the middle by band",
          "[competency]") {
    const std::vector<double> t{100, 104, 110, 140, 160, 161, 180}, c{116, 116, 112, 140, 158, 160, 164};
    const std::vector<double> edges{110, 160.5};
    const auto by = count_errors_by_band(edges, t, c);
    REQUIRE(by.size() == 3);
    CHECK(by[0].n() == 2);
    CHECK(value(by[0].bias_bpm()) == near(14));
    CHECK(by[1].n() == 3);
    CHECK(value(by[1].bias_bpm()) == near(0));
    CHECK(by[2].n() == 2);
    CHECK(value(by[2].bias_bpm()) == near(-8.5));
    CHECK(value(count_errors(t, c).slope_on_truth()) < 0);
}

TEST_CASE("grouped by method, the 15 s counts are 4 low and the 60 s counts right", "[competency]") {
    const std::vector<double> t{120, 140, 130, 150}, c{116, 140, 126, 150};
    const std::vector<unsigned> method{1, 0, 1, 0};
    const auto by = count_errors_by(method, 3, t, c);
    CHECK(value(by[0].bias_bpm()) == 0);
    CHECK(value(by[1].bias_bpm()) == -4);
    CHECK_FALSE(by[2].bias_bpm().known());
}

TEST_CASE("numbers beyond range are absent, not infinite", "[competency]") {
    const std::vector<double> t{1e300, -1e300}, c{-1e300, 1e300};
    CHECK(count_errors(t, c).rmse_bpm().why() == "beyond the range of numbers");
}

TEST_CASE("any counts: RMSE squared = bias squared + SD squared (n-1)/n; parts added equal the whole",
          "[competency]") {
    CHECK(rc::check([] {
        const auto readings = *rc::gen::nonEmpty(rc::gen::container<std::vector<std::pair<int, int>>>(
            rc::gen::pair(rc::gen::inRange(60, 220), rc::gen::inRange(0, 300))));
        std::vector<double> t, c;
        CountErrors first, second;
        for (std::size_t i = 0; i < readings.size(); ++i) {
            t.push_back(readings[i].first);
            c.push_back(readings[i].second);
            (i % 3 == 0 ? first : second).add(t.back(), c.back());
        }
        const CountErrors e = count_errors(t, c);
        const double n = static_cast<double>(t.size());
        const double rmse = value(e.rmse_bpm()), bias = value(e.bias_bpm());
        if (t.size() > 1) {
            const double sd = value(e.sd_bpm());
            RC_ASSERT(std::fabs(rmse * rmse - bias * bias - sd * sd * (n - 1) / n) < 1e-6);
        } else {
            RC_ASSERT(std::fabs(rmse - std::fabs(bias)) < 1e-9);
        }
        first.add(second);
        RC_ASSERT(first.n() == e.n());
        RC_ASSERT(std::fabs(value(first.bias_bpm()) - bias) < 1e-9);
        RC_ASSERT(e.concordance().known() == first.concordance().known());
        if (e.concordance()) {
            RC_ASSERT(std::fabs(value(first.concordance()) - value(e.concordance())) < 1e-9);
            RC_ASSERT(std::fabs(value(e.concordance())) <= 1 + 1e-12);
        }
    }));
}

TEST_CASE("128 read as 130 and 127.8 read as 129.8 are both within 2 bpm; 127.8 read as 129.81 is not",
          "[competency]") {
    for (const double truth : {127.8, 126.3, 127.3, 126.8, 128.0})
        CHECK(
            value(count_errors(std::vector<double>{truth}, std::vector<double>{truth + 2}).share_within()) ==
            1);
    CHECK(value(count_errors(std::vector<double>{127.8}, std::vector<double>{129.8}).share_within()) == 1);
    CHECK(value(count_errors(std::vector<double>{127.8}, std::vector<double>{125.8}).share_within()) == 1);
    CHECK(value(count_errors(std::vector<double>{127.8}, std::vector<double>{129.81}).share_within()) == 0);
}
