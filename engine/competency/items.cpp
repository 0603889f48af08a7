#include "engine/competency/items.h"

#include "engine/competency/distributions.h"
#include "engine/competency/proportions.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace engine {
namespace {

struct Moments {
    double n = 0, sum = 0, squares = 0;

    void add(double x) { n += 1, sum += x, squares += x * x; }
    double about_mean() const { return std::max(0.0, squares - sum * sum / n); }
};

Reliability no_reliability(std::size_t persons, std::size_t items, const std::string& why) {
    const Figure none = Figure::absent(why);
    return {persons, items, none, none, none, none, Interval::absent(why), Interval::absent(why), none};
}

std::string remark_of(const ItemFigures& item, std::size_t persons) {
    if (*item.difficulty == 1) return "all right: says nothing about the rest";
    if (*item.difficulty == 0) return "all wrong: says nothing about the rest";
    if (persons < 20) return "";
    std::string remark;
    if (item.with_rest && *item.with_rest < 0.1) remark = "hardly goes with the rest";
    const std::string hard = *item.difficulty > 0.95   ? "nearly all right"
                             : *item.difficulty < 0.20 ? "mostly wrong"
                                                       : "";
    if (!hard.empty()) remark += (remark.empty() ? "" : "; ") + hard;
    return remark;
}

// Totals and their variance may be whole numbers plus dust: compare with the scale of the sums.
bool none_left(const Moments& m) { return m.about_mean() <= 1e-12 * m.squares; }

// `within`: the items' squares about their means, summed.
Reliability reliability_from(const Moments& total, std::size_t persons, std::size_t items, double within) {
    if (persons < 2) return no_reliability(persons, items, "needs 2 persons");
    if (items < 2) return no_reliability(persons, items, "needs 2 items");
    if (none_left(total)) {
        Reliability r = no_reliability(persons, items, "all totals equal");
        r.mean = total.sum / total.n;
        r.variance = 0.0;
        return r;
    }
    const double n = total.n, k = static_cast<double>(items);
    const double alpha = k / (k - 1) * (1 - within / total.about_mean());
    const double variance = total.about_mean() / (n - 1);
    Reliability r{persons,
                  items,
                  total.sum / n,
                  variance,
                  alpha,
                  Figure::absent("only for items right or wrong"),
                  {1 - (1 - alpha) * f_quantile(0.975, n - 1, (n - 1) * (k - 1)),
                   1 - (1 - alpha) * f_quantile(0.025, n - 1, (n - 1) * (k - 1))},
                  Interval::absent("needs 3 persons"),
                  std::sqrt(variance * (1 - alpha))};
    if (persons > 2 && alpha < 1) {
        const double error = std::sqrt(2 * k / ((k - 1) * (n - 2)));
        r.bonett = {1 - (1 - alpha) * std::exp(z95 * error), 1 - (1 - alpha) * std::exp(-z95 * error)};
    }
    return r;
}

}  // namespace

Reliability reliability(const std::vector<std::vector<double>>& scores) {
    const std::size_t persons = scores.size(), items = persons == 0 ? 0 : scores.front().size();
    std::vector<Moments> each(items);
    Moments total;
    for (const auto& row : scores) {
        assert(row.size() == items);
        double sum = 0;
        for (std::size_t i = 0; i < items; ++i) {
            each[i].add(row[i]);
            sum += row[i];
        }
        total.add(sum);
    }
    double within = 0;
    for (const Moments& m : each) within += m.about_mean();
    return reliability_from(total, persons, items, within);
}

ItemAnalysis item_analysis(const Responses& responses) {
    AnswerSums sums;
    sums.persons = responses.size();
    const std::size_t items = responses.empty() ? 0 : responses.front().size();
    sums.right.resize(items);
    sums.totals_of_right.resize(items);
    for (const auto& row : responses) {
        assert(row.size() == items);
        double total = 0;
        for (char answer : row) {
            assert(answer == 0 || answer == 1);
            total += answer;
        }
        sums.totals += total;
        sums.totals_squared += total * total;
        for (std::size_t i = 0; i < items; ++i)
            if (row[i]) sums.right[i] += 1, sums.totals_of_right[i] += total;
    }
    return item_analysis(sums);
}

ItemAnalysis item_analysis(const AnswerSums& sums) {
    const std::size_t items = sums.right.size();
    // Sums of whole numbers up to 2^53: exact, so a zero spread is exactly zero.
    const double n = static_cast<double>(sums.persons), t = sums.totals, tt = sums.totals_squared;
    double within = 0;
    for (double x : sums.right) within += n > 0 ? std::max(0.0, x - x * x / n) : 0;
    ItemAnalysis found{{}, reliability_from({n, t, tt}, sums.persons, items, within)};
    if (found.whole.mean)
        found.whole.kr21 =
            kr21(*found.whole.mean, *found.whole.variance * (n - 1) / n, static_cast<int>(items));
    for (std::size_t i = 0; i < items; ++i) {
        const double x = sums.right[i], xt = sums.totals_of_right[i];
        const auto correlation = [&](double y, double yy, double xy) -> Figure {
            const double sx = n * x - x * x, sy = n * yy - y * y;
            if (sx <= 0) return Figure::absent("all answers to this item are alike");
            if (sy <= 0) return Figure::absent("all totals equal");
            return (n * xy - x * y) / std::sqrt(sx * sy);
        };
        ItemFigures item{Figure::absent("nobody answered every item"),
                         wilson(static_cast<long long>(x), static_cast<long long>(sums.persons)),
                         correlation(t - x, tt - 2 * xt + x, xt - x), correlation(t, tt, xt), ""};
        if (sums.persons > 0) item.difficulty = x / n;
        if (sums.persons < 2) item.with_rest = item.with_total = Figure::absent("needs 2 persons");
        if (items < 2) item.with_rest = Figure::absent("needs 2 items");
        if (item.difficulty) item.remark = remark_of(item, sums.persons);
        found.items.push_back(std::move(item));
    }
    return found;
}

Figure kr21(double mean, double variance_over_n, int items) {
    if (items < 2) return Figure::absent("needs 2 items");
    if (variance_over_n <= 0) return Figure::absent("all totals equal");
    return items / (items - 1.0) * (1 - mean * (items - mean) / (items * variance_over_n));
}

Figure lord_standard_error(int right, int items) {
    assert(right >= 0 && right <= items);
    if (items < 2) return Figure::absent("needs 2 items");
    return std::sqrt(static_cast<double>(right) * (items - right) / (items - 1.0));
}

}  // namespace engine
