// What to do next time about one fault: one plain sentence, and the moment at which it can be heard again.
#pragma once

#include "engine/scoring/evidence.h"
#include "engine/scoring/score_sheet.h"

#include <optional>

namespace engine {

NextTime advice_on(const Evidence&, const ScoreSheet&, Aspect);
NextTime advice_on_whose(const Evidence&);
NextTime advice_on_record(const Evidence&);
NextTime advice_on_decision(const Evidence&, const ScoreSheet&);
NextTime advice_on_action(const Evidence&, const ScoreSheet&);
// The two that come before any cause: acts that are never right here, each once, at its own moment and with
// the trouble that forbids it; a heart called normal that was not. `routine_too`: also to have carried on as
// usual after calling it normal.
std::vector<NextTime> never_here(const Evidence&, const ScoreSheet&, bool routine_too = false);
std::optional<NextTime> called_normal(const Evidence&, const ScoreSheet&);
// A beat or two, within what is asked.
std::optional<NextTime> nearly_exact(const Evidence&, const ScoreSheet&);

// Start of the first listening; 0 when nothing was listened to.
double first_heard_s(const Evidence&);
// The nearest moment at or before t at which something was listened to; else the first one; 0: nothing was.
double heard_near_s(const Played&, double t_s);

}  // namespace engine
