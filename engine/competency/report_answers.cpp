#include "engine/competency/grid.h"
#include "engine/competency/items.h"
#include "engine/competency/proportions.h"
#include "engine/competency/rasch.h"
#include "engine/competency/reports.h"
#include "engine/competency/standards.h"

#include <algorithm>
#include <cmath>

namespace engine {
namespace {

struct Answers {
    Grid grid;
    Responses responses;
};

Outcome<Answers> answers_of(const Table& t) {
    Outcome<Grid> grid = grid_of(t, "who", "item", "right");
    if (!grid.ok()) return grid.faults();
    Answers a{std::move(grid).value(), {}};
    for (const auto& row : a.grid.cells) a.responses.emplace_back(row.begin(), row.end());
    return a;
}

void put_whole(Report& r, const Reliability& w) {
    r.put("persons", w.persons).put("items", w.items).put("mean", w.mean).put("variance", w.variance);
    r.put("alpha", w.alpha).put("feldt", w.feldt).put("bonett", w.bonett).put("kr21", w.kr21);
    r.put("standard_error", w.standard_error).remark(w.alpha ? alpha_is_kr20 : "");
}

// Published from 30 persons on, like the rest; its steps are slow beyond 60 items.
MarginalRasch marginal_of(const Responses& responses) {
    const std::size_t k = responses.empty() ? 0 : responses.front().size();
    const auto absent = [&](const std::string& why) {
        const Figure none = Figure::absent(why);
        return MarginalRasch{std::vector<Figure>(k, none), none, none};
    };
    if (responses.size() < 30) return absent("too few persons to publish (30)");
    if (k < 2 || k > 60) return absent("needs 2 to 60 items");
    std::vector<long long> right(k), persons_with(k + 1);
    for (const auto& person : responses) {
        std::size_t score = 0;
        for (std::size_t i = 0; i < k; ++i)
            right[i] += person[i], score += static_cast<std::size_t>(person[i]);
        ++persons_with[score];
    }
    return marginal_rasch(right, persons_with);
}

struct Right {
    long long right = 0, of = 0;
};

}  // namespace

Outcome<Report> shares_report(const FiguresAsked&, const Table& t) {
    const Column& who = t["who"];
    std::vector<Right> by(who.names.size());
    for (std::size_t i = 0; i < t.rows; ++i)
        ++by[who.words[i]].of, by[who.words[i]].right += t["right"].numbers[i] > 0;
    std::vector<std::size_t> order(by.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    const auto share = [&](std::size_t i) {
        return static_cast<double>(by[i].right) / static_cast<double>(by[i].of);
    };
    std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return share(a) > share(b); });
    Report r;
    Report::Rows rows;
    for (std::size_t i : order) {
        Report one;
        one.words("name", who.names[i]).put("right", static_cast<double>(by[i].right));
        one.put("of", static_cast<double>(by[i].of)).put("share", share(i));
        one.put("wilson", wilson(by[i].right, by[i].of)).put("exact", clopper_pearson(by[i].right, by[i].of));
        rows.push_back(one.put("at_least", clopper_pearson_at_least(by[i].right, by[i].of)));
    }
    r.rows("persons", rows);
    if (!rows.empty()) r.remark("at_least: one-sided, 95 % sure that the share is above it");
    if (by.size() != 2) return r;

    const Difference d = newcombe(by[0].right, by[0].of, by[1].right, by[1].of);
    Report two;
    two.words("first", who.names[0]).words("second", who.names[1]);
    if (t.find("item") != nullptr) {  // the same items: the pairs where they differed
        const Outcome<Grid> grid = grid_of(t, "item", "who", "right");
        if (!grid.ok()) return grid.faults();
        long long first = 0, second = 0;
        for (const auto& row : grid->cells) first += row[0] > row[1], second += row[1] > row[0];
        two.put("only_first_right", static_cast<double>(first))
            .put("only_second_right", static_cast<double>(second));
        two.put("p_same_items", mcnemar_exact(first, second)).remark(grid->remark("item", "items"));
    }
    two.put("difference_other_items", d.value).put("difference_other_items", d.interval);
    return r.part("compared", two);
}

Outcome<Report> reliability_report(const FiguresAsked&, const Table& t) {
    const Outcome<Answers> a = answers_of(t);
    if (!a.ok()) return a.faults();
    Report r;
    put_whole(r, item_analysis(a->responses).whole);
    Report::Rows scores;  // Lord's error of each score, whoever has it
    const int items = static_cast<int>(a->grid.column_names.size());
    for (int right = 0; items >= 2 && right <= items; ++right) {
        Report one;
        scores.push_back(one.put("right", right).put("standard_error", lord_standard_error(right, items)));
    }
    return r.rows("scores", scores).remark(a->grid.remark("person", "persons"));
}

