// `fullminute figures` on tables, as typed in a shell. Expected values are those of tests/engine/competency
// (R, SciPy); here it is the way from the file to the printed figure.
#include <catch2/catch.hpp>

#include "tests/ui/terminal/run_program.h"

#include <nlohmann/json.hpp>

#include <cmath>
#include <sstream>

using nlohmann::json;

namespace {

Approx near(double printed) { return Approx(printed).epsilon(0).margin(1e-6); }

json figures_of(const Folder& folder, const std::string& table, const std::string& words) {
    folder.write("t.csv", table);
    const Run run = folder.run("figures t.csv --json --of " + words);
    INFO(run.err);
    REQUIRE(run.exit == 0);
    CHECK(run.err.empty());
    return json::parse(run.out);
}

std::string answers(const std::vector<std::string>& rows) {
    std::string table = "item,who,right\n";
    for (std::size_t p = 0; p < rows.size(); ++p)
        for (std::size_t i = 0; i < rows[p].size(); ++i)
            table += "i" + std::to_string(i + 1) + ",A-" + std::to_string(100 + p) + "," + rows[p][i] + "\n";
    return table;
}

const std::string eight_counts =
    "who,typed,truth,method,item\nA-001,118,120,60 s,c01\nA-001,130,132,60 s,c02\nA-001,144,140,60 s,c03\n"
    "A-001,146,148,60 s,c04\nA-002,150,152,15 s x 4,c05\nA-002,156,160,15 s x 4,c06\nA-002,108,110,15 s x "
    "4,c07\n"
    "A-002,144,144,15 s x 4,c08\n";

const std::vector<std::string> twelve_by_six{"111111", "111110", "111100", "110011", "110100", "111000",
                                             "101000", "110000", "010100", "100000", "001000", "000000"};

}  // namespace

TEST_CASE("eight counts in a file: bias -1.25, exact limits, by method and person, pooling is said",
          "[terminal]") {
    const Folder folder;
    const json f = figures_of(folder, eight_counts, "agreement --by who");
    CHECK(f["n"] == 8);
    CHECK(f["bias_bpm"].get<double>() == near(-1.25));
    CHECK(f["concordance"].get<double>() == near(0.986788618));
    CHECK(f["limits"]["high_exact_high"].get<double>() == near(8.829527595));
    CHECK(f["limits"]["pair_outer_factor"].get<double>() == near(4.247787453));
    CHECK(f["error_against_truth"]["slope"].get<double>() == near(-0.010949834));
    CHECK(f["by_method"].size() == 2);
    CHECK(f["by_method"][0]["name"] == "60 s");
    CHECK(f["by_method"][0]["bias_bpm"].get<double>() == near(-0.5));
    CHECK(f["by_who"][1]["bias_bpm"].get<double>() == near(-2));
    CHECK(f["by_band"][0]["n"] == 0);  // 110 and 160 are normal
    CHECK(f["by_band"][1]["n"] == 8);
    CHECK(f["by_band"][0]["bias_bpm"].is_null());
    CHECK(f["by_band"][0]["absent"]["bias_bpm"] == "no counts");
    CHECK(f["remarks"][0] == "pooled over 2 people");
    CHECK(f["remarks"][1] == "pooled over 2 methods");
}

TEST_CASE("quoted cells, CR LF, a byte-order mark, empty lines and columns not asked for read the same",
          "[terminal]") {
    const Folder folder;
    const json plain = figures_of(folder, "truth,typed\n140,138.5\n150,150\n130,131\n", "agreement");
    const json odd =
        figures_of(folder,
                   "\xef\xbb\xbf\"typed\", note ,truth\r\n\"138.5\",\"a, \"\"b\"\"\nc\",140\r\n\r\n"
                   "1.5e2,,150\r\n131,x,130",
                   "agreement");
    CHECK(odd == plain);
}

