// What was written of her contractions, beside the womb as a hand could have felt it.
#pragma once

#include "engine/scoring/evidence.h"
#include "engine/scoring/score_sheet.h"

#include <optional>
#include <string>
#include <vector>

namespace engine {

struct ContractionsWritten {
    const Event* written = nullptr;
    double at_s = 0;
    // there were, step 0.1: over the ten minutes before, or the first ten of the attempt
    double per_10min = 0;
    double length_s = 0;  // as a hand could feel it, their mean, step 0.1; 0: none ended
    Verdict verdict = Verdict::met;
    std::string why;  // what it comes to in this protocol, or what was wrong
};

// In time order. Right within one contraction in ten minutes and, in length, within 15 s or a quarter
// [practice]; never by one when that hides too many of them. Nobody who had no hand on the womb can know.
std::vector<ContractionsWritten> contractions_written(const Evidence&);

// "more than the 5 this protocol allows", "5 and more are too many in this protocol"
std::string too_many_in_words(const Protocol&);

// Into what is said of the chart: the worst of what was written of them; when all was right, what the last
// comes to.
void add_contractions(const Evidence&, AspectScore& record);

// What to do next time about the worst of them; none when all were right.
std::optional<NextTime> advice_on_contractions(const Evidence&);

}  // namespace engine
