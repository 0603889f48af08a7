// A count tapped along: what the score sheet then tells apart.
#include "perfect_listener.h"

#include "engine/scoring/score_json.h"
#include "engine/scoring/taps.h"

#include <nlohmann/json.hpp>

#include <functional>

using namespace perfect;

namespace {

enum class Whose { baby, mother };
using Hand = std::function<std::vector<double>(const std::vector<double>& beats_s)>;

// c01 counted over `plan`, tapped as `hand` makes taps of the beats, `counted` written (-1: as tapped).
ScoreSheet tapped(double plan, Whose whose, const Hand& hand, int counted = -1) {
    Listener l("c01-own-minute");
    l.greet().wait(10).take(sim::Instrument::doppler).place_best().wrist().wait(16).report_pulse().wait(10);
    const double from = l.t;
    Listener ahead = l;  // the beats as they will be
    ahead.wait(plan + 5).finish();
    const Played played = ahead.played();
    std::vector<double> beats;
    for (std::int64_t us : beats_within(whose == Whose::baby ? played.fetal : played.maternal,
                                        sim::labour_time({from}), sim::labour_time({from + plan})))
        beats.push_back(static_cast<double>(us) / 1e6);
    l.add(Do::start_window).plan_s = plan;
    int taps = 0;
    for (double s : hand(beats)) {
        if (s < from || s >= from + plan) continue;
        l.t = s;
        l.add(Do::tap);
        ++taps;
    }
    l.t = from + plan;
    l.add(Do::stop_window);
    l.wait(2);
    Event& report = l.add(Do::report);
    report.beats = counted < 0 ? taps : counted;
    report.bpm = l.bpm = static_cast<int>(std::lround(*report.beats * 60.0 / plan));
    l.wait(2).lift();
    l.decide(SourceIs::baby, BaselineIs::normal)
        .explain()
        .record("between", "")
        .act("continue_routine")
        .finish();
    return l.sheet();
}

// 60 ms behind each beat, wobbling by up to 20 ms either way.
std::vector<double> steady_hand(const std::vector<double>& beats) {
    std::vector<double> taps;
    for (std::size_t i = 0; i < beats.size(); ++i)
        taps.push_back(beats[i] + 0.060 + 0.020 * (static_cast<double>(i * 7 % 11) / 5.0 - 1.0));
    return taps;
}

double all_terms(const Breakdown& b) {
    return b.source + b.method + b.watch + b.fencepost + b.ear + b.tally + b.arithmetic + b.unexplained;
}

}  // namespace

TEST_CASE("Tapped 60 ms behind each beat: all caught but one at the edge, lag 0.06 s, jitter under 0.02 s",
          "[taps]") {
    const ScoreSheet sheet = tapped(60, Whose::baby, steady_hand);
    INFO(told(sheet));
    const WindowScore& w = sheet.windows.at(0);
    REQUIRE(w.taps);
    CHECK(w.taps->follows == "baby");
    CHECK(w.taps->missed_s.size() <= 1);  // the last beat's tap may come after the stop
    CHECK(w.taps->extra_s.empty());
    CHECK(*w.taps->lag_s == Approx(0.060).margin(0.004));
    CHECK(*w.taps->jitter_s == Approx(0.0126).margin(0.002));  // 11 even steps over 40 ms: 0.040 x 0.316
    CHECK(w.pattern.empty());
    CHECK(verdict(sheet, Aspect::count) == Verdict::met);
}

TEST_CASE("Beats 20 to 22 not tapped, one tap between 40 and 41, one too many written: -3 +1 beats, tally +1",
          "[taps]") {
    double twenty = 0, between = 0;
    const ScoreSheet sheet = tapped(
        60, Whose::baby,
        [&](const std::vector<double>& beats) {
            std::vector<double> taps = steady_hand(beats);
            twenty = beats[20];
            between = (taps[40] + taps[41]) / 2;
            taps.insert(taps.begin() + 41, between);
            taps.erase(taps.begin() + 20, taps.begin() + 23);
            return taps;
        },
        140);
    const WindowScore& w = sheet.windows.at(0);
    REQUIRE(w.taps);
    REQUIRE(w.taps->missed_s.size() >= 3);
    CHECK(w.taps->missed_s[0] == Approx(twenty).margin(1e-5));
    REQUIRE(w.taps->extra_s.size() == 1);
    CHECK(w.taps->extra_s[0] == Approx(between).margin(1e-5));
    CHECK(w.terms.ear == 1 - static_cast<int>(w.taps->missed_s.size()));
    CHECK(w.terms.tally == 140 - w.taps->taps);
    CHECK(all_terms(w.terms) == Approx(w.terms.reported_bpm - w.terms.true_bpm).margin(1e-9));
    const auto json = nlohmann::json::parse(to_json(sheet));
    const auto& terms = json["windows"][0]["terms"];
    double sum = 0;
    // absent: no part of the sum
    for (const auto& term : terms) sum += term.is_null() ? 0 : term.get<double>();
    CHECK(sum == Approx(140 - w.true_bpm).margin(1e-9));
    const auto& taps = json["windows"][0]["taps"];
    CHECK(taps["missed_bpm"].get<double>() + taps["extra_bpm"].get<double>() == terms["ear"].get<double>());
    CHECK(json["terms_order"][1] == "method");
}