TEST_CASE("300 people with long and short codes, mixed rows: each keeps its own counts", "[terminal]") {
    const Folder folder;
    std::string table = "who,truth,typed\n";
    for (int round = 0; round < 3; ++round)
        for (int person = 0; person < 300; ++person)
            table += (person % 2 == 0 ? "A-" : "marrowell-station-") + std::to_string(person) + ",140," +
                     std::to_string(140 + person % 7 + round) + "\n";
    const json f = figures_of(folder, table, "agreement --by who");
    REQUIRE(f["by_who"].size() == 300);
    for (int person = 0; person < 300; ++person) {
        const json& one = f["by_who"][static_cast<std::size_t>(person)];
        CHECK(one["name"] == (person % 2 == 0 ? "A-" : "marrowell-station-") + std::to_string(person));
        CHECK(one["n"] == 3);
        CHECK(one["bias_bpm"].get<double>() == near(person % 7 + 1));
    }
}

TEST_CASE("a header alone: every figure null with its reason", "[terminal]") {
    const Folder folder;
    const json f = figures_of(folder, "truth,typed,method\n", "agreement");
    CHECK(f["n"] == 0);
    CHECK(f["bias_bpm"].is_null());
    CHECK(f["absent"]["bias_bpm"] == "no counts");
    CHECK(f["limits"]["absent"]["high_bpm"] == "limits need 2 counts");
    CHECK(figures_of(folder, "who,item,right\n", "items")["absent"]["alpha"] == "needs 2 persons");
    CHECK(figures_of(folder, "truth,typed\n", "kappa")["absent"]["kappa"] == "no calls");
    CHECK(figures_of(folder, "size\n", "curve")["curves"][0]["absent"]["a"] == "a curve needs 6 attempts");
}

TEST_CASE("kappa with ordered categories, sensitivity and predictive values", "[terminal]") {
    const Folder folder;
    const char* words[] = {"slow", "normal", "fast"};
    const int counts[3][3] = {{9, 1, 0}, {2, 24, 2}, {0, 3, 9}};
    std::string table = "truth,typed\n";
    for (int i = 0; i < 3; ++i)
        for (int j = 0; j < 3; ++j)
            for (int n = 0; n < counts[i][j]; ++n) table += std::string(words[i]) + "," + words[j] + "\n";
    const json f =
        figures_of(folder, table, "kappa --weights linear --order slow,normal,fast --prevalence 0.1");
    CHECK(f["kappa"].get<double>() == near(0.766899767));
    CHECK(f["standard_error_at_zero"].get<double>() == near(0.103757624));
    CHECK(f["abnormal"]["sensitivity"].get<double>() == near(.818181818));
    CHECK(f["abnormal"]["positive_predictive"].get<double>() == near(.388888889));
    CHECK(f["table"][1]["typed"] == json::array({2, 24, 2}));
    CHECK(folder.run("figures t.csv --of kappa --weights linear").exit == 2);
    CHECK(folder.run("figures t.csv --of kappa --weights heavy").exit == 2);
    const Run unknown = folder.run("figures t.csv --of kappa --order slow,normal");
    CHECK(unknown.exit == 2);
    CHECK(lines_of(unknown.err).size() == 2 + 3 + 9 + 9);  // each cell that is not a word of the order
}

