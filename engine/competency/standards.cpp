#include "engine/competency/standards.h"

#include "engine/competency/distributions.h"
#include "engine/competency/items.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace engine {

int rounded_up(double cut) { return static_cast<int>(std::ceil(cut - 1e-9)); }

AngoffCut angoff(const std::vector<std::vector<double>>& judges) {
    const auto without_spread = [](const std::string& why) {
        const Figure none = Figure::absent(why);
        return AngoffCut{{}, none, none, none, none, Interval::absent(why), 0, ""};
    };
    if (judges.empty() || judges.front().empty()) return without_spread("no ratings");
    AngoffCut found = without_spread("a spread needs 2 judges");
    double sum = 0;
    for (const auto& row : judges) {
        assert(row.size() == judges.front().size());
        double cut = 0;
        for (double chance : row) cut += chance;
        found.judge_cuts.push_back(cut);
        sum += cut;
    }
    const double j = static_cast<double>(judges.size()), mean = sum / j;
    found.cut = mean;
    found.share = mean / static_cast<double>(judges.front().size());
    found.mark = rounded_up(mean);
    if (judges.size() < 5) found.remark = "fewer than 5 judges";
    if (judges.size() < 2) return found;
    double squares = 0;
    for (double cut : found.judge_cuts) squares += (cut - mean) * (cut - mean);
    const double sd = std::sqrt(squares / (j - 1)), half = t_quantile(0.975, j - 1) * sd / std::sqrt(j);
    found.sd = sd;
    found.standard_error = sd / std::sqrt(j);
    found.interval = {mean - half, mean + half};
    return found;
}

BorderlineCut borderline_regression(std::span<const double> ratings, std::span<const double> scores,
                                    double borderline) {
    assert(ratings.size() == scores.size());
    const std::size_t n = ratings.size();
    double sum = 0, among = 0;
    for (std::size_t i = 0; i < n; ++i)
        if (ratings[i] == borderline) sum += scores[i], among += 1;
    // needs no line
    const Figure group_mean = among > 0 ? Figure(sum / among) : Figure::absent("nobody was rated borderline");
    const auto none = [&](const std::string& why, const LineFit& line) {
        const Figure absent = Figure::absent(why);
        return BorderlineCut{absent, absent, absent, Interval::absent(why), line, group_mean, ""};
    };
    const LineFit line = line_fit(ratings, scores);
    if (n < 10) return none("fewer than 10 were examined", line);
    if (!line.slope.value) return none("all ratings equal", line);
    if (*line.slope.value <= 0) return none("better ratings do not go with higher scores", line);

    const double cut = *line.at(borderline), error = *line.standard_error_at(borderline);
    const double half = t_quantile(0.975, static_cast<double>(n - 2)) * error;
    BorderlineCut found{cut,
                        error,
                        Figure::absent("leaving one out, all ratings are equal"),
                        {cut - half, cut + half},
                        line,
                        group_mean,
                        ""};

    std::vector<double> cuts;
    for (std::size_t out = 0; out < n; ++out) {
        std::vector<double> x, y;
        for (std::size_t i = 0; i < n; ++i)
            if (i != out) x.push_back(ratings[i]), y.push_back(scores[i]);
        if (const Figure one = line_fit(x, y).at(borderline)) cuts.push_back(*one);
    }
    if (cuts.size() == n) {
        double mean = 0, squares = 0;
        for (double c : cuts) mean += c / static_cast<double>(n);
        for (double c : cuts) squares += (c - mean) * (c - mean);
        found.jackknife_error = std::sqrt(squares * static_cast<double>(n - 1) / static_cast<double>(n));
    }
    if (line.share_explained && *line.share_explained < 0.4)
        found.remark = "the ratings explain less than 40 % of the scores";
    return found;
}

Consistency decision_consistency(double mean, double variance_over_n, const FixedRule& rule) {
    const int n = rule.items;
    const Figure reliability = kr21(mean, variance_over_n, n);
    const auto none = [&](const std::string& why) {
        const Figure absent = Figure::absent(why);
        return Consistency{reliability, absent, absent, absent, absent, absent};
    };
    if (!reliability) return none(reliability.why());
    if (*reliability <= 0 || *reliability >= 1) return none("needs a KR-21 between 0 and 1");
    const double a = (1 / *reliability - 1) * mean, b = -a + n / *reliability - n;
    if (!(a > 0 && b > 0)) return none("mean and variance fit no beta-binomial");

    std::vector<double> ways(static_cast<std::size_t>(n) + 1);
    for (int x = 0; x <= n; ++x) ways[static_cast<std::size_t>(x)] = log_choose(n, x);
    std::vector<double> of_sum(2 * static_cast<std::size_t>(n) +
                               1);  // ln B(a + x + y, b + 2n - x - y) / B(a, b)
    for (int s = 0; s <= 2 * n; ++s)
        of_sum[static_cast<std::size_t>(s)] = log_beta(a + s, b + 2 * n - s) - log_beta(a, b);
    double both_pass = 0, both_fail = 0, passes = 0;
    for (int x = 0; x <= n; ++x)
        for (int y = 0; y <= n; ++y) {
            const auto i = static_cast<std::size_t>(x), j = static_cast<std::size_t>(y);
            const double chance = std::exp(ways[i] + ways[j] + of_sum[i + j]);
            if (x >= rule.mark) passes += chance;
            if (x >= rule.mark && y >= rule.mark) both_pass += chance;
            if (x < rule.mark && y < rule.mark) both_fail += chance;
        }
    const double same = both_pass + both_fail, by_chance = passes * passes + (1 - passes) * (1 - passes);
    return {reliability,
            a,
            b,
            passes,
            same,
            by_chance < 1 - 1e-12 ? Figure((same - by_chance) / (1 - by_chance))
                                  : Figure::absent("nearly all pass or nearly all fail")};
}

double passes_within(double one_try, int tries) { return 1 - std::pow(1 - one_try, tries); }

double false_pass_a_try(double in_all, int tries) {
    assert(tries >= 1);
    return 1 - std::pow(1 - in_all, 1.0 / tries);
}

}  // namespace engine
