// One count taken apart: what the method, the watch, the ear and the arithmetic each added to the written
// rate.
#pragma once

#include "engine/scoring/score_sheet.h"
#include "sim/beats/beat_train.h"
#include "sim/units.h"

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace engine {

// What was counted over. The nominal window is [from, from + plan): the length meant, from the trainee's own
// start; where the start was called for everybody, from that call on.
struct CountMade {
    sim::LabourTime from, to;  // own start and stop
    double plan_s = 60;
    std::optional<int> beats, bpm;  // as reported; both absent: nothing to take apart
    std::optional<sim::LabourTime> called_from{};
    sim::LabourTime heard_until{INT64_MAX};  // beats are known up to here: the nominal window is cut there
    std::optional<int> taps{};               // one a beat heard, when they tapped along; bounce taken out
    // The first or last beat counted in or out: known for a made-up listener, or from many counts whose
    // habits can be told apart; never from one count, with taps or without.
    std::optional<int> fencepost_beats{};
};

// The terms, in this order of cause: source, method, watch, fencepost, ear, tally, arithmetic (or, without a
// count of beats, unexplained). Another order moves single beats between terms. Each is a whole number of
// thousandths and together they are reported - true exactly.
// `baby` is the truth asked for; `followed` the beats that were counted, the same train unless the mother's.
// Without taps the ear holds the tally slip, and unless it is known the fencepost: one count cannot tell them
// apart.
Breakdown break_down(std::span<const sim::Beat> baby, std::span<const sim::Beat> followed,
                     const CountMade& made);

// The terms' names in their order, as the score says it.
inline constexpr std::array<std::string_view, 8> terms_in_order = {
    "source", "method", "watch", "fencepost", "ear", "tally", "arithmetic", "unexplained"};

// Why written and counted x factor differ: "" (they agree, or nothing was counted), "forgot to multiply",
// "wrong factor", "other". The first of factor, 1, 2, 4, 6, 10, 20, 60 that comes within 0.5 of the written
// rate.
std::string arithmetic_slip(int beats, double reported_bpm, double factor);

// What the watch's part is on average over all moments to start at, when `rate_bpm` is what is counted: the
// part itself is whole beats times the factor.
double expected_watch_bpm(const CountMade& made, double rate_bpm);

// 60 / plan: what a count is multiplied by.
inline double factor_of(double plan_s) { return plan_s > 0 ? 60.0 / plan_s : 0; }

}  // namespace engine