TEST_CASE("Taps that keep step with her pulse are hers, whatever number is written", "[taps]") {
    const ScoreSheet sheet = tapped(60, Whose::mother, steady_hand, 136);
    INFO(told(sheet));
    const WindowScore& w = sheet.windows.at(0);
    REQUIRE(w.taps);
    CHECK(w.taps->follows == "mother");
    CHECK(w.followed == "mother");
    CHECK(w.terms.source < -30);
    CHECK(all_terms(w.terms) == Approx(w.terms.reported_bpm - w.terms.true_bpm).margin(1e-9));
}

TEST_CASE("Both sounds of each beat tapped, or every second beat: named so from how they alternate",
          "[taps]") {
    const ScoreSheet both = tapped(15, Whose::baby, [](const std::vector<double>& beats) {
        std::vector<double> taps;
        for (double s : beats) taps.insert(taps.end(), {s + 0.05, s + 0.05 + 0.18});
        return taps;
    });
    CHECK(both.windows.at(0).pattern == "both sounds");
    CHECK(both.windows.at(0).taps->follows == "baby");
    const ScoreSheet second = tapped(30, Whose::baby, [](const std::vector<double>& beats) {
        std::vector<double> taps;
        for (std::size_t i = 0; i < beats.size(); i += 2) taps.push_back(beats[i] + 0.05);
        return taps;
    });
    CHECK(second.windows.at(0).pattern == "every second beat");
    // As many taps, all in the first half: half the beats, but not every second one.
    const ScoreSheet half = tapped(30, Whose::baby, [](const std::vector<double>& beats) {
        std::vector<double> taps;
        for (std::size_t i = 0; i < beats.size() / 2; ++i) taps.push_back(beats[i] + 0.05);
        return taps;
    });
    CHECK(half.windows.at(0).pattern.empty());
}

TEST_CASE("Without taps a count of about half or double the beats is told by its ratio alone", "[taps]") {
    CHECK(ratio_pattern(272, 136) == "both sounds");
    CHECK(ratio_pattern(68, 136) == "every second beat");
    CHECK(ratio_pattern(136, 136).empty());
    CHECK(ratio_pattern(90, 136).empty());
    CHECK(ratio_pattern(90, 0).empty());
}

TEST_CASE("Four taps in a minute were not the counting: nothing is claimed from them", "[taps]") {
    const ScoreSheet sheet = tapped(
        60, Whose::baby,
        [](const std::vector<double>& beats) {
            return std::vector<double>{beats[3], beats[9], beats[30], beats[31]};
        },
        136);
    CHECK_FALSE(sheet.windows.at(0).taps);
    CHECK(sheet.windows.at(0).terms.tally == 0);
}

TEST_CASE(
    "A thousand hands with a tenth of the beats left out: none on the baby's heart is called hers, none on "
    "hers the baby's",
    "[taps]") {
    // Two hearts 15 to 60 bpm apart, a hand 40 to 100 ms behind.
    std::uint64_t state = 1;
    const auto draw = [&state](double most) {
        state = state * 6364136223846793005ULL + 1442695040888963407ULL;
        return most * static_cast<double>(state >> 40) / 16777216.0;
    };
    int hers_called_baby = 0, babys_called_hers = 0;
    for (int n = 0; n < 1000; ++n) {
        const double baby = 110 + draw(60), apart = 15 + draw(45), mother = baby - apart;
        const auto train = [&](double bpm, double first) {
            std::vector<sim::Beat> beats;
            for (int i = 0; i < 400; ++i)
                beats.push_back({sim::labour_time({95 + first + i * 60 / bpm}).us, i, sim::BeatKind::normal});
            return beats;
        };
        const auto babys = train(baby, draw(0.4)), hers = train(mother, draw(0.6));
        const bool follows_mother = n % 2 == 1;
        Window w;
        w.from = sim::labour_time({100});
        w.to = sim::labour_time({130});
        for (std::int64_t us : beats_within(follows_mother ? hers : babys, w.from, w.to))
            if (draw(1) > 0.1) w.taps.push_back({us + static_cast<std::int64_t>(40'000 + draw(60'000))});
        const auto score = tap_score(babys, hers, w, false);
        REQUIRE(score);
        if (follows_mother && score->follows == "baby") ++hers_called_baby;
        if (!follows_mother && score->follows == "mother") ++babys_called_hers;
    }
    CHECK(babys_called_hers == 0);
    CHECK(hers_called_baby == 0);
}
