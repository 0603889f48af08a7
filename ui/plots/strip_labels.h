// Where the words of a strip go: each in a place of its own, none over another. A word with no free place is
// left out (its box has no width): the lists beside the strip say it too, a strip read wrongly says it to
// nobody.
#pragma once

#include "ui/plots/strip.h"

#include <vector>

namespace ui {

struct StripLabels {
    // one a window, in their order; no width: out of view, nothing to say, no place
    std::vector<Box> windows;
    Box band;  // normal range
    Box baby, second_baby, mother;
    double act_r = 9;                // radius of the discs; smaller when so many acts have no room otherwise
    double act_y = 0;                // their middle
    std::vector<double> act_x;       // centre of each act's disc; not a number: out of view
    std::vector<Box> act_words;      // beside the disc; no width: no room before the next disc
    std::vector<Box> taken() const;  // every box that is there, discs too: no two of them touch
};

Words window_word(const Theme& theme);
StripLabels strip_labels(Canvas& canvas, const StripContent& content, const StripFrame& frame,
                         const Theme& theme);
const char* baby_word(const StripContent& content);  // "baby", "first baby" beside a second

}  // namespace ui
