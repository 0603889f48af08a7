// One count taken apart: what the method, the watch, the ear and the arithmetic each added to the written rate.
#pragma once

#include "engine/scoring/score_sheet.h"
#include "sim/beats/beat_train.h"
#include "sim/units.h"

#include <optional>
#include <span>
#include <string>

namespace engine {

// What was counted over. The nominal window is [from, from + plan): the length meant, from the trainee's own start;
// where the start was called for everybody, from that call on.
struct CountMade {
    sim::LabourTime from, to;         // own start and stop
    double plan_s = 60;
    std::optional<int> beats, bpm;    // as reported; both absent: nothing to take apart
    std::optional<sim::LabourTime> called_from{};
    sim::LabourTime heard_until{INT64_MAX};  // beats are known up to here: the nominal window is cut there
};

// The terms, in this order of cause: source, method, watch, ear, arithmetic (or, without a count of beats,
// unexplained). Each is a whole number of thousandths and together they are reported - true exactly.
// `baby` is the truth asked for; `followed` the beats that were counted, the same train unless the mother's.
// The ear holds fencepost slips too: without taps nobody can tell them apart.
Breakdown break_down(std::span<const sim::Beat> baby, std::span<const sim::Beat> followed, const CountMade& made);

// Why written and counted x factor differ: "" (they agree, or nothing was counted), "forgot to multiply",
// "wrong factor", "other".
std::string arithmetic_slip(int beats, double reported_bpm, double factor);

// 60 / plan: what a count is multiplied by.
inline double factor_of(double plan_s) { return plan_s > 0 ? 60.0 / plan_s : 0; }

}  // namespace engine
