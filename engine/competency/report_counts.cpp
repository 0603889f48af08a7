#include "engine/competency/agreement.h"
#include "engine/competency/categories.h"
#include "engine/competency/grid.h"
#include "engine/competency/icc.h"
#include "engine/competency/limits.h"
#include "engine/competency/habits.h"
#include "engine/competency/line_fit.h"
#include "engine/competency/proportions.h"
#include "engine/competency/reports.h"

#include <algorithm>
#include <cmath>

namespace engine {
namespace {

Report short_report(const std::string& name, const CountErrors& e) {
    Report r;
    r.words("name", name).put("n", e.n()).put("bias_bpm", e.bias_bpm()).put("bias_bpm", e.bias_interval());
    r.put("sd_bpm", e.sd_bpm()).put("rmse_bpm", e.rmse_bpm()).put("mean_size_bpm", e.mean_size_bpm());
    return r.put("share_within", e.share_within());
}

Report::Rows rows_of(const std::vector<CountErrors>& by, const std::vector<std::string>& names) {
    Report::Rows rows;
    for (std::size_t i = 0; i < by.size(); ++i) rows.push_back(short_report(names[i], by[i]));
    return rows;
}

// One pass into the cells of band x method x instrument x task; each margin is their sum. Past a few thousand
// cells a pass for each.
struct Margins {
    std::vector<CountErrors> bands;
    std::vector<std::vector<CountErrors>> columns;  // as asked for
    CountErrors all;
};

Margins margins(const Table& t, const std::vector<const Column*>& columns, double low, double high,
                double within) {
    const std::vector<double>&truth = t["truth"].numbers, &typed = t["typed"].numbers;
    const double above = std::nextafter(high, 1e300);
    Margins m{std::vector<CountErrors>(3, CountErrors(within)), {}, CountErrors(within)};
    std::size_t cells = 3;
    for (const Column* c : columns) {
        m.columns.emplace_back(c->names.size(), CountErrors(within));
        cells *= std::max<std::size_t>(1, c->names.size());
    }
    if (cells > 4096) {
        const double edges[] = {low, above};
        m.bands = count_errors_by_band(edges, truth, typed, within);
        for (const CountErrors& band : m.bands) m.all.add(band);
        for (std::size_t c = 0; c < columns.size(); ++c)
            m.columns[c] = count_errors_by(columns[c]->words, columns[c]->names.size(), truth, typed, within);
        return m;
    }
    std::vector<CountErrors> joint(cells, CountErrors(within));
    for (std::size_t i = 0; i < t.rows; ++i) {
        std::size_t cell =
            static_cast<std::size_t>(truth[i] >= low) + static_cast<std::size_t>(truth[i] >= above);
        for (const Column* c : columns) cell = cell * c->names.size() + c->words[i];
        joint[cell].add(truth[i], typed[i]);
    }
    for (std::size_t cell = 0; cell < cells; ++cell) {
        std::size_t rest = cell;
        for (std::size_t c = columns.size(); c-- > 0;) {
            m.columns[c][rest % columns[c]->names.size()].add(joint[cell]);
            rest /= columns[c]->names.size();
        }
        m.bands[rest].add(joint[cell]);
        m.all.add(joint[cell]);
    }
    return m;
}

void put_limits(Report& r, const CountErrors& e) {
    const Limits limits = limits_of_agreement(e);
    Report part;
    part.put("low_bpm", limits.low_bpm).put("high_bpm", limits.high_bpm);
    part.put("low_exact", limits.low_exact).put("high_exact", limits.high_exact);
    part.put("low_approximate", limits.low_approximate).put("high_approximate", limits.high_approximate);
    const LimitFactors pair = pair_limit_factors(e.n());
    part.put("pair_inner_factor", pair.inner).put("pair_outer_factor", pair.outer);
    part.words("worth_showing", limits.worth_showing ? "yes" : "no").remark(limits.remark);
    r.part("limits", part);
}

void put_coefficient(Report& r, const std::string& name, const Coefficient& c) {
    r.put(name, c.value).put(name + "_error", c.standard_error).put(name, c.interval);
}

}  // namespace

Outcome<Report> agreement_report(const FiguresAsked& asked, const Table& t) {
    const std::vector<double>&truth = t["truth"].numbers, &typed = t["typed"].numbers;
    std::vector<const Column*> columns;
    for (const char* name : {"method", "instrument", "mode", "task"})
        if (const Column* c = t.find(name); c != nullptr && t.rows > 0) columns.push_back(c);
    const Margins m = margins(t, columns, asked.low_bpm, asked.high_bpm, asked.within_bpm);
    const CountErrors& e = m.all;
    Report r;
    r.put("n", e.n()).put("bias_bpm", e.bias_bpm()).put("bias_bpm", e.bias_interval());
    r.put("sd_bpm", e.sd_bpm()).put("rmse_bpm", e.rmse_bpm()).put("mean_size_bpm", e.mean_size_bpm());
    r.put("largest_size_bpm", e.largest_size_bpm()).put("cv_percent", e.cv_percent());
    r.put("concordance", e.concordance())
        .put("within_bpm", asked.within_bpm)
        .put("share_within", e.share_within());
    for (const auto& [column, words] :
         {std::pair{"who", "people"}, std::pair{"method", "methods"}, std::pair{"mode", "output modes"}})
        if (const Column* c = t.find(column); c != nullptr && c->names.size() > 1)
            r.remark("pooled over " + std::to_string(c->names.size()) + " " + words);
    put_limits(r, e);

    Report line;
    const LineFit fit = error_against_truth(truth, typed);
    put_coefficient(line, "slope", fit.slope);
    put_coefficient(line, "intercept", fit.intercept);
    if (e.n() > 0)
        line.put("sd_at_mean_truth_bpm", spread_against_truth(truth, typed).sd_at_bpm(*e.mean_truth_bpm()));
    r.part("error_against_truth", line);

    r.rows("by_band", rows_of(m.bands, {"slow", "normal", "fast"}));
    for (std::size_t c = 0; c < columns.size(); ++c)
        r.rows("by_" + columns[c]->name, rows_of(m.columns[c], columns[c]->names));
    std::vector<Fault> faults;
    for (const std::string& name : asked.by) {
        if (name == "method" || name == "instrument" || name == "mode" || name == "task") continue;
        const Column* c = t.find(name);
        if (c == nullptr || (name != "who" && name != "item" && name != "group"))
            faults.push_back(
                {t.file, 1, "--by " + name, "no such column", "one of who, item, group in the header"});
        else
            r.rows("by_" + name,
                   rows_of(count_errors_by(c->words, c->names.size(), truth, typed, asked.within_bpm),
                           c->names));
    }
    if (!faults.empty()) return faults;
    return r;
}

Outcome<Report> repeat_report(const FiguresAsked&, const Table& t) {
    const Repeatability found = repeatability(t["typed"].numbers, t["again"].numbers);
    Report r;
    return r.put("n", t.rows).put("sd_bpm", found.sd_bpm).put("coefficient_bpm", found.coefficient_bpm);
}

Outcome<Report> habits_report(const FiguresAsked&, const Table& t) {
    std::vector<UntappedCount> counts;
    for (std::size_t i = 0; i < t.rows; ++i)
        counts.push_back({t["rate"].numbers[i], t["window_s"].numbers[i], t["surplus"].numbers[i]});
    const Habits h = habits_of(counts);
    Report r;
    r.put("n", t.rows);
    put_coefficient(r, "fencepost_beats", h.fencepost_beats);
    r.words("fencepost_remark", h.fencepost_remark);
    put_coefficient(r, "window_late_s", h.window_late_s);
    r.words("window_remark", h.window_remark);
    put_coefficient(r, "missed_share", h.missed_share);
    return r.words("missed_remark", h.missed_remark).put("residual_sd_beats", h.residual_sd_beats);
}

Outcome<Report> icc_report(const FiguresAsked&, const Table& t) {
    const Outcome<Grid> grid = grid_of(t, "item", "who", "typed");
    if (!grid.ok()) return grid.faults();
    const Intraclass i = intraclass(grid->cells);
    Report r;
    r.put("windows", grid->cells.size()).put("trainees", grid->column_names.size());
    r.put("agreement", i.agreement).put("agreement", i.agreement_interval);
    r.put("agreement_mean", i.agreement_mean).put("agreement_error_bpm", i.agreement_error_bpm);
    r.put("consistency", i.consistency).put("consistency", i.consistency_interval);
    r.put("consistency_mean", i.consistency_mean)
        .put("one_way", i.one_way)
        .put("one_way_mean", i.one_way_mean);
    r.put("between_windows", i.between_rows).put("between_trainees", i.between_columns);
    r.put("left_over", i.left_over).put("within_windows", i.within_rows);
    if (i.agreement && *i.agreement <= 0) r.remark("agreement at or below 0: no better than chance");
    return r.remark(grid->remark("window", "windows"));
}

Outcome<Report> kappa_report(const FiguresAsked& asked, const Table& t) {
    const Column &truth = t["truth"], &typed = t["typed"];
    std::vector<std::string> categories = asked.order;
    std::vector<Fault> faults;
    if (asked.weights != "none" && asked.weights != "linear" && asked.weights != "quadratic")
        faults.push_back({"", 0, "--weights", asked.weights, "one of: none, linear, quadratic"});
    else if (asked.weights != "none" && categories.empty())
        faults.push_back(
            {"", 0, "--weights " + asked.weights, "no order", "--order slow,normal,fast or the like"});
    for (auto at = categories.begin(); at != categories.end(); ++at)
        if (std::find(categories.begin(), at, *at) != at)
            faults.push_back({"", 0, "--order", *at + " again", "each category once"});
    if (categories.empty()) {
        categories = truth.names;
        for (const std::string& name : typed.names)
            if (std::find(categories.begin(), categories.end(), name) == categories.end())
                categories.push_back(name);
        std::sort(categories.begin(), categories.end());
    }
    const auto places = [&](const Column& column) {
        std::vector<std::size_t> at;
        for (const std::string& name : column.names)
            at.push_back(static_cast<std::size_t>(std::find(categories.begin(), categories.end(), name) -
                                                  categories.begin()));
        return at;
    };
    const auto truth_at = places(truth), typed_at = places(typed);
    CategoryTable table(categories.size(), std::vector<long long>(categories.size()));
    Calls calls;
    for (std::size_t i = 0; i < t.rows; ++i) {
        const std::size_t row = truth_at[truth.words[i]], column = typed_at[typed.words[i]];
        for (const auto& [at, name] : {std::pair{row, &truth}, std::pair{column, &typed}})
            if (at == categories.size())
                faults.push_back(t.fault(i, name->name, name->names[name->words[i]], "a word of --order"));
        if (row == categories.size() || column == categories.size()) continue;
        ++table[row][column];
        const bool normal = categories[row] == asked.normal, passed = categories[column] == asked.normal;
        ++(normal ? (passed ? calls.normal_passed : calls.normal_called)
                  : (passed ? calls.abnormal_missed : calls.abnormal_called));
    }
    if (!faults.empty()) return faults;
    const Kappa k = kappa(table, asked.weights == "linear"      ? KappaWeights::linear
                                 : asked.weights == "quadratic" ? KappaWeights::quadratic
                                                                : KappaWeights::none);
    Report r;
    r.put("n", t.rows).put("raw_agreement", k.raw_agreement);
    if (asked.weights != "none") r.put("weighted_agreement", k.weighted_agreement);
    r.put("expected_agreement", k.expected_agreement);
    r.put("kappa", k.kappa).put("kappa", k.interval).put("standard_error", k.standard_error);
    r.put("standard_error_at_zero", k.standard_error_at_zero).names("categories", categories);
    Report::Rows rows;
    for (std::size_t i = 0; i < categories.size(); ++i) {
        Report row;
        row.words("truth", categories[i]).numbers("typed", {table[i].begin(), table[i].end()});
        rows.push_back(row);
    }
    r.rows("table", rows);
    if (std::find(categories.begin(), categories.end(), asked.normal) == categories.end())
        return r.remark("no category `" + asked.normal + "`: no sensitivity (--normal)");
    const CallFigures f = call_figures(calls);
    const Predictive p = predictive_at(f, asked.prevalence);
    Report part;
    part.put("sensitivity_n", static_cast<double>(f.abnormal_n)).put("sensitivity", f.sensitivity);
    part.put("sensitivity", f.sensitivity_interval).put("specificity_n", static_cast<double>(f.normal_n));
    part.put("specificity", f.specificity).put("specificity", f.specificity_interval).put("youden", f.youden);
    part.put("prevalence", asked.prevalence).put("positive_predictive", p.positive);
    return r.part("abnormal", part.put("negative_predictive", p.negative));
}

}  // namespace engine
