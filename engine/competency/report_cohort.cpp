#include "engine/competency/cohort.h"
#include "engine/competency/limits.h"
#include "engine/competency/reports.h"

#include <algorithm>
#include <array>
#include <utility>

namespace engine {
namespace {

using Names = std::vector<std::string>;

constexpr std::size_t most_words = 100;  // of a column whose numbers are kept in eight bits

Report errors_report(const std::string& name, const CountErrors& e) {
    Report r;
    r.words("name", name).put("n", e.n()).put("bias_bpm", e.bias_bpm()).put("sd_bpm", e.sd_bpm());
    return r.put("rmse_bpm", e.rmse_bpm()).put("share_within", e.share_within());
}

Report::Rows errors_rows(const std::vector<CountErrors>& by, const Names& names) {
    Report::Rows rows;
    for (std::size_t i = 0; i < by.size(); ++i) rows.push_back(errors_report(names[i], by[i]));
    return rows;
}

Report figures_report(const std::string& name, const ErrorFigures& e) {
    Report r;
    r.words("name", name).put("n", e.n).put("bias_bpm", e.bias_bpm).put("sd_bpm", e.sd_bpm);
    return r.put("low_bpm", e.low_bpm).put("high_bpm", e.high_bpm);
}

Names names_at(const std::vector<int>& numbers, const Column* column) {
    Names names;
    for (const int n : numbers)
        names.push_back(n < 0               ? "not known"
                        : column == nullptr ? std::to_string(n)
                                            : column->names[static_cast<std::size_t>(n)]);
    return names;
}

// Words as numbers of eight bits. A column with too many of them is a fault.
void eight_bits(const Table& t, const char* name, std::vector<std::int8_t>& into,
                std::vector<Fault>& faults) {
    const Column* column = t.find(name);
    if (column == nullptr) return;
    if (column->names.size() > most_words) {
        faults.push_back({t.file, 1, name, std::to_string(column->names.size()) + " different words",
                          "at most " + std::to_string(most_words)});
        return;
    }
    into.assign(column->words.begin(), column->words.end());
}

void classes(const Table& t, const char* name, std::vector<std::int8_t>& into, std::vector<Fault>& faults) {
    const Column* column = t.find(name);
    if (column == nullptr) return;
    // as RateClass numbers them
    constexpr std::array<const char*, 4> words{"normal", "fast", "slow", "rising"};
    std::vector<std::int8_t> number(column->names.size(), -1);
    for (std::size_t i = 0; i < number.size(); ++i) {
        const auto found = std::find(words.begin(), words.end(), column->names[i]);
        if (column->names[i] == "not known") continue;
        if (found != words.end()) {
            number[i] = static_cast<std::int8_t>(found - words.begin());
            continue;
        }
        const auto row = std::find(column->words.begin(), column->words.end(), i) - column->words.begin();
        faults.push_back(t.fault(static_cast<std::size_t>(row), name, "`" + column->names[i] + "`",
                                 "one of: normal, fast, slow, rising, not known"));
    }
    into.reserve(t.rows);
    for (const unsigned word : column->words) into.push_back(number[word]);
}

// Takes people, items and rates out of the table.
Outcome<CountColumns> columns_of(Table& t) {
    CountColumns c;
    std::vector<Fault> faults;
    const auto column = [&](const char* name) -> Column& {
        return t.columns[static_cast<std::size_t>(&t[name] - t.columns.data())];
    };
    c.person = std::move(column("who").words);
    c.people = std::move(column("who").names);
    c.item = std::move(column("item").words);
    c.items = std::move(column("item").names);
    c.true_mbpm = std::move(column("truth").thousandths);
    c.written_mbpm = std::move(column("typed").thousandths);
    if (const Column* plan = t.find("window_s"); plan != nullptr) {
        c.plan_s.reserve(t.rows);
        for (const std::int32_t ms : plan->thousandths)
            c.plan_s.push_back(static_cast<std::int16_t>(ms / 1000));
    } else {
        c.plan_s.assign(t.rows, 60);
    }
    eight_bits(t, "instrument", c.instrument, faults);
    eight_bits(t, "mode", c.mode, faults);
    eight_bits(t, "task", c.task, faults);
    classes(t, "class", c.true_class, faults);
    classes(t, "said", c.said_class, faults);
    if (!faults.empty()) return faults;
    return c;
}

}  // namespace

Outcome<Report> cohort_report(const FiguresAsked& asked, Table& t) {
    std::vector<Fault> faults;
    for (const std::string& name : asked.by)
        if (name != "who" && name != "item") faults.push_back({"", 0, "--by", name, "who, item"});
    if (!faults.empty()) return faults;
    const Outcome<CountColumns> columns = columns_of(t);
    if (!columns.ok()) return columns.faults();
    const Cohort c = cohort_of(*columns, {asked.low_bpm, asked.high_bpm, asked.within_bpm});
    const auto by = [&](const char* name) {
        return std::find(asked.by.begin(), asked.by.end(), name) != asked.by.end();
    };

    Report r = errors_report("all", c.all);
    r.put("within_bpm", asked.within_bpm);
    r.put("people", c.by_person.size())
        .put("items", c.by_item.size())
        .put("concordance", c.all.concordance());
    r.put("slope_on_truth", c.all.slope_on_truth());
    const Limits limits = limits_of_agreement(c.all);
    const bool enough = c.all.n() >= 10;  // as everywhere [practice]
    r.put("low_bpm", enough ? limits.low_bpm : Figure::absent("limits need 10 counts"));
    r.put("high_bpm", enough ? limits.high_bpm : Figure::absent("limits need 10 counts"));
    if (c.by_person.size() > 1) r.remark("pooled over " + std::to_string(c.by_person.size()) + " people");
    if (c.methods_s.size() > 1)
        r.remark("pooled over " + std::to_string(c.methods_s.size()) + " lengths of window");
    if (c.modes.size() > 1) r.remark("pooled over " + std::to_string(c.modes.size()) + " output modes");
    if (t.find("window_s") == nullptr && t.rows > 0)
        r.remark("no column window_s: every count taken as a full minute");
    r.rows("by_band", errors_rows(c.by_band, {"slow", "normal", "fast"}));
    r.rows("by_window_s", errors_rows(c.by_method, names_at(c.methods_s, nullptr)));
    if (const Column* column = t.find("instrument"))
        r.rows("by_instrument", errors_rows(c.by_instrument, names_at(c.instruments, column)));
    if (const Column* column = t.find("mode"))
        r.rows("by_mode", errors_rows(c.by_mode, names_at(c.modes, column)));
    if (const Column* column = t.find("task"))
        r.rows("by_task", errors_rows(c.by_task, names_at(c.tasks, column)));

    if (t.find("class") != nullptr && t.find("said") != nullptr) {
        Report k;
        k.put("n", static_cast<double>(c.classes_kappa.n))
            .put("raw_agreement", c.classes_kappa.raw_agreement);
        k.put("kappa", c.classes_kappa.kappa).put("kappa", c.classes_kappa.interval);
        k.names("said", {"slow", "normal", "fast"});
        for (std::size_t i = 0; i < 3; ++i)
            k.numbers(std::array{"truly_slow", "truly_normal", "truly_fast"}[i],
                      {c.classes[i].begin(), c.classes[i].end()});
        r.part("classes", k);
    }
    const Reliability& whole = c.items.whole;
    Report answers;
    answers.words("right", "within two beats or 5 bpm of the truth, whichever is more");
    answers.put("persons", whole.persons).put("items", whole.items).put("mean", whole.mean);
    answers.put("alpha", whole.alpha).put("feldt", whole.feldt).put("standard_error", whole.standard_error);
    answers.remark(whole.alpha ? alpha_is_kr20 : "").remark(c.items_remark);
    if (c.persons_with_gaps > 0)
        answers.remark(counted_words(c.persons_with_gaps, "person", "people") + " with gaps left out");
    if (c.repeats > 0) answers.remark(counted_words(c.repeats, "repeat", "repeats") + " of an item left out");
    r.part("answers", answers);

    Report::Rows rows;
    for (std::size_t i = 0; i < c.analysed.size() && by("item"); ++i) {
        const auto item = static_cast<std::size_t>(c.analysed[i]);
        Report one = figures_report(columns->items[item], c.by_item[item]);
        one.put("answers_n", whole.persons).put("difficulty", c.items.items[i].difficulty);
        one.put("with_rest", c.items.items[i].with_rest);
        rows.push_back(one.remark(c.items.items[i].remark));
    }
    if (by("item")) r.rows("by_item", std::move(rows));
    rows.clear();
    for (std::size_t p = 0; p < c.by_person.size() && by("who"); ++p)
        rows.push_back(figures_report(columns->people[p], c.by_person[p]));
    if (by("who")) r.rows("by_who", std::move(rows));
    return r;
}

}  // namespace engine
