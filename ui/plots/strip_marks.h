// Marks laid on the strip: a series of short counts as rates in their order, and the beats of a tapped count.
#pragma once

#include "ui/plots/strip.h"

namespace ui {

// Each count of a series as a bar at its rate, joined to the one before it.
void draw_series(Canvas& canvas, const StripContent& content, const StripFrame& frame, const Theme& theme);
// A lane of its own. Where strokes would run together a line stands for the caught; missed and extra are
// always drawn.
void draw_taps(Canvas& canvas, const StripContent& content, const StripFrame& frame, const Theme& theme);

}  // namespace ui
