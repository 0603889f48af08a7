#include "engine/competency/grid.h"
#include "engine/competency/refresher.h"
#include "engine/competency/reports.h"
#include "engine/competency/standards.h"

#include <algorithm>

namespace engine {
namespace {

constexpr int refreshers_ahead = 5;

}  // namespace

Outcome<Report> angoff_report(const FiguresAsked&, const Table& t) {
    const Outcome<Grid> grid = grid_of(t, "who", "item", "rating");
    if (!grid.ok()) return grid.faults();
    if (!grid->left_out.empty()) {  // no judge is dropped silently
        std::vector<Fault> faults;
        for (const std::string& judge : grid->left_out)
            faults.push_back(
                {t.file, 0, "who " + judge, "items without a rating", "a rating for every item"});
        return faults;
    }
    const AngoffCut a = angoff(grid->cells);
    Report r;
    r.put("judges", grid->cells.size()).put("items", grid->column_names.size()).put("cut", a.cut);
    r.put("share", a.share).put("cut", a.interval).put("sd", a.sd).put("standard_error", a.standard_error);
    return r.put("mark", a.cut ? Figure(static_cast<double>(a.mark)) : Figure::absent(a.cut.why()))
        .numbers("judge_cuts", a.judge_cuts)
        .names("judge", grid->row_names)
        .remark(a.remark);
}

Outcome<Report> borderline_report(const FiguresAsked& asked, const Table& t) {
    const auto& ratings = t["rating"].numbers;
    if (const auto [least, most] = std::minmax_element(ratings.begin(), ratings.end());
        t.rows > 0 && !(asked.borderline >= *least && asked.borderline <= *most))
        return Fault{"", 0, "--borderline", as_typed(asked.borderline),
                     "a rating within those given, " + as_typed(*least) + " to " + as_typed(*most)};
    const BorderlineCut b = borderline_regression(t["rating"].numbers, t["score"].numbers, asked.borderline);
    Report r;
    r.put("n", t.rows).put("borderline", asked.borderline).put("cut", b.cut).put("cut", b.interval);
    r.put("standard_error", b.standard_error).put("jackknife_error", b.jackknife_error);
    // Without a line the reason is the cut's: few examined, or ratings all equal.
    const auto of_line = [&](const Figure& f) { return f || b.cut ? f : Figure::absent(b.cut.why()); };
    r.put("intercept", of_line(b.line.intercept.value)).put("slope", of_line(b.line.slope.value));
    r.put("share_explained", of_line(b.line.share_explained)).put("residual_sd", of_line(b.line.residual_sd));
    return r.put("group_mean", b.group_mean).remark(b.remark);
}

Outcome<Report> refresher_report(const FiguresAsked& asked, const Table& t) {
    std::vector<Fault> faults;
    if (!(0 < asked.untrained && asked.untrained < asked.after && asked.after < 1))
        faults.push_back({"", 0, "--untrained, --after", "shares out of order", "0 < untrained < after < 1"});
    std::vector<LaterCheck> checks;
    for (std::size_t i = 0; i < t.rows; ++i) {
        const double right = t["right"].numbers[i], items = t["items"].numbers[i];
        if (right > items)
            faults.push_back(t.fault(i, "right", std::to_string(static_cast<long long>(right)),
                                     "at most items, " + std::to_string(static_cast<long long>(items))));
        checks.push_back({t["months"].numbers[i], static_cast<int>(right), static_cast<int>(items)});
    }
    if (!faults.empty()) return faults;
    Forgetting curve{asked.after, asked.untrained, 6.5};
    const HalfLife h = half_life(curve, checks);
    curve.half_life_months = *h.months;
    Report r;
    r.put("checks", t.rows)
        .put("half_life_from_checks_alone", h.from_checks_alone)
        .put("half_life_months", h.months);
    r.put("target", asked.target).put("due_months", curve.due_months(asked.target));
    r.put("share_right_after_12_months", curve.share_right(12)).remark(h.remark);
    r.numbers("gaps_months_when_each_is_passed", schedule(curve, asked.target, refreshers_ahead));
    return r.remark("an estimate from a borrowed curve, not evidence about any one person");
}

}  // namespace engine