TEST_CASE("who, item, right: reliability, items, Rasch and consistency from one table", "[terminal]") {
    const Folder folder;
    const std::string table = answers(twelve_by_six);
    const json whole = figures_of(folder, table, "reliability");
    CHECK(whole["alpha"].get<double>() == near(.683211679));
    CHECK(whole["scores"].size() == 7);
    // Lord: x (k - x) / (k - 1)
    CHECK(whole["scores"][3]["standard_error"].get<double>() == near(std::sqrt(3 * 3 / 5.)));
    const json items = figures_of(folder, table, "items");
    CHECK(items["each"][4]["name"] == "i5");
    CHECK(items["each"][4]["with_rest"].get<double>() == near(.625543242));
    const json rasch = figures_of(folder, table, "rasch");
    CHECK(rasch["items"][0]["difficulty"].get<double>() == near(-1.84242891));
    CHECK(rasch["scores"][6]["ability"].get<double>() == near(3.49661413));
    CHECK(rasch["scores"][1]["unweighted_ability"].get<double>() == near(-2.16096696));  // [Py]
    CHECK(rasch["absent"]["marginal_sd"] == "too few persons to publish (30)");
    CHECK(rasch["persons"][0]["name"] == "A-100");
    CHECK(rasch["items"][0].contains("infit") == false);            // too few persons
    CHECK(folder.run("figures t.csv --of consistency").exit == 2);  // no mark
    CHECK(figures_of(folder, table, "consistency --mark 4")["kr21"].get<double>() == near(.573722628));
    const json gap = figures_of(folder, table + "i1,A-200,1\n", "reliability");
    CHECK(gap["persons"] == 12);
    CHECK(gap["remarks"][0] == "alpha: items are right or wrong, so it is KR-20");
    CHECK(gap["remarks"][1] == "1 person with gaps left out: A-200");
}

TEST_CASE("five windows by three trainees: agreement .972649966", "[terminal]") {
    const Folder folder;
    const int counts[5][3] = {
        {120, 118, 124}, {140, 138, 141}, {152, 150, 158}, {132, 132, 134}, {164, 160, 166}};
    std::string table = "who,item,typed\n";
    for (int i = 0; i < 5; ++i)
        for (int j = 0; j < 3; ++j)
            table += "A-" + std::to_string(j) + ",w" + std::to_string(i) + "," +
                     std::to_string(counts[i][j]) + "\n";
    const json f = figures_of(folder, table, "icc");
    CHECK(f["agreement"].get<double>() == near(.972649966));
    CHECK(f["agreement_error_bpm"].get<double>() == near(2.816617357));
}

TEST_CASE("learning, curve, pass rule, sequential and tolerance tables", "[terminal]") {
    const Folder folder;
    std::string series = "right\n";
    for (char c : std::string("SFSSFSSSFSSSSSSSSSSSSSS")) series += c == 'S' ? "1\n" : "0\n";
    const json learning = figures_of(folder, series, "learning --attempts 30");
    CHECK(learning["false_signal"].get<double>() <= 0.05);
    CHECK(learning["persons"][0]["s"][22].get<double>() == near(3.518402));
    CHECK(learning["persons"][0]["adequate_at"].is_null());  // the threshold for 30 is above 3.5184
    CHECK(folder.run("figures t.csv --of learning --attempts 301").exit == 2);
    // 0.7^8 = 0.058 and 0.7^9 = 0.040: eight right in a row come by chance too often
    const char* none = "none can be reached: at least 9 attempts are needed";
    CHECK(folder.run("figures t.csv --of learning --attempts 8").out.find(none) != std::string::npos);
    CHECK(folder.run("figures t.csv --of learning --attempts 9").out.find("none can") == std::string::npos);
}

