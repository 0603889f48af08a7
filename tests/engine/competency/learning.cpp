// Learning and monitoring charts. The learning chart's row at 30 attempts and h = 3.5 also by a simulation of
// 200,000 runs in R: .0513 and .7340.
#include "engine/competency/learning.h"

#include "tests/engine/competency/near.h"

#include <rapidcheck.h>

using namespace engine;

namespace {

const FailureRates rates{0.10, 0.30};

std::vector<bool> series(const std::string& letters) {
    std::vector<bool> right;
    for (char c : letters) right.push_back(c == 'S');
    return right;
}

double signal(int attempts, double h, double failing) {
    return learning_signal(rates, h, failing, attempts).back();
}

}  // namespace

TEST_CASE("10 % against 30 %: a success adds 0.251314428, a failure takes 1.098612289", "[competency]") {
    CHECK(success_step(rates) == near(0.251314428));  // [Py]
    CHECK(failure_step(rates) == near(-1.098612289));
}

TEST_CASE("chances of a signal for 30, 50 and 100 attempts, at 30, 10, 5 and 20 % failures", "[competency]") {
    struct Row {
        int attempts;
        double h, at30, at10, at5, at20;
        int median;
    };
    for (const Row& r : {Row{30, 3.5, .051298, .733228, .945923, .253030, 22},  // [Py]
                         Row{30, 3.6, .039328, .698419, .934241, .218882, 23},
                         Row{50, 4.1, .049121, .905844, .996592, .337264, 28},
                         Row{100, 5.0, .047270, .991120, .999994, .475301, 34}}) {
        INFO(r.attempts << " attempts, h " << r.h);
        CHECK(signal(r.attempts, r.h, 0.30) == near(r.at30));
        CHECK(signal(r.attempts, r.h, 0.10) == near(r.at10));
        CHECK(signal(r.attempts, r.h, 0.05) == near(r.at5));
        CHECK(signal(r.attempts, r.h, 0.20) == near(r.at20));
        CHECK(value(median_attempts(learning_signal(rates, r.h, 0.10, r.attempts))) == r.median);
    }
}

TEST_CASE("a small h, 1.25, certifies an inadequate trainee 7 times in 8", "[competency]") {
    CHECK(signal(30, 1.25, 0.30) == near(.8753, 5e-5));  // [Py]
    CHECK(signal(30, 1.25, 0.10) == near(.9996, 5e-5));
    CHECK(value(median_attempts(learning_signal(rates, 1.25, 0.10, 30))) == 5);
}

TEST_CASE("10 % against 20 %, 100 attempts, h 4: false .033, true .69", "[competency]") {
    const FailureRates close{0.10, 0.20};  // [Py]
    CHECK(learning_signal(close, 4, 0.20, 100).back() == near(.033, 5e-4));
    CHECK(learning_signal(close, 4, 0.10, 100).back() == near(.69, 5e-3));
}

TEST_CASE("h for 30 attempts lies between 3.5 (false signal .0513) and 3.6 (.0393)", "[competency]") {
    const double h30 = value(threshold_for(rates, 30));
    CHECK(h30 > 3.5);
    CHECK(h30 <= 3.6);
    for (const int attempts : {5, 30, 50, 100}) {
        const double h = value(threshold_for(rates, attempts));
        INFO(attempts << " attempts, h " << h);
        CHECK(signal(attempts, h, 0.30) <= 0.05);
        CHECK(signal(attempts, h - 0.01, 0.30) > 0.05);
    }
    CHECK(value(threshold_for(rates, 100)) <= 5.0);
    CHECK(value(threshold_for(rates, 50)) <= 4.1);
}

TEST_CASE("a worked series signals at attempt 23 with S = 3.518402", "[competency]") {
    const Chart chart = learning_chart(rates, 3.5, series("SFSSFSSSFSSSSSSSSSSSSSS"));  // [Py]
    const double first[] = {.251314, 0, .251314, .502629, 0, .251314, .502629, .753943, 0};
    for (std::size_t i = 0; i < 9; ++i) CHECK(chart.s[i] == near(first[i]));
    CHECK(chart.signal_at == 23);
    CHECK(chart.s[22] == near(3.518402));
    CHECK(learning_chart(rates, 3.5, series("SFSSFSSSFSSSSSSSSSSSSS")).signal_at == 0);
}

