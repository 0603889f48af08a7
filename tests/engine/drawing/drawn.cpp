// Drawn scenarios: without a fault, to be heard, and by the key what was asked.
#include "tests/engine/drawing/drawn.h"

using namespace drawn;

TEST_CASE("60 drawn of everything: read without a fault, heard for 5 s, and by the key what was asked",
          "[drawn]") {
    all_of_them(
        drawn_from(
            quota_of("scenarios = 60\nboundary = \"5 %\"\n[variants]\ninjection = \"4 %\"\nhigh_pressure = "
                     "\"4 %\"\n"
                     "preterm = \"4 %\"\nthin_green = \"4 %\"\ngenerator = \"4 %\"\nin_water = \"4 %\"\n"
                     "interrupted = \"4 %\"\nsecond_twin = \"4 %\"\n"),
            11),
        100);
}

TEST_CASE("Nearly all are what was asked at the first drawing: at least 8 of 10 of a mixed hundred",
          "[drawn]") {
    const auto drawn = drawn_from(quota_of("scenarios = 100\n"), 2);
    CHECK(std::count_if(drawn.begin(), drawn.end(), [](const auto& one) { return one.drawings == 1; }) >= 80);
}

TEST_CASE("The hardest to hear can be drawn: level 5, back behind, through horn and stethoscope", "[drawn]") {
    all_of_them(
        drawn_from(
            quota_of("scenarios = 30\n[levels]\n5 = \"100 %\"\n[instruments]\nhorn = \"50 %\"\n"
                     "stethoscope = \"50 %\"\n[positions]\nback_behind = \"90 %\"\nacross = \"10 %\"\n"),
            3),
        300);
}

TEST_CASE("1,000 drawn of everything: read without a fault, heard for 5 s, and by the key what was asked",
          "[drawn][.slow]") {
    all_of_them(
        drawn_from(
            quota_of("scenarios = 1000\nboundary = \"5 %\"\n[variants]\ninjection = \"3 %\"\nhigh_pressure = "
                     "\"3 %\"\n"
                     "preterm = \"4 %\"\nthin_green = \"4 %\"\ngenerator = \"4 %\"\nin_water = \"4 %\"\n"
                     "interrupted = \"4 %\"\nsecond_twin = \"4 %\"\n"),
            1),
        5000);
}

TEST_CASE("The shipped quotas draw: a first week of 24, a year's check of 25, shares as written", "[drawn]") {
    const auto week = drawn_from(quota_at("first-week"), 3);
    REQUIRE(week.size() == 24);
    std::map<std::string_view, int> tasks;
    int normals = 0;
    for (const DrawnScenario& one : week) {
        ++tasks[one.asked.what.word(Axis::task)];
        normals += one.asked.what.is_normal() ? 1 : 0;
    }
    CHECK(normals == 15);
    CHECK(tasks["count"] == 9);
    CHECK(tasks["find"] == 6);
    CHECK(tasks["tell_apart"] == 6);
    CHECK(tasks["pattern"] == 3);
    const auto check = drawn_from(quota_at("year-check"), 3);
    REQUIRE(check.size() == 25);
    CHECK(std::count_if(check.begin(), check.end(),
                        [](const auto& one) { return one.asked.what.is_normal(); }) == 14);
}

TEST_CASE("Same quota and seed: same bytes; another seed: other hearts, other women, other ids", "[drawn]") {
    const Quota quota = quota_at("first-week");
    const auto a = drawn_from(quota, 7), b = drawn_from(quota, 7), c = drawn_from(quota, 8);
    REQUIRE(a.size() == b.size());
    std::set<std::string> ids, texts;
    for (std::size_t i = 0; i < a.size(); ++i) {
        CHECK(a[i].text == b[i].text);
        CHECK(a[i].text != c[i].text);
        ids.insert(a[i].id);
        texts.insert(a[i].text);
    }
    CHECK(ids.size() == a.size());
    CHECK(texts.size() == a.size());
    CHECK(a[2].id == "d7-003");
    CHECK(a[2].text.find("id = \"d7-003\"") != std::string::npos);
}

TEST_CASE("A count broken into: somebody speaks to the trainee within the first 140 s, she does not",
          "[drawn]") {
    const auto drawn = drawn_from(quota_of("scenarios = 10\n[variants]\ninterrupted = \"100 %\"\n"), 12);
    for (const DrawnScenario& one : drawn) {
        const Scenario s = read_scenario(one.text, one.id + ".toml").value();
        REQUIRE(s.call_outs.size() == 1);
        CHECK(s.call_outs[0].kind == CallOut::Kind::interrupted);
        CHECK((s.call_outs[0].at.value >= 60 && s.call_outs[0].at.value <= 140));
    }
}

