#include "engine/competency/figures_of.h"

#include "engine/competency/reports.h"

#include <algorithm>
#include <utility>

namespace engine {
namespace {

using namespace std::string_literals;

ColumnRule word(const char* name) { return {name, true, true}; }
ColumnRule word_if_there(const char* name) { return {name, true, false}; }
ColumnRule number(const char* name, double least = -1e12, double most = 1e12) {
    return {name, false, true, least, most};
}
ColumnRule number_if_there(const char* name, double least = -1e12, double most = 1e12) {
    return {name, false, false, least, most};
}
ColumnRule whole(const char* name, double least, double most) {
    return {name, false, true, least, most, true};
}
ColumnRule rate(const char* name, double least) {
    return {name, false, true, least, 1000, false, Kept::thousandths};
}
ColumnRule right() { return whole("right", 0, 1); }

}  // namespace

const std::vector<FiguresKind>& figures_kinds() {
    static const std::vector<FiguresKind> kinds{
        {"agreement",
         "counts against the truth: bias, spread, limits, by rate band, method, instrument, task",
         {number("truth", 1, 1000), number("typed", 0, 1000), word_if_there("who"), word_if_there("item"),
          word_if_there("method"), word_if_there("instrument"), word_if_there("mode"), word_if_there("task"),
          word_if_there("group")},
         agreement_report},
        {"repeat",
         "the same window counted twice: how repeatable",
         {number("typed", 0, 1000), number("again", 0, 1000)},
         repeat_report},
        {"cohort",
         "many people on the same items: errors, items, classes, one pass (--by who,item)",
         {word("who"),
          word("item"),
          rate("truth", 1),
          rate("typed", 0),
          {"window_s", false, false, 1, 3600, true, Kept::thousandths},
          word_if_there("instrument"),
          word_if_there("mode"),
          word_if_there("task"),
          word_if_there("class"),
          word_if_there("said")},
         cohort_report},
        {"habits",
         "counts without taps: fencepost, late stop, missed beats",
         {number("rate", 1, 1000), number("window_s", 1, 3600), number("surplus")},
         habits_report},
        {"icc",
         "trainees on the same windows: do they agree in beats a minute",
         {word("item"), word("who"), number("typed")},
         icc_report},
        {"kappa",
         "categories against the truth: kappa, sensitivity, specificity",
         {word("truth"), word("typed")},
         kappa_report},
        {"shares",
         "share right with intervals, one line a person; two persons compared",
         {word("who"), right(), word_if_there("item")},
         shares_report},
        {"reliability",
         "alpha, KR-21, standard error of a total",
         {word("who"), word("item"), right()},
         reliability_report},
        {"items",
         "difficulty and discrimination of each item",
         {word("who"), word("item"), right()},
         items_report},
        {"rasch",
         "difficulty in logits, ability for each score",
         {word("who"), word("item"), right()},
         rasch_report},
        {"consistency",
         "would the same decision fall on a second form (--mark)",
         {word("who"), word("item"), right()},
         consistency_report},
        {"learning",
         "learning chart of each person, then the monitoring chart; rows in order, first go at an item only",
         {right(), word_if_there("who"), word_if_there("item")},
         learning_report},
        {"curve",
         "error or time over attempts, rows in order; chance of passing when `right` is there",
         {number("size", 0), {"right", false, false, 0, 1, true}},
         curve_report},
        {"passrule",
         "the shortest check that tells two levels apart, one row a question",
         {number("must_fail", 0, 1), number("must_pass", 0, 1), number_if_there("false_pass", 0, 1),
          number_if_there("false_fail", 0, 1)},
         passrule_report},
        {"sequential",
         "a sequential check walked through, and its exact error rates",
         {right()},
         sequential_report},
        {"tolerance",
         "how far off a perfect counter may read",
         {number("rate", 1, 1000), number("window_s", 1, 3600), number_if_there("watch_sd_s", 0, 10)},
         tolerance_report},
        {"angoff",
         "a pass mark from judges' estimates",
         {word("who"), word("item"), number("rating", 0, 1)},
         angoff_report},
        {"borderline",
         "a pass mark from examiners' ratings (--borderline)",
         {number("rating"), number("score")},
         borderline_report},
        {"refresher",
         "when to practise again: an estimate",
         {number("months", 0, 1200), whole("right", 0, 1e6), whole("items", 1, 1e6)},
         refresher_report},
        {"form",
         "a form drawn from a pool (--seed, --form, --quota); as hard as the pool with difficulty and --mark",
         {word("item"), word("group"), number_if_there("difficulty", -10, 10)},
         form_report},
        {"equate",
         "the mark of the first form (--mark) carried to the others by true score",
         {word("form"), number("difficulty", -10, 10)},
         equate_report},
    };
    return kinds;
}

std::string columns_in_words(const FiguresKind& kind) {
    std::string needed, more;
    for (const ColumnRule& rule : kind.columns) {
        std::string& list = rule.needed ? needed : more;
        list += (list.empty() ? "" : ", ") + std::string(rule.name);
    }
    return more.empty() ? needed : needed + "; may have " + more;
}

std::string counted_words(std::size_t n, const char* one, const char* more) {
    return std::to_string(n) + " " + (n == 1 ? one : more);
}

Outcome<Report> figures_of(const FiguresAsked& asked, const std::string& file, std::string_view text) {
    const std::size_t bytes = text.size();
    return figures_of(
        asked, file, [&] { return std::exchange(text, {}); }, bytes);
}

Outcome<Report> figures_of(const FiguresAsked& asked, const std::string& file, const NextPart& next,
                           std::size_t bytes) {
    std::string all;
    for (const FiguresKind& kind : figures_kinds()) {
        all += (all.empty() ? "" : ", ") + std::string(kind.of);
        if (asked.of != kind.of) continue;
        std::vector<ColumnRule> wanted;
        for (const ColumnRule& rule :
             kind.columns)  // item and group serve only --by: not worth reading otherwise
            if (rule.needed || asked.of != "agreement" || (rule.name != "item"s && rule.name != "group"s) ||
                std::find(asked.by.begin(), asked.by.end(), rule.name) != asked.by.end())
                wanted.push_back(rule);
        Outcome<Table> table = read_table(file, next, bytes, wanted);
        if (!table.ok()) return table.faults();
        Table read = std::move(table).value();
        Outcome<Report> report = kind.report(asked, read);
        if (!report.ok()) return report.faults();
        return with_level(std::move(report).value());
    }
    return Fault{"", 0, "--of", asked.of, "one of: " + all};
}

}  // namespace engine
