#include "engine/competency/rasch.h"

#include "engine/competency/symmetric.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>

namespace engine {
namespace {

RaschItems nothing(std::size_t items, std::size_t persons, const std::string& why) {
    const std::vector<Figure> none(items, Figure::absent(why));
    return {none, none, persons, Figure::absent(why), why, ""};
}

std::string remark_for(std::size_t persons) {
    if (persons < 30) return "too few persons to publish (30): show shares right instead";
    return persons < 100 ? "provisional: fewer than 100 persons" : "";
}

}  // namespace

RaschItems rasch_items_from_totals(std::span<const long long> right,
                                   std::span<const long long> persons_with) {
    const std::size_t k = right.size();
    assert(persons_with.size() == k + 1);
    if (k < 2) return nothing(k, 0, "needs 2 items");
    if (k > most_rasch_items) return nothing(k, 0, "more than 200 items");
    std::vector<double> wanted(k), at_score(k + 1);
    double persons = 0;
    for (std::size_t r = 1; r < k; ++r) persons += at_score[r] = static_cast<double>(persons_with[r]);
    if (persons == 0) return nothing(k, 0, "nobody had some right and some wrong");
    const auto used = static_cast<std::size_t>(persons);
    for (std::size_t i = 0; i < k; ++i) {
        wanted[i] = static_cast<double>(right[i] - persons_with[k]);  // those with all right say nothing
        if (wanted[i] <= 0 || wanted[i] >= persons)
            return nothing(k, used, "an item is all right or all wrong among those used");
    }
    std::vector<double> b(k);
    for (std::size_t i = 0; i < k; ++i) b[i] = std::log((persons - wanted[i]) / wanted[i]);

    Conditional at = conditional(b, at_score);
    for (int round = 0;; ++round) {
        if (round == 200) return nothing(k, used, "the estimates do not settle");
        const double mean = std::accumulate(b.begin(), b.end(), 0.0) / static_cast<double>(k);
        for (double& d : b) d -= mean;
        at = conditional(b, at_score);
        std::vector<double> step(k);
        double largest = 0;
        SquareMatrix inverse = at.information;
        for (double& cell : inverse.cells)
            cell += 1.0 / static_cast<double>(k);  // the direction b + constant
        if (!invert(inverse)) return nothing(k, used, "the estimates do not exist");
        for (std::size_t i = 0; i < k; ++i) {
            for (std::size_t j = 0; j < k; ++j) step[i] += inverse(i, j) * (at.expected_right[j] - wanted[j]);
            largest = std::max(largest, std::fabs(step[i]));
        }
        const double by = largest > 1 ? 1 / largest : 1;
        for (std::size_t i = 0; i < k; ++i) b[i] += by * step[i];
        if (largest > 1e-11) continue;

        RaschItems found{{}, {}, used, Figure(0.0), "", remark_for(used)};
        double likelihood = 0;
        for (std::size_t i = 0; i < k; ++i) {
            found.difficulty.push_back(b[i]);
            found.standard_error.push_back(std::sqrt(inverse(i, i) - 1.0 / static_cast<double>(k)));
            likelihood -= b[i] * wanted[i];
        }
        for (std::size_t r = 1; r < k; ++r) likelihood -= at_score[r] * std::log(at.gamma[r]);
        found.log_likelihood = likelihood;
        return found;
    }
}

bool strongly_connected(const Responses& responses) {
    if (responses.empty()) return false;
    const std::size_t k = responses.front().size();
    std::vector<std::vector<char>> step(k, std::vector<char>(k));
    for (const auto& person : responses)
        for (std::size_t i = 0; i < k; ++i)
            if (person[i])
                for (std::size_t j = 0; j < k; ++j) step[i][j] |= static_cast<char>(!person[j]);
    const auto reaches_all = [&](bool backwards) {
        std::vector<char> seen(k);
        std::vector<std::size_t> left{0};
        seen[0] = 1;
        while (!left.empty()) {
            const std::size_t i = left.back();
            left.pop_back();
            for (std::size_t j = 0; j < k; ++j)
                if (!seen[j] && (backwards ? step[j][i] : step[i][j])) seen[j] = 1, left.push_back(j);
        }
        return std::count(seen.begin(), seen.end(), 1) == static_cast<std::ptrdiff_t>(k);
    };
    return reaches_all(false) && reaches_all(true);
}

RaschItems rasch_items(const Responses& responses) {
    const std::size_t items = responses.empty() ? 0 : responses.front().size();
    if (responses.empty()) return nothing(0, 0, "no persons");
    std::vector<std::size_t> kept(items);
    std::iota(kept.begin(), kept.end(), std::size_t{0});
    std::vector<const std::vector<char>*> people;
    for (const auto& person : responses) people.push_back(&person);
    std::vector<std::string> dropped(items);

    const auto right_of = [&](const std::vector<char>& person) {
        std::size_t right = 0;
        for (std::size_t i : kept) right += static_cast<std::size_t>(person[i]);
        return right;
    };
    for (bool changed = true; changed;) {
        changed = false;
        std::erase_if(people, [&](const auto* p) {
            const std::size_t right = right_of(*p);
            return right == 0 || right == kept.size();
        });
        if (people.empty()) break;
        std::erase_if(kept, [&](std::size_t i) {
            std::size_t right = 0;
            for (const auto* p : people) right += static_cast<std::size_t>((*p)[i]);
            if (right > 0 && right < people.size()) return false;
            dropped[i] = right == 0 ? "all wrong among those used" : "all right among those used";
            return changed = true;
        });
    }
    if (people.empty())
        return nothing(items, 0,
                       kept.size() == items
                           ? "nobody had some right and some wrong"
                           : "nothing is left once items and people all right or all wrong are "
                             "left out");

    Responses used;
    for (const auto* p : people) {
        std::vector<char> row;
        for (std::size_t i : kept) row.push_back((*p)[i]);
        used.push_back(std::move(row));
    }
    if (!strongly_connected(used))
        return nothing(items, people.size(),
                       "no finite estimate: some items were always at least as well answered as the others");
    std::vector<long long> right(kept.size()), persons_with(kept.size() + 1);
    for (const auto& row : used) {
        std::size_t score = 0;
        for (std::size_t i = 0; i < row.size(); ++i)
            right[i] += row[i], score += static_cast<std::size_t>(row[i]);
        ++persons_with[score];
    }
    const RaschItems fitted = rasch_items_from_totals(right, persons_with);
    RaschItems found = nothing(items, people.size(), "dropped");
    found.log_likelihood = fitted.log_likelihood;
    found.why = fitted.why;
    found.remark = fitted.remark;
    for (std::size_t i = 0; i < items; ++i)
        if (!dropped[i].empty()) found.difficulty[i] = found.standard_error[i] = Figure::absent(dropped[i]);
    for (std::size_t i = 0; i < kept.size(); ++i) {
        found.difficulty[kept[i]] = fitted.difficulty[i];
        found.standard_error[kept[i]] = fitted.standard_error[i];
    }
    return found;
}

}  // namespace engine