TEST_CASE("In a drawn labour every act that reveals finds exactly one line, at any moment", "[drawn]") {
    const Protocol who = shipped_protocol("who-2018");
    const auto drawn = drawn_from(quota_of("scenarios = 40\n[tasks]\nlabour = \"100 %\"\n"), 9);
    for (const DrawnScenario& one : drawn) {
        const Scenario s = read_scenario(one.text, one.id + ".toml").value();
        for (const ActWords& act : who.acts) {
            if (!act.reveals || act.id == "count_contractions") continue;  // a hand feels these
            for (double t = 0; t < s.length.value; t += 10) {
                int lines = 0;
                for (const Finding& f : s.findings)
                    lines += f.act == act.id && f.from.value <= t && t < f.until.value ? 1 : 0;
                INFO(one.id << " " << act.id << " at " << t << " s");
                REQUIRE(lines == 1);
            }
        }
        for (const Finding& f : s.findings)
            CHECK((f.situation.empty() || who.situation(f.situation) != nullptr));
    }
}

TEST_CASE("Fever goes with its temperature and foul waters with theirs; a normal woman has none of it",
          "[drawn]") {
    const auto drawn = drawn_from(
        quota_of("scenarios = 40\nnormal = \"50 %\"\n[tasks]\nlabour = \"100 %\"\n[levels]\n3 = \"100 %\"\n"
                 "[when_not_normal]\nfast = \"100 %\"\n"
                 "[causes]\nfever = \"50 %\"\nmothers_medicine = \"25 %\"\nnone_found = \"25 %\"\n"),
        4);
    int fevers = 0;
    for (const DrawnScenario& one : drawn) {
        const Scenario s = read_scenario(one.text, one.id + ".toml").value();
        const bool fever = s.middle.cause.trouble == sim::Trouble::fever;
        fevers += fever ? 1 : 0;
        INFO(one.id);
        CHECK((s.middle.mother.temperature_c >= 38) == fever);
        if (s.labour.waters == Waters::foul) CHECK(fever);
        bool found = false;
        for (const Finding& f : s.findings)
            if (f.act == "take_temperature") {
                found = f.situation == "fever";
                // The thermometer reads what the body has.
                CHECK(std::stod(f.says) == Approx(s.middle.mother.temperature_c));
            }
        CHECK(found == fever);
    }
    CHECK(fevers == 10);
}

TEST_CASE("Title and story give nothing away: no word of the heart, of trouble, or of an answer", "[drawn]") {
    const std::regex hint(
        "fast|slow|normal|abnormal|fever|hot|cord|distress|late decel|bleed|danger|irregular|absent|"
        "cannot be found|trouble|quiet since|emergency|weak|faint",
        std::regex::icase);
    for (const DrawnScenario& one : drawn_from(quota_of("scenarios = 120\n"), 21)) {
        const Scenario s = read_scenario(one.text, one.id + ".toml").value();
        INFO(s.title << ": " << s.story);
        CHECK_FALSE(std::regex_search(s.title, hint));
        CHECK_FALSE(std::regex_search(s.story, hint));
    }
}

TEST_CASE("A quota that cannot be met names the two shares and why", "[drawn]") {
    const auto faults_of = [](const std::string& body) {
        const auto drawn = draw(quota_of(body), shipped_protocol("who-2018"), {1});
        return drawn.ok() ? std::vector<std::string>{} : lines_of(drawn.faults());
    };
    const auto post = faults_of(
        "scenarios = 20\n[places]\npost = \"100 %\"\n[instruments]\nhorn = \"50 %\"\ndoppler = \"50 %\"\n");
    REQUIRE(post.size() == 1);
    CHECK(post[0] ==
          "a-set.toml:5: places.post, found 20 of 20, allowed: at most 10, as many as instruments asks of "
          "horn, "
          "stethoscope (line 7): the post has a horn and a stethoscope, no Doppler");
    const auto late = faults_of(
        "scenarios = 20\nnormal = \"40 %\"\n[tasks]\nfind = \"100 %\"\n[when_not_normal]\nlate = \"50 %\"\n"
        "twins = \"50 %\"\n");
    REQUIRE_FALSE(late.empty());
    CHECK(late[0].find("when_not_normal.late, found 6 of 20, allowed: at most 0") != std::string::npos);
    CHECK(late[0].find("listens through them") != std::string::npos);
    const auto calm_cause = faults_of(
        "scenarios = 10\n[when_not_normal]\nslow = \"100 %\"\n[causes]\nfever = \"40 %\"\nnone_found = \"60 "
        "%\"\n");
    REQUIRE(calm_cause.size() == 1);
    CHECK(calm_cause[0] ==
          "a-set.toml:5: when_not_normal.slow, found 5 of 10, allowed: at most 3, as many as causes asks of "
          "none_found (line 7): nothing behind it that could be found at the bedside");
    const auto still =
        faults_of("scenarios = 10\nto_nothing = \"50 %\"\n[when_not_normal]\nfast = \"100 %\"\n");
    REQUIRE(still.size() == 1);
    CHECK(still[0].find(
              "a-set.toml:5: to_nothing, found 50 %, allowed: only with late, variable or prolonged") == 0);
    const auto first_day =
        faults_of("scenarios = 10\n[levels]\n1 = \"100 %\"\n[when_not_normal]\nabsent = \"100 %\"\n");
    REQUIRE_FALSE(first_day.empty());
    CHECK(first_day[0].find("too hard below level 4") != std::string::npos);
}
