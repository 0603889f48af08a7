// 200 random tables: the figures of engine/competency against R 4.2 (Debian's r-base-core alone), to 1e-6.
#include "engine/competency/agreement.h"
#include "engine/competency/categories.h"
#include "engine/competency/icc.h"
#include "engine/competency/items.h"
#include "engine/competency/learning_curve.h"
#include "engine/competency/limits.h"
#include "engine/competency/line_fit.h"
#include "engine/competency/pass_rule.h"
#include "engine/competency/proportions.h"
#include "engine/competency/rasch.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <random>
#include <sstream>

using namespace engine;

namespace {

struct Ours {
    std::ostringstream tables;              // for R
    std::map<std::string, Figure> figures;  // "17 bias"
    std::mt19937 dice{20250101};            // its numbers are fixed by the standard
    int id = 0;

    int draw(int from, int to) {
        return from + static_cast<int>(dice() % static_cast<unsigned>(to - from + 1));
    }
    void begin(const char* kind) {
        ++id;
        tables << "\n" << id << " " << kind;
    }
    void give(double x) { tables << " " << x; }
    void put(const std::string& name, const Figure& f) {
        figures.insert_or_assign(std::to_string(id) + " " + name, f);
    }
};

void agreement_table(Ours& o) {
    o.begin("agreement");
    std::vector<double> truth, typed;
    const int n = o.draw(5, 60);
    for (int i = 0; i < n; ++i) truth.push_back(o.draw(90, 190));
    for (double t : truth) typed.push_back(t + o.draw(-8, 8) + o.draw(-8, 8));
    for (double t : truth) o.give(t);
    for (double t : typed) o.give(t);
    const CountErrors e = count_errors(truth, typed);
    o.put("bias", e.bias_bpm());
    o.put("bias_low", e.bias_interval().low);
    o.put("bias_high", e.bias_interval().high);
    o.put("sd", e.sd_bpm());
    o.put("rmse", e.rmse_bpm());
    o.put("size", e.mean_size_bpm());
    o.put("concordance", e.concordance());
    o.put("high", limits_of_agreement(e).high_bpm);
    const LimitFactors single = single_limit_factors(e.n()), pair = pair_limit_factors(e.n());
    o.put("single_0.025", single.inner);
    o.put("single_0.975", single.outer);
    o.put("pair_0.025", pair.inner);
    o.put("pair_0.975", pair.outer);
    const LineFit line = error_against_truth(truth, typed);
    o.put("slope", line.slope.value);
    o.put("slope_error", line.slope.standard_error);
    o.put("intercept", line.intercept.value);
}

void kappa_table(Ours& o) {
    o.begin("kappa");
    const auto k = static_cast<std::size_t>(o.draw(2, 4));
    CategoryTable table(k, std::vector<long long>(k));
    for (std::size_t i = 0; i < k; ++i)
        for (std::size_t j = 0; j < k; ++j) {
            table[i][j] = o.draw(1, i == j ? 40 : 12);
            o.give(static_cast<double>(table[i][j]));
        }
    for (const auto& [name, weights] :
         {std::pair{"none", KappaWeights::none}, std::pair{"linear", KappaWeights::linear},
          std::pair{"quadratic", KappaWeights::quadratic}}) {
        const Kappa found = kappa(table, weights);
        o.put(name, found.kappa);
        o.put(std::string(name) + "_error", found.standard_error);
    }
}

void shares_table(Ours& o) {
    o.begin("shares");
    const int n = o.draw(1, 90), m = o.draw(1, 90), x = o.draw(0, n), y = o.draw(0, m);
    for (int v : {x, n, y, m}) o.give(v);
    o.put("exact_low", clopper_pearson(x, n).low);
    o.put("exact_high", clopper_pearson(x, n).high);
    o.put("at_least", clopper_pearson_at_least(x, n));
    o.put("wilson_low", wilson(x, n).low);
    o.put("wilson_high", wilson(x, n).high);
    o.put("newcombe_low", newcombe(x, n, y, m).interval.low);
    o.put("newcombe_high", newcombe(x, n, y, m).interval.high);
    o.put("mcnemar", mcnemar_exact(x, y));
    o.put("passes", FixedRule{n, x}.passes(.83));
}

void icc_table(Ours& o) {
    o.begin("icc");
    const int n = o.draw(3, 20), k = o.draw(2, 6);
    o.give(n);
    o.give(k);
    std::vector<std::vector<double>> rows(static_cast<std::size_t>(n));
    for (auto& row : rows) {
        const int truth = o.draw(100, 180);
        for (int j = 0; j < k; ++j) row.push_back(truth + o.draw(-6, 6) + 2 * j);
        for (double x : row) o.give(x);
    }
    const Intraclass i = intraclass(rows);
    o.put("agreement", i.agreement);
    o.put("consistency", i.consistency);
    o.put("error", i.agreement_error_bpm);
    o.put("low", i.agreement_interval.low);
    o.put("high", i.agreement_interval.high);
}

void answers_table(Ours& o) {
    o.begin("answers");
    const int n = o.draw(12, 80), k = o.draw(3, 7);
    o.give(n);
    o.give(k);
    Responses responses(static_cast<std::size_t>(n));
    for (auto& person : responses) {
        const int skill = o.draw(20, 90);
        for (int i = 0; i < k; ++i) person.push_back(static_cast<char>(o.draw(0, 99) < skill - 5 * i));
        for (char right : person) o.give(right);
    }
    const ItemAnalysis found = item_analysis(responses);
    o.put("alpha", found.whole.alpha);
    o.put("feldt_low", found.whole.feldt.low);
    o.put("bonett_low", found.whole.bonett.low);
    const RaschItems rasch = rasch_items(responses);
    for (std::size_t i = 0; i < found.items.size(); ++i) {
        o.put("rest_" + std::to_string(i + 1), found.items[i].with_rest);
        o.put("rasch_" + std::to_string(i + 1), rasch.difficulty[i]);
    }
}

void passing_table(Ours& o) {
    o.begin("passing");
    const int n = o.draw(12, 40);
    std::vector<bool> passed;
    for (int i = 0; i < n; ++i) passed.push_back(o.draw(0, n) < 3 + i);
    passed[1] = true;  // so that fails and passes overlap
    passed[static_cast<std::size_t>(n - 2)] = false;
    for (bool p : passed) o.give(p);
    const PassingCurve p = fit_passing(passed);
    o.put("b0", p.b0);
    o.put("b1", p.b1);
    o.put("b1_error", p.b1_error);
    o.put("b1_p", p.b1_p);
}

}  // namespace