TEST_CASE("monitoring: a worked series alarms at 3.3 on its 11th attempt", "[competency]") {
    const Chart chart = monitoring_chart(rates, 3.3, series("SSSSFSSFSFFS"));  // [Py]
    const double s[] = {0,       0,        0,        0,        1.098612, .847298,
                        .595983, 1.694596, 1.443281, 2.541894, 3.640506, 3.389191};
    for (std::size_t i = 0; i < 12; ++i) CHECK(chart.s[i] == near(s[i]));
    CHECK(chart.signal_at == 11);
}

TEST_CASE("monitoring: h 3.3 and 4, false alarms within 50, detection within 20, median 16 and 20",
          "[competency]") {
    CHECK(monitoring_signal(rates, 3.3, 0.10, 50).back() == near(.1117, 5e-5));  // [Py]
    CHECK(monitoring_signal(rates, 3.3, 0.30, 20).back() == near(.6661, 5e-5));
    CHECK(value(median_attempts(monitoring_signal(rates, 3.3, 0.30, 50))) == 16);
    CHECK(monitoring_signal(rates, 4, 0.10, 50).back() == near(.0510, 5e-5));
    CHECK(monitoring_signal(rates, 4, 0.30, 20).back() == near(.5308, 5e-5));
    CHECK(value(median_attempts(monitoring_signal(rates, 4, 0.30, 50))) == 20);
}

TEST_CASE("shares that cannot be used are refused in words; a chart that never signals has no median",
          "[competency]") {
    CHECK(fault_of(FailureRates{0.30, 0.10}) == "the acceptable share must be below the unacceptable one");
    CHECK(fault_of(FailureRates{0.10, 0.10}) == "the acceptable share must be below the unacceptable one");
    CHECK(fault_of(FailureRates{0, 0.3}) == "both shares must lie inside 0 to 1");
    CHECK(fault_of(FailureRates{0.1, 1}) == "both shares must lie inside 0 to 1");
    CHECK(fault_of(rates).empty());
    CHECK_FALSE(threshold_for({0.3, 0.1}, 30).known());
    CHECK(threshold_for(rates, 301).why() == "attempts must be 1 to 300");
    CHECK_FALSE(median_attempts(learning_signal(rates, 5, 0.30, 30)).known());
    CHECK(learning_chart(rates, 3.5, {}).s.empty());
}

TEST_CASE("sequential chart: 10 % against 20 %, errors 10 %: s .145244354, limits 2.709511291",
          "[competency]") {
    const SequentialChart c = sequential_chart({0.1, 0.2}, 0.1, 0.1);  // [Py]
    CHECK(-failure_step({0.1, 0.2}) == near(.693147181));
    CHECK(success_step({0.1, 0.2}) == near(.117783036));
    CHECK(c.down_per_success == near(.145244354));
    CHECK(c.up_per_failure == near(1 - .145244354));
    CHECK(c.acceptable_at == near(2.709511291));
    CHECK(c.unacceptable_at == near(2.709511291));
}

TEST_CASE(
    "any rates: the chance of a signal lies in 0..1, grows with attempts, falls with h and with failures",
    "[competency]") {
    CHECK(rc::check([] {
        const int low = *rc::gen::inRange(2, 30), high = *rc::gen::inRange(low + 2, 70);
        const FailureRates any{low / 100.0, high / 100.0};
        const double h = *rc::gen::inRange(20, 500) / 100.0;
        const double failing = *rc::gen::inRange(0, 101) / 100.0;
        const auto chances = learning_signal(any, h, failing, 30);
        for (std::size_t i = 0; i < chances.size(); ++i) {
            RC_ASSERT(chances[i] >= 0 && chances[i] <= 1);
            if (i > 0) RC_ASSERT(chances[i] >= chances[i - 1] - 1e-12);
        }
        RC_ASSERT(learning_signal(any, h + 0.3, failing, 30).back() <= chances.back() + 1e-12);
        RC_ASSERT(learning_signal(any, h, std::min(1.0, failing + 0.1), 30).back() <= chances.back() + 1e-12);
    }));
}
