// The method's own error is never the ear's: a counter who hears every beat and counts short.
#include "faultless_listeners.h"

#include "engine/scoring/breakdown.h"

using namespace perfect;

namespace {

// c01 with a steady baby, counted over `plan` from 60 s + `wait` on, `off` beats wrong.
ScoreSheet counted(double bpm, double plan, double wait_s, int off = 0) {
    Listener l("c01-own-minute");
    Scenario& s = l.scenario;
    s.middle.babies[0].baseline = sim::Bpm{bpm};
    s.middle.babies[0].variability = sim::Variability::minimal;
    s.middle.babies[0].drift = sim::Bpm{0};
    s.drawn.clear();
    l.greet().wait(10).take(sim::Instrument::doppler).place_best().wrist().wait(16).report_pulse();
    l.until(60 + wait_s).count(plan, {0, off, -1, false}).lift();
    l.decide(SourceIs::baby, BaselineIs::normal).explain().record("between", "").finish();
    return l.sheet();
}

}  // namespace

TEST_CASE(
    "A perfect counter over 60, 30, 15, 10 or 6 s at 1,000 random rates and moments: the ear's term is 0, "
    "the count met",
    "[counting]") {
    // Through the breakdown itself; every 25th through a whole attempt.
    std::uint64_t state = 7;
    const auto draw = [&state](double most) {
        state = state * 6364136223846793005ULL + 1442695040888963407ULL;
        return most * static_cast<double>(state >> 40) / 16777216.0;
    };
    for (int n = 0; n < 1000; ++n) {
        const double bpm = 70 + draw(140),
                     plan = std::array{60.0, 30.0, 15.0, 10.0, 6.0}[static_cast<std::size_t>(n) % 5];
        CAPTURE(bpm, plan);
        std::vector<sim::Beat> train;
        const double first = 90 + draw(1);
        for (int i = 0; i < 400; ++i)
            train.push_back({sim::labour_time({first + i * 60 / bpm}).us, i, sim::BeatKind::normal});
        const sim::LabourTime from = sim::labour_time({100 + draw(1)}),
                              to{from.us + sim::labour_time({plan}).us};
        const int beats = static_cast<int>(sim::beats_between(train, from, to));
        const Breakdown b = break_down(train, train, {from, to, plan, beats, std::nullopt});
        REQUIRE(b.ear == 0);
        REQUIRE(b.tally == 0);
        REQUIRE(b.watch == 0);
        REQUIRE(std::fabs(b.method) <= factor_of(plan));
        if (n % 25 != 0) continue;
        const ScoreSheet sheet = counted(bpm, plan, draw(5));
        INFO(told(sheet));
        CHECK(sheet.windows.at(0).terms.ear == 0);
        CHECK(verdict(sheet, Aspect::count) == Verdict::met);
    }
}

TEST_CASE("Good within one beat or 4 bpm, fair within one and a half or 8, right in a check within two or 5",
          "[counting]") {
    // Seconds, beats wrong -> verdict, right in a check [trade review 2.13, signal science 7.2, our own
    // defaults].
    struct Row {
        double plan;
        int off;
        Verdict verdict;
        bool right;
    };
    for (const Row& row : {
             Row{60, 4, Verdict::met, true},
             Row{60, -5, Verdict::partly, true},
             Row{60, 6, Verdict::partly, false},
             Row{60, 8, Verdict::partly, false},
             Row{60, -9, Verdict::missed, false},
             Row{30, 2, Verdict::met, true},
             Row{30, 3, Verdict::partly, false},
             Row{30, 4, Verdict::partly, false},
             Row{30, 5, Verdict::missed, false},
             Row{15, -1, Verdict::met, true},
             Row{15, 2, Verdict::partly, true},
             Row{15, 3, Verdict::missed, false},
             Row{10, 1, Verdict::met, true},
             Row{10, -2, Verdict::missed, true},
             Row{10, 3, Verdict::missed, false},
             Row{6, -1, Verdict::met, true},
             Row{6, 2, Verdict::missed, true},
             Row{6, 3, Verdict::missed, false},
         }) {
        CAPTURE(row.plan, row.off);
        const ScoreSheet sheet = counted(138.4, row.plan, 3, row.off);
        INFO(told(sheet));
        const AspectScore& a = aspect(sheet, Aspect::count);
        CHECK(a.verdict == row.verdict);
        CHECK(a.figures.at("right") == (row.right ? 1 : 0));
        CHECK(a.figures.at("right_within_bpm") == Approx(std::max(120 / row.plan, 5.0)));
        if (row.off != 0) CHECK(a.why.find(row.off > 0 ? "extra" : "missed") != std::string::npos);
    }
}

TEST_CASE(
    "A window is on a boundary when its true rate lies within two beats of its method and 1 bpm of a limit",
    "[counting]") {
    // Limits 110 and 160 (WHO 2018): 60 s 3 bpm, 30 s 5, 15 s 9, 10 s 13, 6 s 21.
    struct Row {
        double bpm, plan;
        bool boundary;
    };
    for (const Row& row : {Row{135, 60, false}, Row{135, 6, false}, Row{117, 15, true}, Row{121, 15, false},
                           Row{121, 10, true}, Row{125, 10, false}, Row{129, 6, true}, Row{112, 60, true},
                           Row{115, 60, false}, Row{106, 60, false}, Row{158, 60, true}, Row{154, 60, false},
                           Row{154, 30, false}, Row{156, 30, true}}) {
        CAPTURE(row.bpm, row.plan);
        const ScoreSheet sheet = counted(row.bpm, row.plan, 2);
        CAPTURE(sheet.windows.at(0).true_bpm);
        CHECK(sheet.windows.at(0).boundary == row.boundary);
    }
}
