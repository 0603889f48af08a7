// One count taken apart: what was true, what each part of the error took or gave, what was written.
#pragma once

#include "engine/scoring/score_sheet.h"
#include "ui/canvas/canvas.h"

#include <string>
#include <vector>

namespace ui {

struct BreakdownLine {
    std::string says;  // "watch: your own start and stop"
    double bpm = 0;
    bool whole = false;  // true rate and written rate: bold, no bar
    bool none = false;   // words alone: there is no number to show
};
// Lines in the order of cause: true, source (another heart followed), method, watch, ear (with taps: missed,
// extra, and the tally), arithmetic (or unexplained), written. A term the count cannot show is left out.
// Rates are of the window that was meant. Between them the lines sum to written - true.
std::vector<BreakdownLine> breakdown_lines(const engine::WindowScore& window);

// Under the lines, on screen and paper: in which order they stand, and why that matters.
inline constexpr const char* breakdown_order_words =
    "In the order of cause: method, watch, ear, tally, arithmetic. In another order single beats would move.";

// What taps or the ratio tell of this count, in words: caught, lag, pattern. Empty without either.
std::string taps_in_words(const engine::WindowScore& window);
// What this series shows in order, and what was there.
std::string series_in_words(const engine::SeriesScore& series);

// "+2", "-1.5", "0": to a tenth, no sign for nothing.
std::string signed_rate(double bpm);

// Draws the lines with bars; gives the height used.
double draw_breakdown(Canvas& canvas, Box box, const std::vector<BreakdownLine>& lines, const Theme& theme);
double breakdown_height(const std::vector<BreakdownLine>& lines, const Theme& theme);

}  // namespace ui
