// The Rasch model. Twelve by six: own Newton in [Py], agrees with eRm [R] to 1e-5 in difficulty and 5e-5 in
// error.
#include "engine/competency/rasch.h"

#include "tests/engine/competency/near.h"
#include "tests/engine/competency/twelve_by_six.h"

using namespace engine;

namespace {

const double difficulties[] = {-1.84242891, -1.31290072, -.36619677, .13029424, 1.28044963, 2.11078253};
const std::vector<long long> lsat_right{924, 709, 553, 763, 870}, lsat_scores{3, 20, 85, 237, 357, 298};

std::vector<double> known(const std::vector<Figure>& figures) {
    std::vector<double> all;
    for (const Figure& f : figures) all.push_back(value(f));
    return all;
}

}  // namespace

TEST_CASE("twelve by six, none and all right dropped: six difficulties, their errors, ln L -16.127701053",
          "[competency]") {
    const RaschItems r = rasch_items(responses_of(twelve_by_six));
    const double errors[] = {.75370237, .69428485, .66266650, .67513698, .78497806, .96433718};
    REQUIRE(r.why.empty());
    CHECK(r.persons == 10);
    for (std::size_t i = 0; i < 6; ++i) {
        CHECK(value(r.difficulty[i]) == near(difficulties[i]));
        CHECK(value(r.standard_error[i]) == near(errors[i]));
    }
    CHECK(value(r.log_likelihood) == near(-16.127701053));
    CHECK(r.remark == "too few persons to publish (30): show shares right instead");
}

TEST_CASE("abilities for 0 to 6 right: weighted all finite, plain only between", "[competency]") {
    const auto plain = plain_abilities(difficulties), weighted = weighted_abilities(difficulties);
    const double by_likelihood[] = {-2.16096696, -1.00277214, -.03333868, .96336521, 2.18855574};
    const double by_weight[] = {-3.37789647, -1.90448725, -.93473773, -.04719659,
                                .87863201,   1.93755625,  3.49661413};
    const double errors[] = {1.73548503, 1.13051679, 1.00018121, .97868860,
                             1.02331160, 1.16692100, 1.78495128};
    REQUIRE(plain.size() == 7);
    REQUIRE(weighted.size() == 7);
    for (std::size_t r = 1; r < 6; ++r) CHECK(value(plain[r].logits) == near(by_likelihood[r - 1]));
    CHECK(plain[0].logits.why() == "none right");
    CHECK(plain[6].logits.why() == "all right");
    for (std::size_t r = 0; r < 7; ++r) {
        CHECK(value(weighted[r].logits) == near(by_weight[r]));
        CHECK(value(weighted[r].standard_error) == near(errors[r]));
    }
}

TEST_CASE("fit of the six items by plain abilities, ten persons", "[competency]") {
    const auto fit = item_fit(responses_of(twelve_by_six), difficulties);  // [Py]; eRm agrees to 2e-5
    const double infit[] = {.82677728, .58200466, 1.44438329, 1.03589617, .53222262, .97823441};
    const double outfit[] = {.57478974, .44785956, 1.53659705, .88411254, .34121789, .49439646};
    for (std::size_t i = 0; i < 6; ++i) {
        CHECK(value(fit[i].infit) == near(infit[i]));
        CHECK(value(fit[i].outfit) == near(outfit[i]));
    }
    CHECK_FALSE(item_fit({{1, 1, 1, 1, 1, 1}}, difficulties)[0].infit.known());
}

TEST_CASE(
    "fourth row 111010: item 6 is solved only by the perfect scorer, so it has no finite estimate and is "
    "listed; the rest have theirs without it",
    "[competency]") {
    std::vector<std::string> rows =
        twelve_by_six;  // [Py] not strongly connected; [R] eRm refuses the same rows
    rows[3] = "111010";
    const RaschItems r = rasch_items(responses_of(rows));
    CHECK_FALSE(r.difficulty[5].known());
    CHECK(r.difficulty[5].why() == "all wrong among those used");
    double sum = 0;
    for (std::size_t i = 0; i < 5; ++i) sum += value(r.difficulty[i]);
    CHECK(sum == near(0));
    const std::vector<std::string> used(rows.begin() + 1, rows.end() - 1);
    CHECK_FALSE(strongly_connected(responses_of(used)));
    const std::vector<std::string> before(twelve_by_six.begin() + 1, twelve_by_six.end() - 1);
    CHECK(strongly_connected(responses_of(before)));
}

TEST_CASE("two easy items everyone got before two hard ones: no way back, the reason is given",
          "[competency]") {
    const RaschItems r = rasch_items(responses_of({"1000", "0100", "1100", "1110", "1101"}));
    CHECK(r.why == "no finite estimate: some items were always at least as well answered as the others");
    CHECK(r.difficulty[0].why() == r.why);
}