TEST_CASE("pass marks, refresher and a drawn form", "[terminal]") {
    const Folder folder;
    const double ratings[5][6] = {{.80, .75, .60, .55, .40, .70},
                                  {.85, .70, .65, .60, .45, .75},
                                  {.75, .80, .55, .50, .35, .65},
                                  {.90, .75, .70, .60, .50, .80},
                                  {.80, .70, .60, .50, .40, .70}};
    std::ostringstream judges;
    judges << "who,item,rating\n";
    for (int j = 0; j < 5; ++j)
        for (int i = 0; i < 6; ++i) judges << "J" << j << ",i" << i << "," << ratings[j][i] << "\n";
    const json angoff = figures_of(folder, judges.str(), "angoff");
    CHECK(angoff["cut"].get<double>() == near(3.87));
    CHECK(angoff["mark"] == 4);
    folder.write("gap.csv", judges.str() + "J9,i0,0.5\n");
    CHECK(folder.run("figures gap.csv --of angoff").exit == 2);  // no judge is dropped silently
    const json borderline =
        figures_of(folder, "rating,score\n1,9\n1,11\n2,13\n2,12\n2,15\n3,16\n3,18\n3,17\n4,21\n4,20\n",
                   "borderline --borderline 2");
    CHECK(borderline["cut"].get<double>() == near(13.438095238));
    const json refresher = figures_of(folder, "months,right,items\n9,7,10\n", "refresher");
    CHECK(std::abs(refresher["half_life_months"].get<double>() - 6.928181) < 1e-4);
    CHECK(refresher["remarks"][0] == "estimate mostly assumption");
    // H = 1.5 months, target .85: .543855 .978939 1.762091 3.171763 4.350841 [Py]; here H = 6.928181, then x
    // 1.8, at most 12.
    const json& gaps = refresher["gaps_months_when_each_is_passed"];
    REQUIRE(gaps.size() == 5);
    CHECK(std::abs(gaps[0].get<double>() - 6.928181 * std::log2(.45 / .35)) < 1e-4);
    CHECK(std::abs(gaps[2].get<double>() - 12 * std::log2(.45 / .35)) < 1e-4);
    CHECK(figures_of(folder, "months,right,items\n0,5,10\n",
                     "refresher")["absent"]["half_life_from_checks_alone"] ==
          "no time had passed at any check");
    CHECK(figures_of(folder, "who,item,rating\n", "angoff")["mark"].is_null());
    std::string pool = "item,group\n";
    for (const char* id :
         {"B01", "B02", "B03", "B04", "N01", "N02", "N03", "N04", "N05", "N06", "T01", "T02", "T03", "T04"})
        pool += std::string(id) + "," + id[0] + "\n";
    const json form = figures_of(folder, pool, "form --seed 2025-annual --form A --quota B=2,N=3,T=2");
    CHECK(form["drawn"] == json::array({"B01", "B04", "N06", "N01", "N02", "T02", "T03"}));
    const Run greedy = folder.run("figures t.csv --of form --seed s --quota B=5,N=3,T=2");
    CHECK(greedy.exit == 2);
    CHECK(greedy.err == "t.csv: stratum B, found 4 items, allowed: at least 5\n");
}

TEST_CASE("A form drawn as hard as its pool; 4 of 6 on form A is 3.953 on form B", "[terminal]") {
    const Folder folder;
    std::string two = "form,difficulty\n";
    for (const char* b : {"-1", "-.5", "0", ".5", "1", "1.5"}) two += std::string("A,") + b + "\n";
    for (const char* b : {"-.8", "-.6", ".2", ".4", ".9", "1.7"}) two += std::string("B,") + b + "\n";
    const json equate = figures_of(folder, two, "equate --mark 4");  // [Py]
    CHECK(equate["forms"][0]["ability"].get<double>() == near(1.060704317));
    CHECK(equate["forms"][0]["cut"].get<double>() == near(3.953433524));
    CHECK(equate["forms"][0]["mark"] == 4);
    CHECK(equate["forms"][0]["first_passes_at_ability"].get<double>() == near(0.690679747));
    CHECK(equate["forms"][0]["passes_at_ability"].get<double>() == near(0.675691515));
    CHECK(folder.run("figures t.csv --of equate --mark 6").err ==
          "--mark, found 6, allowed: 1 to the first form's items less 1, 5\n");

    // Forty items from -2 to 1.9 logits; any ten of them lie within 0.15 of their mean only by search.
    std::string pool = "item,group,difficulty\n";
    for (int i = 0; i < 40; ++i)
        pool += "i" + std::to_string(100 + i) + ",N," + std::to_string(-2 + 0.1 * i) + "\n";
    const json form = figures_of(folder, pool, "form --seed s1 --quota N=10 --mark 8");
    CHECK(form["drawn"].size() == 10);
    CHECK(std::abs(form["mean_difficulty"].get<double>() - -0.05) <= 0.15);
    CHECK(form["mean_difficulty_wanted"].get<double>() == near(-0.05));
    CHECK(form["information"].get<double>() >= 0.9 * form["information_wanted"].get<double>());
    CHECK(figures_of(folder, pool, "form --seed s1 --quota N=10 --mark 8") == form);
    CHECK(folder.run("figures t.csv --of form --seed s1 --quota N=10").exit == 2);
}

