#include "engine/competency/agreement.h"

#include "engine/competency/distributions.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace engine {
namespace {

const char* const no_counts = "no counts";
const char* const one_count = "a spread needs 2 counts, there is 1";

double n_of(std::size_t n) { return static_cast<double>(n); }

}  // namespace

void CountErrors::add(const CountErrors& more) {
    assert(within_bpm_ == more.within_bpm_);
    if (more.n_ == 0) return;
    if (n_ == 0) {
        *this = more;
        return;
    }
    const double moved = more.origin_ - origin_, n = n_of(more.n_);
    truth2_ += more.truth2_ + 2 * moved * more.truth_ + n * moved * moved;
    cross_ += more.cross_ + moved * more.error_;
    truth_ += more.truth_ + n * moved;
    error_ += more.error_;
    error2_ += more.error2_;
    size_ += more.size_;
    largest_ = std::max(largest_, more.largest_);
    n_ += more.n_;
    within_ += more.within_;
}

CountErrors CountErrors::of_sums(const Sums& sums, double within_bpm) {
    CountErrors e(within_bpm);
    e.n_ = sums.n;
    e.within_ = sums.within;
    e.origin_ = sums.origin_bpm;
    e.error_ = sums.error;
    e.error2_ = sums.error2;
    e.truth_ = sums.truth;
    e.truth2_ = sums.truth2;
    e.cross_ = sums.cross;
    e.size_ = sums.size;
    e.largest_ = sums.largest;
    return e;
}

Figure CountErrors::bias_bpm() const {
    if (n_ == 0) return Figure::absent(no_counts);
    return error_ / n_of(n_);
}

Figure CountErrors::sd_bpm() const {
    if (n_ == 0) return Figure::absent(no_counts);
    if (n_ == 1) return Figure::absent(one_count);
    return std::sqrt(std::max(0.0, error2_ - error_ * error_ / n_of(n_)) / n_of(n_ - 1));
}

Interval CountErrors::bias_interval() const {
    const Figure sd = sd_bpm();
    if (!sd) return Interval::absent(sd.why());
    const double bias = *bias_bpm();
    const double half = *sd == 0 ? 0 : t_quantile(0.975, n_of(n_ - 1)) * *sd / std::sqrt(n_of(n_));
    return {bias - half, bias + half};
}

Figure CountErrors::rmse_bpm() const {
    if (n_ == 0) return Figure::absent(no_counts);
    return std::sqrt(error2_ / n_of(n_));
}

Figure CountErrors::mean_size_bpm() const {
    if (n_ == 0) return Figure::absent(no_counts);
    return size_ / n_of(n_);
}

Figure CountErrors::largest_size_bpm() const {
    if (n_ == 0) return Figure::absent(no_counts);
    return largest_;
}

Figure CountErrors::mean_truth_bpm() const {
    if (n_ == 0) return Figure::absent(no_counts);
    return origin_ + truth_ / n_of(n_);
}

Figure CountErrors::cv_percent() const {
    const Figure sd = sd_bpm();
    if (!sd) return sd;
    if (*mean_truth_bpm() <= 0) return Figure::absent("the mean of the truths is not above 0");
    return 100 * *sd / *mean_truth_bpm();
}

Figure CountErrors::concordance() const {
    if (n_ == 0) return Figure::absent(no_counts);
    const double n = n_of(n_), bias = error_ / n;
    const double truth = std::max(0.0, truth2_ / n - truth_ * truth_ / (n * n));
    const double error = std::max(0.0, error2_ / n - bias * bias);
    const double with_error = cross_ / n - truth_ / n * bias;
    const double typed = truth + 2 * with_error + error;
    const double below = truth + std::max(0.0, typed) + bias * bias;
    if (truth == 0 && typed <= 0) return Figure::absent("all truths equal and all counts equal");
    return 2 * (truth + with_error) / below;
}

Figure CountErrors::share_within() const {
    if (n_ == 0) return Figure::absent(no_counts);
    return n_of(within_) / n_of(n_);
}

Figure CountErrors::slope_on_truth() const {
    if (n_ < 2) return Figure::absent(n_ == 0 ? no_counts : one_count);
    const double n = n_of(n_), spread = truth2_ - truth_ * truth_ / n;
    if (spread <= 1e-12 * truth2_) return Figure::absent("all truths equal");
    return (cross_ - truth_ * error_ / n) / spread;
}

CountErrors count_errors(std::span<const double> truth_bpm, std::span<const double> typed_bpm,
                         double within_bpm) {
    assert(truth_bpm.size() == typed_bpm.size());
    CountErrors all(within_bpm);
    for (std::size_t i = 0; i < truth_bpm.size(); ++i) all.add(truth_bpm[i], typed_bpm[i]);
    return all;
}

std::vector<CountErrors> count_errors_by(std::span<const unsigned> group, std::size_t groups,
                                         std::span<const double> truth_bpm, std::span<const double> typed_bpm,
                                         double within_bpm) {
    assert(truth_bpm.size() == typed_bpm.size() && group.size() == truth_bpm.size());
    std::vector<CountErrors> by(groups, CountErrors(within_bpm));
    for (std::size_t i = 0; i < group.size(); ++i) {
        assert(group[i] < groups);
        by[group[i]].add(truth_bpm[i], typed_bpm[i]);
    }
    return by;
}

std::vector<CountErrors> count_errors_by_band(std::span<const double> edges_bpm,
                                              std::span<const double> truth_bpm,
                                              std::span<const double> typed_bpm, double within_bpm) {
    assert(std::is_sorted(edges_bpm.begin(), edges_bpm.end()) && truth_bpm.size() == typed_bpm.size());
    std::vector<CountErrors> by(edges_bpm.size() + 1, CountErrors(within_bpm));
    for (std::size_t i = 0; i < truth_bpm.size(); ++i) {
        const auto above = std::upper_bound(edges_bpm.begin(), edges_bpm.end(), truth_bpm[i]);
        by[static_cast<std::size_t>(above - edges_bpm.begin())].add(truth_bpm[i], typed_bpm[i]);
    }
    return by;
}

Repeatability repeatability(std::span<const double> first_bpm, std::span<const double> second_bpm) {
    assert(first_bpm.size() == second_bpm.size());
    if (first_bpm.empty()) {
        const Figure none = Figure::absent("no window was counted twice");
        return {none, none};
    }
    double sum = 0;
    for (std::size_t i = 0; i < first_bpm.size(); ++i) {
        const double difference = first_bpm[i] - second_bpm[i];
        sum += difference * difference;
    }
    const double sd = std::sqrt(sum / (2 * n_of(first_bpm.size())));
    return {sd, z95 * std::sqrt(2.0) * sd};
}

}  // namespace engine
