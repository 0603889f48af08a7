// From a table to figures: one name a kind, the columns it needs found by their header. What the terminal
// prints and what an instructor's screen shows.
#pragma once

#include "engine/competency/report.h"
#include "engine/competency/table.h"
#include "engine/outcome.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace engine {

// What is asked, with the project's defaults [practice].
struct FiguresAsked {
    std::string of;
    std::vector<std::string> by;                          // agreement: one line a value of these columns
    double within_bpm = 2;                                // agreement: share with |error| up to this
    double low_bpm = 110, high_bpm = 160;                 // normal, both included
    std::vector<std::string> order;                       // kappa: the categories in order, when weighted
    std::string weights = "none";                         // kappa: none, linear, quadratic
    std::string normal = "normal";                        // kappa: the word that is not abnormal
    double prevalence = 0.10;                             // kappa: how common abnormal is where it matters
    double acceptable = 0.10, unacceptable = 0.30;        // learning: shares of failures
    double false_signal = 0.05;                           // learning
    int attempts = 30;                                    // learning: the cap the threshold is tied to
    double must_fail = 0.70, must_pass = 0.90;            // sequential, passrule
    double false_pass = 0.10, false_fail = 0.10;          // sequential, passrule
    int least = 0, most = 0;                              // sequential: items, 0 = no limit
    int mark = 0;                                         // consistency, form, equate
    double borderline = 2;                                // borderline: the rating
    double after = 0.95, untrained = 0.5, target = 0.85;  // refresher: shares right
    std::string seed, form = "A";                         // form
    std::vector<std::string> quota;                       // form: STRATUM=N
    int nth = 0;                                          // form
};

struct FiguresKind {
    const char* of;
    const char* does;
    std::vector<ColumnRule> columns;
    std::function<Outcome<Report>(const FiguresAsked&, Table&)> report;  // may take columns out of the table
};
const std::vector<FiguresKind>& figures_kinds();
std::string columns_in_words(const FiguresKind& kind);  // "truth, typed; may have who, method"

// Faults of the text carry `file` and a line; faults of what is asked carry no file.
Outcome<Report> figures_of(const FiguresAsked& asked, const std::string& file, std::string_view text);
// The text in parts, as read_table takes them.
Outcome<Report> figures_of(const FiguresAsked& asked, const std::string& file, const NextPart& next,
                           std::size_t bytes);

}  // namespace engine
