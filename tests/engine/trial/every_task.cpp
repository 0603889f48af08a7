// Made-up candidates at every kind of station. What is right: the yearly check's own table [practice].
// Chances: the binomial.
#include "engine/trial/trial.h"

#include "engine/scoring/key.h"
#include "engine/scoring/score_sheet.h"
#include "tests/engine/trial/shipped.h"

#include <algorithm>
#include <cmath>
#include <filesystem>

using namespace engine;
using namespace trial_tests;

namespace {

// Everything shipped, by id.
const std::vector<TrialStation>& library() {
    static const std::vector<TrialStation> made = [] {
        std::vector<std::string> files;
        for (const auto& file : std::filesystem::directory_iterator(scenarios + "library"))
            if (file.path().extension() == ".toml") files.push_back(file.path().string());
        std::sort(files.begin(), files.end());
        std::vector<TrialStation> stations;
        for (const std::string& file : files) {
            auto station = trial_station(read_scenario_file(file).value(), who());
            if (!station.ok()) FAIL(in_one_line(station.faults()[0]));
            stations.push_back(std::move(station).value());
        }
        return stations;
    }();
    return made;
}

std::vector<TrialStation> of_task(Task task) {
    std::vector<TrialStation> some;
    for (const TrialStation& s : library())
        if (s.scenario.task == task) some.push_back(s);
    return some;
}

constexpr Task tasks[] = {Task::count,      Task::quick,   Task::find,
                          Task::tell_apart, Task::pattern, Task::labour};
constexpr SyntheticCounter perfect{0, 0, 0, 0, 0, 0, 0, 0};

int right_of(Task task, const SyntheticCounter& counter, int candidates, sim::Seed seed) {
    int right = 0;
    const std::vector<TrialStation> stations = of_task(task);
    for (std::size_t s = 0; s < stations.size(); ++s)
        for (int c = 0; c < candidates; ++c)
            right += try_station(stations[s], who(), counter,
                                 {seed, static_cast<std::uint32_t>(c), static_cast<std::uint32_t>(s)})
                         .right;
    return right;
}

}  // namespace

TEST_CASE(
    "the library's sixty: 10 counts, 8 quick, 10 to find, 10 to tell apart, 10 patterns, 12 labours, each a "
    "station",
    "[trial]") {
    const std::vector<std::size_t> of_each = {10, 8, 10, 10, 10, 12};
    for (std::size_t i = 0; i < of_each.size(); ++i) {
        INFO(name_of(tasks[i]));
        CHECK(of_task(tasks[i]).size() == of_each[i]);
    }
}

TEST_CASE(
    "who hears, names and does everything is right at all sixty, seeds 1 to 3, over-calls none and misses "
    "none",
    "[trial]") {
    for (const TrialStation& station : library())
        for (std::uint64_t seed = 1; seed <= 3; ++seed) {
            INFO(station.scenario.id << " seed " << seed);
            const StationResult found = try_station(station, who(), perfect, {{seed}, 0, 0});
            CHECK(found.right);
            CHECK_FALSE(found.over_called);
            CHECK_FALSE(found.missed);
        }
}

TEST_CASE(
    "who always takes her beat for the baby's is wrong wherever a heart is to be found or told apart; "
    "elsewhere it changes nothing",
    "[trial]") {
    SyntheticCounter hers = perfect;
    hers.takes_hers = 1;
    int critical = 0;
    for (const Task task : {Task::find, Task::tell_apart})
        for (const TrialStation& station : of_task(task)) {
            if (!station.scenario.place.watch) continue;
            INFO(station.scenario.id);
            const CandidateDraws draws{{2}, 0, 0};
            const auto events = attempt_at(station, who(), hers, draws);
            const Played played = play(station.scenario, who(), draws.labour(), events);
            const ScoreSheet sheet = judge(station.scenario, who(), played);
            CHECK(sheet.aspects[static_cast<std::size_t>(Aspect::whose)].verdict == Verdict::missed);
            CHECK_FALSE(result_of(station, who(), played, sheet).right);
            if (station.kind == StationKind::critical) {
                ++critical;
                CHECK(result_of(station, who(), played, sheet).missed);
            }
        }
    CHECK(critical >= 3);  // where she pushes, where the rates are near, where there is no heart
    for (const Task task : {Task::count, Task::pattern})
        CHECK(right_of(task, hers, 1, {2}) == right_of(task, perfect, 1, {2}));
}

TEST_CASE(
    "contractions named wrongly at 3 stations in 10: right in 70 of 100, as a coin of .7; always wrong: "
    "never right",
    "[trial]") {
    SyntheticCounter reader = perfect;
    reader.misreads = .3;
    constexpr int candidates = 12;
    const int tried = candidates * static_cast<int>(of_task(Task::pattern).size());
    const int right = right_of(Task::pattern, reader, candidates, {4});
    CHECK(right == near(.7 * tried, 3 * std::sqrt(tried * .7 * .3)));
    reader.misreads = 1;
    CHECK(right_of(Task::pattern, reader, 2, {4}) == 0);
    // At random among four names: one in four.
    reader.misreads = .75;
    CHECK(right_of(Task::pattern, reader, candidates, {4}) ==
          near(.25 * tried, 3 * std::sqrt(tried * .25 * .75)));
}

