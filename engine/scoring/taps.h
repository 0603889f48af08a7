// What the taps of one count tell: whose beats they keep, which were caught, how a count came to be half or
// double.
#pragma once

#include "engine/attempt/attempt.h"
#include "engine/scoring/score_sheet.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace engine {

// Beats that happened in [from, to), whole microseconds.
std::vector<std::int64_t> beats_within(std::span<const sim::Beat> train, sim::LabourTime from,
                                       sim::LabourTime to);

// The window's taps without bounce.
std::vector<std::int64_t> taps_of(const Window& window);

// Absent when the taps were not the counting: under five, or under 0.4 of the beats that were counted or,
// without a count, fell there [practice]. Laid on the mother's beats when they keep clearly better step with
// hers, or keep step with neither and the number written is hers.
std::optional<TapScore> tap_score(std::span<const sim::Beat> baby, std::span<const sim::Beat> mother,
                                  const Window&, bool number_is_hers);

// "both sounds", "every second beat" or "", from how taps and beats alternate.
std::string tapped_pattern(std::span<const std::int64_t> beats_us, std::span<const std::int64_t> taps_us);
// The same from the ratio of counted to true beats alone: near 2, near 0.5.
std::string ratio_pattern(int counted, int beats);

}  // namespace engine