TEST_CASE(
    "200 random tables: bias, limits, kappa, shares, agreement, items and curves as R finds them, to 1e-6",
    "[outside][statistics][.slow]") {
    if (std::system("command -v Rscript >/dev/null") != 0)
        FAIL("not tried: Rscript (Debian's r-base-core) is not installed");
    Ours o;
    for (int i = 0; i < 60; ++i) agreement_table(o);
    for (int i = 0; i < 30; ++i) kappa_table(o);
    for (int i = 0; i < 40; ++i) shares_table(o);
    for (int i = 0; i < 30; ++i) icc_table(o);
    for (int i = 0; i < 30; ++i) answers_table(o);
    for (int i = 0; i < 10; ++i) passing_table(o);
    REQUIRE(o.id == 200);
    const auto folder = std::filesystem::temp_directory_path();
    const std::string mine = std::to_string(std::random_device{}());
    const std::string tables = folder / ("tables-" + mine), found = folder / ("found-" + mine);
    std::ofstream(tables) << o.tables.str() << "\n";
    const std::string command = "Rscript --vanilla " FULLMINUTE_SOURCE_DIR "/tests/outside/statistics_r.R " +
                                tables + " > " + found + " 2> " + found + ".err";
    const int status = std::system(command.c_str());
    if (status != 0) {
        std::ostringstream said;
        said << std::ifstream(found + ".err").rdbuf();
        FAIL("R stopped: " << said.str());
    }
    std::ifstream in(found);
    std::string id, name;
    double theirs = 0;
    int compared = 0;
    while (in >> id >> name >> theirs) {
        INFO("table " << id << ", " << name);
        const auto ours = o.figures.find(id + " " + name);
        REQUIRE(ours != o.figures.end());
        REQUIRE(ours->second.known());
        CHECK(*ours->second == Approx(theirs).epsilon(0).margin(1e-6));
        ++compared;
    }
    CHECK(compared > 1800);
    for (const std::string& path : {tables, found, found + ".err"}) std::filesystem::remove(path);
}
