// Has the trainee got there, and are they still there: charts of successes and failures in order.
// LC-CUSUM: Biau et al. 2008 and 2010. The threshold h belongs to a number of attempts: with unlimited tries
// an inadequate trainee always signals. For practice only; certification is a pass rule (pass_rule.h). Count
// first exposures only: a repeated item is not independent.
#pragma once

#include "engine/competency/figure.h"

#include <string>
#include <vector>

namespace engine {

inline constexpr int most_chart_attempts = 300;

// Shares of failures: acceptable < unacceptable, both inside 0..1.
struct FailureRates {
    double acceptable = 0.10, unacceptable = 0.30;
};
std::string fault_of(const FailureRates& rates);  // empty when they can be used

// Steps of the learning chart; the monitoring chart has the same sizes with the signs turned.
double success_step(const FailureRates& rates);  // > 0
double failure_step(const FailureRates& rates);  // < 0

// S after each attempt; `signal_at` is the 1-based attempt where S first reached the threshold, 0 = not yet.
struct Chart {
    std::vector<double> s;
    int signal_at = 0;
};
Chart learning_chart(const FailureRates& rates, double h,
                     const std::vector<bool>& right);  // a signal: adequate
Chart monitoring_chart(const FailureRates& rates, double h,
                       const std::vector<bool>& right);  // a signal: offer practice

// Chance of a signal within 1, 2, ... attempts for a trainee who fails this share of them: exact, by
// recursion over the states a chart can be in. 1 <= attempts <= most_chart_attempts.
std::vector<double> learning_signal(const FailureRates& rates, double h, double failing, int attempts);
std::vector<double> monitoring_signal(const FailureRates& rates, double h, double failing, int attempts);
Figure median_attempts(const std::vector<double>& signal);  // the first with a chance of one half

// The smallest h, in hundredths, at which a trainee who fails the unacceptable share signals within
// `attempts` with a chance of at most `false_signal`.
Figure threshold_for(const FailureRates& rates, int attempts, double false_signal = 0.05);

// The sequential test drawn as a chart of failures (the rule of pass_rule.h rescaled: offer one of the two).
struct SequentialChart {
    double up_per_failure, down_per_success;
    double acceptable_at, unacceptable_at;  // below -acceptable_at: acceptable; above unacceptable_at: not
};
SequentialChart sequential_chart(const FailureRates& rates, double alpha, double beta);

}  // namespace engine
