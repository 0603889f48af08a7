#include "ui/terminal/figures.h"

#include "ui/terminal/commands.h"
#include "ui/terminal/input_output.h"

#include <CLI/CLI.hpp>
#include <cstdlib>
#include <fcntl.h>
#include <fmt/format.h>
#include <memory>
#include <nlohmann/json.hpp>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

namespace ui {
namespace {

using OrderedJson = nlohmann::ordered_json;

// An absent figure is null, its reason under "absent"; remarks are gathered in one list.
OrderedJson figures_json(const engine::Report& report) {
    OrderedJson out = OrderedJson::object(), absent = OrderedJson::object(), remarks = OrderedJson::array();
    for (const auto& [name, value] : report.lines()) {
        if (const auto* figure = std::get_if<engine::Figure>(&value)) {
            out[name] = figure->known() ? OrderedJson(**figure) : OrderedJson();
            if (!figure->known()) absent[name] = figure->why();
        } else if (const auto* words = std::get_if<std::string>(&value)) {
            if (name == "remark")
                remarks.push_back(*words);
            else
                out[name] = *words;
        } else if (const auto* numbers = std::get_if<std::vector<double>>(&value)) {
            out[name] = *numbers;
        } else if (const auto* names = std::get_if<std::vector<std::string>>(&value)) {
            out[name] = *names;
        } else if (const auto* part = std::get_if<std::shared_ptr<engine::Report>>(&value)) {
            out[name] = figures_json(**part);
        } else {
            OrderedJson rows = OrderedJson::array();
            for (const engine::Report& row : std::get<engine::Report::Rows>(value))
                rows.push_back(figures_json(row));
            out[name] = std::move(rows);
        }
    }
    if (!absent.empty()) out["absent"] = std::move(absent);
    if (!remarks.empty()) out["remarks"] = std::move(remarks);
    return out;
}

std::string figures_cell(const engine::Figure& figure) {
    return figure.known() ? fmt::format("{:.6g}", *figure) : "- (" + figure.why() + ")";
}

void figures_text(const engine::Report& report, const std::string& indent, std::string& out) {
    for (const auto& [name, value] : report.lines()) {
        const std::string lead = fmt::format("{}{:<28} ", indent, name);
        if (const auto* figure = std::get_if<engine::Figure>(&value)) {
            out += lead + figures_cell(*figure) + "\n";
        } else if (const auto* words = std::get_if<std::string>(&value)) {
            if (!words->empty()) out += lead + *words + "\n";
        } else if (const auto* numbers = std::get_if<std::vector<double>>(&value)) {
            out += lead;
            for (double x : *numbers) out += fmt::format("{:.4g} ", x);
            out.back() = '\n';
        } else if (const auto* names = std::get_if<std::vector<std::string>>(&value)) {
            out += lead;
            for (const std::string& one : *names) out += one + " ";
            out.back() = '\n';
        } else if (const auto* part = std::get_if<std::shared_ptr<engine::Report>>(&value)) {
            out += indent + name + "\n";
            figures_text(**part, indent + "  ", out);
        } else {
            out += indent + name + "\n";
            for (const engine::Report& row : std::get<engine::Report::Rows>(value)) {
                figures_text(row, indent + "  ", out);
                out += "\n";
            }
        }
    }
}

std::string figures_footer() {
    std::string text = "KIND and the columns it needs (a header line names them, in any order):\n";
    for (const engine::FiguresKind& kind : engine::figures_kinds())
        text += fmt::format("  {:<12} {}\n{:15}{}\n", kind.of, kind.does, "", engine::columns_in_words(kind));
    return text +
           "A figure that cannot be known is left out, with the reason.\n"
           "Example: fullminute figures counts.csv --of agreement --json";
}

// A table of millions of rows: read whole, in large pages where the system has them.
class TableText {
public:
    explicit TableText(const std::string& path) {
        const int file = open(path.c_str(), O_RDONLY | O_CLOEXEC);
        struct stat about {};
        if (file >= 0 && fstat(file, &about) == 0 && S_ISREG(about.st_mode) && about.st_size > 1 << 21) {
            constexpr std::size_t page = 1 << 21;
            const auto size = static_cast<std::size_t>(about.st_size);
            bytes_.reset(static_cast<char*>(std::aligned_alloc(page, (size + page - 1) / page * page)));
            if (bytes_ != nullptr) madvise(bytes_.get(), size, MADV_HUGEPAGE);
            while (bytes_ != nullptr && size_ < size) {
                const ssize_t got = read(file, bytes_.get() + size_, size - size_);
                if (got <= 0) break;
                size_ += static_cast<std::size_t>(got);
            }
            if (size_ < size) bytes_.reset();
        }
        if (file >= 0) close(file);
        if (bytes_ == nullptr) small_ = read_file(path);
    }
    std::string_view text() const {
        return bytes_ != nullptr ? std::string_view(bytes_.get(), size_) : std::string_view(small_);
    }

private:
    struct Free {
        void operator()(char* bytes) const { std::free(bytes); }
    };
    std::unique_ptr<char, Free> bytes_;
    std::size_t size_ = 0;
    std::string small_;
};

}  // namespace

void add_figures(CLI::App& app, FiguresOptions& options, std::function<int()>& chosen) {
    CLI::App* c = app.add_subcommand("figures", "The statistics of many attempts, on any table");
    engine::FiguresAsked& asked = options.asked;
    c->footer(figures_footer());
    c->add_option("TABLE", options.table, "a CSV file with a header line")->required();
    c->add_option("--of", asked.of, "KIND, one of the list below")->required();
    c->add_flag("--json", options.json, "as JSON");
    const auto number = [&](const char* name, auto& into, const char* does) {
        c->add_option(name, into, does)->capture_default_str();
    };
    c->add_option("--by", asked.by, "agreement: one line each who, item or group")->delimiter(',');
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
    if (!faults.empty()) refuse(faults);
    const TableText table(options.table);
    const engine::Report report = or_refuse(engine::figures_of(a, options.table, table.text()));
    std::string out;
    if (options.json)
        out = figures_json(report).dump(2) + "\n";
    else
        figures_text(report, "", out);
    write_out("-", out);
    return fine;
}

std::string report_json(const engine::Report& report) { return figures_json(report).dump(2) + "\n"; }

std::string report_text(const engine::Report& report) {
    std::string out;
    figures_text(report, "", out);
    return out;
}

}  // namespace ui
