#include "engine/scoring/replay.h"
#include "ui/paper/debrief_page.h"
#include "ui/terminal/commands.h"
#include "ui/terminal/input_output.h"

namespace ui {

// The debrief of a finished attempt as a page; the kind of file follows from its name.
int debrief(const DebriefOptions& options) {
    needs_its_folder(options.out);
    const auto stored = or_refuse(engine::read_attempt(read_file(options.attempt), options.attempt));
    const auto judged = or_refuse(engine::judge_attempt(stored.attempt, options.attempt));
    or_refuse(write_debrief(judged, options.out));
    return fine;
}

}  // namespace ui
