// What a midwife says for the things on the bedside screen.
#pragma once

#include "engine/attempt/attempt.h"
#include "sim/body/palpation.h"
#include "sim/hold.h"

#include <string>
#include <vector>

namespace ui {

std::string instrument_words(sim::Instrument instrument);
std::string position_words(sim::Position position);
std::string felt_words(sim::Felt felt);
std::string firmness_words(sim::Firmness firmness);
std::string press_words(double newtons);
std::string what_to_do(engine::Task task);
// Minutes and seconds of labour time, "12:05".
std::string clock_words(double seconds);

// Parts of a decision in the order of their enums, without `not_said`.
std::vector<std::string> source_choices();
std::vector<std::string> baseline_choices();
std::vector<std::string> around_choices();
std::vector<std::string> rhythm_choices();

}  // namespace ui