TEST_CASE("each wrong name as often: of 3000 misread, 1000 each within three standard errors", "[trial]") {
    SyntheticCounter reader = perfect;
    reader.misreads = .4;
    int n[4] = {};
    constexpr int many = 7500;
    for (std::uint32_t c = 0; c < many; ++c) ++n[CandidateDraws{{9}, c, 1}.misread(reader)];
    CHECK(n[0] == near(.6 * many, 3 * std::sqrt(many * .6 * .4)));
    const double p = .4 / 3;
    for (int wrong = 1; wrong < 4; ++wrong)
        CHECK(n[wrong] == near(p * many, 3 * std::sqrt(many * p * (1 - p))));
}

TEST_CASE(
    "labours: the more is forgotten or late the fewer are right; who forgets all, none in orange or red",
    "[trial]") {
    int before = 1000;
    for (const double forgets : {0., .2, 1.}) {
        SyntheticCounter counter = perfect;
        counter.forgets = forgets;
        const int right = right_of(Task::labour, counter, 1, {6});
        INFO("forgets " << forgets << ": " << right << " of 12");
        CHECK(right < before);
        before = right;
    }
    SyntheticCounter late = perfect;
    late.late = 1;
    SyntheticCounter idle = perfect;
    idle.forgets = 1;
    for (const TrialStation& station : of_task(Task::labour)) {
        if (station.kind != StationKind::critical) continue;
        INFO(station.scenario.id);
        const StationResult forgot = try_station(station, who(), idle, {{6}, 0, 0});
        CHECK(forgot.missed);
        CHECK_FALSE(forgot.right);
        CHECK(try_station(station, who(), late, {{6}, 0, 0}).missed);
    }
}

TEST_CASE("every task: beats lost as an untrained ear, five and ten times as many: never more stations right",
          "[trial]") {
    for (const Task task : {Task::count, Task::quick, Task::find, Task::tell_apart}) {
        int before = 1000;
        for (const double lost : {0., 1., 5., 10.}) {
            const int right = right_of(task, {lost, 0, 0, 0, 0, 0, 0, 0}, 2, {8});
            INFO(name_of(task) << " losing " << lost << " times: " << right);
            CHECK(right <= before);
            before = right;
        }
        CHECK(before < right_of(task, perfect, 2, {8}));
    }
}

TEST_CASE("the same candidate does the same twice, and another not", "[trial]") {
    const SyntheticCounter counter{1, .2, .1, .1, .2, .1, .1, .2};
    const auto written = [&](const TrialStation& station, std::uint32_t candidate) {
        std::string all;
        for (const Event& e : attempt_at(station, who(), counter, {{5}, candidate, 3}))
            all += to_json(e) + "\n";
        return all;
    };
    for (const Task task : tasks) {
        const TrialStation station = of_task(task)[1];
        CHECK(written(station, 1) == written(station, 1));
        CHECK(written(station, 1) != written(station, 2));
    }
}

TEST_CASE("all that candidates of every sort do can be done: no event refused, over sixty stations",
          "[trial]") {
    for (const TrialStation& station : library())
        for (std::uint32_t c = 0; c < 1; ++c) {
            const SyntheticCounter counter{2, .5, .2, .2, .5, .3, .3, .5};
            const auto fault =
                check_order(station.scenario, who(), attempt_at(station, who(), counter, {{12}, c, 0}),
                            station.scenario.id);
            if (fault) FAIL(in_one_line(*fault));
        }
    CHECK(library().size() == 60);
}

TEST_CASE(
    "after a critical miss the next critical station of the same task is drawn, with a labour of its own",
    "[trial]") {
    // A slow count, a slow heart after contractions, a normal count: both critical, one redraw each.
    std::vector<TrialStation> form;
    for (const TrialStation& s : library())
        if (s.scenario.id.rfind("c04", 0) == 0 || s.scenario.id.rfind("p03", 0) == 0 ||
            s.scenario.id.rfind("c01", 0) == 0)
            form.push_back(s);
    REQUIRE(form.size() == 3);
    SyntheticCounter reader = perfect;
    reader.misreads = 1;  // misses p03 and would miss it again; c04 would not be missed
    const TrialLevel level = try_rule(form, who(), {2, 1, true}, reader, 4, {3});
    const int missed = level.stations[2].missed;
    CHECK(missed >= 2);  // one of the three wrong names, that it stays down, is no miss
    CHECK(level.redrawn == missed);
    CHECK(level.missed_again > 0);
    CHECK(level.stations[0].missed + level.stations[1].missed == 0);
}