TEST_CASE(
    "Signal at attempt 23, then the monitoring chart up to 3.640506; a second try raises .0905 to .1728",
    "[terminal]") {
    const Folder folder;
    std::string series = "item,right\n";
    int item = 0;
    for (const char c : std::string("SFSSFSSSFSSSSSSSSSSSSSSSSSSFSSFSFFS"))
        series += "i" + std::to_string(++item) + "," + (c == 'S' ? "1" : "0") + "\n";
    series += "i5,1\n";
    const json learning = figures_of(folder, series, "learning --false-signal 0.0513");  // [Py]
    CHECK(learning["threshold"].get<double>() <= 3.5);  // no chart of these steps tells 3.49 from 3.5
    CHECK(learning["persons"][0]["adequate_at"] == 23);
    CHECK(learning["persons"][0]["n"] == 35);
    CHECK(learning["persons"][0]["monitoring"][10].get<double>() == near(3.640506));
    CHECK(learning["persons"][0]["absent"]["practice_offered_at"] == "no alarm since");
    CHECK(std::abs(learning["false_alarm_within_50"].get<double>() - 0.0510) < 5e-5);
    CHECK(learning["remarks"][0] == "left out, an item seen before is not independent: 1 row");
    const json rule = figures_of(folder, "must_fail,must_pass\n.7,.9\n", "passrule")["rules"][0];  // [R]
    CHECK(rule["false_pass_in_2"].get<double>() == near(0.172759));
    CHECK(rule["false_pass_in_3"].get<double>() == near(0.247601));
    CHECK(rule["false_pass_a_try_in_2"].get<double>() == near(0.051316702));
}

TEST_CASE("shares: a sorted list with intervals, and two persons on the same items compared", "[terminal]") {
    const Folder folder;
    std::string table = "who,item,right\n";  // 1 item only the first got, 7 only the second, 4 both
    for (int i = 0; i < 12; ++i) {
        table += "A-001,i" + std::to_string(i) + "," + (i == 0 || i > 7 ? "1" : "0") + "\n";
        table += "A-002,i" + std::to_string(i) + "," + (i > 0 ? "1" : "0") + "\n";
    }
    const json f = figures_of(folder, table, "shares");
    CHECK(f["persons"][0]["name"] == "A-002");
    CHECK(f["compared"]["p_same_items"].get<double>() == near(0.0703125));
    CHECK(f["compared"]["only_second_right"] == 7);
}

TEST_CASE("as text: one line a figure, absent ones say why; --help lists every kind with its columns",
          "[terminal]") {
    const Folder folder;
    folder.write("t.csv", "truth,typed\n140,138\n");
    const Run run = folder.run("figures t.csv --of agreement");
    CHECK(run.exit == 0);
    CHECK(run.out.find("bias_bpm                     -2\n") != std::string::npos);
    CHECK(run.out.find("sd_bpm                       - (a spread needs 2 counts, there is 1)\n") !=
          std::string::npos);
    const std::string help = folder.run("figures --help").out;
    for (const char* kind :
         {"agreement", "repeat", "habits",      "icc",       "kappa", "shares",   "reliability",
          "items",     "rasch",  "consistency", "learning",  "curve", "passrule", "sequential",
          "tolerance", "angoff", "borderline",  "refresher", "form",  "equate"}) {
        INFO(kind);
        CHECK(help.find(std::string("\n  ") + kind + " ") != std::string::npos);
    }
    CHECK(help.find("truth, typed; may have who, item, method, instrument, mode, task, group") !=
          std::string::npos);
    const std::size_t at = help.find("Example: fullminute figures ");
    REQUIRE(at != std::string::npos);
    std::string example = help.substr(at + 9);
    example = example.substr(0, example.find('\n'));
    CHECK(text_of(FULLMINUTE_SOURCE_DIR "/README.md").find("build/" + example) != std::string::npos);
}

