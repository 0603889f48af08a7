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
};
// Lines in order: true, source (another heart followed), method, watch, ear, arithmetic (or unexplained), written. A term the count cannot show is left
// out. Rates are of the window that was meant.
std::vector<BreakdownLine> breakdown_lines(const engine::WindowScore& window);

// "+2", "-1.5", "0": to a tenth, no sign for nothing.
std::string signed_rate(double bpm);

// Draws the lines with bars; gives the height used.
double draw_breakdown(Canvas& canvas, Box box, const std::vector<BreakdownLine>& lines, const Theme& theme);
double breakdown_height(const std::vector<BreakdownLine>& lines, const Theme& theme);

}  // namespace ui
