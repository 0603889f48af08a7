// Rules tried on made-up candidates. Sizes of loss: the synthetic counter's own published table [practice],
// invented; intervals and predictions: the exact rules of engine/competency.
#include "engine/trial/trial.h"

#include "engine/competency/pass_rule.h"
#include "engine/drawing/drawing.h"
#include "engine/scoring/key.h"
#include "tests/engine/trial/shipped.h"

#include <cmath>

using namespace engine;
using namespace trial_tests;

namespace {

// Twenty-five counts drawn for one form: 14 normal, 8 slow, 3 fast.
const std::vector<TrialStation>& form() {
    static const std::vector<TrialStation> made = [] {
        std::vector<TrialStation> stations;
        const auto quota = read_quota_file(scenarios + "quotas/count-check.toml");
        if (!quota.ok()) FAIL(in_one_line(quota.faults()[0]));
        const auto drawn = draw(*quota, who(), {7});
        if (!drawn.ok()) FAIL(in_one_line(drawn.faults()[0]));
        for (const DrawnScenario& one : *drawn) {
            auto station = trial_station(read_scenario(one.text, one.id).value(), who());
            if (!station.ok()) FAIL(in_one_line(station.faults()[0]));
            stations.push_back(std::move(station).value());
        }
        return stations;
    }();
    return made;
}

int of_kind(StationKind kind) {
    int n = 0;
    for (const TrialStation& s : form()) n += s.kind == kind;
    return n;
}

const TrialStation& first(StationKind kind) {
    for (const TrialStation& s : form())
        if (s.kind == kind) return s;
    FAIL("no such station");
    return form()[0];
}

}  // namespace

TEST_CASE("beats lost over a minute: about 0.3, 2, 7 and 13 at 120, 140, 160 and 180; none of the first 20",
          "[trial]") {
    CHECK(usually_lost(120, 60) == near(.3, .06));  // [practice], printed to one figure
    CHECK(usually_lost(140, 60) == near(2, .3));
    CHECK(usually_lost(160, 60) == near(7, .3));
    CHECK(usually_lost(180, 60) == near(13, .4));
    CHECK(usually_lost(20, 6) == 0);
    CHECK(usually_lost(0, 60) == 0);
}

TEST_CASE("ten thousand minutes at 160: lost on average 6.84 within 0.08, spread as Poisson; draws are pure",
          "[trial]") {
    const double mean = usually_lost(160, 60);
    double sum = 0, square = 0;
    constexpr int many = 10'000;
    for (std::uint32_t c = 0; c < many; ++c) {
        const int lost = 160 - beats_counted({1, 0, 0, 0}, 160, 60, {{5}, c, 0});
        sum += lost;
        square += lost * lost;
    }
    // Three standard errors of a Poisson mean and of its variance.
    CHECK(sum / many == near(mean, 3 * std::sqrt(mean / many)));
    CHECK(square / many - sum / many * sum / many ==
          near(mean, 3 * std::sqrt((mean + 2 * mean * mean) / many)));
    CHECK(CandidateDraws{{5}, 3, 2}.uniform(9) == CandidateDraws{{5}, 3, 2}.uniform(9));
    CHECK(CandidateDraws{{5}, 3, 2}.uniform(9) != CandidateDraws{{5}, 2, 3}.uniform(9));
    CHECK(CandidateDraws{{5}, 3, 2}.labour().value <= sim::Seed::largest);
}

TEST_CASE("a pull of one half counts 120 for 100 and 160 for 180; no loss and no pull counts what was there",
          "[trial]") {
    CHECK(beats_counted({0, 0, .5, 0}, 100, 60, {{1}, 0, 0}) == 120);
    CHECK(beats_counted({0, 0, .5, 0}, 180, 60, {{1}, 0, 0}) == 160);
    CHECK(beats_counted({0, 0, 0, 0}, 171, 60, {{1}, 0, 0}) == 171);
    CHECK(beats_counted({10, 0, 0, 0}, 60, 10, {{1}, 0, 0}) >= 0);
}

TEST_CASE(
    "the form: 14 normal, 8 slow at 84 to 104, 3 fast at 166 to 200; all 8 slow are critical, 6 bpm or more "
    "below 110",
    "[trial]") {
    CHECK(form().size() == 25);
    CHECK(of_kind(StationKind::normal) == 14);
    int slow = 0, fast = 0;
    for (const TrialStation& s : form()) {
        const double settled = key_of(s.scenario, who(), {1}).baseline_bpm;
        INFO(s.scenario.id << " settled at " << settled);
        if (s.there.baseline == BaselineIs::slow) {  // the quota asks 84 to 104
            ++slow;
            CHECK(settled >= 84);
            CHECK(settled <= 104);
        } else if (s.there.baseline == BaselineIs::fast) {  // 166 to 200
            ++fast;
            CHECK(settled >= 166);
            CHECK(settled <= 200);
        }
    }
    CHECK(slow == 8);
    CHECK(fast == 3);
    CHECK(of_kind(StationKind::critical) == 8);
}

TEST_CASE(
    "a counter who loses nothing with a true watch passes, 20 of 20; the few wrong stations lie on a limit",
    "[trial]") {
    const TrialLevel perfect = try_rule(form(), who(), {21, 11, true}, {0, 0, 0, 0}, 20, {3});
    CHECK(*perfect.share_right > .98);  // a minute of a labour settled at 106 may hold 111 beats
    CHECK(perfect.enough_right == 20);
    CHECK(perfect.passed == 20);
    CHECK(perfect.redrawn == 0);
    for (std::size_t s = 0; s < form().size(); ++s) {
        const double settled = key_of(form()[s].scenario, who(), {1}).baseline_bpm;
        INFO(form()[s].scenario.id << " settled at " << settled);
        if (settled < 102 || (settled > 118 && settled < 150) || settled > 168)
            CHECK(perfect.stations[s].right == 20);
    }
}

