// The learning chart: a line that climbs with every labour counted right and drops with every one counted
// wrong, and the mark it has to reach.
#pragma once

#include "engine/competency/progress.h"
#include "ui/canvas/canvas.h"

namespace ui {

// Below the line one mark a labour: a disc for right, a cross for wrong.
void draw_learning(Canvas& canvas, Box box, const engine::LearningSoFar& learning, const Theme& theme);

}  // namespace ui
