// Skill by rate band, length, instrument or task: how many were right, with the interval of that share, and
// the bias.
#pragma once

#include "engine/competency/progress.h"
#include "ui/canvas/canvas.h"

#include <string>
#include <vector>

namespace ui {

struct SkillRow {
    std::string says;
    long long right = 0, of = 0;
    std::string aside;  // "1.2 bpm low"; empty = nothing to say
    bool heading = false;
};

std::vector<SkillRow> band_rows(const engine::Progress& progress);
// Lengths, instruments, tasks, each under its heading; a part with a single row is left out, but for the
// lengths.
std::vector<SkillRow> kind_rows(const engine::Progress& progress);

// Gives the height used. The bar is the share that was right, the fine line its 95 % interval.
double draw_skill_rows(Canvas& canvas, Box box, const std::vector<SkillRow>& rows, const Theme& theme);

}  // namespace ui
