// One person's progress as pages: the plots of the screen, the figures in words, what to practise next.
#pragma once

#include "engine/competency/progress.h"
#include "engine/outcome.h"
#include "ui/plots/progress_words.h"

#include <string>
#include <vector>

namespace ui {

struct ProgressPage {
    std::string person;
    engine::Progress progress;
    std::vector<PracticeLine> practice;
    std::string program;  // version that made it
};

// Kind by suffix: .pdf, .svg, .png (A4 upright). The bytes follow from the figures alone: no clock, no
// machine. Fault: another suffix, or a file that cannot be written.
engine::Outcome<engine::Done> write_progress(const ProgressPage& page, const std::string& path);

}  // namespace ui
