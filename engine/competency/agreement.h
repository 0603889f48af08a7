// One trainee's counts against the truth: how far off, in which direction, how much scattered.
// Never pool methods of different factor, or people, without saying so. Sources: Bland & Altman 1986; Lin
// 1989.
#pragma once

#include "engine/competency/figure.h"

#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace engine {

// Running sums of typed minus truth: one pass, any number of groups side by side. Sums are taken about the
// first reading, so that a million readings near 140 lose no digits.
class CountErrors {
public:
    explicit CountErrors(double within_bpm = 2) : within_bpm_(within_bpm) {}

    void add(double truth_bpm, double typed_bpm) {
        if (n_ == 0) origin_ = truth_bpm;
        const double error = typed_bpm - truth_bpm, truth = truth_bpm - origin_;
        const double size = error < 0 ? -error : error;
        ++n_;
        within_ += size <= within_bpm_ + 1e-9;  // 129.8 - 127.8 is a little more than 2
        error_ += error;
        error2_ += error * error;
        truth_ += truth;
        truth2_ += truth * truth;
        cross_ += truth * error;
        size_ += size;
        largest_ = largest_ < size ? size : largest_;
    }
    void add(const CountErrors& more);  // the same within_bpm

    // The same sums taken elsewhere: truths less `origin_bpm`.
    struct Sums {
        std::size_t n = 0, within = 0;
        double origin_bpm = 0, error = 0, error2 = 0, truth = 0, truth2 = 0, cross = 0, size = 0, largest = 0;
    };
    static CountErrors of_sums(const Sums& sums, double within_bpm);

    std::size_t n() const { return n_; }

    Figure bias_bpm() const;
    Figure sd_bpm() const;
    Interval bias_interval() const;  // by t
    Figure rmse_bpm() const;
    Figure mean_size_bpm() const;  // mean of |error|
    Figure largest_size_bpm() const;
    Figure cv_percent() const;    // 100 sd / mean truth
    Figure concordance() const;   // Lin, moments over n
    Figure share_within() const;  // of readings with |error| <= within_bpm (the limit itself is in)
    Figure mean_truth_bpm() const;
    Figure slope_on_truth() const;  // error against truth; below 0 = pulled towards the middle

private:
    double within_bpm_;
    std::size_t n_ = 0, within_ = 0;
    double origin_ = 0, error_ = 0, error2_ = 0, truth_ = 0, truth2_ = 0, cross_ = 0, size_ = 0, largest_ = 0;
};

CountErrors count_errors(std::span<const double> truth_bpm, std::span<const double> typed_bpm,
                         double within_bpm = 2);

// By any word: method, instrument, task, person, item. `group[i]` in 0..groups-1.
std::vector<CountErrors> count_errors_by(std::span<const unsigned> group, std::size_t groups,
                                         std::span<const double> truth_bpm, std::span<const double> typed_bpm,
                                         double within_bpm = 2);

// By the rate that was true: below edges[0], edges[0] to below edges[1], ... (the protocol's 110 and 160,
// say; a rate on an edge belongs to the band above it). Counts are pulled towards normal when a rate is fast
// or slow: Day, Maddern & Wood 1968.
std::vector<CountErrors> count_errors_by_band(std::span<const double> edges_bpm,
                                              std::span<const double> truth_bpm,
                                              std::span<const double> typed_bpm, double within_bpm = 2);

// The same window counted twice.
struct Repeatability {
    Figure sd_bpm;           // within the counter
    Figure coefficient_bpm;  // two counts of one window differ by less, 95 times in 100
};
Repeatability repeatability(std::span<const double> first_bpm, std::span<const double> second_bpm);

}  // namespace engine