TEST_CASE(
    "a slow heart pulled all the way to 140 is a critical miss; a normal one is never over-called by it",
    "[trial]") {
    const StationResult slow = try_station(first(StationKind::critical), who(), {0, 0, 1, 0}, {{3}, 0, 0});
    CHECK_FALSE(slow.right);
    CHECK(slow.missed);
    const TrialLevel pulled = try_rule(form(), who(), {21, 11, true}, {0, 0, 1, 0}, 5, {3});
    CHECK(pulled.passed == 0);
    CHECK(pulled.redrawn == 5 * of_kind(StationKind::critical));
    CHECK(pulled.missed_again == pulled.redrawn);
    for (const StationTally& s : pulled.stations) CHECK(s.over_called == 0);
}

TEST_CASE("losing ten times the usual, a normal heart above 140 is over-called slow", "[trial]") {
    int over = 0;
    for (const TrialStation& s : form())
        for (std::uint32_t candidate = 0; s.kind == StationKind::normal && candidate < 4; ++candidate)
            over += try_station(s, who(), {10, 0, 0, 0}, {{3}, candidate, 0}).over_called;
    CHECK(over > 0);
}

TEST_CASE("a counter who only guesses is right about a normal or slow labour by luck alone: 1 in 10 or less",
          "[trial]") {
    const TrialLevel guessing = try_rule(form(), who(), {21, 11, true}, {0, 0, 0, 1}, 20, {5});
    // 11 of the 101 numbers lie within 5 bpm of any rate.
    CHECK(*guessing.share_right < .15);
    CHECK(*guessing.share_right > .03);
    CHECK(guessing.passed == 0);
    int over = 0, missed = 0;
    for (const StationTally& s : guessing.stations) over += s.over_called, missed += s.missed;
    // Of 90..190: 90..109 is called slow and 171..190 fast at once, 161..170 is guessed again.
    const double again = 10. / 101;
    CHECK(static_cast<double>(over) / (14 * 20) == near(40. / 101 + again * 50 / 101, .12));
    // Called normal or fast.
    CHECK(static_cast<double>(missed) / (of_kind(StationKind::critical) * 20) ==
          near(1 - 20. / 101 - again * 20 / 101, .15));
}

TEST_CASE(
    "60 candidates in doubt, by loss and by guessing: simulated passes agree with the exact rule at the "
    "stations' own rates",
    "[trial]") {
    constexpr int candidates = 60;
    const JoinedRule rule{21, 11, true};
    for (const SyntheticCounter& counter : {SyntheticCounter{1, .2, 0, 0}, SyntheticCounter{0, .2, 0, .15}}) {
        const TrialLevel level = try_rule(form(), who(), rule, counter, candidates, {11});
        const JoinedPass exact = passes(rule, level.chances(form()));
        INFO("share right " << *level.share_right << ", passed " << level.passed << ", exact "
                            << exact.passes);
        // A level where the rule is in doubt: otherwise the agreement says nothing.
        CHECK(exact.passes > .2);
        CHECK(exact.passes < .95);
        const auto within = [&](double chance, int n) {
            // Four standard errors of the simulated share, and two candidates.
            const double error = std::sqrt(chance * (1 - chance) / candidates);
            CHECK(static_cast<double>(n) / candidates == near(chance, 4 * error + 2.0 / candidates));
        };
        within(exact.enough_right, level.enough_right);
        within(exact.passes, level.passed);
        CHECK(level.passed <= level.enough_right);
    }
    const TrialLevel ten = try_rule(form(), who(), rule, {.7, .2, 0, .1}, 10, {11});
    const TrialLevel again = try_rule(form(), who(), rule, {.7, .2, 0, .1}, 10, {11});
    CHECK(ten.passed == again.passed);
    CHECK(*ten.share_right == *again.share_right);
}

TEST_CASE("counters that cannot be are refused in words", "[trial]") {
    CHECK(std::string(fault_of(SyntheticCounter{})).empty());
    CHECK(std::string(fault_of({-1, .2, 0, 0})) == "the loss must be 0 to 10 times the usual");
    CHECK(std::string(fault_of({1, 3, 0, 0})) == "the watch must be 0 to 2 s off");
    CHECK(std::string(fault_of({1, .2, 2, 0})) == "the pull must be a share, 0 to 1");
    CHECK(std::string(fault_of({1, .2, 0, -.1})) == "guesses must be a share, 0 to 1");
}

TEST_CASE("no candidates: no share, no interval; a station that cannot be tried is refused in words",
          "[trial]") {
    const TrialLevel none = try_rule(form(), who(), {21, 11, true}, {}, 0, {1});
    CHECK(none.share_right.why() == "nobody was tried");
    CHECK_FALSE(none.passed_interval().low.known());
    CHECK(none.binomial({21, 11, true}).why() == "nobody was tried");
    Scenario brief = read_scenario_file(scenarios + "library/p02-through-two.toml").value();
    CHECK(trial_station(brief, who()).ok());
    brief.length = sim::Seconds{200};
    CHECK(trial_station(brief, who()).faults()[0].allowed == "240 s or more for pattern");
    brief.place.watch = false;
    CHECK(trial_station(brief, who()).faults()[0].allowed == "a watch to count by");
    Scenario bare = read_scenario_file(scenarios + "library/f01-where-the-back-is.toml").value();
    bare.place.instruments.clear();
    CHECK(trial_station(bare, who()).faults()[0].what == "place.instruments");
}
