// Truth against error: every count of one person and one length a mark, the bias and the limits as lines.
#pragma once

#include "engine/competency/progress.h"
#include "ui/canvas/canvas.h"

namespace ui {

// Right counts are discs, wrong ones crosses; those too far off for the plot sit at its edge as triangles.
// Limits are drawn from 10 counts on, the washes about them are their exact intervals. Without counts: the
// empty axes and a word.
void draw_agreement(Canvas& canvas, Box box, const engine::Progress& progress, const Theme& theme);

}  // namespace ui
