// `fullminute figures STORE`: which kept counts go into which figure. Expected values by hand.
#include "engine/store/made_up_counts.h"
#include "engine/store/store.h"

#include <catch2/catch.hpp>

#include "tests/ui/terminal/run_program.h"

#include <nlohmann/json.hpp>

#include <algorithm>

using engine::HeartCounted;
using nlohmann::json;

namespace {

struct Keeping {
    engine::CountColumns c;

    Keeping() {
        c.people = {"", "A-001", "A-002"};
        c.items.emplace_back();
        for (int i = 1; i <= 40; ++i) c.items.push_back("c" + std::to_string(i));
    }
    // One minute of 140 bpm.
    Keeping& count(int person, int item, int typed_bpm, HeartCounted heart = HeartCounted::baby,
                   int instrument = 1, int mode = 0) {
        const int n = static_cast<int>(c.attempt.size());
        c.attempt.push_back(n + 1);
        c.place.push_back(0);
        c.person.push_back(static_cast<std::uint32_t>(person));
        c.item.push_back(static_cast<std::uint32_t>(item));
        c.finished_s.push_back(1'700'000'000 + 100LL * n);
        c.plan_s.push_back(60);
        c.instrument.push_back(static_cast<std::int8_t>(instrument));
        c.mode.push_back(static_cast<std::int8_t>(mode));
        c.task.push_back(0);
        c.true_beats.push_back(140);
        c.counted.push_back(static_cast<std::int16_t>(typed_bpm));
        c.true_mbpm.push_back(140'000);
        c.written_mbpm.push_back(typed_bpm < 0 ? -1 : typed_bpm * 1000);
        c.verdicts.push_back(0);
        c.judged.push_back(1);
        c.followed.push_back(static_cast<std::int8_t>(heart));
        c.boundary.push_back(0);
        c.true_class.push_back(0);
        c.settled_class.push_back(-1);
        c.said_class.push_back(-1);
        return *this;
    }
    Keeping& decided(int is, int said, int on_limit = 0) {
        c.settled_class.back() = static_cast<std::int8_t>(is);
        c.said_class.back() = static_cast<std::int8_t>(said);
        c.boundary.back() = static_cast<std::int8_t>(on_limit);
        return *this;
    }
    json figures(const std::string& words) const {
        const Folder folder;
        const std::string path = (folder / "kept.db").string();
        REQUIRE(engine::Store::open(path).ok());
        REQUIRE(engine::fill_with_counts(path, c).ok());
        const Run run = folder.run("figures kept.db --json --of " + words);
        INFO(run.err);
        REQUIRE(run.exit == 0);
        return json::parse(run.out);
    }
};

bool says(const json& figures, const std::string& remark) {
    const json& all = figures["remarks"];
    INFO(all.dump());
    const bool said = std::find(all.begin(), all.end(), remark) != all.end();
    CHECK(said);
    return said;
}

// 20 labours, the mother counted in every other.
Keeping every_other_the_mother() {
    Keeping k;
    for (int i = 1; i <= 20; ++i)
        k.count(1, i, i % 2 == 1 ? 140 : 80, i % 2 == 1 ? HeartCounted::baby : HeartCounted::mother);
    return k;
}

}  // namespace

TEST_CASE("a store with a count by either side of the stethoscope is read like any other", "[terminal]") {
    Keeping k;
    k.count(1, 1, 138, HeartCounted::baby, 2).count(1, 2, 142, HeartCounted::baby, 3);
    for (const char* of : {"agreement", "cohort"}) {
        const json f = k.figures(of);
        CHECK(f["n"] == 2);
        CHECK(f["bias_bpm"] == 0);
        CHECK(f["by_instrument"][0]["name"] == "stethoscope, cup side");
        CHECK(f["by_instrument"][1]["name"] == "stethoscope, flat side");
    }
    CHECK(k.figures("shares")["persons"][0]["of"] == 2);
}

TEST_CASE("ten of twenty labours counted the mother: 10 of 20 right, SFSF on the chart, ten sizes of error",
          "[terminal]") {
    const Keeping k = every_other_the_mother();
    const json shares = k.figures("shares");
    CHECK(shares["persons"][0]["right"] == 10);
    CHECK(shares["persons"][0]["of"] == 20);
    says(shares, "10 counts of the mother or of nobody: wrong");
    const json learning = k.figures("learning");
    CHECK(learning["persons"][0]["n"] == 20);
    const auto s = learning["persons"][0]["s"].get<std::vector<double>>();
    REQUIRE(s.size() == 20);
    for (std::size_t i = 1; i < s.size(); i += 2) CHECK(s[i] < s[i - 1]);
    says(learning, "10 counts of the mother or of nobody: wrong");
    for (const char* of : {"agreement", "cohort"}) {
        const json f = k.figures(of);
        CHECK(f["n"] == 10);
        CHECK(f["bias_bpm"] == 0);
        says(f, "10 counts left out: of the mother or of nobody, no error in the baby's rate");
    }
}

TEST_CASE("a store's second go at a labour is left out of learning; two output modes pooled are said",
          "[terminal]") {
    Keeping k;
    k.count(1, 1, 100).count(1, 1, 140).count(1, 2, 140, HeartCounted::baby, 1, 1).count(2, 1, 140);
    const json f = k.figures("learning");
    CHECK(f["persons"][0]["n"] == 2);
    CHECK(f["persons"][1]["n"] == 1);
    says(f, "1 later attempt at a labour met before left out");
    says(f, "pooled over 2 output modes");
    const json shares = k.figures("shares");
    says(shares, "several counts of one labour: not compared item by item");
    says(shares, "pooled over 2 output modes");
    CHECK(k.figures("items")["persons"] == 1);  // only A-001 met both labours
    says(k.figures("agreement"), "pooled over 2 output modes");
}

TEST_CASE("kappa of a store is of its decisions: 20 5 / 10 15 gives 0.4; one on a limit is left out and said",
          "[terminal]") {
    Keeping k;  // normal 0, slow 2
    const auto add = [&](int n, int is, int said) {
        for (int i = 0; i < n; ++i) k.count(1, 1 + i, 140).decided(is, said);
    };
    add(20, 0, 0), add(5, 0, 2), add(10, 2, 0), add(15, 2, 2);
    k.count(1, 40, 140);                   // nothing decided
    k.count(1, 40, 140).decided(2, 0, 1);  // on a limit
    const json f = k.figures("kappa");     // [R] vcd
    CHECK(f["n"] == 50);
    CHECK(f["kappa"].get<double>() == Approx(0.4).epsilon(0).margin(1e-9));
    CHECK(f["categories"] == json::array({"slow", "normal", "fast"}));
    CHECK(f["table"][0]["typed"] == json::array({15, 10, 0}));
    CHECK(f["table"][1]["typed"] == json::array({5, 20, 0}));
    says(f, "1 decision on a limit of normal left out: too near to it for a fair class");
    const json cohort = k.figures("cohort");
    CHECK(cohort["n"] == 52);
    CHECK(cohort["classes"]["n"] == 50);
    CHECK(cohort["classes"]["kappa"].get<double>() == Approx(0.4).epsilon(0).margin(1e-9));
    says(cohort, "1 decision on a limit of normal left out: too near to it for a fair class");
    k.count(1, 39, 160).decided(3, 1);  // rising, called fast
    CHECK(k.figures("kappa --weights linear")["table"][2]["typed"] == json::array({0, 0, 1}));
}