Outcome<Report> items_report(const FiguresAsked&, const Table& t) {
    const Outcome<Answers> a = answers_of(t);
    if (!a.ok()) return a.faults();
    const ItemAnalysis found = item_analysis(a->responses);
    Report r;
    put_whole(r, found.whole);
    Report::Rows rows;
    for (std::size_t i = 0; i < found.items.size(); ++i) {
        const ItemFigures& item = found.items[i];
        Report one;
        one.words("name", a->grid.column_names[i]).put("difficulty", item.difficulty);
        one.put("difficulty", item.difficulty_interval).put("with_rest", item.with_rest);
        rows.push_back(one.put("with_total", item.with_total).remark(item.remark));
    }
    return r.rows("each", rows).remark(a->grid.remark("person", "persons"));
}

Outcome<Report> rasch_report(const FiguresAsked&, const Table& t) {
    const Outcome<Answers> a = answers_of(t);
    if (!a.ok()) return a.faults();
    const RaschItems found = rasch_items(a->responses);
    Report r;
    r.put("persons_used", found.persons).put("log_likelihood", found.log_likelihood);
    r.remark(found.why).remark(found.remark).remark(a->grid.remark("person", "persons"));
    std::vector<double> known;
    std::vector<std::size_t> kept;
    for (std::size_t i = 0; i < found.difficulty.size(); ++i)
        if (found.difficulty[i]) known.push_back(*found.difficulty[i]), kept.push_back(i);
    std::vector<ItemFit> fit;
    if (found.persons >= least_persons_for_fit && !kept.empty()) {
        Responses used;
        for (const auto& row : a->responses) {
            used.emplace_back();
            for (std::size_t i : kept) used.back().push_back(row[i]);
        }
        fit = item_fit(used, known);
    }
    // The alternative that assumes abilities spread as a bell; for forms that overlap in part.
    const MarginalRasch marginal = marginal_of(a->responses);
    r.put("marginal_sd", marginal.sd).put("marginal_log_likelihood", marginal.log_likelihood);
    Report::Rows items;
    for (std::size_t i = 0, k = 0; i < found.difficulty.size(); ++i) {
        Report one;
        one.words("name", a->grid.column_names[i]).put("difficulty", found.difficulty[i]);
        one.put("standard_error", found.standard_error[i]);
        one.put("marginal_difficulty", marginal.difficulty[i]);
        if (found.difficulty[i] && !fit.empty()) one.put("infit", fit[k].infit).put("outfit", fit[k].outfit);
        k += found.difficulty[i].known();
        items.push_back(one);
    }
    r.rows("items", items);
    Report::Rows scores;
    const auto abilities = weighted_abilities(known), plain = plain_abilities(known);
    for (std::size_t s = 0; s < abilities.size(); ++s) {
        Report one;
        one.put("right", s)
            .put("ability", abilities[s].logits)
            .put("standard_error", abilities[s].standard_error)
            .put("unweighted_ability", plain[s].logits);
        scores.push_back(one);
    }
    r.rows("scores", scores);
    Report::Rows persons;
    for (std::size_t p = 0; p < a->responses.size() && !kept.empty(); ++p) {
        std::size_t right = 0;
        for (std::size_t i : kept) right += static_cast<std::size_t>(a->responses[p][i]);
        Report one;
        one.words("name", a->grid.row_names[p]).put("right", right).put("ability", abilities[right].logits);
        persons.push_back(one.put("standard_error", abilities[right].standard_error));
    }
    return r.rows("persons", persons);
}

Outcome<Report> consistency_report(const FiguresAsked& asked, const Table& t) {
    const Outcome<Answers> a = answers_of(t);
    if (!a.ok()) return a.faults();
    const int items = static_cast<int>(a->grid.column_names.size());
    if (asked.mark < 1 || asked.mark > items)
        return Fault{"", 0, "--mark", std::to_string(asked.mark),
                     "1 to the number of items, " + std::to_string(items)};
    const Reliability whole = item_analysis(a->responses).whole;
    Report r;
    r.put("persons", whole.persons).put("items", items).put("mark", asked.mark);
    Consistency c{whole.mean, whole.mean, whole.mean, whole.mean, whole.mean, whole.mean};
    if (whole.mean) {
        const double n = static_cast<double>(whole.persons);
        c = decision_consistency(*whole.mean, *whole.variance * (n - 1) / n, {items, asked.mark});
    }
    r.put("kr21", c.kr21).put("passes", c.passes).put("same_decision", c.same_decision).put("kappa", c.kappa);
    return r.put("alpha_of_beta", c.alpha)
        .put("beta_of_beta", c.beta)
        .remark(a->grid.remark("person", "persons"));
}

}  // namespace engine
