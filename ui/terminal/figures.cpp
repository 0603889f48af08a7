#include "ui/terminal/figures.h"

#include "ui/terminal/commands.h"
#include "ui/terminal/input_output.h"
#include "ui/terminal/report_print.h"
#include "ui/terminal/store_table.h"
#include "ui/terminal/table_text.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace ui {
namespace {

std::string figures_footer() {
    std::string text = "KIND and the columns it needs (a header line names them, in any order):\n";
    for (const engine::FiguresKind& kind : engine::figures_kinds())
        text += fmt::format("  {:<12} {}\n{:15}{}\n", kind.of, kind.does, "", engine::columns_in_words(kind));
    return text +
           "A figure that cannot be known is left out, with the reason.\n"
           "Example: fullminute figures counts.csv --of agreement --json";
}

}  // namespace

void add_figures(CLI::App& app, FiguresOptions& options, std::function<int()>& chosen) {
    CLI::App* c = app.add_subcommand("figures", "The statistics of many attempts, on any table");
    engine::FiguresAsked& asked = options.asked;
    c->footer(figures_footer());
    c->add_option("TABLE", options.table, "a CSV file with a header line, or a store: the counts kept in it")
        ->required();
    c->add_option("--of", asked.of, "KIND, one of the list below")->required();
    c->add_flag("--json", options.json, "as JSON");
    const auto number = [&](const char* name, auto& into, const char* does) {
        c->add_option(name, into, does)->capture_default_str();
    };
    c->add_option("--by", asked.by, "agreement: one line each who, item or group; cohort: who, item")
        ->delimiter(',');
    number("--within", asked.within_bpm, "agreement: share of errors up to so many bpm");
    number("--low", asked.low_bpm, "agreement, tolerance: lowest normal rate");
    number("--high", asked.high_bpm, "agreement, tolerance: highest normal rate");
    c->add_option("--order", asked.order, "kappa: the categories in order")->delimiter(',');
    number("--weights", asked.weights, "kappa: none, linear or quadratic");
    number("--normal", asked.normal, "kappa: the category that is not abnormal");
    number("--prevalence", asked.prevalence, "kappa: share of abnormal where it matters");
    number("--acceptable", asked.acceptable, "learning: share of failures of an adequate trainee");
    number("--unacceptable", asked.unacceptable, "learning: ... of an inadequate one");
    number("--false-signal", asked.false_signal, "learning: chance that the inadequate one signals");
    number("--attempts", asked.attempts, "learning: within so many attempts, up to 300");
    number("--must-fail", asked.must_fail, "sequential: share right that must not pass");
    number("--must-pass", asked.must_pass, "sequential: share right that must pass");
    number("--false-pass", asked.false_pass, "passrule, sequential: chance of a false pass");
    number("--false-fail", asked.false_fail, "passrule, sequential: chance of a false fail");
    number("--least", asked.least, "sequential: items before any verdict");
    number("--most", asked.most, "sequential: items at most; 0 is no limit");
    number("--mark", asked.mark, "consistency: items right to pass");
    number("--borderline", asked.borderline, "borderline: the rating of a borderline performance");
    number("--after", asked.after, "refresher: share right after training");
    number("--untrained", asked.untrained, "refresher: share right of the untrained");
    number("--target", asked.target, "refresher: share right to keep");
    c->add_option("--seed", asked.seed, "form: any text; publish it after the check");
    number("--form", asked.form, "form: its label");
    c->add_option("--quota", asked.quota, "form: STRATUM=N, for each group of the table")->delimiter(',');
    number("--nth", asked.nth, "form: 1 draws a second form that shares no item");
    c->callback([&options, &chosen] { chosen = [&options] { return figures(options); }; });
}

int figures(const FiguresOptions& options) {
    const auto& a = options.asked;
    std::vector<engine::Fault> faults;
    if (!(a.low_bpm < a.high_bpm))
        faults.push_back(
            {"", 0, "--low, --high", fmt::format("{:g}, {:g}", a.low_bpm, a.high_bpm), "low below high"});
    if (!(a.prevalence >= 0 && a.prevalence <= 1))
        faults.push_back({"", 0, "--prevalence", fmt::format("{:g}", a.prevalence), "0 to 1"});
    if (!(a.within_bpm >= 0))
        faults.push_back({"", 0, "--within", fmt::format("{:g}", a.within_bpm), "0 or more"});
    if (a.of == "refresher" && !(a.target < a.after))  // due before it was ever forgotten: now, and always
        faults.push_back({"", 0, "--target, --after", fmt::format("{:g}, {:g}", a.target, a.after),
                          "a target below the share right after training"});
    if (!faults.empty()) refuse(faults);
    if (const auto kept = table_of_store(options.table, a.of)) {
        engine::FiguresAsked of_store = a;
        if (a.of == "kappa" && a.order.empty()) of_store.order = {"slow", "normal", "fast"};
        engine::Report report = or_refuse(engine::figures_of(of_store, options.table, kept->csv));
        for (const std::string& remark : kept->remarks) report.remark(remark);
        print_report(report, options.json);
        return fine;
    }
    TableText table(options.table);
    const engine::Report report = or_refuse(engine::figures_of(
        a, options.table, [&] { return table.next(); }, table.bytes()));
    print_report(report, options.json);
    return fine;
}

}  // namespace ui
