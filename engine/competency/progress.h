// How one person's counts stand: off by how much, where, and since when. A pure function of the person's
// count columns. Never pooled: persons, output modes, and (where the size of an error matters) lengths of
// counting. For practice only: certification is a pass rule (pass_rule.h).
#pragma once

#include "engine/competency/agreement.h"
#include "engine/competency/categories.h"
#include "engine/competency/count_columns.h"
#include "engine/competency/figure.h"
#include "engine/competency/learning.h"
#include "engine/competency/limits.h"
#include "engine/competency/line_fit.h"
#include "engine/competency/proportions.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace engine {

// Bands of the true rate, bpm: below 110, 110 to below 125, 125 to below 145, 145 to 160, above 160, 180 and
// more. The limits of normal are 110 and 160, both included; the inner edges and "very fast" are our own
// [practice].
inline constexpr double band_edges_bpm[] = {110, 125, 145, 160.0005, 180};
inline constexpr std::size_t rate_bands = 6;

struct ProgressAsked {
    std::optional<int> mode{};  // sim::OutputMode; none = the one with the most counts
    // length of the counts shown; none = the one with the most counts in that mode
    std::optional<int> method_s{};
    // the learning chart's h belongs to this number of attempts, 1..most_chart_attempts
    int attempt_cap = 100;
    double false_signal = 0.05;
};

// Counts with both a reading and a true rate. `right`: within two beats x factor or 5 bpm, whichever is more,
// of the baby's beats in the trainee's own window.
struct CountGroup {
    int number = 0;  // seconds, sim::Instrument, engine::Task, band or sim::OutputMode
    CountErrors errors;
    long long right = 0, of = 0;
    Figure share_right() const;
    Interval share_right_interval() const { return wilson(right, of); }
};

// One count on the plot, in time order.
struct CountPoint {
    double truth_bpm = 0, error_bpm = 0;
    bool right = true;
};

// Judged counts that do not stand in the agreement figures, and why.
struct LeftOut {
    int corrected = 0;    // counted again in the same listening
    int no_number = 0;    // no count and no rate given
    int other_heart = 0;  // beats of the mother, or nobody's
    int other_mode = 0, other_method = 0;
};

// What the learning chart is made of: the first attempt at each labour, in time order.
struct LearningSoFar {
    FailureRates rates;
    int cap = 100;
    Figure h = Figure::absent("no attempts");  // tied to the cap
    std::vector<bool> right;                   // every judged count of the attempt was right
    Chart chart;                               // over the first `cap` attempts
    Chart monitor;                             // of the latest 50 after the signal: an alarm means practice
    int monitor_from = 0;                      // how many came before the first of the monitored
    int repeats = 0;                           // later attempts at a labour already met: not in the chart
};

// A share of the unlike that is worse than it may be.
enum class WeakIn : std::uint8_t {
    band,
    method,
    instrument,
    task,
    counting,
    whose,
    missed_abnormal,
    overcalled,
    aspect
};
struct Weakness {
    WeakIn in = WeakIn::counting;
    int number = 0;  // of the group, or of the aspect
    long long wrong = 0, of = 0;
    double at_least = 0;  // lower 95 % bound of the share wrong: what the list is ordered by
    Figure bias_bpm = Figure::absent("not a matter of rate");
};

struct Progress {
    int attempts = 0;  // with at least one counted window
    // when the first and the last of them ended, seconds since 1970 UTC
    Figure first_s = Figure::absent("no attempts"), last_s = Figure::absent("no attempts");
    std::vector<CountGroup> modes;  // all judged counts with a number, by mode
    int mode = -1, method_s = 0;    // those shown; -1 and 0 when there is no count
    LeftOut left_out;

    // In this mode and method.
    std::vector<CountPoint> points;
    CountErrors errors;
    Limits limits = limits_of_agreement(CountErrors());  // worth showing from 10 counts on
    // error on truth; a slope below 0 with its interval = pulled to normal
    LineFit pull = error_against_truth({}, {});
    bool pulled_to_normal = false;
    std::vector<CountGroup> bands;  // six, empty ones too
    std::vector<CountGroup> instruments, tasks;

    std::vector<CountGroup> methods;  // in this mode, longest first

    // Decisions on counts in this mode, any length; not those on a limit. Rows the truth, columns what was
    // said: slow, normal, fast (rising stands with fast).
    CategoryTable calls;
    int calls_on_limit = 0;
    Kappa agreement_on_class = kappa(CategoryTable(3, std::vector<long long>(3, 0)));
    CallFigures abnormal = call_figures({});

    LearningSoFar learning;  // in this mode, any length

    // An estimate from a borrowed curve, no evidence about this person. Seconds since 1970; months after the
    // last day.
    Figure refresher_s = Figure::absent("no attempts");
    Figure refresher_months = Figure::absent("no attempts");

    std::vector<Weakness> weak;  // at most three, the worst first
};

Progress progress_of(const CountColumns& one_person, const ProgressAsked& asked = {});

}  // namespace engine
