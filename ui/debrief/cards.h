// What is drawn rather than clicked in the debrief: lists with marks, kept as pictures by the screen. Each
// draws from the top of the box and gives the height it used, so that it can be measured first.
#pragma once

#include "engine/scoring/replay.h"
#include "ui/canvas/canvas.h"
#include "ui/plots/abdomen_map.h"

namespace ui {

double draw_aspects_card(Canvas& canvas, Box box, const engine::ScoreSheet& sheet, const Theme& theme);
double draw_acts_card(Canvas& canvas, Box box, const engine::JudgedAttempt& judged, const Theme& theme);
double draw_notes_card(Canvas& canvas, Box box, const engine::JudgedAttempt& judged, const Theme& theme);
// The count with that index; what its series shows, when it belongs to one.
double draw_count_card(Canvas& canvas, Box box, const engine::ScoreSheet& sheet, std::size_t count,
                       const Theme& theme);
// Fills the box; picture and key side by side when it is wide.
double draw_place_card(Canvas& canvas, Box box, const MapContent& map, const Theme& theme);

}  // namespace ui
