// Items answered right or wrong: how hard, how well each goes with the rest, how reliable the whole.
// Kuder & Richardson 1937; Cronbach 1951; Feldt 1965; Bonett 2002; Lord 1955.
#pragma once

#include "engine/competency/figure.h"

#include <span>
#include <string>
#include <vector>

namespace engine {

// One row a person, one column an item, 1 right, 0 wrong, none missing.
using Responses = std::vector<std::vector<char>>;

struct ItemFigures {
    Figure difficulty;             // share right
    Interval difficulty_interval;  // Wilson
    Figure with_rest;              // correlation with the total of the other items
    Figure with_total;             // the item itself included: higher, for comparison only
    std::string
        remark;  // "hardly goes with the rest", "nearly all right", ...: only from 20 persons [practice]
};

struct Reliability {
    std::size_t persons = 0, items = 0;
    Figure mean, variance;  // of the total; over persons - 1
    Figure alpha;           // = KR-20; may be negative
    Figure kr21;
    Interval feldt, bonett;  // for alpha
    Figure standard_error;   // of a total, in items
};

struct ItemAnalysis {
    std::vector<ItemFigures> items;
    Reliability whole;
};
ItemAnalysis item_analysis(const Responses& responses);

// All that the analysis needs of the answers: whole numbers, so that a million of them lose nothing and any
// order gives the same.
struct AnswerSums {
    std::size_t persons = 0;
    double totals = 0, totals_squared = 0;       // of the persons' totals
    std::vector<double> right, totals_of_right;  // an item: how often right, and the totals of those who were
};
ItemAnalysis item_analysis(const AnswerSums& sums);

// The same for any scores (ratings, several points an item).
Reliability reliability(const std::vector<std::vector<double>>& scores);

Figure kr21(double mean, double variance_over_n, int items);
Figure lord_standard_error(int right, int items);  // of one person's score, in items

}  // namespace engine
