// One report a kind of figures_of.h. The table has the columns its kind asks for.
#pragma once

#include "engine/competency/figures_of.h"

namespace engine {

// A number in a fault as a person would type it: 2, 0.05.
std::string as_typed(double found);

// "1 person", "2 people".
std::string counted_words(std::size_t n, const char* one, const char* more);
inline constexpr const char* alpha_is_kr20 = "alpha: items are right or wrong, so it is KR-20";

Outcome<Report> agreement_report(const FiguresAsked&, const Table&);
Outcome<Report> cohort_report(const FiguresAsked&, Table&);  // takes the rates out of the table
Outcome<Report> repeat_report(const FiguresAsked&, const Table&);
Outcome<Report> habits_report(const FiguresAsked&, const Table&);
Outcome<Report> icc_report(const FiguresAsked&, const Table&);
Outcome<Report> kappa_report(const FiguresAsked&, const Table&);

Outcome<Report> shares_report(const FiguresAsked&, const Table&);
Outcome<Report> reliability_report(const FiguresAsked&, const Table&);
Outcome<Report> items_report(const FiguresAsked&, const Table&);
Outcome<Report> rasch_report(const FiguresAsked&, const Table&);
Outcome<Report> consistency_report(const FiguresAsked&, const Table&);

Outcome<Report> learning_report(const FiguresAsked&, const Table&);
Outcome<Report> curve_report(const FiguresAsked&, const Table&);
Outcome<Report> passrule_report(const FiguresAsked&, const Table&);
Outcome<Report> sequential_report(const FiguresAsked&, const Table&);
Outcome<Report> tolerance_report(const FiguresAsked&, const Table&);

Outcome<Report> angoff_report(const FiguresAsked&, const Table&);
Outcome<Report> borderline_report(const FiguresAsked&, const Table&);
Outcome<Report> refresher_report(const FiguresAsked&, const Table&);
Outcome<Report> form_report(const FiguresAsked&, const Table&);
Outcome<Report> equate_report(const FiguresAsked&, const Table&);

}  // namespace engine