TEST_CASE("LSAT section 6, 1000 persons, from totals alone: five difficulties and their errors",
          "[competency]") {
    const RaschItems r = rasch_items_from_totals(lsat_right, lsat_scores);
    // [Py]: the conditional likelihood summed over all 32 patterns, SciPy's BFGS and a Newton step.
    const double b[] = {-1.25612846, .474906, 1.23598415, .16841058, -.62317228};
    const double errors[] = {.10440986, .0699169, .06877861, .07261885, .08591568};
    // [R], eRm: stops a few 1e-6 short.
    const double b_r[] = {-1.256128, .474907, 1.235981, .168410, -.623170};
    const double errors_r[] = {.104406, .069917, .068778, .072619, .085917};
    CHECK(r.persons == 699);
    CHECK(r.remark.empty());
    for (std::size_t i = 0; i < 5; ++i) {
        CHECK(value(r.difficulty[i]) == near(b[i], 1e-7));
        CHECK(value(r.standard_error[i]) == near(errors[i], 1e-7));
        CHECK(value(r.difficulty[i]) == near(b_r[i], 1e-5));
        CHECK(value(r.standard_error[i]) == near(errors_r[i], 5e-5));
    }
}

TEST_CASE("LSAT section 6: alpha .294997192 from the totals' mean and spread", "[competency]") {
    // Alpha needs only how often each item was right and how the totals spread. [R]
    double mean = 0, square = 0, within = 0;
    for (std::size_t r = 0; r < 6; ++r) {
        mean += static_cast<double>(r) * static_cast<double>(lsat_scores[r]) / 1000;
        square += static_cast<double>(r * r) * static_cast<double>(lsat_scores[r]) / 1000;
    }
    for (long long right : lsat_right) {
        const double p = static_cast<double>(right) / 1000;
        within += p * (1 - p);
    }
    CHECK(5.0 / 4 * (1 - within / (square - mean * mean)) == near(.294997192));
}

TEST_CASE("LSAT section 6, abilities spread N(0, 1): difficulties and ln L -2473.053847", "[competency]") {
    const MarginalRasch m = marginal_rasch(lsat_right, lsat_scores, 1);  // [R]
    const double b[] = {-2.871971, -1.063029, -.257611, -1.388059, -2.218778};
    for (std::size_t i = 0; i < 5; ++i) CHECK(value(m.difficulty[i]) == near(b[i], 5e-6));
    CHECK(value(m.log_likelihood) == near(-2473.053847, 5e-6));
}

TEST_CASE("twelve by six, spread of ability fitted: 1.627553, ln L -38.769435", "[competency]") {
    const std::vector<long long> right{9, 8, 6, 5, 3, 2}, with{1, 2, 3, 2, 2, 1, 1};
    const MarginalRasch m = marginal_rasch(right, with);  // [R]; ltm agrees
    const double b[] = {-1.596207, -1.027432, -.023716, .470467, 1.579335, 2.297122};
    CHECK(value(m.sd) == near(1.627553, 5e-6));
    for (std::size_t i = 0; i < 6; ++i) CHECK(value(m.difficulty[i]) == near(b[i], 5e-6));
    CHECK(value(m.log_likelihood) == near(-38.769435));
}

TEST_CASE("nothing to estimate: no persons, all right, one item; an item all right is dropped and named",
          "[competency]") {
    CHECK(rasch_items({}).why == "no persons");
    CHECK(rasch_items(responses_of({"111", "000", "111"})).why == "nobody had some right and some wrong");
    CHECK(rasch_items(responses_of({"1", "0"})).why == "nobody had some right and some wrong");
    const std::vector<long long> one{3}, with{2, 3};
    CHECK(rasch_items_from_totals(one, with).why == "needs 2 items");
    const RaschItems r = rasch_items(responses_of({"1110", "1101", "1011", "1100", "1010", "1001"}));
    CHECK(r.difficulty[0].why() == "all right among those used");
    const auto b = known({r.difficulty.begin() + 1, r.difficulty.end()});
    for (double d : b) CHECK(d == near(0));  // the other three are alike
}

TEST_CASE("28 persons are too few to publish, 30 and 98 provisional, 100 neither", "[competency]") {
    const auto remark_at = [](long long persons) {
        const std::vector<long long> right(4, persons / 2), with{0, 0, persons, 0, 0};
        return rasch_items_from_totals(right, with).remark;
    };
    CHECK(remark_at(28) == "too few persons to publish (30): show shares right instead");
    CHECK(remark_at(30) == "provisional: fewer than 100 persons");
    CHECK(remark_at(98) == "provisional: fewer than 100 persons");
    CHECK(remark_at(100).empty());
}

TEST_CASE("60 items keep their digits: equally often right gives 0 everywhere", "[competency]") {
    const std::vector<long long> right(60, 50);
    std::vector<long long> with(61);
    with[30] = 100;  // 100 persons with 30 of 60 right: each item right 50 times
    const RaschItems r = rasch_items_from_totals(right, with);
    REQUIRE(r.why.empty());
    for (const Figure& d : r.difficulty) CHECK(std::fabs(value(d)) < 1e-9);
}