TEST_CASE(
    "weighted linear, 40 of 50 on the diagonal, 6 one step off: raw .80, weighted .86; n of both shares",
    "[terminal]") {
    const Folder folder;
    const char* words[] = {"slow", "normal", "fast"};
    const int counts[3][3] = {{10, 2, 0}, {2, 20, 2}, {4, 0, 10}};
    std::string table = "truth,typed\n";
    for (int i = 0; i < 3; ++i)
        for (int j = 0; j < 3; ++j)
            for (int n = 0; n < counts[i][j]; ++n) table += std::string(words[i]) + "," + words[j] + "\n";
    const json plain = figures_of(folder, table, "kappa");
    CHECK(plain["raw_agreement"].get<double>() == near(.80));
    CHECK_FALSE(plain.contains("weighted_agreement"));
    const json linear = figures_of(folder, table, "kappa --weights linear --order slow,normal,fast");
    CHECK(linear["raw_agreement"].get<double>() == near(.80));  // by hand
    CHECK(linear["weighted_agreement"].get<double>() == near(.86));
    CHECK(linear["abnormal"]["sensitivity_n"] == 26);
    CHECK(linear["abnormal"]["specificity_n"] == 24);
    CHECK(linear["remarks"].back() == "intervals (_low, _high): 95 %, two-sided, unless said");
}

TEST_CASE("127.8 read as 129.8 is within 2 bpm in agreement and in the cohort alike", "[terminal]") {
    const Folder folder;
    const std::string table = "who,item,truth,typed\nA,i1,127.8,129.8\nA,i2,126.3,128.3\nA,i3,127.3,125.3\n";
    CHECK(figures_of(folder, table, "agreement")["share_within"] == 1);
    const json cohort = figures_of(folder, table, "cohort");
    CHECK(cohort["share_within"] == 1);
    CHECK(cohort["within_bpm"] == 2);
}

TEST_CASE("three people met item i1, two of them all items: n 3 for its errors, 2 for its difficulty",
          "[terminal]") {
    const Folder folder;
    const json f = figures_of(folder,
                              "who,item,truth,typed\nA,i1,140,140\nA,i2,140,140\nB,i1,140,120\n"
                              "B,i2,140,140\nC,i1,140,120\n",
                              "cohort --by item");
    CHECK(f["by_item"][0]["n"] == 3);
    CHECK(f["by_item"][0]["answers_n"] == 2);
    CHECK(f["by_item"][0]["difficulty"] == 0.5);
    CHECK(f["answers"]["remarks"].back() == "1 person with gaps left out");
    CHECK(f["answers"]["right"] == "within two beats or 5 bpm of the truth, whichever is more");
}

TEST_CASE("empty lines at the end of one column are none; a name in UTF-8 stays what it is", "[terminal]") {
    const Folder folder;
    CHECK(figures_of(folder, "right\n1\n0\n\n\n", "sequential")["items_used"] == 2);
    CHECK(figures_of(folder, "who,right\nB\xc3\xa9la,1\n", "shares")["persons"][0]["name"] == "B\xc3\xa9la");
}

TEST_CASE("a Guttman table leaves nothing to estimate and says so; the borderline mean stands without a line",
          "[terminal]") {
    const Folder folder;
    const json rasch = figures_of(folder, answers({"1000", "1100", "1110"}), "rasch");
    CHECK(rasch["remarks"][0] == "nothing is left once items and people all right or all wrong are left out");
    CHECK(figures_of(folder, answers({"1111", "0000"}), "rasch")["remarks"][0] ==
          "nobody had some right and some wrong");
    const json few = figures_of(folder, "rating,score\n1,9\n2,13\n2,12\n2,15\n3,16\n", "borderline");
    CHECK(few["cut"].is_null());
    CHECK(few["group_mean"].get<double>() == near(40 / 3.));
}
